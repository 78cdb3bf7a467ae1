package advise

import (
	"maps"
	"slices"
	"strconv"

	"steelyard/lang/finding"
	"steelyard/lang/limit"
	"steelyard/lang/plan"
	"steelyard/lang/syntax"
	"steelyard/session/eval"
	"steelyard/units"
)

// carried says of a name that a part above has given anew which of its values a later part
// has, however it got them: m = 4 kg of part b in part c, where part a had 3 kg, or an m that
// part b solves for. It is a caution where the line also has a result that was worked out
// with the earlier value.
//
// Parts are read one by one on paper, and a value that part b changed for itself is easily taken
// for that of part a further down.
func carried(l *eval.Line, stmt syntax.Stmt, n *syntax.Name, d *plan.Def) {
	if d.Line == 0 || l.Planner.Static(d.Slot).Absent {
		return
	}
	was := l.Planner.Names.Above(n.Name, d.Line)
	if was == nil || was.Failed() || was.Kind != plan.Quantity || was.Line == 0 || was.Part == d.Part || l.Planner.Static(was.Slot).Absent {
		return
	}
	now, then := l.Shown(d, units.Screen), l.Shown(was, units.Screen)
	if now == then {
		return
	}
	earlier := n.Name + "@" + strconv.Itoa(was.Line)
	f := finding.New(finding.GivenAgain, n.At, n.Name+" is "+now+" here, from line "+strconv.Itoa(d.Line)+".",
		"For "+then+", write "+earlier+".", earlier)
	if r := standsOn(l, stmt, was.Line); r == "" {
		f.Severity, f.Readings = finding.Note, nil
	} else {
		f.Message += " " + r + " was worked out with " + then + "."
	}
	if f.Severity == finding.Caution || l.Set.Note(f.Message) {
		l.Find(f)
	}
}

// standsOn is the first result in a statement that was worked out from a line.
func standsOn(l *eval.Line, stmt syntax.Stmt, line int) string {
	for _, x := range stmt.Exprs() {
		for n := range syntax.Each[*syntax.Name](x) {
			if n.Line == 0 {
				if d, ok := l.Planner.Find(n); ok && !d.Given && d.Line > line && slices.Contains(basis(l, d.Line), line) {
					return n.Name
				}
			}
		}
	}
	return ""
}

// basis are the lines that one was worked out from, by way of others too, ascending.
//
// F of m*a was worked out from the lines of m and a, and from those that these come from.
func basis(l *eval.Line, line int) []int {
	found := map[int]bool{}
	var add func(line int)
	add = func(line int) {
		if e := l.EntryAt(line); e != nil {
			for _, at := range e.Uses {
				if !found[at] {
					found[at] = true
					add(at)
				}
			}
		}
	}
	add(line)
	return slices.Sorted(maps.Keys(found))
}

// OfParts says which value the names of a line have that several parts give: a name that a
// part above has given anew, and a result or function of an earlier part that was worked out
// before that, ω = √(k/m) of part a where part b gives another k. It is a caution for a
// function, as that reads as if it had the new one. What a line itself gives a name, or draws
// a curve against, it means.
func OfParts(l *eval.Line, stmt syntax.Stmt) {
	if l.Planner.Part() == 0 || l.Entry.Line > limit.Advised {
		return
	}
	meant, _ := syntax.Bound(stmt)
	for _, b := range syntax.Placed(stmt) {
		meant = append(meant, b.Name)
	}
	if s, ok := stmt.(*syntax.Scaling); ok {
		meant = append(meant, s.Against.Name)
	}
	var seen []string
	var results []func() // what is said of them is said after all names
	for _, whole := range stmt.Exprs() {
		for x := range syntax.Nodes(whole) {
			switch x := x.(type) {
			case *syntax.With:
				for _, b := range x.By {
					meant = append(meant, b.Name)
				}
			case *syntax.SlopeOf:
				meant = append(meant, x.Var.Name)
			case *syntax.AreaUnder:
				meant = append(meant, x.Var.Name)
			}
			n, ok := x.(*syntax.Name)
			if c, call := x.(*syntax.Call); call {
				n, ok = &syntax.Name{At: c.Name, Name: c.Func}, true
			}
			if !ok || n.Line != 0 || slices.Contains(meant, n.Name) || slices.Contains(seen, n.Name) {
				continue
			}
			d, ok := l.Planner.Find(n)
			if !ok || d.Failed() || d.Part == l.Planner.Part() {
				continue
			}
			if seen = append(seen, n.Name); d.Kind == plan.Quantity {
				carried(l, stmt, n, d)
			}
			if d.Given || !slices.Contains(l.Entry.Uses, d.Line) {
				continue
			}
			results = append(results, func() {
				for _, line := range basis(l, d.Line) {
					outdatedBy(l, n, d, line, meant)
				}
			})
		}
	}
	for _, say := range results {
		say()
	}
}

// outdatedBy says so if the name that a line gives has been given anew since.
//
// ω = √(k/m) of part a keeps the k that it was worked out with, though part b gives another. That
// is what a worksheet means by a result; it is said, and nothing is worked out anew.
func outdatedBy(l *eval.Line, n *syntax.Name, d *plan.Def, line int, meant []string) {
	s, ok := l.EntryAt(line).Stmt.(*syntax.Define)
	said := func(f finding.Finding) bool {
		return f.ID == finding.GivenAgain && f.Severity == finding.Caution && l.Entry.Text[f.At.From:f.At.To] == s.Name
	}
	if !ok || slices.Contains(meant, s.Name) || slices.ContainsFunc(l.Entry.Findings, said) {
		return
	}
	was, _ := l.Planner.Find(&syntax.Name{Name: s.Name, Line: line})
	is, _ := l.Planner.Find(&syntax.Name{Name: s.Name})
	if was == nil || is == nil || !was.Given || is.Failed() || is.Line < d.Line || is.Part == was.Part {
		return
	}
	then, now := l.Shown(was, units.Screen), l.Shown(is, units.Screen)
	if then == now {
		return
	}
	since := "; " + s.Name + " is " + now + " since line " + strconv.Itoa(is.Line) + "."
	f := finding.New(finding.GivenAgain, n.At, n.Name+" was worked out with "+s.Name+" = "+then+", from line "+strconv.Itoa(line)+since, "")
	f.Severity = finding.Note
	if d.Kind == plan.Function {
		f = finding.New(finding.GivenAgain, n.At, n.Name+" still has "+s.Name+" = "+then+", from line "+strconv.Itoa(line)+since,
			"For the new "+s.Name+", write "+n.Name+" again below line "+strconv.Itoa(is.Line)+".")
	}
	if l.Set.Note(f.Message) {
		l.Find(f)
	}
}
