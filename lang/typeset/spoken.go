package typeset

import "steelyard/lang/syntax"

// spoken adds a word of the language with room on both sides.
//
// A word that begins the row has no room before it.
func (l *layout) spoken(text string) {
	if len(l.stack) > l.from {
		l.put(Box{kind: gap})
	}
	l.put(Box{kind: word, text: text})
	l.put(Box{kind: gap})
}

// part is an expression between words.
func (l *layout) part(x syntax.Expr) { l.operand(x, sumRank, true) }

// is says what a name stands for.
func (l *layout) is(n *syntax.Name, x syntax.Expr) {
	l.put(l.named(n, Box{}))
	l.put(Sign("="))
	l.part(x)
}

// With is a value worked out with others replaced: T with L = 2L.
//
// What runs other expressions again has words and no sign; they are set in the text's letters.
func (l *layout) With(x *syntax.With) {
	l.part(x.X)
	for i, b := range x.By {
		if i == 0 {
			l.spoken("with")
		} else {
			l.put(Comma())
		}
		l.is(&syntax.Name{Name: b.Name, Line: b.Line}, b.X)
	}
}

// SlopeOf is slope of x(t) at t = 3 s.
func (l *layout) SlopeOf(x *syntax.SlopeOf) {
	l.spoken("slope of")
	l.part(x.X)
	l.spoken("at")
	l.is(&syntax.Name{Name: x.Var.Name}, x.Place)
}

// AreaUnder is area under F(x) from 0 m to 4 m.
//
// The name that it is against is left out where the curve shows it, as in the line.
func (l *layout) AreaUnder(x *syntax.AreaUnder) {
	l.spoken("area under")
	l.part(x.X)
	if x.Var.NameAt != (syntax.Span{}) {
		l.spoken("against")
		l.put(l.named(&syntax.Name{Name: x.Var.Name}, Box{}))
	}
	if x.All {
		return
	}
	l.spoken("from")
	l.part(x.From)
	l.spoken("to")
	l.part(x.To)
}
