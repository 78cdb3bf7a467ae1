package print

import (
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"steelyard/lang/finding"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/graph"
	"steelyard/units"
)

var update = flag.Bool("update", false, "write the golden files anew")

func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		if err := os.WriteFile(path, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if string(got) != string(want) {
		t.Errorf("%s differs; got:\n%s", name, got)
	}
}

// x reads an expression; an empty text is none.
func x(text string) syntax.Expr {
	if text == "" {
		return nil
	}
	e, findings := syntax.ParseExpr(text)
	if e == nil || len(findings) > 0 {
		panic(fmt.Sprint("sample: ", text, findings))
	}
	return e
}

// is what a text shows of a quantity.
func is(text string) shown { return shown{X: x(text)} }

// says is what a finding says, on a page without names.
func says(texts ...string) (out [][]piece) {
	for _, text := range texts {
		out = append(out, newSetter(nil).finding(text, true))
	}
	return out
}

// value is a value as it is shown.
func value(text string) *entry.Value {
	if n, ok := x(text).(*syntax.Number); ok {
		return &entry.Value{InUnit: n.Value.Float(), Unit: units.One, Figures: units.Figures{N: int(n.Value.Figures), Keep: true}}
	}
	q := x(text).(*syntax.Quantity)
	u, bad := units.NewTable().Parse(q.Unit.Text, units.AfterNumber)
	if bad != nil {
		panic("sample: " + text)
	}
	return &entry.Value{InUnit: q.Value.Float(), Unit: u, Figures: units.Figures{N: int(q.Value.Figures), Keep: true}}
}

// headOf is the head of a column: a quantity over its unit.
func headOf(quantity, unit string) entry.Head {
	u, bad := units.NewTable().Parse(unit, units.AloneInPlace)
	if bad != nil {
		panic("sample: " + unit)
	}
	return entry.Head{Of: []syntax.Expr{&syntax.Name{Name: quantity}}, Unit: u}
}

// axisOf is an axis of quantities over their unit.
func axisOf(quantities, unit string, from, to float64) entry.Axis {
	a := entry.Axis{Label: headOf("", unit), From: from, To: to}
	a.Label.Of = nil
	for _, q := range strings.Split(quantities, ", ") {
		a.Label.Of = append(a.Label.Of, x(q))
	}
	return a
}

func curve(of syntax.Expr, from, to float64, f func(float64) float64) entry.Curve {
	var run []graph.Point
	for i := range 121 {
		at := from + (to-from)*float64(i)/120
		run = append(run, graph.Point{X: at, Y: f(at)})
	}
	return entry.Curve{Of: of, Runs: [][]graph.Point{run}}
}

func stretchGraph() *entry.Graph {
	u := func(s float64) float64 { return 0.5 * 245 * s * s * 1e-4 }
	w := func(s float64) float64 { return 4.9 * s / 100 }
	return &entry.Graph{
		X: axisOf("s", "cm", 0, 5), Y: axisOf("U, W", "J", 0, 0.35),
		Curves: []entry.Curve{curve(x("U(s)"), 0, 5, u), curve(x("W(s)"), 0, 5, w)},
		Shapes: entry.Rows("U(s) is a parabola that opens upward, with its lowest point at (0 cm, 0 J).", "W(s) is a straight line through (0 cm, 0 J) with the slope 4.9 N."),
	}
}

func panBars() *entry.Bars {
	bar := func(name, shown string) entry.Bar { return entry.Bar{Of: x(name), Value: *value(shown)} }
	return &entry.Bars{
		Unit: value("1 J").Unit, Books: entry.Words("The energies add up: 0.196 J before and 0.196 J after."),
		Stages: []entry.Stage{
			{Name: "plums laid on", Bars: []entry.Bar{bar("E_g", "0.196 J"), bar("U", "0 J")}, Sum: *value("0.196 J")},
			{Name: "lowest point", Bars: []entry.Bar{bar("E_g", "0 J"), bar("U", "0.196 J")}, Sum: *value("0.196 J")},
		},
	}
}

// scaleKey is the key of a market spring scale: everything a key can have.
func scaleKey() *Document {
	return &Document{
		Title: "The market scale: a pan on a spring", Edition: Key,
		Caution: "A study aid: check what matters by hand, and use none of it where safety depends on it.",
		Blocks: []block{
			note{"A market scale hangs its pan from a spring. The grocer lays plums into the empty pan and lets go; the pan sinks, swings past its resting place and comes back."},
			givens{[]given{{x("m"), is("0.500 kg"), "mass of the plums"}, {&syntax.Name{Name: "s_0"}, is("2.0 cm"), ""}, {x("g"), is("9.81 m/s^2"), ""}, {x("α"), is("12°"), ""}, {x("period"), is("0.284 s"), ""}}},
		},
		Parts: []part{stiffness(), lowest(), swing()},
	}
}

func stiffness() part {
	return part{Label: "a", Question: "How stiff is the spring?", Points: 4, Blocks: []block{
		working{Of: []syntax.Expr{x("k")}, Lines: []entry.WorkLine{
			{Left: x("k*s_0"), Right: x("m*g"), Words: entry.Words("balance of forces")},
			{Left: x("k"), Right: x("m*g/s_0"), Reason: entry.Words("divide both sides by s₀")},
			{Right: x("0.500 kg * 9.81 m/s^2/(2.0 cm)"), Reason: entry.Words("put in the values")},
			{Shown: value("245.25 N/m"), Units: []entry.UnitSide{{Product: "(kg m/s^2)/m"}, {Product: "N/m"}}},
		}},
		answer{X: x("k"), Shown: is("245 N/m"), Points: 4},
		check{Left: x("k*s_0"), Right: x("m*g"), Relation: "=", Within: "within 1 %", Says: entry.Words("both sides are 4.9 N")},
	}}
}

func lowest() part {
	return part{Label: "b", Question: "How far does the pan sink when the plums are laid on without a push, and where is its energy then?", Points: 5, Blocks: []block{
		note{"At the lowest point the pan stands still, so all the energy of height that it lost is in the spring.\n\nThe other root, s = 0, is where it began."},
		working{Of: []syntax.Expr{x("s")}, Lines: []entry.WorkLine{
			{Left: x("m*g*s"), Right: x("k*s^2/2"), Words: entry.Words("energy is conserved")},
			{Left: x("s"), Right: x("2 m*g/k"), Reason: entry.Words("divide both sides by s, which is not 0 at the lowest point, and solve for s")},
			{Shown: value("4.0 cm")},
		}},
		working{Of: []syntax.Expr{x("v"), x("E_total")}, Lines: []entry.WorkLine{
			{Left: x("v"), Right: x("√(2 (m*g*s - k*s^2/2)/m)"), Words: entry.Words("speed on the way"), Reason: entry.Words("solve for v")},
			{Right: x("√(g^2*m/k)")},
			{Shown: value("0.443 m/s"), Units: []entry.UnitSide{{Product: "(m/s^2) s"}, {Product: "m/s"}}},
			{Left: x("E_total"), Right: x("m*v^2/2 + k*s^2/2 - m*g*s + m_pan*v^2/2 + k_hook*s_hook^2/2 - m_hook*g*s_hook + mu*m*g*cos(alpha)*s + F_air*s"), Reason: entry.Words("everything at once")},
		}},
		answer{X: x("s"), Shown: is("4.0 cm"), Points: 3},
		answer{X: x("v_max"), Shown: is("4.43e-1 m/s"), Points: 2},
		working{Definitions: true, Lines: []entry.WorkLine{{Left: x("U(s)"), Right: x("k*s^2/2")}, {Left: x("W(s)"), Right: x("m*g*s")}}},
		figure{stretchGraph()},
		energyBars{panBars()},
		check{Left: x("m*g*s - k*s^2/2"), Sign: "is zero", Within: "within 0.1 J", Says: entry.Words("it is 0 J")},
	}}
}

func swing() part {
	return part{Label: "c", Question: "Does the period fit?", Points: 1, Blocks: []block{
		table{&entry.Table{
			Heads: []entry.Head{headOf("m", "kg"), headOf("T", "s"), headOf("s_0", "cm"), {Words: "what was weighed"}},
			Rows: [][]entry.Cell{
				{{Value: value("0.25")}, {Value: value("0.2")}, {Value: value("-1.0")}, {Words: entry.Words("pears")}},
				{{Value: value("0.5")}, {Value: value("0.284")}, {Value: value("2")}, {Words: entry.Words("plums")}},
				{{Value: value("1")}, {Value: value("0.401")}, {Value: value("4.01e-7")}, {Words: entry.Words("a small melon")}},
			},
		}},
		flaw{finding.Mismatch, 14, "T = 2π √(k/m)", says("The left side is a time (s), the right side a frequency (1/s).", "Write T = 2π √(m/k) if you mean the period.")},
		flaw{finding.Caution, 15, "g = 9.81 m/s^2", says("g is given here and is also a constant of nature.", "Name it otherwise if you mean something else.")},
		text{entry.Rows("T is proportional to √m:", "twice the mass, 1.41 times the period")},
	}}
}

// scaleHandout is what the class gets of it.
func scaleHandout() *Document {
	d := scaleKey()
	d.Edition = Handout
	blank := stretchGraph()
	blank.Blank = true
	d.Parts = []part{
		{Label: "a", Question: d.Parts[0].Question, Points: 4, Blocks: []block{room{6, []syntax.Expr{x("k")}}}},
		{Label: "b", Question: d.Parts[1].Question, Points: 5, Blocks: []block{d.Parts[1].Blocks[0], room{8, nil}, figure{blank}}},
		{Label: "c", Question: d.Parts[2].Question, Points: 1, Blocks: []block{d.Parts[2].Blocks[0], room{3, nil}}},
		{Blocks: []block{room{2, nil}}},
	}
	return d
}

// tenParts is a long key with four graphs.
func tenParts() *Document {
	d := scaleKey()
	d.Parts = nil
	for i := range 10 {
		part := stiffness()
		if i%3 == 0 {
			part = lowest()
		}
		part.Label = string(rune('a' + i))
		d.Parts = append(d.Parts, part)
	}
	return d
}

// hostileText is what no writer may let through as it is.
const hostileText = "<script>alert(1)</script> `x` | $a$ \\input{/etc/passwd} \\end{document} #1 % & _ ^ ~ {} \"' ]]> --> ![i](javascript:x) **b** \u202e\x00\x1b[31m\xff Пружина 弹簧 ΔΩ √x² ½ é ﬁ 🍎"

func hostile() *Document { return everywhere(hostileText) }

// everywhere is a document with a text in every field.
func everywhere(h string) *Document {
	name := &syntax.Name{Name: "a</mi><script>alert(1)</script>\\input{x}$|`"}
	words := entry.Head{Words: h}
	fig := &entry.Graph{X: entry.Axis{Label: words, To: 1}, Y: entry.Axis{Label: words, From: math.Inf(-1), To: math.NaN()}, Shapes: []entry.Said{entry.Written(h)},
		Curves: []entry.Curve{curve(&syntax.Name{Name: h}, 0, 1, func(v float64) float64 { return 1 / (v - 0.5) })}}
	unknown := value("1 J")
	unknown.InUnit = math.NaN()
	bars := &entry.Bars{Unit: unknown.Unit, Books: entry.Words(h), Stages: []entry.Stage{{Name: h, Bars: []entry.Bar{{Of: name, Value: *unknown}}, Sum: *unknown}}}
	return &Document{Title: h, Caution: h, Blocks: []block{note{h}, givens{[]given{{name, shown{Words: h}, h}}}}, Parts: []part{{
		Label: h, Question: h, Points: -1, Blocks: []block{
			note{h + "\n\n# " + h + "\n- " + h + "\n1. " + h + "\n    " + h + "\n---\n> " + h + "\n" + h + "\n==="}, text{entry.Rows(h, "", h)}, room{3, []syntax.Expr{name}},
			working{Of: []syntax.Expr{name}, Lines: []entry.WorkLine{{Left: name, Right: name, Reason: entry.Words(h), Words: entry.Written(h), Units: []entry.UnitSide{{Product: h, Root: 2}, {Product: h}}}, {}}},
			working{Definitions: true, Lines: []entry.WorkLine{{Left: x("U(s)"), Right: x("k*s^2/2")}}},
			answer{X: name, Shown: shown{Words: h}}, answer{X: name, Shown: shown{X: name}}, answer{}, answer{X: name},
			check{Left: name, Right: name, Relation: "≤", Within: h, Says: entry.Words(h)}, check{Left: name, Sign: h},
			figure{fig}, energyBars{bars},
			table{&entry.Table{Heads: []entry.Head{words, {Of: []syntax.Expr{name, name}}}, Rows: [][]entry.Cell{{{Words: entry.Words(h)}, {Value: unknown}}, {{Words: entry.Words(h)}, {Words: entry.Words(h)}}}}},
			flaw{finding.Error, 3, h, says(h, h)},
		}}}}
}
