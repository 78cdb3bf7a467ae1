package units

import (
	"math"
	"math/big"
)

// ToSI returns a number in this unit as a value in coherent SI units, rounded
// once. On a temperature scale its offset is added.
func (u *Unit) ToSI(d Decimal) float64 {
	v := pair{d.Hi, d.Lo}
	if u.scale == nil {
		return v.mul(u.size).float()
	}
	return shifted(v.mul(u.size), pairOf(u.scale.offset), func() *big.Rat {
		return u.exactSI(d)
	})
}

// ToSIFloat is ToSI for a number that is a float64.
func (u *Unit) ToSIFloat(v float64) float64 {
	p := pair{v, 0}.mul(u.size)
	if u.scale != nil {
		p = p.add(pairOf(u.scale.offset))
	}
	return p.float()
}

// FromSI returns a value in coherent SI units as a number in this unit,
// rounded once. On a temperature scale the result is a number of at most ten
// decimals where one is within the last place of the value, so that a
// temperature that went through kelvins comes back as it was.
func (u *Unit) FromSI(v float64) float64 {
	if u.scale == nil {
		return u.FromSIDifference(v)
	}
	x := pair{v, 0}.add(pairOf(u.scale.offset).neg()).div(u.size).float()
	const grid = 1e10
	near := math.Round(x*grid) / grid
	lastPlace := math.Nextafter(math.Abs(v), math.Inf(1)) - math.Abs(v)
	if math.Abs(x) < 1e5 && math.Abs(near-x) <= 0.75*lastPlace/u.size.hi {
		return near
	}
	return x
}

// FromSIDifference returns a difference in coherent SI units as a number in
// this unit; the offset of a temperature scale does not count.
// A rise of 5 °C is one of 5 K, though 5 °C is 278.15 K.
func (u *Unit) FromSIDifference(v float64) float64 {
	switch {
	case u.size.lo == 0: // rounded once, as is the product
		return v / u.size.hi
	case u.many != 0:
		return v * u.many
	}
	return pair{v, 0}.div(u.size).float()
}

// Convert returns a number in this unit as a number in another unit of the
// same dimension. It is within one unit in the last place of the exact result.
func (u *Unit) Convert(d Decimal, to *Unit) float64 {
	if u.SameAs(to) {
		return d.Float()
	}
	v := pair{d.Hi, d.Lo}
	if u.scale == nil && to.scale == nil {
		return v.mul(u.size.div(to.size)).float()
	}
	si := v.mul(u.size)
	var offset pair
	if u.scale != nil {
		offset = pairOf(u.scale.offset)
	}
	if to.scale != nil {
		offset = offset.add(pairOf(to.scale.offset).neg())
	}
	size := to.size
	return shifted(si.div(size), offset.div(size), func() *big.Rat {
		r := u.exactSI(d)
		if to.scale != nil {
			r.Sub(r, ratOf(to.scale.offset))
		}
		return r.Quo(r, to.Factor())
	})
}

// exactSI is the value of a number in this unit in SI units, exactly.
func (u *Unit) exactSI(d Decimal) *big.Rat {
	r := d.Rat()
	r.Mul(r, u.Factor())
	if u.scale != nil {
		r.Add(r, ratOf(u.scale.offset))
	}
	return r
}

// shifted adds an offset. Where nearly all digits cancel, the sum is worked
// out exactly instead.
// Near 0 °C, what is left of 273.15 K less 273.15 K is mostly rounding; exactly it is what
// was meant.
func shifted(x, offset pair, exact func() *big.Rat) float64 {
	sum := x.add(offset)
	if math.Abs(sum.hi) > 1e-9*math.Abs(x.hi) {
		return sum.float()
	}
	v, _ := exact().Float64()
	return v
}
