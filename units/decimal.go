package units

import (
	"math"
	"math/big"
	"strconv"
	"strings"
)

// maxDigits is the most digits that one written number may have.
const maxDigits = 400

// Decimal is a number as it was written: the text, its value as a
// double-double, and how many figures were written.
// A float64 alone would not do. The page shows what was written, 0.080 and not 0.08; its
// figures say how a result is to be rounded; and 0.1 cm, of which neither 0.1 nor 0.01
// has a float64, must come out as the nearest one to 0.001 m.
type Decimal struct {
	// Text is plain ASCII: "0.080", "3.2e5", "-5".
	Text string
	// Hi is the nearest float64 and Lo what it lacks.
	Hi, Lo float64
	// Figures counts the significant figures written, trailing zeros included.
	Figures int32
	// LastPlace is the power of ten of the last digit written: 257 has 0,
	// 0.080 has -3, 3.2e5 has 4.
	LastPlace int32
	// Off is how far the number may be off, as it was written; nil if that was not.
	Off *Spread
}

// Spread is what was written behind ±: a standard uncertainty, or half the width of what
// is spread evenly or as a triangle.
type Spread struct {
	Text  string // plain ASCII: "0.002"
	Width float64
	Shape SpreadShape
}

// SpreadShape is how values are spread.
//
// What is known of an instrument is often the width of an interval alone; how values lie in it
// says how much of the width is the standard uncertainty.
type SpreadShape uint8

// The shapes.
const (
	Normal     SpreadShape = iota // Width is the standard uncertainty
	Uniform                       // evenly over twice Width
	Triangular                    // over twice Width, most in the middle
)

// String is the word that is written behind the unit; none for Normal.
func (s SpreadShape) String() string { return [...]string{"", "uniform", "triangular"}[s] }

// Standard is the standard uncertainty (JCGM 100:2008, 4.3.7 and 4.3.9).
func (s *Spread) Standard() float64 {
	return s.Width / [...]float64{Normal: 1, Uniform: math.Sqrt(3), Triangular: math.Sqrt(6)}[s.Shape]
}

// Written is the number with what was written behind ±.
func (d Decimal) Written() string {
	if d.Off == nil {
		return d.Text
	}
	return d.Text + " ± " + d.Off.Text
}

// ParseDecimal reads "[-]digits[.digits][e[+-]digits]", and "100.". It reports false for
// any other text, for more than 400 digits, and for a number that a float64
// can't hold.
// A number that a float64 can hold only as 0 is refused too: what is divided by it would
// seem to be divided by 0.
func ParseDecimal(text string) (Decimal, bool) {
	if len(text) == 1 && '1' <= text[0] && text[0] <= '9' { // most numbers of formulas
		return Decimal{Text: text, Hi: float64(text[0] - '0'), Figures: 1}, true
	}
	s, ok := scanDecimal(text)
	if !ok {
		return Decimal{}, false
	}
	d := Decimal{Text: s.canonical(), Figures: int32(s.figures()), LastPlace: int32(s.exp - len(s.fraction))}
	v := s.value()
	if !finite(v.hi) || v.hi == 0 && !s.zero() {
		return Decimal{}, false
	}
	d.Hi, d.Lo = v.hi, v.lo
	return d, true
}

// Float returns the float64 nearest to the number.
func (d Decimal) Float() float64 { return d.Hi }

// Noughts is how many noughts stand at the end of a whole number, where they may hold a
// place and no more: two in 1200, none in 1.20e3, 1200.0 and 1200. with its point.
//
// Whether they are figures is the old question of 1200 N; here they are counted, and asked
// about where it matters (session/eval).
func (d Decimal) Noughts() int {
	if d.Hi == 0 || strings.ContainsAny(d.Text, ".e") {
		return 0
	}
	return len(d.Text) - len(strings.TrimRight(d.Text, "0"))
}

// Neg returns the number with the other sign; zero stays as it is.
//
// -0 is 0 to every reader.
func (d Decimal) Neg() Decimal {
	if d.Hi == 0 {
		return d
	}
	if rest, ok := strings.CutPrefix(d.Text, "-"); ok {
		d.Text = rest
	} else {
		d.Text = "-" + d.Text
	}
	d.Hi, d.Lo = -d.Hi, -d.Lo
	return d
}

// Rat returns the number exactly.
//
// The text is exact, and what is exact is worked out with it: an offset, a sum that is offered.
func (d Decimal) Rat() *big.Rat {
	r, ok := new(big.Rat).SetString(d.Text)
	if !ok {
		return new(big.Rat) // the zero Decimal has no text
	}
	return r
}

// finite tells whether v is a number: infinity less itself is none, and what is none stays so.
func finite(v float64) bool { return v-v == 0 }

func abs(n int) int {
	if n < 0 {
		return -n
	}
	return n
}

// scanned is a written number taken apart.
//
// whole and fraction are the digits before and behind the point, without it.
type scanned struct {
	text            string
	negative        bool
	whole, fraction string
	hasExp          bool
	exp             int
}

// scanDecimal takes a number apart, and tells whether it is one: a sign, digits, a point with
// digits behind it, and an exponent. Spaces and other marks were taken out by who read the
// line. A point alone says of zeros before it that they are figures: 100. has three.
func scanDecimal(text string) (scanned, bool) {
	s := scanned{text: text}
	rest, negative := strings.CutPrefix(text, "-")
	s.negative = negative
	s.whole, rest = digitsOf(rest)
	if after, point := strings.CutPrefix(rest, "."); point {
		s.fraction, rest = digitsOf(after)
		if s.fraction == "" && (rest != "" || !strings.HasSuffix(s.whole, "0") || s.zero()) {
			return s, false
		}
	}
	if rest != "" {
		if rest[0] != 'e' && rest[0] != 'E' {
			return s, false
		}
		exp, err := strconv.Atoi(rest[1:])
		if err != nil || abs(exp) > 2*maxDigits {
			return s, false
		}
		s.hasExp, s.exp = true, exp
	}
	return s, s.whole != "" && len(s.whole)+len(s.fraction) <= maxDigits
}

// digitsOf cuts the digits off the front of a text.
func digitsOf(s string) (string, string) {
	n := 0
	for n < len(s) && s[n] >= '0' && s[n] <= '9' {
		n++
	}
	return s[:n], s[n:]
}

// zero tells whether the number is 0, however many zeros it is written with and whatever its
// power of ten.
func (s *scanned) zero() bool {
	return strings.Trim(s.whole, "0") == "" && strings.Trim(s.fraction, "0") == ""
}

// Zeros in front hold a place: 0.080 has two figures. Of a written 0 the last zero counts as
// one.
func (s *scanned) figures() int {
	w := strings.TrimLeft(s.whole, "0")
	if w != "" {
		return len(w) + len(s.fraction)
	}
	return max(1, len(strings.TrimLeft(s.fraction, "0")))
}

// canonical writes the number without needless zeros in front and with a
// plain exponent.
// Zeros at the end stay, as they say how sure the number is.
func (s *scanned) canonical() string {
	w := strings.TrimLeft(s.whole, "0")
	if w == "" {
		w = "0"
	}
	if len(w) == len(s.whole) && !s.hasExp || strings.HasSuffix(s.text, ".") {
		return s.text
	}
	if s.negative {
		w = "-" + w
	}
	if s.fraction != "" {
		w += "." + s.fraction
	}
	if s.exp != 0 {
		w += "e" + strconv.Itoa(s.exp)
	}
	return w
}

// value returns the number as a double-double whose high part is the nearest
// float64.
// What people write has few digits, and takes no big numbers. The others do, since a
// digit beyond the thirtieth can still decide how the nearest float64 is rounded.
func (s *scanned) value() pair {
	hi, err := strconv.ParseFloat(s.text, 64)
	if err != nil || hi == 0 {
		return pair{hi, 0}
	}
	m, exp, ok := s.short()
	if ok {
		p := intPair(m)
		if s.negative {
			p = p.neg()
		}
		p = p.timesTen(exp)
		return pair{hi, (p.hi - hi) + p.lo}
	}
	f, _, err := big.ParseFloat(s.text, 10, 256, big.ToNearestEven)
	if err != nil {
		return pair{hi, 0}
	}
	lo, _ := f.Sub(f, new(big.Float).SetFloat64(hi)).Float64()
	return pair{hi, lo}
}

// short returns the digits as one integer times a power of ten, if they are
// few and the power is one that a double-double holds exactly.
//
// Up to 10⁴⁴ a power of ten is exact as a pair of float64, and eighteen digits are exact as an
// int64.
func (s *scanned) short() (m int64, exp int, ok bool) {
	digits := 0
	add := func(part string) bool {
		for i := range len(part) {
			if digits > 0 || part[i] != '0' {
				digits++
			}
			if digits > 18 {
				return false
			}
			m = m*10 + int64(part[i]-'0')
		}
		return true
	}
	fraction := strings.TrimRight(s.fraction, "0")
	if !add(s.whole) || !add(fraction) {
		return 0, 0, false
	}
	exp = s.exp - len(fraction)
	return m, exp, exp >= -44 && exp <= 44
}

// intPair is a whole number: what the nearest float64 leaves of it is small enough to be one
// too.
func intPair(m int64) pair {
	hi := float64(m)
	return pair{hi, float64(m - int64(hi))}
}

// decimalPair reads a decimal of the tables.
//
// A text of the tables that is no decimal is a slip of the program: what is made of it is no
// number, and is seen.
func decimalPair(text string) pair {
	s, ok := scanDecimal(text)
	if !ok {
		return pair{math.NaN(), 0}
	}
	return s.value()
}
