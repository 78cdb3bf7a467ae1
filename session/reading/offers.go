package reading

import (
	"cmp"
	"slices"
	"strings"

	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/units/each"
)

// offers are the readings that make most sense, as whole lines, each tried.
//
// What is written as the value of a given is that value, whoever has a name V too. Else letters that
// are names come before letters that are units, as whoever gives a name uses it; one reading that is
// all units is kept among the first two, for the given that it may be.
func (s *settler) offers(all []weighed) []string {
	all = s.ranked(all)
	if k := slices.IndexFunc(all, func(w weighed) bool { return len(w.Names) == 0 && w.sense == all[0].sense }); k > 1 {
		all = slices.Insert(slices.Delete(slices.Clone(all), k, k+1), 1, all[k]) // all letters are units: second at least
	}
	all = s.turned(all)
	var out []string
	var values []entry.Value // of those without letters that may be units
	for i := range all {
		if len(out) == maxOffers || all[0].sense == fitting && all[i].sense < plain && !all[i].Before(&all[0].Reading) {
			break
		}
		if slices.ContainsFunc(all, func(o weighed) bool { return o.sense > all[i].sense && o.Meets(&all[i].Reading) }) {
			continue // what it is written with would be asked about again
		}
		if v := s.converted(all[i].Text, all[i].stmt); v.found() {
			all[i] = s.weigh(syntax.Reading{Text: v.Findings[0].Readings[0], Units: all[i].Units})
		}
		if text, bare := unbracketed(&all[i]); bare && s.isGiven(&all[i]) && s.accepted(text) {
			out = append(out, text)
			continue
		}
		v, ok := s.stands(&all[i])
		if same := func(o entry.Value) bool { return o.SI == v[0].SI && o.Dim == v[0].Dim }; !ok || len(v) > 0 && slices.ContainsFunc(values, same) {
			continue
		}
		if len(all[i].Names) == 0 {
			values = append(values, v...)
		}
		out = append(out, all[i].Text)
	}
	return out
}

// ranked are readings with the likeliest first.
func (s *settler) ranked(all []weighed) []weighed {
	type rank struct {
		sense                                     sense
		at, unlikely, given, putIn, below, asUnit int
	}
	order := make([]rank, len(all))
	for i := range all {
		w := &all[i]
		order[i] = rank{w.sense, i, one(w.unlikely), one(s.isGiven(w)), s.putIn(w), callsBelow(w.stmt), w.Units}
	}
	slices.SortFunc(order, func(a, b rank) int {
		return cmp.Or(cmp.Compare(b.sense, a.sense), a.unlikely-b.unlikely, b.given-a.given, b.putIn-a.putIn, a.below-b.below, a.asUnit-b.asUnit, a.at-b.at)
	})
	return each.Of(order, func(r rank) weighed { return all[r.at] })
}

// callsBelow counts the functions below a bar: V/R e^(-t/τ) is (V/R)*exp(-t/τ) in print.
func callsBelow(stmt syntax.Stmt) (n int) {
	if stmt == nil {
		return 0
	}
	for x := range syntax.ExprsOf(stmt) {
		syntax.Walk(x, func(x syntax.Expr) bool {
			if b, ok := x.(*syntax.Binary); ok && b.Op == syntax.Div {
				for range syntax.Each[*syntax.Call](b.Y) {
					n++
				}
			}
			return true
		})
	}
	return n
}

// isGiven tells whether a reading gives a name one quantity that it is used for:
// V0 = (9 V).
func (s *settler) isGiven(w *weighed) bool {
	_, _, in := syntax.AsResult(w.stmt)
	return isMeasured(w.stmt) && !in.Present() && w.sense == fitting
}

// putIn counts the quantities of a reading that are written as the values of givens are.
func (s *settler) putIn(w *weighed) (n int) {
	if w.stmt == nil {
		return 0
	}
	for q := range syntax.Each[*syntax.Quantity](w.stmt.Exprs()...) {
		n += one(q.At.To <= len(w.Text) && s.isValueAbove(w.Text[q.At.From:q.At.To]))
	}
	return n
}

// farAbove is how many lines above one the values are looked at that may be put into it.
const farAbove = 100

// isValueAbove tells whether a quantity is written as the value of a line above is, blanks aside:
// of whoever types values in the place of names, 230V is 230 V. A number of one digit may be one
// that formulas have: the 2m of x = d/2m, though d is 2 m.
func (s *settler) isValueAbove(written string) bool {
	bare := func(text string) string { return strings.ReplaceAll(text, " ", "") }
	if written = bare(written); len(written)-len(strings.TrimLeft(written, "0123456789.")) < 2 {
		return false
	}
	above := s.Page.Entries
	return slices.ContainsFunc(above[max(0, len(above)-farAbove):], func(e *entry.Entry) bool {
		d, ok := e.Stmt.(*syntax.Define)
		if !ok || !d.Plain() {
			return false
		}
		q, ok := d.X.(*syntax.Quantity)
		return ok && bare(e.Text[q.At.From:q.At.To]) == written
	})
}

// unbracketed is a reading without the brackets round its whole right side.
func unbracketed(w *weighed) (string, bool) {
	d, ok := w.stmt.(*syntax.Define)
	if !ok {
		return "", false
	}
	p, ok := d.X.(*syntax.Paren)
	if !ok || p.At.To != len(w.Text) {
		return "", false
	}
	return w.Text[:p.At.From] + w.Text[p.At.From+1:p.At.To-1], true
}
