package given

import (
	"math"

	"steelyard/lang/algebra"
	"steelyard/lang/finding"
	"steelyard/lang/syntax"
	"steelyard/lang/typeset"
	"steelyard/session/eval"
)

// stretch is the interval of a piece as far as its bounds have values.
type stretch struct {
	*syntax.Piece
	lo, hi float64 // in coherent SI units
}

// intervals checks the intervals of a function: each has a length, and where two meet, both say
// the same. The first that holds an argument gives the value, so that of another would be lost
// without a word.
func intervals(l *eval.Line, s *syntax.FuncDef) {
	var before []stretch
	for i := range s.Pieces {
		now, ok := worth(l, &s.Pieces[i])
		if !ok {
			continue
		}
		if now.lo > now.hi || now.lo == now.hi && (now.LoOpen || now.HiOpen) {
			l.Find(finding.New(finding.NoRange, now.At, "No "+now.Var+" is in this interval: it ends before it begins.", "Exchange its ends, or check their signs."))
			continue
		}
		for _, above := range before {
			if f, bad := meet(l, s, above, now); bad {
				l.Find(f)
				return
			}
		}
		before = append(before, now)
	}
}

// worth is a piece with the values of its bounds; false where one has none.
func worth(l *eval.Line, p *syntax.Piece) (stretch, bool) {
	out := stretch{p, math.Inf(-1), math.Inf(1)}
	for _, end := range [...]struct {
		x  syntax.Expr
		at *float64
	}{{p.Lo, &out.lo}, {p.Hi, &out.hi}} {
		if end.x == nil {
			continue
		}
		got := l.Try(end.x)
		if !got.OK || got.Static.Absent {
			return out, false
		}
		*end.at = got.Value
	}
	return out, true
}

// meet finds that two intervals overlap, or have one place with two values.
func meet(l *eval.Line, s *syntax.FuncDef, a, b stretch) (finding.Finding, bool) {
	from, to := a, a // the interval with the later begin, and that with the earlier end
	if b.lo > a.lo {
		from = b
	}
	if b.hi < a.hi {
		to = b
	}
	switch {
	case from.lo > to.hi:
		return finding.Finding{}, false
	case from.lo < to.hi:
		place := "everywhere"
		switch {
		case from.Lo != nil && to.Hi != nil:
			place = "between " + typeset.Text(from.Lo) + " and " + typeset.Text(to.Hi)
		case from.Lo != nil:
			place = "beyond " + typeset.Text(from.Lo)
		case to.Hi != nil:
			place = "below " + typeset.Text(to.Hi)
		}
		return finding.New(finding.TwoReadings, b.At, "Two intervals give "+s.Name+" a value "+place+".", "Let each begin where the one before it ends."), true
	case a.hi == b.lo && (a.HiOpen || b.LoOpen), b.hi == a.lo && (b.HiOpen || a.LoOpen):
		return finding.Finding{}, false
	}
	at := from.Lo
	one, other := valueAt(l, s, a, at), valueAt(l, s, b, at)
	if !one.OK || !other.OK || math.Abs(one.Value-other.Value) <= 1e-9*max(math.Abs(one.Value), math.Abs(other.Value)) {
		return finding.Finding{}, false
	}
	f := finding.New(finding.TwoReadings, b.At, "At "+b.Var+" = "+typeset.Text(at)+" two intervals give "+s.Name+" different values; the one above counts.", "Write < in place of ≤ where a value is left out.")
	f.Severity = finding.Caution
	return f, true
}

// valueAt is what a piece comes to at a place.
func valueAt(l *eval.Line, s *syntax.FuncDef, p stretch, at syntax.Expr) eval.Got {
	return l.Try(algebra.Substitute(p.X, map[string]syntax.Expr{s.Params[0]: &syntax.Paren{At: at.Span(), X: at}}))
}
