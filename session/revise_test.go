package session_test

import (
	"bytes"
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"steelyard/lang/syntax"
	"steelyard/lang/typeset"
	"steelyard/session"
	"steelyard/session/entry"
	"steelyard/session/view"
)

// sheetTexts are the statements of the example worksheets, without records.
func sheetTexts(t testing.TB) [][]string {
	files, _ := filepath.Glob("../examples/*.worked")
	var out [][]string
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		var texts []string
		for _, line := range strings.Split(string(data), "\n")[1:] {
			switch {
			case strings.TrimSpace(line) == "", strings.HasPrefix(strings.TrimSpace(line), "="):
			case strings.HasPrefix(line, " "):
				texts[len(texts)-1] += "\n" + line
			default:
				texts = append(texts, line)
			}
		}
		out = append(out, texts)
	}
	if len(out) < 5 {
		t.Fatal("no examples are found")
	}
	return out
}

// whole is all that can be seen of a line.
func whole(e *entry.Entry) string {
	var b bytes.Buffer
	_ = view.Text(&b, e, view.Options{Statement: true})
	_ = view.JSON(&b, e, view.Replayed{})
	for _, w := range e.Working() {
		fmt.Fprint(&b, w.Formula, w.Words, w.Reason)
		for _, x := range []syntax.Expr{w.Left, w.Right} {
			if x != nil {
				fmt.Fprint(&b, " | ", typeset.Text(x))
			}
		}
		fmt.Fprintln(&b)
	}
	fmt.Fprintln(&b, e.Uses, e.Findings)
	return b.String()
}

// entered is a page with lines entered one after the other.
func entered(texts []string) *session.Pad {
	pad := session.New()
	pad.Filed()
	for _, text := range texts {
		pad.EnterAt(context.Background(), pad.Next(), text)
	}
	return pad
}

// others are lines put among those of the examples.
var others = []string{
	"m = 3 kg", "g = 9.8 m/s^2", "k = 20 N/m", "v = 0", "x = 0", "W = 2*x", "that*2", "results to 3 figures", "part z: More",
	"1 lap = 400 m", "d = 3 lap", "f(x) = 3*x^2", "U(x) = 1/2*k*x^2 in J", "v = 3.0x10^8 m/s", "y = m*g", "t = sin 30°", "xx = mk",
	"check v < 3 m/s", "let q in N/m", "E = q*x^2", "2*E", "solve 3*m*a = k*x for a", "T = 2π√(m/k)", "note The mass is {m}.", "T with k = 2*k", "scaling T against m",
	"v - 2 m/s", "h = 5", "θ = 30", "constants G", "steps all", "unreadable (",
}

// change makes a random edit of a page.
func change(r *rand.Rand, texts []string) session.Edit {
	ed := session.Edit{At: 1 + r.IntN(len(texts)+1), Texts: map[int]string{}}
	word := func() string { return others[r.IntN(len(others))] }
	switch r.IntN(3) {
	case 0:
		ed.Drop = min(r.IntN(3), len(texts)+1-ed.At)
	case 1:
		ed.Put = []string{word()}
	}
	for range r.IntN(3) {
		line := 1 + r.IntN(len(texts))
		text := word()
		if r.IntN(2) == 0 {
			text = strings.NewReplacer("2", "3", "0.", "1.").Replace(texts[line-1])
		}
		ed.Texts[line] = text
	}
	return ed
}

// made is the page that an edit makes.
func made(ed session.Edit, texts []string) []string {
	texts = slices.Clone(texts)
	for line, text := range ed.Texts {
		texts[line-1] = text
	}
	return slices.Replace(texts, ed.At-1, ed.At-1+ed.Drop, ed.Put...)
}

// TestRevised changes pages at random, and compares every line with that of the page
// entered anew.
func TestRevised(t *testing.T) {
	ctx := context.Background()
	worked, all := 0, 0
	for seed, texts := range sheetTexts(t) {
		r := rand.New(rand.NewPCG(4, uint64(seed)))
		for _, i := range r.Perm(len(texts))[:min(4, len(texts))] {
			texts = slices.Insert(texts, i, others[r.IntN(len(others))])
		}
		pad := session.New()
		pad.Filed()
		pad.Revised()
		for _, text := range texts {
			pad.EnterAt(ctx, pad.Next(), text)
		}
		for step := range 12 {
			ed := change(r, texts)
			was := texts
			texts = made(ed, texts)
			pad.Revise(ctx, ed, func(session.Anew) { worked++ })
			all += len(texts)
			fresh := entered(texts)
			for i, want := range fresh.Entries() {
				got := pad.Entries()[i]
				if whole(got) != whole(want) {
					t.Fatalf("sheet %d, change %d, %+v of\n%s\nline %d is\n%s\nwant\n%s", seed, step, ed, strings.Join(was, "\n"), i+1, whole(got), whole(want))
				}
			}
			ask := "names"
			if names := fresh.Names(); len(names) > 0 {
				ask = "describe " + names[r.IntN(len(names))].Name
			}
			for _, text := range []string{ask, "names"} {
				if got, want := pad.EnterAt(ctx, pad.Next(), text), fresh.EnterAt(ctx, fresh.Next(), text); whole(got) != whole(want) {
					t.Fatalf("%s is\n%s\nwant\n%s", text, whole(got), whole(want))
				}
			}
			if len(texts) < 4 {
				break
			}
		}
	}
	t.Logf("%d of %d lines were worked out again", worked, all)
}
