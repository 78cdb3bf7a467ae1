package session

import (
	"context"
	"math"
	"math/big"
	"math/rand/v2"
	"testing"

	"steelyard/lang/formula"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// digits works expressions out by math/big to some sixty digits, in coherent SI
// units, on its own: it shares nothing with the plan but the tree.
type digits struct {
	values map[string]*big.Float
	most   *big.Float // the greatest term that was added
}

const digitsBits = 220

func bigOf(v float64) *big.Float { return new(big.Float).SetPrec(digitsBits).SetFloat64(v) }

func bigZero() *big.Float { return new(big.Float).SetPrec(digitsBits) }

var bigPi, _, _ = big.ParseFloat("3.14159265358979323846264338327950288419716939937510582097494459230781640628620899862803", 10, digitsBits, big.ToNearestEven)

// of works an expression out; nil if it has no real value or is of a kind that
// formulas do not hold.
func (d *digits) of(x syntax.Expr) *big.Float {
	switch x := x.(type) {
	case *syntax.Number:
		return new(big.Float).SetPrec(digitsBits).SetRat(x.Value.Rat())
	case *syntax.Pi:
		return bigPi
	case *syntax.Name:
		return d.values[x.Name]
	case *syntax.Paren:
		return d.of(x.X)
	case *syntax.Unary:
		v := d.of(x.X)
		if v != nil && x.Op == syntax.Sub {
			return bigZero().Neg(v)
		}
		return v
	case *syntax.Root:
		return bigSqrt(d.of(x.X))
	case *syntax.Quantity:
		u, bad := units.NewTable().Parse(x.Unit.Text, units.AfterNumber)
		if bad != nil || u.PiPower() != 0 {
			return nil
		}
		v := new(big.Float).SetPrec(digitsBits).SetRat(x.Value.Rat())
		return v.Mul(v, new(big.Float).SetPrec(digitsBits).SetRat(u.Factor()))
	case *syntax.Binary:
		return d.binary(x)
	case *syntax.Call:
		return d.call(x)
	}
	return nil
}

func (d *digits) binary(x *syntax.Binary) *big.Float {
	a, b := d.of(x.X), d.of(x.Y)
	if a == nil || b == nil {
		return nil
	}
	switch x.Op {
	case syntax.Add, syntax.Sub:
		d.term(a)
		d.term(b)
		if x.Op == syntax.Add {
			return bigZero().Add(a, b)
		}
		return bigZero().Sub(a, b)
	case syntax.Mul:
		return bigZero().Mul(a, b)
	case syntax.Div:
		if b.Sign() == 0 {
			return nil
		}
		return bigZero().Quo(a, b)
	}
	n, exact := b.Float64()
	if exact != big.Exact || n != math.Trunc(n) || math.Abs(n) > 20 {
		return nil
	}
	out := bigOf(1)
	for range int(math.Abs(n)) {
		out.Mul(out, a)
	}
	if n < 0 {
		return bigZero().Quo(bigOf(1), out)
	}
	return out
}

func (d *digits) term(v *big.Float) {
	if a := bigZero().Abs(v); a.Cmp(d.most) > 0 {
		d.most = a
	}
}

func (d *digits) call(x *syntax.Call) *big.Float {
	if len(x.Args) != 1 {
		return nil
	}
	v := d.of(x.Args[0].X)
	if v == nil {
		return nil
	}
	switch x.Func {
	case "sqrt":
		return bigSqrt(v)
	case "sin":
		return bigSine(v, 1)
	case "cos":
		return bigSine(v, 0)
	case "tan":
		return bigZero().Quo(bigSine(v, 1), bigSine(v, 0))
	case "atan":
		return bigAtan(v)
	}
	return nil
}

func bigSqrt(v *big.Float) *big.Float {
	if v == nil || v.Sign() < 0 {
		return nil
	}
	return bigZero().Sqrt(v)
}

// bigSine sums the power series that begins with power first: 1 of the sine, 0
// of the cosine.
func bigSine(x *big.Float, first int) *big.Float {
	sum, term := bigZero(), bigOf(1)
	if first == 1 {
		term.Set(x)
	}
	square := bigZero().Mul(x, x)
	for n := first; n < 400; n += 2 {
		sum.Add(sum, term)
		term = bigZero().Quo(bigZero().Mul(term, square), bigOf(float64((n+1)*(n+2))))
		term.Neg(term)
	}
	return sum
}

// bigAtan halves the angle until its power series runs fast.
func bigAtan(x *big.Float) *big.Float {
	const halvings = 8
	v := bigZero().Set(x)
	for range halvings {
		root := bigZero().Sqrt(bigZero().Add(bigOf(1), bigZero().Mul(v, v)))
		v = bigZero().Quo(v, root.Add(root, bigOf(1)))
	}
	sum, power, square := bigZero(), bigZero().Set(v), bigZero().Mul(v, v)
	for n := 1; n < 120; n += 2 {
		sum.Add(sum, bigZero().Quo(power, bigOf(float64(n))))
		power.Mul(power, square).Neg(power)
	}
	return sum.Mul(sum, bigOf(1<<halvings))
}

// remainder is left - right and the greatest term, at a value of the unknown.
func (d *digits) remainder(f *syntax.FormulaDef, unknown string, v *big.Float) (rest, most *big.Float) {
	d.values[unknown], d.most = v, bigZero()
	l, r := d.of(f.Left), d.of(f.Right)
	if l == nil || r == nil {
		return nil, nil
	}
	d.term(l)
	d.term(r)
	return bigZero().Sub(l, r), d.most
}

// TestSolveToSixtyDigits solves every formula of the library for every one of
// its symbols, at values drawn at random, and judges the solution by math/big
// with sixty digits: what is left of the equation is less than 10⁻¹² of its
// greatest term, and the true root, found by bisection there, lies within 10⁻⁹.
func TestSolveToSixtyDigits(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	judged, skipped := 0, map[string]bool{}
	for _, name := range formula.Names() {
		f, _ := New().Formula(name)
		for draw := 0; draw < 3; draw++ {
			values, ok := drawnValues(f, r)
			for tries := 0; !ok && tries < 50; tries++ {
				values, ok = drawnValues(f, r)
			}
			if !ok {
				t.Errorf("%s: no values of its symbols have a value", name)
				continue
			}
			for _, s := range f.Symbols {
				key := name + " for " + s.Name
				done, fault := judgeSolved(f, s, values)
				if fault != "" {
					t.Errorf("%s at %v: %s", key, values, fault)
				}
				if !done {
					skipped[key] = true
				} else {
					judged++
				}
			}
		}
	}
	if judged < 1200 {
		t.Errorf("only %d judged; skipped %v", judged, skipped)
	}
	t.Logf("%d solutions judged", judged)
}

// drawnValues draws the symbols of the right side, of sizes from a tenth to
// ten, angles within a quarter turn, and works the left side out.
func drawnValues(f *syntax.FormulaDef, r *rand.Rand) (map[string]float64, bool) {
	left := f.Left.(*syntax.Name).Name
	out := map[string]float64{}
	p := New()
	for _, s := range f.Symbols {
		if s.Name == left {
			continue
		}
		out[s.Name] = math.Pow(10, 2*r.Float64()-1)
		if s.Unit.Text == "rad" || s.Unit.Text == "°" {
			out[s.Name] = 0.1 + 1.3*r.Float64()
			if s.Unit.Text == "°" {
				out[s.Name] *= 180 / math.Pi
			}
		}
		give(p, s, out[s.Name])
	}
	e := p.Enter(context.Background(), "result_value = "+syntax.PrintExpr(f.Right))
	if len(e.Values()) != 1 {
		return nil, false
	}
	for _, s := range f.Symbols {
		if s.Name == left {
			u, _ := p.Table().Parse(s.Unit.Text, units.AloneInPlace)
			out[left] = u.FromSI(e.Values()[0].SI)
		}
	}
	return out, true
}

// judgeSolved solves a formula for a symbol near the value it was drawn with. It
// returns false for done where the equation hardly depends on the symbol there,
// so that its value is lost in rounding.
func judgeSolved(f *syntax.FormulaDef, unknown syntax.FormulaSymbol, values map[string]float64) (done bool, fault string) {
	want, ok := values[unknown.Name]
	if !ok {
		return false, ""
	}
	d := &digits{values: map[string]*big.Float{}, most: bigZero()}
	p := New()
	for _, s := range f.Symbols {
		v, ok := values[s.Name]
		if !ok {
			continue
		}
		u, _ := p.Table().Parse(s.Unit.Text, units.AloneInPlace)
		d.values[s.Name] = bigOf(u.ToSIFloat(v))
		if s.Name != unknown.Name {
			// What the worksheet holds is what is judged.
			if e := give(p, s, v); len(e.Values()) == 1 {
				d.values[s.Name] = bigOf(e.Values()[0].SI)
			}
		}
	}
	if _, ok := d.values["g"]; !ok {
		d.values["g"] = bigOf(9.80665)
	}
	u, _ := p.Table().Parse(unknown.Unit.Text, units.AloneInPlace)
	si := u.ToSIFloat(want)
	at, most := d.remainder(f, unknown.Name, bigOf(si*(1+1e-6)))
	back, _ := d.remainder(f, unknown.Name, bigOf(si*(1-1e-6)))
	if at == nil || back == nil || at.Sign() == back.Sign() {
		return false, ""
	}
	if slope, _ := bigZero().Quo(bigZero().Abs(at), most).Float64(); slope < 1e-9 {
		return false, ""
	}
	line := "solve " + f.Name + " for " + unknown.Name + " where " + unknown.Name + " > " + bound(want, unknown, -1) + " and " + unknown.Name + " < " + bound(want, unknown, 1)
	e := p.Enter(context.Background(), line)
	if len(e.Values()) != 1 {
		return false, line + ": no value"
	}
	got := e.Values()[0].SI
	rest, most := d.remainder(f, unknown.Name, bigOf(got))
	if rest == nil {
		return false, "the solution can't be put back"
	}
	if share, _ := bigZero().Quo(bigZero().Abs(rest), most).Float64(); share > 1e-12 {
		return true, line + ": too much is left of the equation"
	}
	low, _ := d.remainder(f, unknown.Name, bigOf(got*(1-1e-9)))
	high, _ := d.remainder(f, unknown.Name, bigOf(got*(1+1e-9)))
	if low == nil || high == nil || low.Sign()*high.Sign() > 0 {
		return true, line + ": the true root is not within a thousand-millionth"
	}
	if e.Values()[0].Dim != u.Dim() {
		return true, line + ": a dimension other than declared"
	}
	return true, ""
}
