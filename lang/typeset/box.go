package typeset

import (
	"strconv"
	"strings"
)

// Box is a piece of mathematics laid out: what stands beside, over, above and
// below what, and what kind of thing each sign is. It says nothing of how that is
// written down: all writers write the same box. The zero Box is empty.
//
// 1/2*m*v^2 is a row of a fraction, an m and a v with a 2 above it, wherever it is shown: a
// page has it as MathML or LaTeX, a drawing on one line, a screen as ½·m·v² in characters. What
// a writer can't show it writes otherwise, and the box stays as it is.
//
// A box also knows how it was typed, where that is not what is seen: a name with an index, a
// function with a sign of its own. Text that goes back to the screen can then be typed again.
type Box struct {
	kind  kind
	tall  bool // has a fraction or a root in it, higher than a line
	text  string
	parts []Box
}

// kind is what a box is. The writers give each kind its looks.
//
// What a screen reader or a browser must know of a sign, that it is between operands, before
// one, or of a relation, is in its kind: from the text alone a minus could be either.
type kind uint8

const (
	nothing kind = iota

	// What holds other boxes.
	row      // parts side by side; of a name, the text is how it is typed
	group    // parts that belong to the row they stand in, as a number and its unit do; the text is how they are typed, unless it is empty
	choice   // pairs of parts, each a value and when it holds, one under the other
	fence    // parts between the brackets of the text: "()", "[]" or "||"
	fraction // parts[0] over parts[1]
	root     // of parts[0]; parts[1] is its degree, or empty for the square root; the text is the function that it was typed as

	// Of a name, the text is how it is typed.
	withBelow // parts[0] with parts[1] below
	withAbove // parts[0] with parts[1] above
	withBoth  // parts[0] with parts[1] below and parts[2] above

	arrowed // parts[0], the letter of a vector, with an arrow over it

	// Letters and digits.
	symbol   // a letter in italics, or a long name as one word in italics
	word     // a word upright: an index, "that"
	upright  // a unit or a mark, which may have Greek letters
	operator // a function that mathematics has a fixed name for: sin
	function // the long name of another function
	digits   // a number without sign and power
	primes   // one or more strokes after a name

	// Signs, by the room round them.
	infix     // between two operands
	continued // between two operands, where a line may begin with it
	prefix    // before its operand
	relation  // between two sides
	comma     // between arguments or readings
	close     // close to what is beside it: the signs in a unit, commas in an index
	loose     // a bracket that has no partner
	dot       // a product of what would run into each other; the text is the sign that was typed, or none
	times     // a product without a sign, unless the text has one that was typed

	// Nothing to see.
	apply // between a function and its argument
	hair  // before the name of a function
	thin  // between a number and its unit (SI Brochure, 5.4.3)
	gap   // between the parts of 13 h 4 min 58 s
)

// IsEmpty tells whether there is nothing to see.
func (b Box) IsEmpty() bool { return b.kind == nothing }

// scripts are what stands below and above a box, nothing where there is nothing.
//
// Both are there for every box, so that a writer asks once and writes what is not empty.
func (b *Box) scripts() (below, above *Box) {
	switch b.kind {
	case withBelow:
		return &b.parts[1], &none
	case withAbove:
		return &none, &b.parts[1]
	case withBoth:
		return &b.parts[1], &b.parts[2]
	}
	return &none, &none
}

// The kinds with scripts stand together in the list, which this counts on.
func (b *Box) hasScript() bool { return b.kind >= withBelow && b.kind <= withBoth }

// none is what is not there.
var none Box

// Row puts boxes side by side.
func Row(parts ...Box) Box { return holding(row, "", parts) }

// Root is the root of a box, of a degree from 2 on.
//
// The radical sign alone is the square root; the cube root has its 3.
func Root(x Box, degree int) Box {
	if degree == 2 {
		return holding(root, "", []Box{x, {}})
	}
	return holding(root, "", []Box{x, {kind: digits, text: strconv.Itoa(degree)}})
}

// Case is one value of several, with when it holds.
//
// The words for and otherwise are the writer's.
type Case struct{ Value, When Box }

// Cases are values one under the other, behind a brace.
//
// A function by intervals is shown so. Its brace makes it tall, so that brackets round it grow.
func Cases(all []Case) Box {
	var parts []Box
	for _, c := range all {
		parts = append(parts, c.Value, c.When)
	}
	b := holding(choice, "", parts)
	b.tall = true
	return b
}

// Comma stands between boxes of a list.
func Comma() Box { return Box{kind: comma, text: ","} }

// Sign is a sign between two sides, such as =, <, ≤, ≈ or ⇒.
//
// The room round a relation is the writer's, and not a part of the sign.
func Sign(sign string) Box { return Box{kind: relation, text: strings.TrimSpace(sign)} }

// Relation joins two boxes by a sign between them. Either may be empty.
//
// A line of a working is one: its left side may be empty, as below the first.
func Relation(left Box, sign string, right Box) Box { return Row(left, Sign(sign), right) }

// What is tall decides whether brackets grow; it is found once, when the box is made, as every
// writer asks for it.
func holding(k kind, text string, parts []Box) Box {
	b := Box{kind: k, text: text, parts: parts, tall: k == fraction || k == root}
	for i := range parts {
		b.tall = b.tall || parts[i].tall
	}
	return b
}
