package plan

import (
	"cmp"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/units"
	"steelyard/units/writing"
)

// param returns the parameter of that name of the function being planned.
//
// Functions have a few parameters: going through them is faster than any table.
func (c *coder) param(name string) *param {
	for i := range c.params {
		if c.params[i].name == name {
			return &c.params[i]
		}
	}
	return nil
}

// lookup finds what a name means where it is used: the nearest definition above that
// has a value, in a scratchpad; the one of a line where the name says which, as in
// k@3. A function means what was above its own line, so that a name given again
// below changes no function: seen says how many definitions that are. g is standard
// gravity until a line says otherwise.
func (c *coder) lookup(n *syntax.Name) (*Def, bool) {
	if n.Line != 0 {
		return c.p.Names.at(n.Name, n.Line, c.seen)
	}
	d, ok := c.p.Names.before(n.Name, c.seen)
	if n.Name == "g" && (!ok || d.Failed()) {
		return c.p.standardGravity(), true
	}
	return d, ok
}

// known tells whether a word is a name here.
//
// g counts even where nothing gives it, for standard gravity does.
func (c *coder) known(name string) bool {
	if c.param(name) != nil || name == "g" {
		return true
	}
	_, ok := c.p.Names.before(name, c.seen)
	return ok
}

// given tells whether a line above has given a name a value.
func (c *coder) given(name string) bool {
	d, ok := c.p.Names.before(name, c.seen)
	return ok && !d.Failed()
}

// standardGravity returns the definition of g that holds until the worksheet
// sets its own: 9.80665 m/s² exactly (3rd CGPM 1901; NIST SP 811, B.8).
func (p *Planner) standardGravity() *Def {
	if p.gravity == nil {
		u := units.Of("m/s^2")
		slot := p.Emit(run.Instr{Op: ops.Const, K: 9.80665}, run.Static{Dim: u.Dim()})
		p.gravity = &Def{Name: "g", Kind: Quantity, Slot: slot, Given: true, Unit: u}
	}
	return p.gravity
}

// StandardGravity returns the predefined g, or nil if no line has used it.
func (p *Planner) StandardGravity() *Def { return p.gravity }

// IsStandardGravity tells whether a definition is the predefined g.
func (p *Planner) IsStandardGravity(d *Def) bool { return d == p.gravity }

// name plans a name.
//
// A component of a parameter has no definition of its own: in E(v) = m*v_x^2 the v_x is taken
// out of what the call gives for v.
func (c *coder) name(x *syntax.Name) run.Slot {
	if x.Name == c.self && x.Line == 0 {
		return c.ownName(x.At, x.Name)
	}
	if pr := c.param(x.Name); pr != nil && x.Line == 0 {
		return pr.slot
	}
	if x.Line == 0 && c.partOfParam(x.Name) {
		base, axis, _ := AxisOf(x.Name)
		return c.component(c.param(base).slot, axis, x.At)
	}
	d, ok := c.lookup(x)
	if !ok {
		return c.unknownName(x)
	}
	switch d.Kind {
	case Function, Formula:
		return c.needsBrackets(d, x.At)
	}
	s := c.value(d, x.At)
	c.marks(&x.Vector, s != run.NoSlot && c.isVector(s))
	return s
}

// needsBrackets records that a function is used as if it were a value.
func (c *coder) needsBrackets(d *Def, at syntax.Span) run.Slot {
	if _, across, ok := strings.Cut(c.text, " against "); ok { // graph U against t
		call := d.Name + "(" + strings.Fields(across + " ")[0] + ")"
		return c.refuse(finding.NameKind, at, d.Name+" is a function, so it needs brackets.", "Write "+call+".", call)
	}
	return c.refuse(finding.NameKind, at, d.Name+" is a function, so it needs brackets.",
		"Write "+d.Name+"(…) with a value in the brackets.")
}

// ownName records that a right side uses the name that it defines. Without a value above, it
// may be an equation: x = 2*x - 3 m.
func (c *coder) ownName(at syntax.Span, name string) run.Slot {
	f := finding.New(finding.OwnName, at, name+" is used to define itself.", "")
	rest, begins := strings.CutPrefix(c.text, name)
	rest = strings.TrimSpace(rest)
	isFunction := strings.HasPrefix(rest, "(")
	switch begins = begins && (isFunction || strings.HasPrefix(rest, "=")); {
	case c.known(name):
		other := name
		for n := 2; other == name || c.known(other); n++ {
			other = name + strconv.Itoa(n)
		}
		f.Hint = "Use another name for the new value, such as " + other + "."
		if begins {
			f.Lines = []string{other + c.text[len(name):]}
		}
	case isFunction:
		f.Hint = "A function can't call itself."
	case begins:
		f.Hint = "Give " + name + " a value first. For an equation, begin with `solve`."
		f.Lines = []string{"solve " + c.text + " for " + name}
	}
	return c.says(f)
}

// unknownName says that a name is not given, and what may have been meant: the first
// of a wrong line number, e as a number, a function or a statement without what belongs
// to it, a misspelt name. The order is that of how sure each is. Whether the word may be
// a product of other names is no matter of this package.
func (c *coder) unknownName(x *syntax.Name) run.Slot {
	if c.unread {
		return c.refuse(finding.UnknownName, x.At, "", "")
	}
	if x.Line != 0 {
		message := "Line " + itoa(x.Line) + " doesn't define " + x.Name + "."
		hint, readings := c.elsewhere(x.Name)
		if x.Line > c.p.line {
			message = "There is no line " + itoa(x.Line) + " above this one."
		}
		if x.Line == c.p.line {
			message = x.Name + "@" + itoa(x.Line) + " means this line itself; it must be one above."
			// The line that was meant has been taken out: another one that gives the name is no slip for it.
			hint, readings = "Was that line removed? Put it in again, or write its value here.", nil
		}
		return c.refuse(finding.UnknownName, x.At, message, hint, readings...)
	}
	if d, some := c.p.Names.before(Readings, c.seen); some {
		return c.needs(d, x.At)
	}
	asUnit := ""
	if c.p.Units.Has(x.Name) {
		asUnit = " As a unit it needs a number before it: 1 " + x.Name + "."
	}
	if x.Name == "e" {
		return c.refuse(finding.UnknownName, x.At, "No line above defines e.",
			"The exponential function is exp(x); the elementary charge comes with `constants e`.")
	}
	if f, ok := c.libraryFormula(x.Name); ok {
		return c.refuse(finding.NameKind, x.At, x.Name+" is a formula, so it needs brackets.",
			"Write "+f.Formula.Call()+", or define a quantity of this name in a line above.")
	}
	if ops.IsFunction(x.Name) && len(x.Name) > 1 { // u is a speed, too
		return c.refuse(finding.NameKind, x.At, x.Name+" is a function, so it needs brackets.",
			"Write "+x.Name+"(…), or define a quantity of this name in a line above.")
	}
	for _, s := range syntax.Statements() {
		if s.Word == "steps" && x.Name == s.Word {
			return c.refuse(finding.UnknownName, x.At, "steps needs the name of a result, or the word all.",
				"For one result, write its name, as in `"+s.Example+"`; for the whole page, `steps all`.", "steps all")
		}
		if s.Word == x.Name {
			return c.refuse(finding.UnknownName, x.At, "No line above defines "+x.Name+".", "As a statement, write it like `"+s.Example+"`.")
		}
	}
	// A name is no help that has no value itself, that is read as another symbol, or that the
	// line has already.
	near := slices.DeleteFunc(c.nearest(x.Name), func(near string) bool {
		d, ok := c.p.Names.before(near, c.seen)
		return ok && d.Failed() || isLetter(near) && !isLetter(x.Name) || unlikeSymbols(near, x.Name) || c.mentions(near) || c.drops(x.Name, near)
	})
	hint := "Give it a value first" + example(x.Name) + "."
	if c.given(x.Name+"_x") && c.given(x.Name+"_y") {
		hint = "A vector is made of its components: " + x.Name + " = (" + x.Name + "_x, " + x.Name + "_y)."
	}
	if len(near) > 0 {
		hint = "Did you mean " + writing.List(near, "or") + "? Or give " + x.Name + " a value first."
	}
	if product := c.productHint(x.Name); product != "" && len(near) == 0 {
		hint = product + " Or give " + x.Name + " a value first."
	}
	if constant := constantHint(x.Name); constant != "" {
		if hint += " " + constant; units.Usual(x.Name) == "" {
			hint = constant
		}
	}
	return c.refuse(finding.UnknownName, x.At, "No line above defines "+x.Name+".", hint+asUnit, near...)
}

// constantHint says how a name becomes the constant of nature of that symbol; "" if
// there is none.
func constantHint(name string) string {
	if k, ok := units.LookupConstant(name); ok {
		return "For the " + k.Name + ", write `constants " + name + "`."
	}
	if k, ok := units.NearConstant(name); ok {
		return "For the " + k.Name + ", write `constants " + k.Symbol + "`, and then " + k.Symbol + "."
	}
	return ""
}

// isLetter tells whether a name is one letter, which no longer word is a slip for.
func isLetter(name string) bool { return utf8.RuneCountInString(name) == 1 }

// unlikeSymbols tells whether two names are customary symbols of different quantities, so
// that one is no slip for the other, but for its capitals: Δt and ΔK, m2 and v2.
//
// A slip of one letter between two symbols is a slip in meaning: who typed m2 does not want v2.
func unlikeSymbols(a, b string) bool {
	of, is := units.Usual(a), units.Usual(b)
	return of != "" && is != "" && of != is && !strings.EqualFold(a, b)
}

// mentions tells whether the line has a name: no other name of it is a slip for that one.
//
// In F = m1*a1 + m2*a the a is not meant to be a1, which stands beside it.
func (c *coder) mentions(name string) bool {
	word := func(r rune) bool { return r == '_' || r == '\'' || unicode.IsLetter(r) || unicode.IsDigit(r) }
	for at := 0; ; {
		i := strings.Index(c.text[at:], name)
		if i < 0 {
			return false
		}
		before, _ := utf8.DecodeLastRuneInString(c.text[:at+i])
		at += i + len(name)
		if after, _ := utf8.DecodeRuneInString(c.text[at:]); !word(before) && !word(after) {
			return true
		}
	}
}

// maxElsewhere is how many lines that give a name are told.
const maxElsewhere = 4

// elsewhere tells the lines that give a name, the last of them at most, where
// another line was named.
//
// Lines are renumbered as a page is edited, and a name with a line in it is not always.
func (c *coder) elsewhere(name string) (string, []string) {
	var lines, readings []string
	for _, d := range c.p.Names.each(name) {
		if d.Line > 0 && d.seq < c.seen && !d.Failed() {
			lines, readings = append(lines, itoa(d.Line)), append(readings, name+"@"+itoa(d.Line))
		}
	}
	cut := max(0, len(lines)-maxElsewhere)
	lines, readings = lines[cut:], readings[cut:]
	switch len(lines) {
	case 0:
		return "Write the number of a line that defines it, or the name alone.", nil
	case 1:
		return "Have the line numbers changed? " + name + " is defined in line " + lines[0] + ".", readings
	}
	return "Have the line numbers changed? " + name + " is defined in lines " + writing.List(lines, "and") + ".", readings
}

// Find returns the definition that a name has after the last line.
func (p *Planner) Find(n *syntax.Name) (*Def, bool) {
	c := p.coder("")
	defer c.leave()
	return c.lookup(n)
}

// Unknown says that a name is not given, and what may have been meant.
func (p *Planner) Unknown(n *syntax.Name, text string) []finding.Finding {
	c := p.coder(text)
	c.unknownName(n)
	return c.findings
}

// example shows what a value of a name may be, in the units of the two quantities that
// it stands for most often; nothing for a name that says nothing.
//
// A letter may stand for two quantities, as T does for a time and a temperature; both are
// shown.
func example(name string) string {
	text := Example(name, units.Usual(name))
	if also := units.Also(name); text != "" && also != "" {
		text += " or " + name + " = 2.0 " + also
	}
	return text
}

// Example is what goes on with "Give it a value first" for a name with a value in a unit; nothing
// for a word of which nothing says what it is, as P_out.
func Example(name, unit string) string {
	if unit == "" {
		return ""
	}
	return ", as in " + name + " = " + valueIn(unit)
}

// usual is a quantity that a name usually stands for, for an example.
func usual(name string) string { return valueIn(cmp.Or(units.Usual(name), "m")) }

// valueIn is a quantity in a unit, for an example.
//
// The numbers are plain ones of the right size, so that a reader takes the example for
// what it is.
func valueIn(unit string) string {
	switch unit {
	case "rad":
		return "30°"
	case "1":
		return "0.40"
	case "N/m":
		return "20 N/m"
	}
	return "2.0 " + unit
}
