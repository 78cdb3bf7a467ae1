package units

// Tag says what a dimension leaves open of a quantity: whether it counts cycles,
// or else how often an angle is a factor of it. The radian is the number 1 (SI
// Brochure 9, table 4), and so no dimension shows it; yet rad/s is no Hz, and a
// torque no energy.
//
// The energies have one dimension with the torques. There None is an energy, in J;
// PerAngle a torque, in N m, which is J/rad (SI Brochure 9, 2.3.4); and
// PerSquareAngle a torque per angle, in N m/rad.
//
// Of other dimensions a tag is no claim but a memory: the arc r*θ is a length, and
// divided by a radius it is an angle again.
type Tag int8

// The tags that have names. Other powers of an angle, such as that of ω^2, are
// between them.
const (
	// PerSquareAngle is the tag of what is written in N m/rad.
	PerSquareAngle Tag = iota - 2
	// PerAngle is the tag of what is written in rad^-1 or N m.
	PerAngle
	// None is the tag of all that speaks neither of angles nor of cycles.
	None
	// Angle is the tag of what is written in rad, °, ′, ″, gon, rev or rpm.
	Angle

	// mostAngles is the greatest power of an angle that is kept.
	mostAngles = 6
	// Cycle is the tag of what is written in Hz.
	Cycle Tag = mostAngles + 1
)

// Clashes tells whether one of two tags speaks of angles and the other of cycles,
// which differ by 2π.
func (t Tag) Clashes(o Tag) bool { return t == Cycle && o == Angle || t == Angle && o == Cycle }

// The dimensions that speak of angles, as exponents.
var (
	inertia    = exps{1, 2}
	energy     = exps{1, 2, -2}
	power      = exps{1, 2, -3}
	reciprocal = exps{0, -1} // rad/m
)

// timed is a dimension without its time.
func (e exps) timed() exps {
	e[Second] = 0
	return e
}

// turning tells whether a dimension is that of an angle, of a rate of one, of the
// time for one, or of rad/m: a tag says then in what the quantity is shown.
func (e exps) turning() bool { return e.timed() == exps{} || e == reciprocal }

// spinning tells whether a dimension is that of a moment of inertia, an angular
// momentum, an energy or a power.
func (e exps) spinning() bool { return e.timed() == inertia && e[Second] <= 0 }

// IsEnergy tells whether a dimension is that of an energy, and so of a torque.
func (d Dim) IsEnergy() bool {
	e, ok := d.exps()
	return ok && e == energy
}

// tagged is a factor of a product: its exponents and its tag.
type tagged struct {
	exps exps
	tag  Tag
}

// remembers tells whether the tag is a memory, and no claim.
func (f tagged) remembers() bool { return f.tag != None && !f.exps.turning() && !f.exps.spinning() }

// beside is the power of an angle in a factor beside another one. Where one has a tag:
//
//   - a moment of inertia is per angle squared, though kg m^2 doesn't say so: I*α is a
//     torque, τ/I an angular acceleration, 1/2*I*ω^2 an energy;
//   - a torque over a force or a product of a force and an arm is no more per angle than
//     they are; over a power it is, for a power is a torque times an angular velocity.
func (f tagged) beside(o tagged) Tag {
	switch {
	case f.tag == None && f.exps == inertia:
		return PerSquareAngle
	case f.exps == energy && f.tag < None && o.tag == None && o.exps != inertia && o.exps != power && o.exps.timed() != exps{}:
		return f.tag + 1
	}
	return f.tag
}

// ProductTag is the tag of a product, or of a quotient if over, of two quantities
// of which the dimensions and tags are known. Powers of an angle add up: a torque
// times an angle is an energy, a power over an angular velocity is a torque, and a
// number over an angle is per angle. Two tags of which one is of cycles drop both, and
// cycles are kept in a power of time alone: the speed v = f*λ over a radius is in rad/s.
//
// A tag is what a dimension can't say: that a number is an angle, or a rate is of cycles. It
// goes through products by the powers of the radian, as if that were a base unit, up to a few
// of them.
func ProductTag(a Dim, ta Tag, b Dim, tb Tag, over bool) Tag {
	switch {
	case ta == None && tb == None, (ta == Cycle || tb == Cycle) && ta != None && tb != None:
		return None
	}
	ea, ok := a.exps()
	eb, fine := b.exps()
	if !ok || !fine {
		return None
	}
	x, y := tagged{ea, ta}, tagged{eb, tb}
	t, u := x.beside(y), y.beside(x)
	of := ea
	for i, e := range eb {
		if over {
			e = -e
		}
		of[i] += e
	}
	if ta == Cycle || tb == Cycle {
		if of.timed() == (exps{}) {
			return Cycle
		}
		return None
	}
	if over {
		u = -u
	}
	if t += u; t > mostAngles || t < -mostAngles {
		return None
	}
	if x.remembers() || y.remembers() {
		return recalled(x, y, over, of, t)
	}
	return claimed(of, t)
}

// claimed is a tag as far as quantities of a dimension have it.
func claimed(of exps, t Tag) Tag {
	switch {
	case of == energy && t > None: // J times rad, or a force times an arc
		return None
	case of == inertia && t == PerSquareAngle: // it is so by nature
		return None
	case t < None && !of.turning() && !of.spinning(): // the radius v/ω is a length
		return None
	}
	return t
}

// recalled is the tag of a product of which a factor remembers one. Only an arc over
// a radius is an angle again; a speed over a speed is a number. Neither a radius nor
// a mass makes a torque of an energy.
func recalled(x, y tagged, over bool, of exps, t Tag) Tag {
	carrier := x
	if x.tag == None {
		carrier = y
	}
	both := x.tag != None && y.tag != None
	switch {
	case of.spinning(), t < None:
		return None
	case !of.turning():
		return t
	case both, over && x.tag == None, of[Second] > 0, of == exps{} && carrier.exps != exps{0, 1}:
		return None
	}
	return t
}

// SumTag is the tag of a sum of two quantities of a dimension: a number beside an
// angle is one in radians, and what has no tag goes with what has one, but for what is
// per angle, to which no number can be added.
func SumTag(d Dim, a, b Tag) Tag {
	switch {
	case a == b:
		return a
	case a == None && (b > None || d.IsEnergy()):
		return b
	case b == None && (a > None || d.IsEnergy()):
		return a
	case a == Angle || b == Angle:
		return Angle
	}
	return None
}

// Pow is the tag of a power: √(rad^2) is rad. A power drops what counts cycles, and
// what is no whole power of an angle.
func (t Tag) Pow(e Exp) Tag {
	if e == whole(1) {
		return t
	}
	n := int(t) * e.Num()
	if t == Cycle || n%e.Den() != 0 || abs(n/e.Den()) > mostAngles {
		return None
	}
	return Tag(n / e.Den())
}

// In is the tag of a value that is reported in a unit: what the unit says, unless the
// value says more.
func (t Tag) In(u *Unit) Tag {
	if t == None || u.dim.IsEnergy() {
		return u.tag
	}
	return t
}

// tags gathers what the words of a unit say of angles and cycles.
type tags struct {
	angles, cycles int
	torque, broken bool
}

// add counts the angles of one word, with its power: rad/s^2 has one. Cycles are counted
// without a sign, since a unit either has them or has none. A newton above the solidus is what
// makes a unit of the dimension of an energy one of a torque.
func (s *tags) add(p part) {
	e, t := p.signed(), p.atom.tag()
	switch {
	case t == Cycle:
		s.cycles += abs(e.Num())
	case t != None:
		s.angles += int(t) * e.Num()
	case p.atom.row != nil && !p.den:
		s.torque = s.torque || p.atom.row.symbol == "N" || p.atom.row.symbol == "lbf"
	}
	s.broken = s.broken || t != None && !e.IsInt()
}

// of is the tag of the unit, of which the dimension is known. What has that of an
// energy and is written as a force times a length is a torque.
func (s *tags) of(d Dim) Tag {
	e, ok := d.exps()
	switch {
	case s.broken || !ok || abs(s.angles) > mostAngles || s.cycles > 1 || s.cycles == 1 && s.angles != 0:
		return None
	case s.cycles == 1:
		return Cycle
	case s.torque && e == energy:
		s.angles--
	}
	return claimed(e, Tag(s.angles))
}

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
