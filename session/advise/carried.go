package advise

import (
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
// has: m = 4 kg of part b in part c, where part a had 3 kg. It is a caution where the line
// also has a result that was worked out with the earlier value.
func carried(l *eval.Line, whole syntax.Expr) {
	if l.Planner.Part() == 0 || l.Entry.Line > limit.Advised {
		return
	}
	for x := range syntax.Nodes(whole) {
		n, ok := x.(*syntax.Name)
		if !ok || n.Line != 0 {
			continue
		}
		d, ok := l.Planner.Find(n)
		if !ok || d.Failed() || !d.Given || d.Part == l.Planner.Part() {
			continue
		}
		was := l.Planner.Names.Above(n.Name, d.Line)
		if was == nil || was.Failed() || was.Kind != plan.Quantity || was.Line == 0 || was.Part == d.Part {
			continue
		}
		now, then := l.Shown(d, units.Screen), l.Shown(was, units.Screen)
		if now == then {
			continue
		}
		earlier := n.Name + "@" + strconv.Itoa(was.Line)
		f := finding.New(finding.GivenAgain, n.At, n.Name+" is "+now+" here, from line "+strconv.Itoa(d.Line)+".",
			"For "+then+", write "+earlier+".", earlier)
		if r := standsOn(l, whole, was.Line); r == "" {
			f.Severity, f.Readings = finding.Note, nil
		} else {
			f.Message += " " + r + " was worked out with " + then + "."
		}
		if f.Severity == finding.Caution || l.Set.Note(f.Message) {
			l.Find(f)
		}
	}
}

// standsOn is the first result in an expression that was worked out from a line.
func standsOn(l *eval.Line, x syntax.Expr, line int) string {
	seen := map[int]bool{}
	var from func(at int) bool
	from = func(at int) bool {
		if at == line {
			return true
		}
		e := l.EntryAt(at)
		if seen[at] || e == nil {
			return false
		}
		seen[at] = true
		return slices.ContainsFunc(e.Uses, from)
	}
	for x := range syntax.Nodes(x) {
		if n, ok := x.(*syntax.Name); ok && n.Line == 0 {
			if d, ok := l.Planner.Find(n); ok && !d.Given && d.Line > line && from(d.Line) {
				return n.Name
			}
		}
	}
	return ""
}
