package units

import "slices"

// mostFactors is how many words a Product holds; no unit that anybody wants to read has
// more.
const mostFactors = 6

// Product is the product of the units that the factors of an expression are in: cm and
// cm make cm², g/cm³ and cm³ make g. The zero Product is that of pure numbers.
//
// A result is shown in the units that its givens are in where that is one word, as it would
// be on paper: 3 cm times 4 cm is 12 cm².
type Product struct {
	parts [mostFactors]part
	n     int
	of    *Unit // one of the units that were multiplied, not alone a base unit
}

// Times multiplies by a unit to a power. It reports false where there are too many words,
// or what the unit counts can't be multiplied: temperatures, turns, percent.
//
// °C has a zero of its own, so that no product of it is one of anything.
func (p *Product) Times(u *Unit, e Exp) bool {
	if u.Affine() || u.difference || u.Turns() || u != One && u.parts == nil {
		return false
	}
	if u.dim.IsOne() && u.tag == None {
		return true
	}
	if len(u.parts) > 1 {
		p.of = u
	}
	for _, f := range u.parts {
		if !p.raise(f.atom, f.signed().Mul(e)) {
			return false
		}
	}
	return true
}

// raise multiplies by a word to a power.
func (p *Product) raise(a atom, e Exp) bool {
	for i := range p.parts[:p.n] {
		if q := &p.parts[i]; q.atom == a {
			q.exp = q.exp.Add(e)
			return !q.exp.Lost()
		}
	}
	if p.n == mostFactors || e.Lost() {
		return false
	}
	p.parts[p.n] = part{atom: a, exp: e}
	p.n++
	return true
}

// Alike tells whether two products are the same unit, whatever their order.
func (p *Product) Alike(o *Product) bool {
	return p.within(o) && o.within(p)
}

// within tells whether every factor of the one is in the other with the same power. What
// cancelled stays in the list with power 0, and counts for nothing.
func (p *Product) within(o *Product) bool {
	for _, f := range p.parts[:p.n] {
		same := func(q part) bool { return q.atom == f.atom && q.exp == f.exp }
		if !f.exp.IsZero() && !slices.ContainsFunc(o.parts[:o.n], same) {
			return false
		}
	}
	return true
}

// Mul multiplies by another product to a power.
func (p *Product) Mul(o *Product, e Exp) bool {
	if o.of != nil {
		p.of = o.of
	}
	for _, f := range o.parts[:o.n] {
		if !p.raise(f.atom, f.exp.Mul(e)) {
			return false
		}
	}
	return true
}

// Unit is the unit that a result of that dimension and tag has from its factors, or nil
// where the one of the catalogue reads better: a power of one word (cm², eV), a unit that
// one of the factors is in (K/km), or another that the catalogue of quantities knows (an
// impulse in N s).
//
// On paper nobody writes a product of two words of one dimension, cm·m: what would look so is
// shown in the unit of the catalogue.
func (p *Product) Unit(d Dim, t Tag) *Unit {
	if p.of != nil && p.of.dim == d && p.of.tag == t && p.alikeUnit(p.of) {
		return p.of
	}
	if p.alikeUnit(Preferred(d, t)) {
		return nil
	}
	u := p.read(d, t)
	if u == nil || len(u.parts) == 1 {
		return u
	}
	e, _ := d.exps()
	for i := range kindTable {
		if k := &kindTable[i]; k.exps == e && k.Tag == t {
			if row := kindUnit(i); p.alikeUnit(row) {
				return row
			}
		}
	}
	return nil
}

// Per is the unit of a slope or an area from those of its axes. Nil is that of the
// catalogue: where that is one word and the axes are in units of the SI, such as N for J per
// cm but not for eV per nm, or where both axes are in units that it knows, such as m/s² for
// N per kg.
func (p *Product) Per(d Dim, t Tag) *Unit {
	if u := p.Unit(d, t); u != nil {
		return u
	}
	u, own := p.read(d, t), Preferred(d, t)
	foreign := u != nil && slices.ContainsFunc(u.parts, func(f part) bool { return f.atom.size() != pair{1, 0} })
	if u == nil || len(own.parts) == 1 && !foreign || u.size == (pair{1, 0}) {
		return nil
	}
	return u
}

// alikeUnit compares by factors and not by size: J and N m are as large as each other, and a
// reader who wrote one wants to see it.
func (p *Product) alikeUnit(u *Unit) bool {
	var o Product
	return o.Times(u, whole(1)) && p.Alike(&o)
}

// read is the product as a unit, or nil where it is none that is written: of two words of
// one dimension, with a root, with a part of a unit below the solidus (m/ms, N/cm), of
// angles and more.
//
// What cancelled is left out, and what is below has its exponent turned round, as the parts of
// a unit have.
func (p *Product) read(d Dim, t Tag) *Unit {
	var up, down []part
	for i, f := range p.parts[:p.n] {
		if f.exp.IsZero() {
			continue
		}
		for _, g := range p.parts[:i] {
			if !g.exp.IsZero() && g.atom.dim() == f.atom.dim() {
				return nil
			}
		}
		switch {
		case !f.exp.IsInt():
			return nil
		case f.exp.num > 0:
			up = append(up, f)
		case f.atom.tens < 0:
			return nil
		default:
			down = append(down, part{f.atom, f.exp.Neg(), true})
		}
	}
	if up == nil {
		return nil
	}
	u := build(append(up, down...))
	if u == nil || u.dim != d || u.tag != t || t != None && (len(u.parts) > 1 || u.parts[0].exp != whole(1)) {
		return nil
	}
	return u
}
