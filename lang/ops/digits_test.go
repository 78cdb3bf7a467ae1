package ops

import (
	"math"
	"math/big"
	"math/rand/v2"
	"testing"
)

// TestInDigits holds the value of every operation against sixty digits, to as many
// roundings as its row says, and its slopes against differences of those, to a few
// more.
func TestInDigits(t *testing.T) {
	const h = 0x1p-70 // differences are off by its square, and by what is cancelled
	step := num(h)
	arithmetic(t, func(t *testing.T, r *rand.Rand, op Op, k float64) {
		if op == Sgn || op == Round || op == LastFigure || op == Less || op == AtMost || op == Both {
			return // these jump, and are level elsewhere
		}
		tried := 0
		for range 80 {
			a, b := 1.5*r.NormFloat64(), 1.5*r.NormFloat64()
			if op == PowVar && a < 0 {
				a = -a
			}
			v := op.Value(a, b, k)
			if v-v != 0 {
				continue
			}
			x, y := num(a), num(b)
			want := op.Digits(x, y, k)
			if want == nil {
				t.Fatalf("%s is not worked out in digits", op)
			}
			tried++
			off, _ := minus(num(v), want).Float64()
			most := op.Off(b, k, v)
			if op == Sin || op == Cos || op == Tan { // of an angle that was rounded
				most += angleOff * math.Abs(a) * (1 + v*v)
			}
			if math.Abs(off) > most {
				t.Fatalf("%s of %v and %v with %v is %v, off by %v of %v", op, a, b, k, v, off, most)
			}
			da, db := op.Slopes(a, b, k)
			byA, _ := over(minus(op.Digits(plus(x, step), y, k), op.Digits(minus(x, step), y, k)), num(2*h)).Float64()
			if far := math.Abs(da - byA); !(far <= 1e-13*max(math.Abs(da), math.Abs(v/a), 1)) {
				t.Fatalf("%s with %v at %v, %v: slope %v, by differences %v", op, k, a, b, da, byA)
			}
			if op.Operands() == 2 {
				byB, _ := over(minus(op.Digits(x, plus(y, step), k), op.Digits(x, minus(y, step), k)), num(2*h)).Float64()
				if far := math.Abs(db - byB); !(far <= 1e-13*max(math.Abs(db), math.Abs(v/b), 1)) {
					t.Fatalf("%s at %v, %v: second slope %v, by differences %v", op, a, b, db, byB)
				}
			}
		}
		if tried < 20 {
			t.Errorf("%s with %v was tried at %d places only", op, k, tried)
		}
	})
}

// manyDigits are values to 68 digits (mpmath 1.3, at 90 digits).
var manyDigits = []struct {
	op         Op
	a, b, want string
}{
	{Exp, "-0.7", "0", "0.49658530379140951470480009339752896170766716571181626205471149701724"},
	{Exp, "31.25", "0", "37299461295718.884904676639604682139670058901287570115789301911888383"},
	{Exp, "-400.5", "0", "1.1616090789565239752183463814302308034052484410796046566340915860531e-174"},
	{Ln, "0.3", "0", "-1.2039728043259359926227462177618385029536109308060235242986335673301"},
	{Ln, "123456.7", "0", "11.723645766285614572415286830771469339827332468946905060112542290215"},
	{Ln, "1.0000000001", "0", "0.000000000099999999995000000000333333333308333333335333333333166666666680952381"},
	{Log10, "7.1", "0", "0.85125834871907528609282943503542913527041990160039197627664987113137"},
	{Sin, "0.4", "0", "0.38941834230865049166631175679570526459306018344395889511584896585735"},
	{Sin, "-12345.678", "0", "0.70408131375329891664088601883988489671293898322425377910960795681412"},
	{Sin, "1e20", "0", "-0.6452512852657808442058117113125230074069041966868971183031170068879"},
	{Cos, "2.9", "0", "-0.97095816514959052178110666934553217911761475942423954213867099245327"},
	{Cos, "1e15", "0", "-0.51319373778697025223453613642316492958815677124475149832124036179511"},
	{Tan, "1.5", "0", "14.10141994717171938764608365198775644565954357723586186612326758609"},
	{Tan, "-40", "0", "1.1172149309238959681592414080926273400237913295787828280609196205582"},
	{Asin, "0.3", "0", "0.30469265401539750797200296122752916695456003170677638739297794874647"},
	{Asin, "-1", "0", "-1.5707963267948966192313216916397514420985846996875529104874722961539"},
	{Acos, "0.9999", "0", "0.014142253477512877596240225817656105724403066228995429621334447986462"},
	{Acos, "-0.2", "0", "1.7721542475852274106864472438573748523386227810897812967447235396095"},
	{Atan, "5.5", "0", "1.3909428270024183486427686943836432060856111628583607914327992661606"},
	{Atan, "-0.001", "0", "-0.00099999966666686666652380963492054401162093455426801309143104818764547"},
	{Atan2, "0.2", "-3", "3.075024489813969434263996688985531817099296169549646451273988127092"},
	{Atan2, "-7", "-0.01", "-1.5722248972516519394334703317297833505062073246454969758754066035557"},
	{Sinh, "0.02", "0", "0.020001333360000253969664908128921284501898295362390749774518562465849"},
	{Sinh, "-9", "0", "-4051.5419020827899605152235958980346174888250078393905867805532588481"},
	{Cosh, "3.3", "0", "13.574761044029563716131987907486368900135016362160019494156367890334"},
	{Tanh, "0.6", "0", "0.53704956699803528586182530492689670598284198771923213417232101313652"},
	{Tanh, "-20", "0", "-0.99999999999999999150329148941682204543855819119098725713047456422766"},
	{Cbrt, "-10", "0", "-2.1544346900318837217592935665193504952593449421921085824892355063464"},
	{Cbrt, "0.001001", "0", "0.10003332222839094951754495599552201020102847581973604540543454612427"},
	{Sqrt, "2", "0", "1.4142135623730950488016887242096980785696718753769480731766797379907"},
	{PowVar, "1.01", "700.3", "1062.3266095541465059965740929266285675888900955876072903140852875139"},
	{PowVar, "-3", "-5", "-0.0041152263374485596707818930041152263374485596707818930041152263374486"},
	{Hypot, "0.1", "0.7", "0.70710678118654752440084436210484903928483593768847403658833986899537"},
}

// TestManyDigits holds what is worked out in digits against another program's.
func TestManyDigits(t *testing.T) {
	read := func(text string) *big.Float { v, _ := num(0).SetString(text); return v }
	for _, c := range manyDigits {
		v, want := c.op.Digits(read(c.a), read(c.b), 0), read(c.want)
		if v == nil {
			t.Errorf("%s of %s and %s has no digits", c.op, c.a, c.b)
			continue
		}
		if off, _ := over(minus(v, want), want).Float64(); math.Abs(off) > 1e-66 {
			t.Errorf("%s of %s and %s is off by %v of itself", c.op, c.a, c.b, off)
		}
	}
}
