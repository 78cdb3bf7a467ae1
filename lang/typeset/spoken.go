package typeset

import "steelyard/lang/syntax"

// spoken adds a word of the language with room on both sides.
func spoken(to []Box, text string) []Box {
	if len(to) > 0 {
		to = append(to, Box{kind: gap})
	}
	return append(to, Box{kind: word, text: text}, Box{kind: gap})
}

// with is a value worked out with others replaced: T with L = 2L.
func (l layout) with(to []Box, x *syntax.With) []Box {
	to = l.operand(to, x.X, sumRank, true)
	for i, b := range x.By {
		if i == 0 {
			to = spoken(to, "with")
		} else {
			to = append(to, Comma())
		}
		to = append(to, named(b.Name, Box{}), Sign("="))
		to = l.operand(to, b.X, sumRank, true)
	}
	return to
}

// slope is slope of x(t) at t = 3 s.
func (l layout) slope(to []Box, x *syntax.SlopeOf) []Box {
	to = l.operand(spoken(to, "slope of"), x.X, sumRank, true)
	to = append(spoken(to, "at"), named(x.Var.Name, Box{}), Sign("="))
	return l.operand(to, x.Place, sumRank, true)
}

// area is area under F(x) from 0 m to 4 m.
func (l layout) area(to []Box, x *syntax.AreaUnder) []Box {
	to = l.operand(spoken(to, "area under"), x.X, sumRank, true)
	if x.Var.NameAt != (syntax.Span{}) {
		to = append(spoken(to, "against"), named(x.Var.Name, Box{}))
	}
	to = l.operand(spoken(to, "from"), x.From, sumRank, true)
	return l.operand(spoken(to, "to"), x.To, sumRank, true)
}
