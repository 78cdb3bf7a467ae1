package draw

import (
	"math"
	"strconv"
	"strings"

	"steelyard/units/writing"
)

// ticks are the ticks of one axis: round values, a step of 1, 2 or 5 times a power
// of ten apart, and their texts with just the digits needed. Texts times 10^power
// are the values: very large and very small ones have one common power.
type ticks struct {
	at    []float64
	texts []string
	power int
}

func (s span) ticks(about int) ticks {
	about = max(1, min(about, 50))
	if s.log {
		return s.logTicks(about)
	}
	return s.ticksOf(roundStep((s.to - s.from) / float64(about)))
}

// ticksOf gives the ticks of a step.
func (s span) ticksOf(mantissa float64, power int) ticks {
	step := decimal(mantissa, power)
	first := math.Ceil(s.from/step - 1e-6)
	last := math.Floor(s.to/step + 1e-6)
	t := ticks{power: s.commonPower()}
	for k := first; k <= last && len(t.at) < 200; k++ {
		t.at = append(t.at, decimal(k*mantissa, power))
		t.texts = append(t.texts, digits(k*mantissa, power-t.power))
	}
	return t
}

// roundStep gives the least of 1, 2 and 5 times a power of ten that isn't
// below the least step, as mantissa and power.
func roundStep(least float64) (mantissa float64, power int) {
	power = int(math.Floor(math.Log10(least)))
	for ; ; power++ {
		for _, mantissa := range []float64{1, 2, 5} {
			if decimal(mantissa, power) >= least*(1-1e-9) {
				return mantissa, power
			}
		}
	}
}

// decimal gives n×10^power as the nearest floating-point number, so that 3
// steps of 0.1 are 0.3 exactly as it is typed.
func decimal(n float64, power int) float64 {
	v, _ := strconv.ParseFloat(strconv.FormatFloat(n, 'f', 0, 64)+"e"+strconv.Itoa(power), 64)
	if v == 0 {
		return 0 // never −0
	}
	return v
}

// digits writes the whole number n times 10^power without an exponent.
func digits(n float64, power int) string {
	if n == 0 {
		return "0"
	}
	text := strconv.FormatFloat(math.Abs(n), 'f', 0, 64)
	if power >= 0 {
		text += strings.Repeat("0", power)
	} else {
		if missing := 1 - power - len(text); missing > 0 {
			text = strings.Repeat("0", missing) + text
		}
		text = text[:len(text)+power] + "." + text[len(text)+power:]
	}
	if n < 0 {
		text = "−" + text
	}
	return text
}

// commonPower gives the power of ten taken out of the tick texts of a span: 0
// where the numbers are short as they are, or their ratios count, otherwise a multiple
// of 3.
//
// Engineers count in thousands, as the prefixes of units do: kJ, MJ.
func (s span) commonPower() int {
	most := math.Max(math.Abs(s.from), math.Abs(s.to))
	if s.log || most >= 0.01 && most < 1e5 {
		return 0
	}
	return 3 * int(math.Floor(math.Log10(most)*(1+1e-12)/3))
}

// powerOfTen writes 10^n with a raised exponent.
func powerOfTen(n int) string { return "10" + writing.Raised(strconv.Itoa(n)) }

// NiceRange widens [lo, hi] to round values. Where both are the same, the
// range given has that value inside it. Values that aren't finite count as 0
// for lo and 1 for hi, infinite ones as a very large number.
//
// So the ends of an axis are numbers that somebody would choose.
func NiceRange(lo, hi float64) (float64, float64) {
	lo, hi = finite(lo, 0), finite(hi, 1)
	if lo > hi {
		lo, hi = hi, lo
	}
	most := math.Max(math.Abs(lo), math.Abs(hi))
	if most < 1e-280 {
		return 0, 1
	}
	if hi-lo < 1e-9*most {
		if lo > 0 {
			return NiceRange(0, 2*lo)
		}
		return NiceRange(2*hi, 0)
	}
	mantissa, power := roundStep((hi - lo) / 8)
	step := decimal(mantissa, power)
	below := math.Floor(lo/step + 1e-6)
	above := math.Ceil(hi/step - 1e-6)
	// Rounding may leave an end short by less than the step's millionth.
	return math.Min(lo, decimal(below*mantissa, power)), math.Max(hi, decimal(above*mantissa, power))
}
