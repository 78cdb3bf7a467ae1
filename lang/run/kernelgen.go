//go:build ignore

// Kernelgen writes kernels.go: one loop for each operation of the table, and
// one for each chain of operations listed here. Go does not inline a function
// that is passed, so each is a loop of its own, made from the text of the
// values in the table: what an operation means is written there alone.
package main

import (
	"bytes"
	"fmt"
	"go/ast"
	"go/format"
	"go/parser"
	"go/printer"
	"go/token"
	"log"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// chains are the sums and products that are worked out in one pass: x and y are
// columns, each k is a constant of its own. What stands in a column can't be
// told from what stands in an input.
var chains = strings.Fields(`
	x*k*k x*k/k x*k+k x*k*k+k k-x*k (x+k)*k (k-x)*k+k (x*k+k)/k (x*k+k)/(x+k)
	pow2(x)*k pow2(x)*k*k pow2(x)*k/k pow2(x)+k pow2(x)*k+k pow2(x)*k*k+k x*k+k+pow2(x)*k*k
	k/x*k k/pow2(x) k/(x*k) k/(x+k)
	sqrt(x*k) sqrt(x*k+k) sqrt(x*k/k) sqrt(x/k)*k sqrt(k/x) sqrt(k/x)*k sqrt(k/(x*k)) sqrt(k/(x*k))*k sqrt(x*k*k/k) sqrt(pow2(x)+k) sqrt((x+k)*k+k)
	sin(x)*k sin(x)*k/k sin(x*k)*k sin(x*k)*k/k cos(x+k)*k cos(x*k+k)*k
	x*y*k x*y+k x*k+y x*k/y x/(y+k) sqrt(x*y) sqrt(x/y)
`)

// withConstant are the operations of two operands that have a kernel for a
// constant on either side; for the others a constant is spread into a column.
var withConstant = []string{"Add", "Sub", "Mul", "Div"}

// What becomes of a 0 that only rounding has made, or of what is not finite,
// when it is an operand: kept ones come out as 0 or as not finite, so that the
// result tells; others must be looked at before.
var (
	keepsZero     = []string{"Copy", "Neg", "Mul", "Div", "Pow", "Sqrt", "Cbrt", "Root", "Abs"}
	keepsInfinite = append([]string{"Add", "Sub", "Sin", "Cos", "Tan", "Asin", "Acos", "Sinh", "Cosh", "Exp", "Ln", "Log10", "Hypot"}, keepsZero...)
	// tame operations make of finite operands nothing that isn't finite.
	tame = []string{"Copy", "Neg", "Abs", "Sin", "Cos", "Atan", "Atan2", "Tanh", "Sgn", "Cbrt", "Min", "Max", "Less", "AtMost", "Both"}
)

// row is what the table of operations says of one.
type row struct {
	op       string // the name of its constant
	name     string
	operands int
	value    string // the result, as text in a, b and k
	lossy    bool   // a result of 0 may be one too small to hold
}

// table reads the rows of arithmetic operations from their source.
func table() []row {
	var out []row
	ast.Inspect(parse("../ops/table.go"), func(n ast.Node) bool {
		kv, ok := n.(*ast.KeyValueExpr)
		if !ok {
			return true
		}
		lit, ok := kv.Value.(*ast.CompositeLit)
		if !ok || lit.Type != nil {
			return true
		}
		r := row{op: kv.Key.(*ast.Ident).Name}
		for _, e := range lit.Elts {
			f := e.(*ast.KeyValueExpr)
			switch f.Key.(*ast.Ident).Name {
			case "name":
				r.name, _ = strconv.Unquote(f.Value.(*ast.BasicLit).Value)
			case "operands":
				r.operands, _ = strconv.Atoi(f.Value.(*ast.BasicLit).Value)
			case "value":
				if value, ok := f.Value.(*ast.FuncLit); ok {
					r.value = result(value.Body.List)
				}
			case "vanishes":
				r.lossy = true
			}
		}
		if r.operands > 0 {
			out = append(out, r)
		}
		return false
	})
	return out
}

// powers reads the exponents that have a value of their own, in order.
func powers() (exponents []string, values map[string]string) {
	values = map[string]string{}
	for _, d := range parse("../ops/power.go").Decls {
		f, ok := d.(*ast.FuncDecl)
		if !ok || f.Name.Name != "power" {
			continue
		}
		for _, s := range f.Body.List[0].(*ast.SwitchStmt).Body.List {
			c := s.(*ast.CaseClause)
			k := text(c.List[0])
			if v := result(c.Body); v != "" && k != "0" {
				exponents, values[k] = append(exponents, k), v
			}
		}
	}
	return exponents, values
}

func parse(file string) *ast.File {
	f, err := parser.ParseFile(token.NewFileSet(), file, nil, 0)
	if err != nil {
		log.Fatal(err)
	}
	return f
}

// result is what a body of one statement returns; empty for a longer one.
func result(body []ast.Stmt) string {
	if ret, ok := body[0].(*ast.ReturnStmt); ok {
		return text(ret.Results[0])
	}
	return ""
}

func text(n ast.Node) string {
	var b bytes.Buffer
	if err := printer.Fprint(&b, token.NewFileSet(), n); err != nil {
		log.Fatal(err)
	}
	return b.String()
}

// node is a node of what a kernel works out: an operation, a column or a
// constant.
type node struct {
	row  *row
	args []*node
	leaf string // x, y or k
	k    string // the exponent of a power that is known
	// Where it is worked out: its name in the code, and whether it may be a 0
	// or not finite without being a value.
	at        string
	zero, inf bool
}

// kernel is one loop.
type kernel struct {
	source string
	root   *node
	consts int
	body   []string // the assignments of one lane, with # for its number
	checks []string // what must be neither 0 nor infinite
	finite []string // what must be finite
	blind  bool     // an operand that isn't finite may go unseen
}

type generator struct {
	rows map[string]*row // by the name of the constant
	pow  map[string]string
	out  []*kernel
}

// word names operations as chains write them.
var infix = map[token.Token]string{token.ADD: "Add", token.SUB: "Sub", token.MUL: "Mul", token.QUO: "Div"}

// tree reads a chain.
func (g *generator) tree(x ast.Expr) *node {
	switch x := x.(type) {
	case *ast.ParenExpr:
		return g.tree(x.X)
	case *ast.Ident:
		return &node{leaf: x.Name}
	case *ast.BinaryExpr:
		return &node{row: g.rows[infix[x.Op]], args: []*node{g.tree(x.X), g.tree(x.Y)}}
	case *ast.CallExpr:
		name := x.Fun.(*ast.Ident).Name
		n := &node{}
		if p, ok := strings.CutPrefix(name, "pow"); ok && g.pow[p] != "" {
			name, n.k = "pow", p
		}
		for _, r := range g.rows {
			if r.name == name {
				n.row = r
			}
		}
		for _, a := range x.Args {
			n.args = append(n.args, g.tree(a))
		}
		return n
	}
	log.Fatalf("a chain can't hold %s", text(x))
	return nil
}

// add makes the kernel of a tree.
func (g *generator) add(source string, root *node) {
	k := &kernel{source: source, root: root}
	g.place(k, root)
	switch {
	case root.zero:
		k.checks = append(k.checks, root.at)
	case root.inf:
		k.finite = append(k.finite, root.at)
	}
	g.out = append(g.out, k)
}

// place writes the assignments of a node and of what it needs.
func (g *generator) place(k *kernel, n *node) {
	if n.row == nil {
		n.at, n.inf = n.leaf+"[#]", true
		if n.leaf == "k" || n.leaf == "zero" {
			n.at, n.inf = fmt.Sprintf("k%d", k.consts), false
			k.consts++
		}
		return
	}
	constant, zero := false, false
	for _, a := range n.args {
		g.place(k, a)
		constant, zero = constant || a.leaf == "k", zero || a.leaf == "zero"
	}
	for _, a := range n.args {
		g.look(k, n, a)
		n.zero, n.inf = n.zero || a.zero, n.inf || a.inf
	}
	op := n.row.op
	n.zero = n.zero || n.row.lossy && !zero
	k.blind = k.blind || zero && op == "Div"
	n.inf = n.inf || !slices.Contains(tame, op) && !(constant && (op == "Add" || op == "Sub"))
	n.at = "abcefgh"[len(k.body):len(k.body)+1] + "#"
	k.body = append(k.body, n.at+" := "+g.value(k, n))
}

// look checks an operand that the result would not tell about.
func (g *generator) look(k *kernel, n, a *node) {
	lost := a.zero && !slices.Contains(keepsZero, n.row.op)
	// A number to the power 0 is 1, whatever it is.
	hidden := a.inf && (!slices.Contains(keepsInfinite, n.row.op) || n.row.op == "Pow" && n.k == "")
	switch {
	case !lost && !hidden:
	case a.row == nil:
		k.blind = true
	case a.zero:
		k.checks, a.zero, a.inf = append(k.checks, a.at), false, false
	default:
		k.finite, a.inf = append(k.finite, a.at), false
	}
}

var operand = regexp.MustCompile(`\b[abk]\b`)

// value is the text of a node's value.
func (g *generator) value(k *kernel, n *node) string {
	v := n.row.value
	if n.k != "" {
		v = g.pow[n.k]
	}
	// What is a function of the table's package is called through the table.
	if regexp.MustCompile(`(^|[^.\w])[a-z]\w*\(`).MatchString(strings.ReplaceAll(v, "float64(", "(")) {
		b := "0"
		if n.row.operands > 1 {
			b = "b"
		}
		c := "0"
		if operand.FindString(strings.ReplaceAll(strings.ReplaceAll(v, "a", ""), "b", "")) == "k" {
			c = "k"
		}
		v = fmt.Sprintf("ops.%s.Value(a, %s, %s)", n.row.op, b, c)
	}
	own := ""
	return operand.ReplaceAllStringFunc(v, func(s string) string {
		switch s {
		case "a":
			return n.args[0].at
		case "b":
			return n.args[1].at
		}
		if own == "" {
			own = fmt.Sprintf("k%d", k.consts)
			k.consts++
		}
		return own
	})
}

// singles adds the kernels of single operations.
func (g *generator) singles(rows []row, exponents []string) {
	x, y, k := func() *node { return &node{leaf: "x"} }, func() *node { return &node{leaf: "y"} }, func() *node { return &node{leaf: "k"} }
	for i := range rows {
		r := &rows[i]
		if r.operands == 1 {
			for _, e := range exponents {
				if r.op == "Pow" && e != "1" {
					g.add("x to the power "+e, &node{row: r, k: e, args: []*node{x()}})
				}
			}
			g.add(r.name+" of x", &node{row: r, args: []*node{x()}})
			continue
		}
		if slices.Contains(withConstant, r.op) {
			g.add(r.name+" of x and k", &node{row: r, args: []*node{x(), k()}})
			if !commutes(r) {
				g.add(r.name+" of k and x", &node{row: r, args: []*node{k(), x()}})
			}
		}
		switch r.op {
		case "Mul":
			g.add("x*0", &node{row: r, args: []*node{x(), &node{leaf: "zero"}}})
		case "Div":
			g.add("0/x", &node{row: r, args: []*node{&node{leaf: "zero"}, x()}})
		}
		g.add(r.name+" of x and y", &node{row: r, args: []*node{x(), y()}})
	}
}

func commutes(r *row) bool { return r.op == "Add" || r.op == "Mul" }

// size counts operations.
func (n *node) size() int {
	if n.row == nil {
		return 0
	}
	s := 1
	for _, a := range n.args {
		s += a.size()
	}
	return s
}

// name spells a tree, operations first.
func (n *node) name() string {
	if n.row == nil {
		return strings.ToUpper(n.leaf[:1]) + n.leaf[1:]
	}
	s := n.row.op + strings.NewReplacer("-", "Over", ".", "p").Replace(n.k)
	for _, a := range n.args {
		s += a.name()
	}
	return s
}

// shape is the tree for the matcher, operations first.
func (n *node) shape() string {
	if n.row == nil {
		return "leaf" + strings.ToUpper(n.leaf[:1]) + n.leaf[1:] + ", "
	}
	s := "ops." + n.row.op + ", "
	for _, a := range n.args {
		s += a.shape()
	}
	return s
}

// turned lists a tree with the two columns of each sum and product in either
// order.
func (n *node) turned() []*node {
	if n.row == nil {
		return []*node{n}
	}
	var out []*node
	for _, a := range n.args[0].turned() {
		if len(n.args) == 1 {
			out = append(out, &node{row: n.row, k: n.k, args: []*node{a}})
			continue
		}
		for _, b := range n.args[1].turned() {
			out = append(out, &node{row: n.row, args: []*node{a, b}})
			if commutes(n.row) && a.leaf != "k" && b.leaf != "k" && a.name() != b.name() && (a.row != nil || b.row != nil) {
				out = append(out, &node{row: n.row, args: []*node{b, a}})
			}
		}
	}
	return out
}

func (n *node) exponent() string {
	if n.row == nil {
		return ""
	}
	e := n.k
	for _, a := range n.args {
		e += a.exponent()
	}
	return e
}

func (n *node) holds(leaf string) bool {
	return n.leaf == leaf || slices.ContainsFunc(n.args, func(a *node) bool { return a.holds(leaf) })
}

// write writes one kernel.
func (k *kernel) write(b *bytes.Buffer) {
	name := "kernel" + k.root.name()
	fmt.Fprintf(b, "\n// %s is %s.\nfunc %s(p *pass) int {\nd := p.d\nx := p.x[:len(d)]\n", name, k.source, name)
	two := k.root.holds("y")
	if two {
		b.WriteString("y := p.y[:len(d)]\n")
	}
	var left, right []string
	for i := range k.consts {
		left, right = append(left, fmt.Sprintf("k%d", i)), append(right, fmt.Sprintf("p.k[%d]", i))
	}
	if len(left) > 0 {
		fmt.Fprintf(b, "%s := %s\n", strings.Join(left, ", "), strings.Join(right, ", "))
	}
	b.WriteString("i := 0\nfor ; i+8 <= len(d); i += 8 {\n")
	b.WriteString("d, x := d[i:i+8:i+8], x[i:i+8:i+8]\n")
	if two {
		b.WriteString("y := y[i : i+8 : i+8]\n")
	}
	body := strings.Join(k.body, "\n")
	if calls := strings.NewReplacer("math.Sqrt(", "", "math.Abs(", "", "float64(", "").Replace(body); strings.Contains(calls, ".") {
		k.loop(b)
	} else {
		k.unrolled(b)
	}
	fmt.Fprintf(b, "if %s {\nbreak\n}\n}\nreturn i\n}\n", k.doubt())
}

// doubt is the condition under which eight lanes are not sure.
func (k *kernel) doubt() string {
	var or []string
	for i := range k.checks {
		or = append(or, fmt.Sprintf("p%d-p%d != 0 || p%d == 0", i, i, i))
	}
	for i := range k.finite {
		or = append(or, fmt.Sprintf("s%d-s%d != 0", i, i))
	}
	if len(or) == 0 {
		return "false"
	}
	return strings.Join(or, " || ")
}

// loop runs the lanes one after the other: calls take longer than that.
func (k *kernel) loop(b *bytes.Buffer) {
	for i := range k.checks {
		fmt.Fprintf(b, "p%d := 1.0\n", i)
	}
	for i := range k.finite {
		fmt.Fprintf(b, "s%d := 0.0\n", i)
	}
	b.WriteString("for j := range 8 {\n")
	for _, s := range k.body {
		b.WriteString(strings.ReplaceAll(strings.ReplaceAll(s, "[#]", "[j]"), "#", "") + "\n")
	}
	fmt.Fprintf(b, "d[j] = %s\n", strings.ReplaceAll(k.root.at, "#", ""))
	for i, c := range k.checks {
		fmt.Fprintf(b, "p%d *= %s\n", i, strings.ReplaceAll(c, "#", ""))
	}
	for i, c := range k.finite {
		fmt.Fprintf(b, "s%d += %s\n", i, strings.ReplaceAll(c, "#", ""))
	}
	b.WriteString("}\n")
}

// unrolled writes the eight lanes out, wide lanes to a line.
func (k *kernel) unrolled(b *bytes.Buffer) {
	const wide = 4
	lanes := func(s string, from int) string {
		var all []string
		for j := range wide {
			t := strings.ReplaceAll(s, "[#]", fmt.Sprintf("[%d]", from+j))
			all = append(all, strings.ReplaceAll(t, "#", strconv.Itoa(j)))
		}
		return strings.Join(all, ", ")
	}
	gather := func(name, op, at string, from int) {
		t := strings.Split(lanes(at, from), ", ")
		for len(t) > 1 {
			var half []string
			for i := 0; i < len(t); i += 2 {
				half = append(half, "("+t[i]+op+t[i+1]+")")
			}
			t = half
		}
		assign := ":="
		if from > 0 {
			assign = op + "="
		}
		fmt.Fprintf(b, "%s %s %s\n", name, assign, strings.TrimSuffix(strings.TrimPrefix(t[0], "("), ")"))
	}
	for from := 0; from < 8; from += wide {
		assign := ":="
		if from > 0 {
			assign = "="
		}
		for _, s := range k.body {
			l, r, _ := strings.Cut(s, " := ")
			fmt.Fprintf(b, "%s %s %s\n", lanes(l, from), assign, lanes(r, from))
		}
		fmt.Fprintf(b, "%s = %s\n", lanes("d[#]", from), lanes(k.root.at, from))
		for i, c := range k.checks {
			gather(fmt.Sprintf("p%d", i), "*", c, from)
		}
		for i, c := range k.finite {
			gather(fmt.Sprintf("s%d", i), "+", c, from)
		}
	}
}

func main() {
	rows := table()
	exponents, values := powers()
	g := &generator{rows: map[string]*row{}, pow: values}
	for i := range rows {
		g.rows[rows[i].op] = &rows[i]
	}
	for _, c := range chains {
		x, err := parser.ParseExpr(c)
		if err != nil {
			log.Fatalf("%s: %v", c, err)
		}
		g.add(c, g.tree(x))
	}
	g.singles(rows, exponents)
	slices.SortStableFunc(g.out, func(a, b *kernel) int { return b.root.size() - a.root.size() })

	var b bytes.Buffer
	b.WriteString("// Code generated by kernelgen.go from the table of operations; DO NOT EDIT.\n\npackage run\n\nimport (\n\"math\"\n\n\"steelyard/lang/ops\"\n)\n\n")
	b.WriteString("// kernels are the passes that there are, those of the most operations first.\nvar kernels = [...]kernel{\n")
	for _, k := range g.out {
		for _, t := range k.root.turned() {
			e := k.root.exponent()
			if e == "" {
				e = "0"
			}
			fmt.Fprintf(&b, "{[]ops.Op{%s}, %s, %t, kernel%s},\n", strings.TrimSuffix(t.shape(), ", "), e, k.blind, k.root.name())
		}
	}
	b.WriteString("}\n")
	for _, k := range g.out {
		k.write(&b)
	}
	out, err := format.Source(b.Bytes())
	if err != nil {
		log.Fatalf("%v\n%s", err, b.Bytes())
	}
	if err := os.WriteFile("kernels.go", out, 0o644); err != nil {
		log.Fatal(err)
	}
}
