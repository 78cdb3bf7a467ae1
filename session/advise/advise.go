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
		torqueOrEnergy(l, name, v, in, x)
		rateWithout2Pi(l, name, x, in, v)
		unnamed(l, x, v)
	}
}

// Report cautions about an answer.
func Report(l *eval.Line, s *syntax.Report) {
	if r := l.Entry.Result(); r != nil {
		rateWithout2Pi(l, r.Values[0].Name, s.X, s.In, &r.Values[0])
	}
}

// Slope and Area caution about what is read off a curve.
func Slope(l *eval.Line, s *syntax.Slope) { reading(l, s.Named.Name, s.X, s.In) }

// Area cautions as Slope does.
func Area(l *eval.Line, s *syntax.Area) { reading(l, s.Named.Name, s.X, s.In) }

func reading(l *eval.Line, name string, x syntax.Expr, in syntax.UnitText) {
	if r := l.Entry.Result(); r != nil {
		torqueOrEnergy(l, name, &r.Values[0], in, x)
	}
}
