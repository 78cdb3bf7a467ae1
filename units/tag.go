package units

// Tag tells two kinds of pure number, and rates of them, from all others.
type Tag uint8

const (
	// None is the tag of all that is neither of the others.
	None Tag = iota
	// Angle is the tag of what is written in rad, °, ′, ″, gon, rev or rpm.
	Angle
	// Cycle is the tag of what is written in Hz.
	Cycle
)

// Place tells where the text of a unit stands.
type Place uint8

const (
	// AfterNumber is the place of a unit behind a written number.
	AfterNumber Place = iota
	// AloneInPlace is a place where nothing but a unit can stand: after `in`,
	// in headings, in students' answers. There `*`, blanks round operators, a
	// leading 1/ and `per` are read too.
	AloneInPlace
)
