package units

import (
	"math"
	"math/big"
	"slices"
	"strings"

	"steelyard/units/writing"
)

// Unit is what a quantity is measured in. It never changes once made.
// Its size is kept to twice the digits of a float64, so that a number in the unit is
// rounded once on its way to SI and not at every factor; its parts are kept for how it
// is written and for the exact factor. Both texts are made with the unit, since one is
// written far more often than made.
type Unit struct {
	dim        Dim
	tag        Tag
	size       pair    // in coherent SI units, π included
	many       float64 // how many are one coherent SI unit, where that is a whole number: 100 of cm; else 0
	scale      *row    // the temperature scale it is, standing alone, or nil
	difference bool
	text       string
	screen     string
	parts      []part
	loose      bool
}

// Turns tells whether the unit counts turns: rev, rev/min, rpm.
func (u *Unit) Turns() bool {
	return u.tag == Angle && slices.ContainsFunc(u.parts, func(p part) bool {
		return p.atom.row != nil && (p.atom.row.symbol == "rev" || p.atom.row.symbol == "rpm")
	})
}

// TurnPower is the power of the turns that the unit counts: 1 of rpm and of rev/s, -1
// of 1/rev, 0 of one that counts none.
// Its tag would not do: rad/s is tagged as an angle too, and counts no turns.
func (u *Unit) TurnPower() (n float64) {
	for _, p := range u.parts {
		if p.atom.row != nil && (p.atom.row.symbol == "rev" || p.atom.row.symbol == "rpm") {
			n += p.signed().Float()
		}
	}
	return n
}

// Loose tells that the text was not written as units are, though it can mean but
// this one: Nm, m/s2, J/kg/K, hr.
func (u *Unit) Loose() bool { return u.loose }

// One is the unit of pure numbers.
var One = &Unit{size: pair{1, 0}, text: "1", screen: "1"}

// part is one factor of a unit, with its exponent as it is written.
// It keeps the side of the solidus on which it stands, so that J/(kg K) is written as it
// was typed and does not come back as J kg^-1 K^-1.
type part struct {
	atom atom
	exp  Exp
	den  bool // right of the solidus
}

// atom is one word of a unit.
type atom struct {
	row  *row
	own  *Unit // a worksheet's own unit, instead of row
	text string
	tens int8 // SI prefix, as a power of ten
	kibi int8 // binary prefix, as a power of 1024
}

// dim is that of the word; a prefix has none.
func (a atom) dim() Dim {
	if a.own != nil {
		return a.own.dim
	}
	return a.row.exps.dim()
}

func (a atom) tag() Tag {
	if a.own != nil {
		return a.own.tag
	}
	return a.row.tag()
}

// size is the size in SI units without the prefix.
//
// π is kept apart in the table, and comes in here once, to twice the digits of a float.
func (a atom) size() pair {
	if a.own != nil {
		return a.own.size
	}
	p := pairOf(a.row.factorText())
	if a.row.pi != 0 {
		p = p.mul(pi.pow(int(a.row.pi)))
	}
	if a.kibi != 0 {
		p = p.mul(pair{1024, 0}.pow(int(a.kibi)))
	}
	return p
}

// mark tells whether the word is a sign that ends a product: ° ′ ″ %.
func (a atom) mark() bool { return isMarkText(a.text) }

// isMarkText tells whether a text is such a sign: no letter is in it, so that nothing else in a
// unit is like it.
func isMarkText(s string) bool {
	return s == "°" || s == "′" || s == "″" || s == "%"
}

// signed is the exponent with the solidus taken into account.
func (p part) signed() Exp {
	if p.den {
		return p.exp.Neg()
	}
	return p.exp
}

// build puts the parts of a unit together; nil where an exponent or the size is out of
// range.
// The powers of ten of prefixes are added up and taken once: cm^2 is exactly 1e-4, where
// 0.01 times 0.01 would be rounded twice.
func build(parts []part) *Unit {
	parts = ordered(slices.DeleteFunc(parts, func(p part) bool { return p.exp.IsZero() }))
	if len(parts) == 0 {
		return One
	}
	u := &Unit{parts: parts, size: pair{1, 0}}
	tens := 0
	var tags tags
	for _, p := range parts {
		e := p.signed()
		if u.dim = u.dim.Mul(p.atom.dim().Pow(e)); u.dim.Lost() {
			return nil
		}
		size := p.atom.size()
		if e.IsInt() {
			tens += int(p.atom.tens) * e.Num() // taken together they stay exact
		} else {
			size = size.timesTen(int(p.atom.tens))
		}
		if size != (pair{1, 0}) {
			u.size = u.size.mul(size.power(e))
		}
		tags.add(p)
	}
	u.tag = tags.of(u.dim)
	u.size = u.size.timesTen(tens)
	if many := math.Round(1 / u.size.hi); (pair{many, 0}).mul(u.size) == (pair{1, 0}) {
		u.many = many
	}
	// Near the ends of the range a number in the unit would soon be none, and neither would
	// the size of the unit's inverse.
	if !(u.size.hi > 1e-290 && u.size.hi < 1e290) {
		return nil
	}
	if one := parts[0]; len(parts) == 1 && one.signed() == whole(1) && one.atom.row != nil {
		u.difference = one.atom.row.has(isDifference)
		if one.atom.row.offset != "" {
			u.scale = one.atom.row
		}
	}
	u.text, u.screen = written(parts, File), written(parts, Screen)
	return u
}

// Dim returns the dimension.
func (u *Unit) Dim() Dim { return u.dim }

// Tag returns the tag: Angle for rad, rad/s, rev/min …, Cycle for Hz, PerAngle for
// N m.
func (u *Unit) Tag() Tag { return u.tag }

// Affine tells whether the unit is a temperature scale standing alone: a
// number in it is a temperature, not a difference.
func (u *Unit) Affine() bool { return u.scale != nil }

// OfDifference is the unit of the difference of two values in a unit: K of °C, and else the
// unit itself.
//
// 25 °C and 20 °C are 5 K apart; 5 °C would be a temperature again (SI Brochure 9, 2.3.1).
func (u *Unit) OfDifference() *Unit {
	if u.Affine() {
		return Preferred(u.Dim(), None)
	}
	return u
}

// Difference tells whether the unit is Δ°C or Δ°F alone.
func (u *Unit) Difference() bool { return u.difference }

// Text returns the unit as it can be typed: "N m", "m/s^2". The unit of pure
// numbers is "1".
func (u *Unit) Text() string { return u.text }

// Screen returns the unit as it is printed: "N·m", "m/s²".
func (u *Unit) Screen() string { return u.screen }

// SameAs tells whether two units are written alike.
func (u *Unit) SameAs(o *Unit) bool { return u == o || u.text == o.text }

// Factor returns the size of the unit in coherent SI units as an exact
// rational, to be multiplied by π to the power PiPower. Where a fractional
// exponent leaves an irrational size, it is within 1e-30 of it.
func (u *Unit) Factor() *big.Rat {
	r, _ := u.exact()
	return r
}

// PiPower returns the power of π in the size of the unit.
func (u *Unit) PiPower() int {
	_, n := u.exact()
	return n
}

// exact is the size as a fraction, and the power of π that it is multiplied by.
func (u *Unit) exact() (*big.Rat, int) {
	out := big.NewRat(1, 1)
	if u.parts == nil {
		if u != One && u.size != (pair{1, 0}) {
			out = ratOfPair(u.size)
		}
		return out, 0
	}
	power := 0
	for _, p := range u.parts {
		r, n := p.exact()
		out.Mul(out, r)
		power += n
	}
	return out, power
}

// exact is the same of one word. A power with a root in it is no fraction, and is taken from
// the size, with all digits that it has.
func (p part) exact() (*big.Rat, int) {
	e := p.signed()
	if !e.IsInt() {
		return ratOfPair(p.atom.size().timesTen(int(p.atom.tens)).power(e)), 0
	}
	if p.atom.own != nil {
		return ratPower(p.atom.own.Factor(), e.Num()), 0
	}
	base := ratOf(p.atom.row.factorText())
	base.Mul(base, ratPower(big.NewRat(1024, 1), int(p.atom.kibi)))
	base.Mul(base, ratPower(big.NewRat(10, 1), int(p.atom.tens)))
	return ratPower(base, e.Num()), int(p.atom.row.pi) * e.Num()
}

func ratOfPair(p pair) *big.Rat {
	r, lo := new(big.Rat), new(big.Rat)
	if r.SetFloat64(p.hi) == nil || lo.SetFloat64(p.lo) == nil {
		return new(big.Rat)
	}
	return r.Add(r, lo)
}

func ratPower(r *big.Rat, n int) *big.Rat {
	if n < 0 {
		if r.Sign() == 0 {
			return new(big.Rat)
		}
		r, n = new(big.Rat).Inv(r), -n
	}
	e := big.NewInt(int64(n))
	num := new(big.Int).Exp(r.Num(), e, nil)
	den := new(big.Int).Exp(r.Denom(), e, nil)
	return new(big.Rat).SetFrac(num, den)
}

// ordered puts a sign such as ° behind the words beside it, writes what has
// negative powers only under a solidus, and keeps apart what could be taken
// for a metre per second.
//
// A sign ends a product, since a letter behind ° would be read as its scale.
//
// Four passes keep the order in which the words were written within each group: words, signs,
// words under the solidus, signs under it. Units are short, and sorting would need the place of
// each.
func ordered(parts []part) []part {
	inverse, moves := true, false
	for i, p := range parts {
		inverse = inverse && (p.den || p.exp.num < 0)
		moves = moves || p.atom.mark() && i < len(parts)-1 || p.metreSecond()
	}
	if !inverse && !moves {
		return parts
	}
	out := make([]part, 0, len(parts))
	for pass := range 4 {
		for _, p := range parts {
			if !p.den && (inverse || p.metreSecond()) || p.den && inverse && p.exp.num < 0 {
				p.den, p.exp = !p.den, p.exp.Neg()
			}
			place := 0
			if p.den {
				place = 2
			}
			if p.atom.mark() {
				place++
			}
			if place == pass {
				// What has moved under the solidus may stand there already.
				out = together(out, p)
			}
		}
	}
	return out
}

// metreSecond tells whether the part reads ms^-1, which is refused as it may
// be meant as metres per second.
func (p part) metreSecond() bool {
	return !p.den && p.exp.num < 0 && p.atom.text == "ms"
}

// written renders the parts of a unit.
//
// On a screen and in print words are joined by a dot, in a file by a blank, which can be typed
// (SI Brochure 9, 5.2, has both). What stands under the solidus is in brackets where it is
// several: J/(kg K).
func written(parts []part, form Form) string {
	blank := " "
	if form != File {
		blank = "·"
	}
	var num, den strings.Builder
	count := 0
	for _, p := range parts {
		b := &num
		if p.den {
			b = &den
			count++
		}
		if b.Len() > 0 {
			b.WriteString(blank)
		}
		b.WriteString(p.atom.text)
		b.WriteString(powerText(p.exp, form))
	}
	if count == 0 {
		return num.String()
	}
	top := num.String()
	if top == "" {
		top = "1"
	}
	// J/(kg K) needs its bracket, since J/kg K has two meanings.
	if count == 1 {
		return top + "/" + den.String()
	}
	return top + "/(" + den.String() + ")"
}

// Behind writes a unit as it stands behind a number, where a leading 1/ can't be
// read: s^-1 for 1/s. The unit of pure numbers is nothing there.
// A number with 1/s behind it would be read as a quotient: 5 1/s is two numbers.
func (u *Unit) Behind(form Form) string {
	if u == One || u.text == "1" {
		return ""
	}
	if len(u.parts) == 0 || !u.parts[0].den {
		if form != File {
			return u.screen
		}
		return u.text
	}
	turned := make([]part, len(u.parts))
	for i, p := range u.parts {
		p.den, p.exp = false, p.exp.Neg()
		if form == File && p.metreSecond() {
			p.atom.text = "millisecond"
		}
		turned[i] = p
	}
	return written(turned, form)
}

// powerText writes an exponent.
func powerText(e Exp, form Form) string {
	if form == File || !e.IsInt() {
		return exponentText(e)
	}
	if e == whole(1) {
		return ""
	}
	return writing.Raised(e.String())
}
