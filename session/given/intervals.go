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
			l.Find(finding.New(finding.NoRange, now.At, "No "+now.Var+" is in this interval: it ends before it begins.", "Swap its ends, or check their signs."))
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
		return finding.New(finding.TwoReadings, b.At, "Two intervals of "+s.Name+" overlap "+place+".", "Let each begin where the one before it ends."), true
	case a.hi == b.lo && (a.HiOpen || b.LoOpen), b.hi == a.lo && (b.HiOpen || a.LoOpen):
		return finding.Finding{}, false
	}
	at := from.Lo
	if !differ(l, s.Params[0], a.X, b.X, at) {
		return finding.Finding{}, false
	}
	f := finding.New(finding.TwoReadings, b.At, "At "+b.Var+" = "+typeset.Text(at)+", two intervals of "+s.Name+" have different values; the upper one counts.", "Write < instead of ≤ in one of them.")
	f.Severity = finding.Caution
	return f, true
}

// same is how near two values are that count as one where two intervals meet, as a part of
// the larger: as the sides of a check.
const same = 1e-9

// differ tells whether two expressions have different values at a place of a parameter: of
// lists and vectors, in any element. Their difference is settled, so that a residue of rounding
// is none.
func differ(l *eval.Line, param string, a, b, at syntax.Expr) bool {
	there := func(x syntax.Expr) []float64 {
		return l.TryElements(algebra.Substitute(x, map[string]syntax.Expr{param: &syntax.Paren{At: at.Span(), X: at}}))
	}
	one, other := there(a), there(b)
	apart := there(&syntax.Binary{Op: syntax.Sub, X: &syntax.Paren{At: a.Span(), X: a}, Y: &syntax.Paren{At: b.Span(), X: b}})
	if len(one) != len(apart) || len(other) != len(apart) {
		return false
	}
	for i, d := range apart {
		if math.Abs(d) > same*max(math.Abs(one[i]), math.Abs(other[i])) {
			return true
		}
	}
	return false
}
