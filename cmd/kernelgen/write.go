package main

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"
)

// lane is an assignment or a name for lane number at of the columns, its locals
// numbered by as.
func lane(s, at, as string) string {
	return strings.ReplaceAll(strings.ReplaceAll(s, "[#]", "["+at+"]"), "#", as)
}

// write writes a kernel. Its columns have no room behind their ends, and its loop counts up to
// the last whole group, so that the compiler proves each group within all of them.
func (k *kernel) write(b *bytes.Buffer) {
	name := "kernel" + k.root.name()
	columns := []string{"x"}
	if strings.Contains(strings.Join(k.body, "\n"), "y[") {
		columns = append(columns, "y")
	}
	fmt.Fprintf(b, "\n// %s is %s.\nfunc %s(p *pass) int {\nd := p.d[:len(p.d):len(p.d)]\n", name, k.source, name)
	for _, c := range columns {
		fmt.Fprintf(b, "%s := p.%s[:len(d):len(d)]\n", c, c)
	}
	for i := range k.consts {
		fmt.Fprintf(b, "k%d := p.k[%d]\n", i, i)
	}
	b.WriteString("i := 0\nfor ; i <= len(d)-8; i += 8 {\nd := d[i : i+8 : i+8]\n")
	for _, c := range columns {
		fmt.Fprintf(b, "%s := %s[i : i+8 : i+8]\n", c, c)
	}
	k.lanes(b)
	if doubt := k.doubt(); doubt != "" {
		fmt.Fprintf(b, "if (%s) && !p.through {\nbreak\n}\n", doubt)
	}
	b.WriteString("}\nreturn i\n}\n")
}

// doubt is the condition under which eight lanes are not sure; empty where they
// always are.
func (k *kernel) doubt() string {
	var any []string
	for i := range k.checks {
		any = append(any, fmt.Sprintf("ops.Suspect(p%d)", i))
	}
	for i := range k.finite {
		any = append(any, fmt.Sprintf("!ops.Finite(s%d)", i))
	}
	return strings.Join(any, " || ")
}

// lanes writes the eight lanes out, four to a line.
func (k *kernel) lanes(b *bytes.Buffer) {
	for from := 0; from < 8; from += 4 {
		assign := ":="
		if from > 0 {
			assign = "="
		}
		four := func(s string) [4]string {
			var out [4]string
			for j := range out {
				out[j] = lane(s, strconv.Itoa(from+j), strconv.Itoa(j))
			}
			return out
		}
		line := func(left, assign, right string) {
			l, r := four(left), four(right)
			fmt.Fprintf(b, "%s %s %s\n", strings.Join(l[:], ", "), assign, strings.Join(r[:], ", "))
		}
		gather := func(name, op, at string) {
			v, assign := four(at), assign
			if from > 0 {
				assign = op + "="
			}
			fmt.Fprintf(b, "%s %s (%s %s %s) %s (%s %s %s)\n", name, assign, v[0], op, v[1], op, v[2], op, v[3])
		}
		for _, s := range k.body {
			left, right, _ := strings.Cut(s, " := ")
			line(left, assign, right)
		}
		line("d[#]", "=", k.root.at)
		for i, c := range k.checks {
			gather(fmt.Sprintf("p%d", i), "*", c)
		}
		for i, c := range k.finite {
			gather(fmt.Sprintf("s%d", i), "+", c)
		}
	}
}
