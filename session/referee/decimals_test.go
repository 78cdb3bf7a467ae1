package referee

import (
	"fmt"
	"math/big"
	"math/rand/v2"
)

// dice throw the numbers of a page.
type dice struct{ *rand.Rand }

// decimal is a number as people write it, with its exact value.
type decimal struct{ *big.Rat }

// decimal throws a number of a few figures between two whole numbers.
func (d dice) decimal(lo, hi int64, places int) decimal {
	ten := int64(1)
	for range places {
		ten *= 10
	}
	return decimal{big.NewRat(lo*ten+1+d.Int64N((hi-lo)*ten-1), ten)}
}

// few throws a number above 0 of one to three figures.
func (d dice) few() decimal { return d.decimal(0, [...]int64{9, 20, 99}[d.IntN(3)], d.IntN(3)+0) }

// signed throws one that may be negative.
func (d dice) signed() decimal {
	x := d.few()
	if d.IntN(2) == 0 {
		return x.neg()
	}
	return x
}

func pick[T any](d dice, list ...T) T { return list[d.IntN(len(list))] }

func dec(num, den int64) decimal { return decimal{big.NewRat(num, den)} }

func (a decimal) add(b decimal) decimal { return decimal{new(big.Rat).Add(a.Rat, b.Rat)} }
func (a decimal) sub(b decimal) decimal { return decimal{new(big.Rat).Sub(a.Rat, b.Rat)} }
func (a decimal) mul(b decimal) decimal { return decimal{new(big.Rat).Mul(a.Rat, b.Rat)} }
func (a decimal) div(b decimal) decimal { return decimal{new(big.Rat).Quo(a.Rat, b.Rat)} }
func (a decimal) neg() decimal          { return decimal{new(big.Rat).Neg(a.Rat)} }
func (a decimal) between() between      { return exactly(a.Rat) }

// String writes the number out; every one that is written has an end.
func (a decimal) String() string {
	n, exact := a.FloatPrec()
	if !exact {
		panic(fmt.Sprintf("%s has no end as a decimal", a.RatString()))
	}
	return a.FloatString(n)
}

// lengths are units of length with their size in m.
var lengths = []struct {
	text string
	size decimal
}{{"m", dec(1, 1)}, {"cm", dec(1, 100)}, {"mm", dec(1, 1000)}, {"km", dec(1000, 1)}, {"inch", dec(254, 10000)}}

// distinct leaves out what is there twice, of roots in rising order.
func distinct(all []between) []between {
	var out []between
	for _, x := range all {
		if len(out) == 0 || !out[len(out)-1].meets(x) {
			out = append(out, x)
		}
	}
	return out
}

func ordered(all ...between) []between {
	for i := range all {
		for k := i; k > 0 && all[k].lo.Cmp(all[k-1].lo) < 0; k-- {
			all[k], all[k-1] = all[k-1], all[k]
		}
	}
	return distinct(all)
}
