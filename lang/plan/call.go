package plan

import (
	"slices"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/units"
	"steelyard/units/writing"
)

// call plans a call of a built-in function, of a function of the worksheet or
// of a formula. The worksheet's own come first: who defines `range` means that one.
// A name that is a quantity is no function: that is looked at last, and told with
// what was probably meant.
func (c *coder) call(x *syntax.Call) run.Slot {
	if d, ok := c.p.Names.before(x.Func, c.seen); ok && !x.Signed {
		switch d.Kind {
		case Function:
			return c.callFunction(x, d)
		case Formula:
			return c.callFormula(x, d)
		}
	}
	if b, ok := ops.Named(x.Func); ok {
		return c.callBuiltIn(x, b)
	}
	if d, ok := c.libraryFormula(x.Func); ok {
		return c.callFormula(x, d)
	}
	return c.unknownCall(x)
}

// unknownCall says what may have been meant by a bracket after a word that is
// no function.
//
// A quantity is asked about first, since m(a + b) is written for a product; then names
// run together, then a slip of the finger.
//
// The product is offered and never taken, for a function may be missing as well as a
// sign.
func (c *coder) unknownCall(x *syntax.Call) run.Slot {
	inner := ""
	if n := len(x.Args); n > 0 {
		inner = c.source(x.Args[0].X.Span().Join(x.Args[n-1].X.Span()))
	}
	if c.known(x.Func) && c.ofLetter(x) {
		return c.refuse(finding.NameKind, x.At, x.Func+" is a quantity, and "+x.Func+"("+inner+") would be a function.",
			"Give the function a name of its own, as in "+x.Func+"1("+inner+") = ….")
	}
	if c.known(x.Func) && len(x.Args) == 1 {
		return c.refuse(finding.NamesTogether, x.At, x.Func+" is a quantity, and a bracket follows it.",
			"Put `*` between them; or give a function a name of its own.", x.Func+"*("+inner+")")
	}
	var near []string
	if whole := longerName(x.Func); whole != "" {
		near = []string{whole}
	} else if !c.endsWithFunction(x.Func) {
		near = writing.Nearest(x.Func, slices.Values(c.functionNames()))
	}
	hint := "`help functions` lists the functions, `help formulas` the formulas."
	if len(near) > 0 {
		hint = "Did you mean " + writing.List(near, "or") + "?"
	}
	return c.refuse(finding.UnknownName, x.Name, "There is no function or formula called "+x.Func+".", hint, near...)
}

// longerName is the one function whose name a word is the beginning of, of three letters or
// more: mag of magnitude.
//
// Two functions that begin so leave it open, and nothing is offered.
func longerName(word string) string {
	found := ""
	for _, f := range ops.Functions() {
		switch {
		case len(word) < 3 || !strings.HasPrefix(f.Name, word):
		case found != "":
			return ""
		default:
			found = f.Name
		}
	}
	return found
}

// ofLetter tells whether a call has one letter without a value as its argument, as a
// function has it and no product: x(t).
//
// f(x) = 2*x may come later, or have been forgotten; f*(x) of an x without a value makes no
// sense.
func (c *coder) ofLetter(x *syntax.Call) bool {
	if len(x.Args) != 1 {
		return false
	}
	n, ok := x.Args[0].X.(*syntax.Name)
	if !ok || n.Line != 0 || n.Name == "g" {
		return false
	}
	_, given := c.p.Names.before(n.Name, c.seen)
	return !given || c.param(n.Name) != nil
}

// args plans the arguments of a call given by their places; all of them, even where
// one has a fault, since each may have one of its own. Only formulas have names for
// their arguments.
func (c *coder) args(x *syntax.Call, least, most int) ([]run.Slot, bool) {
	for _, a := range x.Args {
		if a.Name != "" {
			c.find(finding.WrongCall, a.NameAt, x.Func+" takes its values in order, not by name.",
				"Leave out \""+a.Name+" =\".")
			return nil, false
		}
	}
	if n := len(x.Args); n < least || n > most {
		want := writing.Count(most, "value")
		if most != least {
			want = itoa(least) + " to " + want
		}
		hint, readings := "Take the others out.", []string(nil)
		switch {
		case x.Func == "angle" && n == 1:
			hint, readings = "For the angle to +x, use direction.", []string{"direction(" + c.source(x.Args[0].X.Span()) + ")"}
		case n < least:
			hint = "Write the others too, with commas between them."
		}
		c.find(finding.WrongCall, x.At, x.Func+" takes "+want+"; here it has "+itoa(n)+".", hint, readings...)
		return nil, false
	}
	slots := make([]run.Slot, len(x.Args))
	good := true
	for i, a := range x.Args {
		slots[i] = c.expr(a.X)
		good = good && slots[i] != run.NoSlot
	}
	return slots, good
}

// callBuiltIn plans a call of a built-in function. What its arguments may be and
// what it gives is said by the shape in its row of the table of operations:
//
//	a pure number to a pure number      ln, exp, sinh; an angle counts as one
//	an angle to a pure number           sin; a pure number is an angle in radians
//	a pure number to an angle           asin
//	two of one dimension to an angle    atan2
//	any number of one dimension to it   min, max, hypot
//	anything to the same                abs: of a temperature it is a value in K
//	anything to a pure number           sgn
//	a power of what comes out           sqrt, cbrt, root
//	a quantity and a step of its kind   round; or how many figures
//	anything to a difference of it      u
//	a list, or several values of a kind sum, mean, sd, count, median, sort, differences
func (c *coder) callBuiltIn(x *syntax.Call, b ops.Function) run.Slot {
	slots, ok := c.args(x, b.Least, b.Most)
	if !ok {
		return run.NoSlot
	}
	st := c.static(slots[0])
	for _, s := range slots[1:] {
		st.Absent = st.Absent || c.static(s).Absent
	}
	// Functions of vectors have rules of their own. Those of one number take none, but for abs.
	if b.Takes.OfVectors() {
		return c.callVector(x, b, slots)
	}
	for i, s := range slots {
		if c.isVector(s) && b.Takes < ops.ListToSame && b.Takes != ops.AnyToSame {
			return c.says(OneValue(x.Args[i].X, c.static(s)))
		}
	}
	switch b.Takes {
	case ops.RootOf:
		return c.callRoot(x, b, slots)
	case ops.ListToSame, ops.ListToSpan, ops.ListToSum, ops.ListToCount:
		return c.callTogether(x, b, slots)
	case ops.RoundTo:
		return c.callRound(x, slots)
	case ops.AnyToSpan:
		return c.spread(x, slots[0])
	case ops.AnyToSame:
		return c.size(slots[0], x.At)
	case ops.AnyToPure:
		return c.emit(run.Instr{Op: b.Op, A: slots[0]}, x.At, run.Static{Absent: st.Absent})
	case ops.SameToSame, ops.SameToAngle:
		return c.callSame(x, b, slots)
	}
	if !c.pureArgument(x, slots[0], b.Takes) {
		return run.NoSlot
	}
	out := run.Static{Absent: st.Absent}
	if b.Takes == ops.PureToAngle {
		out.Tag = units.Angle
	}
	return c.emit(run.Instr{Op: b.Op, A: slots[0]}, x.At, out)
}

// pureArgument checks that a function that takes a pure number or an angle has
// one. What counts cycles is none for sin, though it is a pure number: 3 cycles are
// an angle of 6π, and the factor is easily lost.
func (c *coder) pureArgument(x *syntax.Call, s run.Slot, takes ops.Shape) bool {
	st := c.settledTo(s, units.Dim{})
	at := x.Args[0].X
	if !st.Dim.IsOne() {
		wants := "a pure number"
		hint := "Divide it by " + another(st) + ", so the units cancel."
		if takes == ops.AngleToPure {
			wants = "an angle"
			hint = "Write an angle, as in " + x.Func + "(30°), or divide by " + another(st) + "."
		}
		c.find(finding.ArgumentDimension, at.Span(),
			x.Func+" takes "+wants+"; "+c.shown(at)+" is "+phrase(st)+".", hint)
		return false
	}
	if takes == ops.AngleToPure && st.Tag == units.Cycle {
		c.refuse(finding.AngleOrCycle, at.Span(), c.shown(at)+" counts cycles; "+x.Func+" takes an angle.",
			"Multiply by 2π: "+x.Func+"(2π*…).")
		return false
	}
	return true
}

// callSame plans a function of several arguments of one dimension, two at a time
// from the left: max(a, b, c) is max(max(a, b), c), hypot(a, b, c) likewise. A bare
// zero among them is one of their kind.
func (c *coder) callSame(x *syntax.Call, b ops.Function, slots []run.Slot) run.Slot {
	acc := slots[0]
	if len(slots) == 1 && (b.Op == ops.Min || b.Op == ops.Max) && c.static(acc).Shape == run.List {
		op := map[ops.Op]ops.Op{ops.Min: ops.Lowest, ops.Max: ops.Highest}[b.Op]
		return c.emit(run.Instr{Op: op, A: acc}, x.At, c.static(acc))
	}
	for i, s := range slots[1:] {
		sa, sb := c.static(acc), c.static(s)
		if c.zeroOfScale(x.Args[i].X, x.Args[i+1].X, sa, sb) {
			return run.NoSlot
		}
		st, ok := c.p.agree(sa, sb)
		if !ok {
			return c.unlike(x.At, x.Args[0].X, x.Args[i+1].X, acc, s, "taken together in "+x.Func)
		}
		st.Absent = sa.Absent || sb.Absent
		if b.Takes == ops.SameToAngle {
			st = run.Static{Tag: units.Angle, Absent: st.Absent}
		}
		if (b.Op == ops.Min || b.Op == ops.Max) && slices.ContainsFunc(slots[:i+1], func(o run.Slot) bool { return c.code.Alike(o, s) }) {
			continue // it is there already
		}
		acc = c.emit(run.Instr{Op: b.Op, A: acc, B: s}, x.At, st)
	}
	return acc
}

// callRoot plans sqrt, cbrt and root(x, n).
//
// root(x, n) with an n that is worked out would have a dimension that no one knows before it
// runs.
func (c *coder) callRoot(x *syntax.Call, b ops.Function, slots []run.Slot) run.Slot {
	degree := 2
	switch b.Op {
	case ops.Cbrt:
		degree = 3
	case ops.Root:
		e := c.writtenExponent(x.Args[1].X)
		if !e.IsInt() || e.Num() < 2 {
			return c.refuse(finding.WrongCall, x.Args[1].X.Span(), "The second value of root is a whole number from 2 up.",
				"Write root(x, 4) for the fourth root.")
		}
		degree = e.Num()
	}
	return c.rootOf(slots[0], b.Op, degree, x.At)
}
