package advise

import (
	"math"
	"slices"
	"strings"
	"sync"

	"steelyard/lang/finding"
	"steelyard/lang/formula"
	"steelyard/lang/ops"
	"steelyard/lang/plan"
	"steelyard/lang/syntax"
	"steelyard/session/eval"
	"steelyard/units"
	"steelyard/units/each"
)

// knownFactors are formulas whose constant factor is often left out: the units are right without
// it. Names are the symbols of the value, and each letter of the formula
// has the letters that it may be on a page, with their unit. They are common practice; those of
// mechanics are in the library of formulas, with their sources.
//
// The letters are part of each: √(g*λ) is no speed of a fall, and m*c^2 no kinetic energy. What
// is a formula of its own with another factor is left out: the work of a battery is C*U^2, and
// the inertia of a hoop m*r^2.
var knownFactors = [...]struct{ what, names, formula, letters string }{
	{"A kinetic energy", "K KE E_k E_K Ek E_kin KE1 KE2 E", "1/2*m*v^2", "m M:kg, v u:m/s"},
	{"A kinetic energy", "K KE E_k E_K Ek E_kin KE1 KE2 E", "p^2/(2*m)", "p:kg m/s, m M:kg"},
	{"An energy of rotation", "K KE E_k E_K Ek E_kin E_rot E", "1/2*I*ω^2", "I J:kg m^2, ω:1/s"},
	{"The energy of a spring", "U E PE E_s E_p E_e EPE W", "1/2*k*x^2", "k K D:N/m, x A s d y:m"},
	{"The energy of a capacitor", "E U", "1/2*C*U^2", "C:F, U V:V"},
	{"The energy of a coil", "E W", "1/2*L*I^2", "L:H, I i:A"},
	{"A distance from rest", "s x d h y H", "1/2*a*t^2", "a g:m/s^2, t:s"},
	{"A distance to or from rest", "s x d h y H", "v^2/(2*a)", "v u:m/s, a g:m/s^2"},
	{"A speed from rest", "v u", "√(2*a*s)", "a:m/s^2, s d x:m"}, // √(g*h) is that of a wave, too
	{"", "", "√(2*a*s)", "a g:m/s^2, s h d x y H:m"},             // in a sum alone
	{"A time from rest", "t", "√(2*s/a)", "s h d x y H:m, a g:m/s^2"},
	{"The speed round a circle", "v u", "2*π*r/T", "r:m, T:s"},
	{"With the period T of a pendulum, g", "g", "4*π^2*L/T^2", "L l:m, T:s"},
	{"With the period T of an oscillation, k", "k D", "4*π^2*m/T^2", "m M:kg, T:s"},
	{"", "N", "m*g/cos(θ)", "m M:kg, g:m/s^2, θ α β:1"}, // on a banked curve; on an incline it is a product
	{"", "d", "r/θ", "r R:m, θ α:1"},                    // of a star; an arc is a product
	{"The area of a circle", "A S", "π*r^2", "r R:m"},
	{"The volume of a ball", "V", "4/3*π*r^3", "r R:m"},
}

// known is a formula of that list or of the library, with what its letters may be on a page.
type known struct {
	what    string
	formula syntax.Expr
	letters []letter
	number  float64 // what it is where all letters are 1
	values  [2]float64
	often   bool // its factor is often left out
}

// letter is what a letter of a formula may be on a page: one of some names, or, of one that has an
// index there, that alone.
type letter struct {
	own, names string
	exact      bool
	unit       string
	dim        units.Dim
}

// ofTerms is the key of those that are looked for in the terms of a sum, whatever its name.
const ofTerms = "+"

// knownFormulas are those that a name may stand for, each read when it is first asked for.
var knownFormulas = sync.OnceValue(func() map[string][]func() *known {
	all := map[string][]func() *known{}
	for _, row := range knownFactors {
		read := sync.OnceValue(func() *known {
			k := known{what: row.what, often: true}
			k.formula, _ = syntax.ParseExpr(row.formula)
			for of := range strings.SplitSeq(row.letters, ", ") {
				names, unit, _ := strings.Cut(of, ":")
				own, _, _ := strings.Cut(names, " ")
				k.letters = append(k.letters, letter{own, names, false, unit, units.Of(unit).Dim()})
			}
			return k.sampled()
		})
		for name := range strings.SplitSeq(row.names, " ") {
			all[name] = append(all[name], read)
		}
		all[ofTerms] = append(all[ofTerms], read)
	}
	for _, name := range formula.Names() {
		text, _ := formula.Source(name)
		left, _, _ := strings.Cut(strings.TrimPrefix(text, "formula "+name+": "), " = ")
		all[left] = append(all[left], sync.OnceValue(func() *known {
			stmt, _ := syntax.Parse(text)
			f := stmt.(*syntax.FormulaDef)
			k := known{what: name, formula: f.Right}
			for _, s := range f.Symbols {
				if s.Name != left {
					k.letters = append(k.letters, letter{s.Name, s.Name, units.Symbol(s.Name) != s.Name, s.Unit.Text, units.Of(s.Unit.Text).Dim()})
				}
			}
			if syntax.Holds(k.formula, "g") {
				k.letters = append(k.letters, letter{"g", "g", true, "m/s^2", units.Of("m/s^2").Dim()})
			}
			return k.sampled()
		}))
	}
	return all
})

// samples are two values for each letter of a formula, by which formulas are told apart: two that
// have the same value for both are one, however they are written.
var samples = [2][mostLetters]float64{
	{1.37, 0.83, 2.19, 0.61, 1.73, 0.47, 1.09, 2.61},
	{0.71, 1.91, 1.13, 0.53, 2.39, 0.37, 0.89, 1.51},
}

// mostLetters is how many letters a formula may have.
const mostLetters = 8

func (k *known) sampled() *known {
	own := make([]string, len(k.letters))
	for i := range k.letters {
		own[i] = k.letters[i].own
	}
	k.values = sampled(k.formula, own)
	k.number = numberOf(k.formula, func(string) float64 { return 1 })
	return k
}

// sampled is an expression with the two values for each of its names.
func sampled(x syntax.Expr, names []string) (out [2]float64) {
	for i := range out {
		out[i] = numberOf(x, func(name string) float64 {
			if at := slices.Index(names, name); at >= 0 && at < mostLetters {
				return samples[i][at]
			}
			return math.NaN()
		})
	}
	return out
}

// numberOf is an expression as a number, with a number for each name; not a number where a unit is
// written in it.
func numberOf(x syntax.Expr, of func(string) float64) float64 {
	switch x := x.(type) {
	case *syntax.Number:
		return x.Value.Float()
	case *syntax.Pi:
		return math.Pi
	case *syntax.Name:
		return of(x.Name)
	case *syntax.Paren:
		return numberOf(x.X, of)
	case *syntax.Root:
		return math.Sqrt(numberOf(x.X, of))
	case *syntax.Unary:
		if v := numberOf(x.X, of); x.Op != syntax.Sub {
			return v
		} else {
			return -v
		}
	case *syntax.Call:
		if f, ok := ops.Named(x.Func); ok && len(x.Args) == 1 && f.Takes <= ops.RootOf {
			return f.Op.Value(numberOf(x.Args[0].X, of), 0, 0)
		}
	case *syntax.Binary:
		a, b := numberOf(x.X, of), numberOf(x.Y, of)
		switch x.Op {
		case syntax.Add:
			return a + b
		case syntax.Sub:
			return a - b
		case syntax.Mul:
			return a * b
		case syntax.Div:
			return a / b
		case syntax.Pow:
			return math.Pow(a, b)
		}
	}
	return math.NaN()
}

// match is a known formula with the names of a line for its letters, in their order.
type match struct {
	*known
	names []string
	bare  []int      // those of them that are plain numbers where the formula has a unit
	ratio [2]float64 // the line over the formula, for the two samples
}

// matches are the known formulas of a name that have the names of an expression for their letters.
func matches(l *eval.Line, name string, x syntax.Expr) (out []match) {
	all := knownFormulas()
	rows, more := all[name], all[units.Symbol(name)]
	if len(rows)+len(more) == 0 {
		return nil
	}
	if units.Symbol(name) == name {
		more = nil
	}
	names := make([]string, 0, mostLetters)
	for n := range syntax.Each[*syntax.Name](x) {
		if slices.Contains(names, n.Name) {
			continue
		}
		if len(names) == mostLetters || n.Line != 0 {
			return nil
		}
		names = append(names, n.Name)
	}
	for _, rows := range [...][]func() *known{rows, more} {
		for _, read := range rows {
			m := match{known: read()}
			if len(names) != len(m.letters) || !m.place(l, names) {
				continue
			}
			line := sampled(x, m.names)
			m.ratio = [2]float64{line[0] / m.values[0], line[1] / m.values[1]}
			out = append(out, m)
		}
	}
	return out
}

// place gives each letter one of the names that are left.
func (m *match) place(l *eval.Line, names []string) bool {
	at := len(m.names)
	if at == len(m.letters) {
		return true
	}
	for _, name := range names {
		a := &m.letters[at]
		if slices.Contains(m.names, name) || name != a.own && (a.exact || !is(name, a.names)) {
			continue
		}
		d, ok := l.Planner.Find(&syntax.Name{Name: name})
		if !ok || d.Failed() || d.Kind != plan.Quantity {
			continue
		}
		bare := m.bare
		if dim := l.Planner.Static(d.Slot).Dim; dim != a.dim {
			if !dim.IsOne() || !l.GivenNumber(d) {
				continue
			}
			m.bare = append(m.bare, at)
		}
		if m.names = append(m.names, name); m.place(l, names) {
			return true
		}
		m.names, m.bare = m.names[:at], bare
	}
	return false
}

// times tells whether the line is the formula times a number, and has no name without a unit.
func (m *match) times(factor float64) bool {
	return len(m.bare) == 0 && within(m.ratio[0], factor) && within(m.ratio[1], factor)
}

// text is the formula with the names of the line.
func (m *match) text() string {
	return syntax.PrintExpr(syntax.Unplaced(syntax.Rewrite(m.formula, func(x syntax.Expr) (syntax.Expr, bool) {
		n, ok := x.(*syntax.Name)
		if !ok {
			return nil, false
		}
		return &syntax.Name{Name: m.names[slices.IndexFunc(m.letters, func(a letter) bool { return a.own == n.Name })]}, true
	})))
}

// nearKnown finds K = m*v^2: a known formula without its factor, or one that a small change of the
// line makes of it.
//
// Without its half the value is twice as great, and its unit is right. The name and all letters
// must be those of the formula.
func nearKnown(l *eval.Line, name string, x syntax.Expr) (found slip) {
	for _, m := range matches(l, name, x) {
		switch {
		case m.times(1):
			return slip{}
		case found.message != "" || len(m.bare) > 0:
		case m.often:
			if m.what != "" && m.times(m.ratio[0]) && m.wrong(m.ratio[0]*m.number) {
				found = slip{m.what + " is " + m.text() + m.missing(m.ratio[0]*m.number) + ".", "Write", m.text()}
			}
		case !slices.ContainsFunc(l.Entry.Findings, func(f finding.Finding) bool { return f.Severity <= finding.Caution && f.ID != finding.GivenAgain }):
			if y, ok := l.Changed(x, func(y syntax.Expr) bool {
				v := sampled(y, m.names)
				return within(v[0], m.values[0]) && within(v[1], m.values[1])
			}); ok {
				found = slip{"This is nearly the formula " + m.what + ".", "If you meant that, write", syntax.PrintExpr(y)}
			}
		}
	}
	return found
}

// inSum finds the same in a term of a sum, or of one under a root: x0 + v0*t + a*t^2, and
// √(v0^2 + a*s). What the sum is called says nothing there.
func inSum(l *eval.Line, x syntax.Expr) slip {
	sum := x
	if of := eval.UnderRoot(x); of != nil {
		sum = syntax.Unbracket(of)
	}
	terms := each.Of(syntax.Terms(sum), func(t syntax.Link) syntax.Expr { return t.X })
	if len(terms) < 2 {
		return slip{}
	}
	speed := slices.ContainsFunc(terms, func(t syntax.Expr) bool { // one is the square of a speed
		f, ok := apart(t)
		return ok && f.number == 1 && f.n == 1 && f.names[0].exp == 2 && is(f.names[0].name, "v u")
	})
	energy := func(t syntax.Expr) bool { return nearKnown(l, "E", t).message != "" }
	if b, ok := sum.(*syntax.Binary); ok && b.Op == syntax.Sub && len(terms) == 2 && energy(terms[0]) && energy(terms[1]) {
		return slip{} // k*x^2 - m*v^2 is 0 with the halves, too
	}
	for _, t := range terms {
		right := ""
		for _, m := range matches(l, ofTerms, t) {
			if m.number == 0.5 && !syntax.Has[*syntax.Paren](m.formula) && m.times(2) {
				right = m.text()
				break
			}
		}
		if root := (&syntax.Root{X: &syntax.Paren{X: t}}); right == "" && speed { // v^2 = v0^2 + 2*a*s
			for _, m := range matches(l, ofTerms, root) {
				if m.number == math.Sqrt2 && m.times(1/math.Sqrt2) {
					right = strings.TrimSuffix(strings.TrimPrefix(m.text(), "√("), ")")
				}
			}
		}
		if right == "" {
			continue
		}
		whole, ok := eval.Instead(x, func(part syntax.Expr) bool { return part == t }, right)
		if !ok {
			return slip{}
		}
		return slip{"The term `" + syntax.PrintExpr(t) + "` mostly has a factor: " + right + ".", "If it has, write", syntax.PrintExpr(whole)}
	}
	return slip{}
}

// wrong tells whether a factor is left out, or one with π is upside down or has it below the bar. A
// ball may lack the 3 alone. A 2 for a 1/2 is often right: four bodies, or 1/2*k*(2*s)^2.
func (k *known) wrong(number float64) bool {
	right := k.number
	return within(number, 1) || !simple(right) && !within(right, math.Sqrt2) && (within1Percent(number*right, 1) || within1Percent(number*math.Pi*math.Pi, right)) ||
		within(right, 4*math.Pi/3) && within1Percent(number, 4*math.Pi)
}

func within(a, b float64) bool { return math.Abs(a-b) < 1e-9*math.Abs(b) }

// missing says which factor is left out of a line with a number.
func (k *known) missing(number float64) string {
	if !within(number, 1) {
		return ""
	}
	for _, c := range [...]struct {
		value float64
		text  string
	}{{0.5, "1/2"}, {math.Sqrt2, "2"}, {2, "2"}, {math.Pi, "π"}, {2 * math.Pi, "2π"}, {4 * math.Pi * math.Pi, "4π²"}, {4 * math.Pi / 3, "4/3*π"}} {
		if within(k.number, c.value) {
			return "; the " + c.text + " is missing"
		}
	}
	return ""
}
