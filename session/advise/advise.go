// Package advise cautions where custom speaks against a line that has been worked
// out, and tries the readings that findings offer. It changes no value.
package advise

import (
	"steelyard/lang/syntax"
	"steelyard/session/eval"
)

// Define cautions about NAME = EXPR.
//
// A caution never changes what a line gives: v = 30 stays a plain number, with a word on what it
// may lack. What a line fails for is said before anything here is asked.
func Define(l *eval.Line, s *syntax.Define) {
	result(l, s.Name, s.X, s.In)
	if !l.Entry.Failed() {
		mistakenUnit(l, s)
		prefixTwice(l, s.X)
		degreesLeftOut(l, s.Name, s.X, nil)
		unitLeftOut(l, s)
	}
}

// Value cautions about a result without a name.
func Value(l *eval.Line, s *syntax.Value) { result(l, "", s.X, s.In) }

// The order is that of what a teacher would say first: a sign that can't be, then torque and
// energy, then 2π, then units that lack, then what else is often written by mistake.
func result(l *eval.Line, name string, x syntax.Expr, in syntax.UnitText) {
	if r := l.Entry.Result(); r != nil {
		v := &r.Values[0]
		wrongSign(l, x.Span(), v)
		switch read := x.(type) {
		case *syntax.With:
			bindings(l, read.By, nil)
			return
		case *syntax.SlopeOf:
			torqueOrEnergy(l, name, v, in, read.X)
			return
		case *syntax.AreaUnder:
			torqueOrEnergy(l, name, v, in, read.X)
			return
		}
		torqueOrEnergy(l, name, v, in, x)
		f, product := apart(x)
		if product {
			rateWithout2Pi(l, name, x, in, v, &f)
		}
		lackingUnit(l, name, x, in, v)
		commonSlip(l, name, x, &f, product, v)
		kelvinTwice(l, x, in)
		zeroInDegrees(l, x)
		degreesAdded(l, x)
		convertedTwice(l, x, in, v)
	}
}

// Solve cautions about the values of unknowns, and about what is given for symbols.
//
// What is given in a with stands for the symbol of the formula, so that swing_time with θ = 10
// is told that θ is in degrees there.
func Solve(l *eval.Line, s *syntax.Solve) {
	if r := l.Entry.Result(); r != nil {
		for i := range r.Values {
			wrongSign(l, s.Unknowns[0].NameAt, &r.Values[i])
		}
	}
	for _, e := range s.Equations {
		turnsInEquation(l, e)
		kelvinInEquation(l, e)
		zeroInEquation(l, e)
	}
	var f *syntax.FormulaDef
	if n, ok := s.Equations[0].Left.(*syntax.Name); ok && s.Equations[0].Right == nil {
		f, _ = l.Formula(n.Name)
	}
	bindings(l, s.With, f)
}

// Graph cautions about the range of a curve.
func Graph(l *eval.Line, s *syntax.Graph) {
	degreesLeftOut(l, s.Against.Name, s.From, nil)
	degreesLeftOut(l, s.Against.Name, s.To, nil)
}

// bindings cautions about what is given for one line alone.
//
// T with θ = 45 is like a line θ = 45, which would be radians: 45 of them are seven turns.
func bindings(l *eval.Line, by []syntax.Binding, f *syntax.FormulaDef) {
	for _, b := range by {
		degreesLeftOut(l, b.Name, b.X, f)
	}
}

// Report cautions about an answer.
func Report(l *eval.Line, s *syntax.Report) {
	if r := l.Entry.Result(); r != nil {
		if f, product := apart(s.X); product {
			rateWithout2Pi(l, r.Values[0].Name, s.X, s.In, &r.Values[0], &f)
		}
	}
}
