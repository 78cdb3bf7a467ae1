package solve

import (
	"sort"

	"steelyard/lang/finding"
	"steelyard/lang/plan"
	"steelyard/lang/syntax"
	"steelyard/units/writing"
)

// formulasEquated says of an equation in which the name of a formula stands for
// a quantity that it can't, and offers the formula's right side.
//
// In spring_energy = 1/2*m*v^2 the name of the formula stands for what it gives. Its right side
// is what can be equated.
func (v *solving) formulasEquated() (finding.Finding, bool) {
	var places []*syntax.Name
	bare := map[*syntax.Name]bool{}
	for _, e := range v.s.Equations {
		if e.Right == nil {
			continue
		}
		for n := range syntax.Each[*syntax.Name](e.Left, e.Right) {
			if v.namesFormula(n) {
				places = append(places, n)
				bare[n] = n == e.Left || n == e.Right
			}
		}
	}
	if len(places) == 0 {
		return finding.Finding{}, false
	}
	sort.Slice(places, func(i, j int) bool { return places[i].At.From < places[j].At.From })
	line, names := v.Entry.Text, []string{}
	for i := len(places) - 1; i >= 0; i-- {
		n := places[i]
		f, _ := v.Formula(n.Name)
		right := syntax.PrintExpr(f.Right)
		if !bare[n] {
			right = "(" + right + ")"
		}
		line = line[:n.At.From] + right + line[n.At.To:]
		names = append([]string{n.Name}, names...)
	}
	is, write := " is a formula, and its name alone isn't a quantity.", "its right side"
	if len(names) > 1 {
		is, write = " are formulas, and their names alone aren't quantities.", "their right sides"
	}
	from := places[0].At.From
	first, _ := v.Formula(names[0])
	return finding.New(finding.NotSolved, syntax.Span{From: from, To: len(v.Entry.Text)}, writing.List(names, "and")+is,
		"Write "+write+", `"+line+"`, or add brackets, as in "+first.Call()+".", line[from:]), true
}

// namesFormula tells whether a name is that of a formula and of nothing else.
//
// A formula such as 1/f = 1/u + 1/v gives no single quantity that its name could stand for.
func (v *solving) namesFormula(n *syntax.Name) bool {
	if d, ok := v.Planner.Names.Lookup(n.Name); n.Line != 0 || ok && d.Kind != plan.Formula {
		return false
	}
	f, ok := v.Formula(n.Name)
	if !ok {
		return false
	}
	_, plain := f.Left.(*syntax.Name)
	return plain
}
