package typeset

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"
	"unicode/utf8"

	"steelyard/lang/limit"
	"steelyard/lang/syntax"
)

// chooser returns a number below n. A random tree and one from a fuzzer's bytes
// are made in the same way.
type chooser func(n int) int

func fromBytes(data []byte) chooser {
	return func(n int) int {
		if len(data) == 0 {
			return 0
		}
		c := int(data[0])
		data = data[1:]
		return c % n
	}
}

func pick(next chooser, list []string) string { return list[next(len(list))] }

var (
	numberTexts = []string{"2", "1", "0.080", "-5", "3.2e5", "-1e-7", "1e5"}
	callNames   = []string{"sin", "ln", "sqrt", "cbrt", "root", "abs", "max", "f", "spring_energy", "Δf'", "log10"}
)

// tree makes any tree, also such as no line gives.
func tree(next chooser, depth int) syntax.Expr {
	kind := next(17)
	if depth == 0 {
		kind %= 5
	}
	sub := func() syntax.Expr { return tree(next, depth-1) }
	u := func() syntax.UnitText { return unitOf(pick(next, unitTexts)) }
	quantity := func() *syntax.Quantity {
		return &syntax.Quantity{Value: num(pick(next, numberTexts)).Value, Unit: u()}
	}
	switch kind {
	case 0:
		return name(pick(next, names))
	case 1:
		return num(pick(next, numberTexts))
	case 2:
		return quantity()
	case 3:
		return &syntax.Pi{}
	case 4:
		return &syntax.Mixed{Neg: next(2) == 1, Parts: []*syntax.Quantity{quantity(), quantity()}}
	case 5:
		return &syntax.Measured{X: &syntax.Paren{X: sub()}, Unit: u()}
	case 6:
		return &syntax.Unary{Op: syntax.Op(next(2)), X: sub()}
	case 7:
		return &syntax.Root{X: sub()}
	case 8, 9:
		return &syntax.Paren{X: sub()}
	case 10:
		c := &syntax.Call{Func: pick(next, callNames)}
		for range 1 + next(2) {
			c.Args = append(c.Args, syntax.Arg{X: sub()})
		}
		if next(4) == 1 {
			c.Args[0].Name = pick(next, names)
		}
		return c
	case 11:
		return &syntax.Paren{X: sub()}
	case 12:
		return &syntax.With{X: sub(), By: []syntax.Binding{{Name: pick(next, names), X: sub()}, {Name: pick(next, names), X: sub()}}}
	case 13:
		return &syntax.SlopeOf{X: sub(), Place: sub()}
	case 14:
		return &syntax.AreaUnder{X: sub(), From: sub(), To: sub()}
	}
	return &syntax.Binary{Op: syntax.Op(next(5)), Implied: next(2) == 1, X: sub(), Y: sub()}
}

func sound(t *testing.T, what string, b Box) {
	t.Helper()
	mathml, latex := mathML(b), b.LaTeX()
	if err := soundMathML(mathml); err != nil {
		t.Fatalf("%s: %v\n%s", what, err, mathml)
	}
	if err := soundLaTeX(latex); err != nil {
		t.Fatalf("%s: %v\n%s", what, err, latex)
	}
}

// Whatever the tree, both forms are sound.
func TestRandomTrees(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 7))
	for range 5000 {
		x := tree(r.IntN, 1+r.IntN(6))
		sound(t, syntax.PrintExpr(x), Expr(x))
		sound(t, "equation", Relation(Expr(x), "=", Expr(x)))
	}
}

// FuzzSet: neither a tree nor a text can break out of what is set.
func FuzzSet(f *testing.F) {
	for _, s := range [...]string{"", "v_0", `\end{document}`, "</math><script>", "4.63×10⁶ N·m", "x\u0304_0'", "13 h 4 min", "\x00\xff", "a}b{", "%$#&~^", "\r\n\n"} {
		f.Add(s, []byte{12, 2, 1, 0, 1})
	}
	f.Fuzz(func(t *testing.T, text string, data []byte) {
		if len(text) > limit.Line {
			return
		}
		for _, set := range [...]func(string) Box{nameAlone, Unit, func(s string) Box { return Value(s, s) }} {
			sound(t, text, set(text))
		}
		sound(t, text, Relation(Box{}, text, Box{}))
		if utf8.ValidString(text) {
			if x, _ := syntax.ParseExpr(text); x != nil {
				sound(t, text, Expr(x))
			}
		}
		x := mul(name(text), tree(fromBytes(data), 6))
		sound(t, text, Expr(x))
	})
}

var values = map[string]float64{"a": 1.25, "b": 0.75, "c": 1.5, "x": 0.5}

// plain makes a tree of numbers, letters and operators, whose value can be read
// off what is set.
func plain(next chooser, depth int) syntax.Expr {
	kind := next(10)
	if depth == 0 {
		kind %= 2
	}
	sub := func() syntax.Expr { return plain(next, depth-1) }
	switch kind {
	case 0:
		return name(pick(next, []string{"a", "b", "c", "x"}))
	case 1:
		return num(pick(next, []string{"1", "2", "3", "-2", "1e1"}))
	case 2:
		return &syntax.Unary{Op: syntax.Op(next(2)), X: sub()}
	case 3:
		return &syntax.Root{X: sub()}
	case 4:
		return &syntax.Call{Func: "abs", Args: []syntax.Arg{{X: sub()}}}
	case 5:
		return &syntax.Paren{X: sub()}
	}
	return &syntax.Binary{Op: syntax.Op(next(5)), Implied: next(3) == 1, X: sub(), Y: sub()}
}

// Brackets stand where the meaning needs them: what is set, read by the rules of
// print, has the value of the tree. So has a sum that is set term by term.
func TestMeaningIsKept(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 3))
	for range 20000 {
		x := plain(r.IntN, 1+r.IntN(5))
		broken, _ := Rows(x, 1, func(x syntax.Expr) int { return len(syntax.PrintExpr(x)) })
		for i, set := range [...]Box{Expr(x), Row(broken...)} {
			root, err := readMathML(mathML(set))
			if err != nil {
				t.Fatal(err)
			}
			got, want := readRow(root.kids), treeValue(x)
			if i == 0 && !same(got, want) { // brackets over several rows have no partner
				t.Fatalf("%s is %g, but %g as it is set:\n%s\n%s", syntax.PrintExpr(x), want, got, mathML(set), set.LaTeX())
			}
			again, bad := syntax.ParseExpr(set.Text())
			if _, odd := syntax.ParseExpr(syntax.PrintExpr(x)); len(odd) > 0 && len(bad) > 0 {
				continue // a product that a line can't have without its sign
			}
			if len(bad) > 0 || !same(treeValue(again), want) {
				t.Fatalf("%s is %g, but %g as it is shown: %s %v", syntax.PrintExpr(x), want, treeValue(again), set.Text(), bad)
			}
		}
	}
}

func same(a, b float64) bool {
	if math.IsNaN(b) || math.IsInf(b, 0) || math.Abs(b) > 1e100 {
		return true
	}
	return math.Abs(a-b) <= 1e-6*(1+math.Abs(b))
}

func treeValue(x syntax.Expr) float64 {
	switch x := x.(type) {
	case *syntax.Name:
		return values[x.Name]
	case *syntax.Number:
		return x.Value.Hi
	case *syntax.Unary:
		if x.Op == syntax.Sub {
			return -treeValue(x.X)
		}
		return treeValue(x.X)
	case *syntax.Root:
		return math.Sqrt(treeValue(x.X))
	case *syntax.Call:
		return math.Abs(treeValue(x.Args[0].X))
	case *syntax.Paren:
		return treeValue(x.X)
	case *syntax.Binary:
		a, b := treeValue(x.X), treeValue(x.Y)
		return [...]float64{a + b, a - b, a * b, a / b, math.Pow(a, b)}[x.Op]
	}
	return math.NaN()
}

// Two signs never stand side by side.
func TestNoTwoSigns(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 5))
	for range 5000 {
		x := plain(r.IntN, 4)
		latex := strings.ReplaceAll(Expr(x).LaTeX(), " ", "")
		for _, pair := range [...]string{"--", "+-", "-+", "++", `\cdot-`, `\cdot+`} {
			if strings.Contains(latex, pair) {
				t.Fatalf("%s is set as %s", syntax.PrintExpr(x), latex)
			}
		}
	}
}
