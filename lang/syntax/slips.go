package syntax

// Slips that people are known to make are looked for by rules, and a rule that
// finds one says what was probably meant. The order of a list is the precedence of
// its rules: the first that finds something speaks, and the others are not asked.
// Those within one number are rows of patterns (mistyped.go), those of one sign
// in signs.go.

// slip is a rule. It looks at one place, a token with those around it or a node of
// a tree, and answers with nil where it has nothing to say.
//
// A rule that finds nothing costs a look at a token or two. None changes the line: a slip is
// told, with what to type.
type slip[P any] struct {
	name string // for a reader of the list
	find func(p P) *fault
}

// first asks the rules of a list in order.
func first[P any](rules []slip[P], p P) *fault {
	for i := range rules {
		if bad := rules[i].find(p); bad != nil {
			return bad
		}
	}
	return nil
}

// among is a place among the tokens of a line.
type among struct {
	text   string
	tokens []token
	i      int
	known  func(string) bool // tells names of the page, or nil
}

// tokenSlips are looked for at each token.
//
// They come before the others, since what they find is none of the language: the rest of a
// line with sin 30° in it means nothing.
var tokenSlips = []slip[among]{
	{"a function as print has it: sin 30°, sin²(θ), log(x)", among.functionForm},
	{"a part of a unit beside it: 20° C, m s-1", among.besideUnit},
	{"a vector by unit vectors: 3.0 i + 4.0 j", among.unitVectors},
	{"a level: 70 dB", among.level},
}

// sideSlips are looked for where two operands stand side by side and make no
// product. The last rule always finds something.
//
// The order matters where two could speak: t½ is an index before it is a product.
var sideSlips = []slip[among]{
	{"of: 3 % of m", among.ofProduct},
	{"a number in words: half of 6 m", among.shareWord},
	{"per: 5 m per s", among.perQuotient},
	{"a remark in brackets: 5 kg (mass)", among.remarked},
	{"a point for times: 2.10^8 m/s", among.dotForTimes},
	{"a fraction as an index: t½", among.fractionIndex},
	{"a power of e: V0 e^(-t/τ)", among.exponential},
	{"a unit that goes on: 3 W/m²K", among.unitGoesOn},
	{"a point in a name: x_2.5", among.pointInName},
	{"an angle without brackets: cos30 J", among.angleBeside},
	{"a function behind letters: mgcos θ", among.functionBehind},
	{"two factors without a sign", among.sideBySide},
}

// operation is a quotient, product or power, with the reader of its line.
type operation struct {
	*reader
	*Binary
}

// treeSlips are looked for at each operator of a tree that is read: it can be
// understood in two ways.
//
// A line that has one of these is well formed, and is asked about all the same.
var treeSlips = []slip[operation]{
	{"the power of a quantity: 5 m ^2", operation.unitPower},
	{"the power of a root: √x^2", operation.rootPower},
	{"a number over a quantity: 1/2 kg", operation.numberOver},
	{"a power of 1 over a number: x^1/2", operation.onePower},
	{"an exponent that is not raised: 5*10-3 kg", operation.flatExponent},
}
