// Package advise cautions where custom speaks against a line that has been worked
// out, and tries the readings that findings offer. It changes no value.
package advise

import (
	"steelyard/lang/syntax"
	"steelyard/session/eval"
)

// Define cautions about NAME = EXPR.
func Define(l *eval.Line, s *syntax.Define) {
	result(l, s.Name, s.X, s.In)
	if !l.Entry.Failed() {
		mistakenUnit(l, s)
	}
}

// Value cautions about a result without a name.
func Value(l *eval.Line, s *syntax.Value) { result(l, "", s.X, s.In) }

func result(l *eval.Line, name string, x syntax.Expr, in syntax.UnitText) {
	if r := l.Entry.Result(); r != nil {
		v := &r.Values[0]
		switch read := x.(type) {
		case *syntax.With:
			return
		case *syntax.SlopeOf:
			torqueOrEnergy(l, name, v, in, read.X)
			return
		case *syntax.AreaUnder:
			torqueOrEnergy(l, name, v, in, read.X)
			return
		}
		torqueOrEnergy(l, name, v, in, x)
		rateWithout2Pi(l, name, x, in, v)
		lackingUnit(l, name, x, v)
	}
}

// Report cautions about an answer.
func Report(l *eval.Line, s *syntax.Report) {
	if r := l.Entry.Result(); r != nil {
		rateWithout2Pi(l, r.Values[0].Name, s.X, s.In, &r.Values[0])
	}
}
