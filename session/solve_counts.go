package session

import (
	"sort"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/plan"
	"steelyard/lang/syntax"
)

// togetherForm is how several equations are written.
const togetherForm = "`solve A = B and C = D for a in m/s^2, T in N`"

// unevenSystem says that there are not as many equations as unknowns, and which
// symbols could be asked for.
func (w *work) unevenSystem(s *syntax.Solve) finding.Finding {
	word := "fewer"
	if len(s.Equations) > len(s.Unknowns) {
		word = "more"
	}
	first, last := s.Unknowns[0], s.Unknowns[len(s.Unknowns)-1]
	message := "There are " + word + " equations (" + itoa(len(s.Equations)) + ") than unknowns (" + itoa(len(s.Unknowns)) + ")."
	hint := "As many equations are needed as there are unknowns: " + togetherForm + "."
	free := w.freeSymbols(s)
	if word == "fewer" || len(free) == 0 {
		return finding.New(finding.NotSolved, first.NameAt, message, hint)
	}
	if len(free) != len(s.Equations)-len(s.Unknowns) {
		return finding.New(finding.NotSolved, first.NameAt, message, hint+" Without a value yet: "+list(free)+".")
	}
	at := max(last.NameAt.To, last.In.At.To)
	line := w.e.Text[:at] + ", " + strings.Join(free, ", ") + w.e.Text[at:]
	has := " has no value yet: write `"
	if len(free) > 1 {
		has = " have no value yet: write `"
	}
	return finding.New(finding.NotSolved, syntax.Span{From: first.NameAt.From, To: len(w.e.Text)}, message, list(free)+has+line+"`.", line[first.NameAt.From:])
}

// freeSymbols lists the names in equations that have no value and are not asked
// for, in the order in which they stand there.
func (w *work) freeSymbols(s *syntax.Solve) []string {
	var out []string
	seen := map[string]bool{"g": true}
	for _, e := range s.Equations {
		for _, side := range []syntax.Expr{e.Left, e.Right} {
			if side == nil {
				continue
			}
			syntax.Walk(side, func(x syntax.Expr) bool {
				n, ok := x.(*syntax.Name)
				if !ok || seen[n.Name] || n.Line != 0 || isUnknown(s, n.Name) {
					return true
				}
				seen[n.Name] = true
				d, known := w.planner.Names.Lookup(n.Name)
				if !known || d.Kind == plan.Symbol {
					out = append(out, n.Name)
				}
				return true
			})
		}
	}
	return out
}

// formulasEquated says of an equation in which the name of a formula stands for
// a quantity that it can't, and offers the formula's right side.
func (w *work) formulasEquated(s *syntax.Solve) (finding.Finding, bool) {
	var places []*syntax.Name
	bare := map[*syntax.Name]bool{}
	for _, e := range s.Equations {
		if e.Right == nil {
			continue
		}
		for _, side := range []syntax.Expr{e.Left, e.Right} {
			syntax.Walk(side, func(x syntax.Expr) bool {
				if n, ok := x.(*syntax.Name); ok && w.namesFormula(n) {
					places = append(places, n)
					bare[n] = side == x
				}
				return true
			})
		}
	}
	if len(places) == 0 {
		return finding.Finding{}, false
	}
	sort.Slice(places, func(i, j int) bool { return places[i].At.From < places[j].At.From })
	line, names := w.e.Text, []string{}
	for i := len(places) - 1; i >= 0; i-- {
		n := places[i]
		f, _ := w.Formula(n.Name)
		right := syntax.PrintExpr(f.Right)
		if !bare[n] {
			right = "(" + right + ")"
		}
		line = line[:n.At.From] + right + line[n.At.To:]
		names = append([]string{n.Name}, names...)
	}
	is, write := " is a formula, and stands for no quantity by its name alone.", "its right side"
	if len(names) > 1 {
		is, write = " are formulas, and stand for no quantities by their names alone.", "their right sides"
	}
	from := places[0].At.From
	return finding.New(finding.NotSolved, syntax.Span{From: from, To: len(w.e.Text)}, list(names)+is,
		"Write "+write+", `"+line+"`, or a call such as "+w.callOf(names[0])+".", line[from:]), true
}

// namesFormula tells whether a name is that of a formula and of nothing else.
func (w *work) namesFormula(n *syntax.Name) bool {
	if d, ok := w.planner.Names.Lookup(n.Name); n.Line != 0 || ok && d.Kind != plan.Formula {
		return false
	}
	f, ok := w.Formula(n.Name)
	if !ok {
		return false
	}
	_, plain := f.Left.(*syntax.Name)
	return plain
}

// callOf writes the call of a formula with its symbols.
func (w *work) callOf(name string) string {
	f, _ := w.Formula(name)
	var args []string
	for _, sym := range f.Symbols {
		if left, ok := f.Left.(*syntax.Name); ok && left.Name == sym.Name || sym.Default != nil {
			continue
		}
		args = append(args, sym.Name)
	}
	return f.Name + "(" + strings.Join(args, ", ") + ")"
}
