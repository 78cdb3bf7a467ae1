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

// Family groups the units that a mixed quantity may be written in.
type Family uint8

// The families: d h min s, ° ′ ″, ft inch, lb oz.
const (
	FamilyNone Family = iota
	FamilyTime
	FamilyArc
	FamilyFoot
	FamilyPound
)

// Family returns the family that a unit may be mixed in, and its rank in it,
// which rises toward smaller units.
func (u *Unit) Family() (f Family, rank int) {
	switch u.text {
	case "d":
		return FamilyTime, 0
	case "h":
		return FamilyTime, 1
	case "min":
		return FamilyTime, 2
	case "s":
		return FamilyTime, 3
	case "°":
		return FamilyArc, 0
	case "′":
		return FamilyArc, 1
	case "″":
		return FamilyArc, 2
	case "ft":
		return FamilyFoot, 0
	case "inch":
		return FamilyFoot, 1
	case "lb":
		return FamilyPound, 0
	case "oz":
		return FamilyPound, 1
	}
	return FamilyNone, 0
}
