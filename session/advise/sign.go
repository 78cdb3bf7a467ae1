package advise

import (
	"steelyard/lang/finding"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/eval"
	"steelyard/units"
)

// wrongSign cautions about a value that has the sign which a quantity of its name
// can't have: a tension of -5 N, a work of friction of 6 J.
//
// A rope can't push, and friction takes energy away; where such a value has the other sign, an
// equation above has two directions mixed up. Of a list the first odd value is enough.
func wrongSign(l *eval.Line, at syntax.Span, v *entry.Value) {
	if v.IsVector() {
		return // its signs are directions
	}
	if v.List != nil {
		for i := range v.List.SI { // the first that is odd speaks for all
			if one, n := v.Element(i), len(l.Entry.Findings); n == len(l.Entry.Findings) {
				wrongSign(l, at, &one)
			}
		}
		return
	}
	if v.Name == "" || v.SI == 0 || v.Named {
		return
	}
	what, why, wrong := units.WrongSign(v.Name, v.Dim, v.SI < 0)
	if !wrong {
		return
	}
	is, sign, hint := " comes out ", "positive", "Check the signs in this line."
	if v.SI < 0 {
		sign = "negative"
	}
	if d, ok := l.Planner.Names.Lookup(v.Name); ok && d.Given {
		is = " is "
	}
	if v.SI < 0 && v.Dim == units.Of("N").Dim() {
		hint = "Check the signs, or whether the surface or rope acts at all."
	}
	l.Find(finding.New(finding.UnusualSign, at, v.Name+is+sign+". By its name it is "+what+": "+why+".", hint))
}
