package typeset

import "steelyard/lang/syntax"

// looks finds out how closely an expression holds together, and what it begins and
// ends with. Of what has operands the edges are theirs.
//
// It is a visitor beside the layout, as these questions are asked of operands before they are
// laid out. Its answers are of the node alone, but for what edge goes on to look at.
type looks struct {
	inline bool // in an exponent or a label, where fractions would not fit
	rank   int
	edge   edge
}

func (k *looks) are(rank int, e edge) { k.rank, k.edge = rank, e }

func (k *looks) Quantity(*syntax.Quantity)   { k.are(productRank, unitEdge) }
func (k *looks) Mixed(*syntax.Mixed)         { k.are(productRank, unitEdge) }
func (k *looks) Measured(*syntax.Measured)   { k.are(productRank, unitEdge) }
func (k *looks) List(*syntax.List)           { k.are(productRank, bracketEdge) }
func (k *looks) Polar(*syntax.Polar)         { k.are(sumRank, unitEdge) }
func (k *looks) Pi(*syntax.Pi)               { k.are(atomRank, symbolEdge) }
func (k *looks) That(*syntax.That)           { k.are(atomRank, longEdge) }
func (k *looks) Paren(*syntax.Paren)         { k.are(atomRank, bracketEdge) }
func (k *looks) Unary(*syntax.Unary)         { k.are(productRank, symbolEdge) }
func (k *looks) Root(*syntax.Root)           { k.are(atomRank, symbolEdge) }
func (k *looks) With(*syntax.With)           { k.are(anyRank, bracketEdge) }
func (k *looks) SlopeOf(*syntax.SlopeOf)     { k.are(anyRank, bracketEdge) }
func (k *looks) AreaUnder(*syntax.AreaUnder) { k.are(anyRank, bracketEdge) }

func (k *looks) Number(x *syntax.Number) { k.are(numberRank(x.Value.Text), digitEdge) }

func (k *looks) Name(x *syntax.Name) {
	k.are(atomRank, symbolEdge)
	if long(x.Name) {
		k.edge = longEdge
	}
}

// A dot product among factors is bracketed like a quotient with a stroke: a·b·c of vectors
// means nothing without.
func (k *looks) Call(x *syntax.Call) {
	k.are(atomRank, symbolEdge)
	switch shape(x) {
	case asDot, asCross:
		k.rank = quotientRank
	case asWord:
		k.rank = sumRank
	}
	if shape(x) == byName && uprightName(x.Func) {
		k.edge = functionEdge
	}
}

// A quotient in a line has a lower rank than a product, one with a bar a higher: the same tree
// has other brackets in a label than on a page.
func (k *looks) Binary(x *syntax.Binary) {
	k.are(productRank, symbolEdge)
	switch {
	case x.Op == syntax.Add, x.Op == syntax.Sub:
		k.rank = sumRank
	case x.Op == syntax.Pow:
		k.rank = powerRank
	case x.Vectors:
		k.rank = quotientRank
	case x.Op == syntax.Div && k.inline:
		k.rank = quotientRank
	case x.Op == syntax.Div:
		k.rank = fractionRank
	}
}
