package plan

import (
	"math"
	"slices"

	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
)

// replacing plans a value once more with others in the place of some: what depends
// on those is planned again from its instructions, in the code that asks for it.
// Ordinary instructions come of it, so that it also works within functions and
// curves. A nil one replaces nothing.
//
// Why not put the new values into the tree instead? A result is worked out from others
// by name, and a name may have been given anew since; the instructions say what the
// result really came from, whatever its names mean by now.
type replacing struct {
	outer *replacing // what is replaced round this, or nil
	// put has what stands for a slot of the main code: what replaces it, or the
	// instruction that was planned again.
	put map[run.Slot]run.Slot
	// names are those of what is replaced.
	names map[run.Slot]string
	// depends tells, per slot of the main code from first on, whether it depends on
	// what is replaced; replaced slots do.
	first   run.Slot
	depends []bool
	at      syntax.Span
	failed  bool // what can't be planned again has been said

	reads run.Reads
	// The functions that stand for others, by the numbers of those: those that load
	// what stands for a slot, and those that take it as an argument.
	reloaded, taken map[int]int
}

// followed is how many instructions are looked through at the price of one step.
const followed = 64

// with plans an expression with values replaced.
//
// The new values are planned before anything is replaced: in `T with L = 2*L` the L on
// the right is the old one.
func (c *coder) with(x *syntax.With) run.Slot {
	a := c.newReplacing(x.At)
	for i := range x.By {
		slot, by, ok := c.replacement(x, i)
		if !ok {
			return run.NoSlot
		}
		if _, twice := a.put[slot]; twice {
			b := x.By[i]
			return c.refuse(finding.WrongCall, b.NameAt, b.Name+" is replaced twice here.", "Write one value for it.")
		}
		a.replace(slot, by, x.By[i].Name)
	}
	c.follow(a)
	defer func() { c.replacing = a.outer }()
	if c.tooLong(x.At) {
		return run.NoSlot
	}
	if s := c.expr(x.X); !a.failed {
		return s
	}
	return run.NoSlot
}

// varying lets an argument of the function that is planned stand for a given, so that
// what follows is worked out from the argument, through results and functions too.
func (c *coder) varying(d *Def, by run.Slot, at syntax.Span) {
	a := c.newReplacing(at)
	a.replace(d.Slot, by, d.Name)
	c.follow(a)
}

// newReplacing replaces nothing yet, within what is replaced already.
func (c *coder) newReplacing(at syntax.Span) *replacing {
	return &replacing{
		outer: c.replacing, put: map[run.Slot]run.Slot{}, names: map[run.Slot]string{}, first: math.MaxInt32, at: at,
		reads: c.p.Program.Reads(), reloaded: map[int]int{}, taken: map[int]int{},
	}
}

// replace puts one slot in the place of another, which has a name.
func (a *replacing) replace(slot, by run.Slot, name string) {
	a.put[slot], a.names[slot] = by, name
	a.first = min(a.first, slot)
}

// replacement plans what stands in the place of a value, and finds the slot of
// that. It must be of the same dimension.
//
// A new dimension would make statics wrong that were settled long ago, in lines that
// are not looked at again.
//
// The kind is looked at before the dimension, and both before anything is planned again: a
// message about a part deep in the lines above would say nothing of the value that was typed.
func (c *coder) replacement(x *syntax.With, i int) (slot, by run.Slot, ok bool) {
	b := x.By[i]
	n := &syntax.Name{At: b.NameAt, Name: b.Name, Line: b.Line}
	_, known := c.lookup(n)
	if c.param(b.Name) != nil {
		return 0, c.refuse(finding.NameKind, b.NameAt, b.Name+" is an argument of this function, so it has no value here.", "Call the function with the other value."), false
	}
	if !known {
		c.unknownName(n)
		return 0, 0, false
	}
	d, one := c.which(x, i)
	if !one {
		return 0, 0, false
	}
	if d.Kind != Quantity && d.Kind != Symbol {
		c.unknownName(n)
		return 0, 0, false
	}
	if c.use(d); d.Failed() {
		c.needs(d, b.NameAt)
		return 0, 0, false
	}
	if d.Vector != nil {
		return 0, c.refuse(finding.VectorOrNumber, b.NameAt, b.Name+" is a component of "+d.Vector.Name+", and has no value of its own.", "Replace the vector, with "+d.Vector.Name+" = (…, …)."), false
	}
	if by = c.expr(b.X); by == run.NoSlot {
		return 0, 0, false
	}
	want, got := c.p.Static(d.Slot), c.static(by)
	if c.zeroOfScale(n, b.X, want, got) {
		return 0, 0, false
	}
	if want.IsVector() != got.IsVector() {
		return 0, c.refuse(finding.VectorOrNumber, b.X.Span(), b.Name+" is "+ShapeName(want)+"; the new value is "+ShapeName(got)+".", ""), false
	}
	if want.Shape != got.Shape || want.Width != got.Width {
		return 0, c.refuse(finding.UnequalLists, b.X.Span(), b.Name+" is "+values(want)+"; the new value is "+values(got)+".",
			"Write as many values as "+b.Name+" has."), false
	}
	// What was open when the name was defined, a bare 0, takes any dimension.
	if want.Open == 0 {
		got = c.settledTo(by, want.Dim)
	}
	if want.Open == 0 && got.Dim != want.Dim {
		var readings []string
		if n, bare := b.X.(*syntax.Number); bare && d.Unit != nil {
			readings = []string{n.Value.Text + " " + d.Unit.Text()}
		}
		return 0, c.refuse(finding.UnlikeDimensions, b.X.Span(), b.Name+" is "+Words(want)+"; the new value is "+Words(got)+".",
			"Use a unit of the same kind.", readings...), false
	}
	// A temperature that is worked out from others is a plain number of kelvins until a name
	// makes it a point.
	if want.Heat == run.Point && got.Heat == run.Plain { // 2*T in K, which T is now
		got.Heat = run.Point
		by = c.emit(run.Instr{Op: ops.Copy, A: by}, b.X.Span(), got)
	}
	return d.Slot, by, true
}

// follow finds the slots that depend on those that are replaced, and plans with these from
// here on.
//
// One pass does it: an instruction reads slots before its own alone. Looking through a long
// worksheet costs, too.
func (c *coder) follow(a *replacing) {
	main := &c.p.Program.Main
	a.depends = make([]bool, max(0, len(main.Instrs)-int(a.first)))
	for s := a.first; int(s) < len(main.Instrs); s++ {
		_, replaced := a.put[s]
		is := replaced
		a.reads.Main(s, func(o run.Slot) { is = is || a.on(o) })
		a.depends[s-a.first] = is
	}
	c.cost = min(c.cost+int64(len(a.depends))/followed, maxCost+1)
	c.replacing = a
}

// on tells whether a slot of the main code depends on what is replaced here.
func (a *replacing) on(s run.Slot) bool {
	return s >= a.first && int(s-a.first) < len(a.depends) && a.depends[s-a.first]
}

// isOn is on, for what is replaced round this as well.
func (a *replacing) isOn(s run.Slot) bool {
	for ; a != nil; a = a.outer {
		if a.on(s) {
			return true
		}
	}
	return false
}

// takesAny tells whether a power may have any exponent; what may not has a unit that follows
// from the exponent, and is refused.
func (a *replacing) takesAny(c *coder, base run.Static, exponent run.Slot) bool {
	if c.p.isPure(base) {
		return true
	}
	if !a.failed {
		by := a
		for ; by.names[exponent] == "" && by.outer != nil; by = by.outer {
		}
		c.says(FixedExponent(a.at, by.names[exponent]))
	}
	a.failed = true
	return false
}

// isPure tells whether a static is that of a number without a unit.
func (p *Planner) isPure(st run.Static) bool {
	st = p.settledStatic(st)
	return st.Open == 0 && st.Dim.IsOne() && !st.IsVector()
}

// FixesUnit tells whether a given is an exponent that sets the unit of a power which a slot
// was worked out from, so that it can't be varied alone.
func (p *Planner) FixesUnit(by *Def, of run.Slot) bool {
	return p.Program.FixesUnit(by.Slot, of, p.isPure)
}

// FixedExponent is the finding on an exponent that is varied and that sets the unit of a power.
func FixedExponent(at syntax.Span, name string) finding.Finding {
	return finding.New(finding.ExponentNotWritten, at,
		"The exponent "+name+" sets the unit of the result, so it can't be replaced.",
		"Change "+name+" in its own line.")
}

// The code of a function does not hold the slots of the main code, it loads them: it
// can't be planned again for other values without a copy. There are two kinds of
// those. In the main code, a root is searched for with functions that load what is
// replaced from the slots that stand for it (reloading). Elsewhere the value may
// differ from call to call, as in r(u) = p with m = u, so that the function takes it
// as a further argument, and so do those that it calls (taking).

// slot is where the value of a slot of the main code is found in the code that is
// being planned: where something is replaced, what stands for it.
func (a *replacing) slot(c *coder, s run.Slot, at syntax.Span) run.Slot {
	for ; a != nil; a = a.outer {
		if a.on(s) {
			if to, done := a.put[s]; done {
				return to
			}
			to := a.replan(c, s)
			a.put[s] = to
			return to
		}
	}
	if c.fn == nil {
		return s
	}
	return c.emit(run.Instr{Op: ops.Load, A: s}, at, c.p.Static(s))
}

// replan plans an instruction of the main code again, and before it those that it
// reads, as far as they depend on what is replaced. What is known of its slot stays:
// what replaces a value has the dimension of that, so that nothing is checked again.
func (a *replacing) replan(c *coder, s run.Slot) run.Slot {
	main := &c.p.Program.Main
	in, st := main.Instrs[s], c.p.Static(s)
	if c.cost > maxCost {
		return s // said of the whole line
	}
	// A power with a named exponent was planned as a fixed one, x^2 for x^n with n = 2. Where n
	// is replaced, it is planned as a power that varies.
	power, named := main.Named(s)
	if named && a.isOn(power.Exponent) {
		if in, named = power.Varying(), false; !a.takesAny(c, main.Statics[power.Base], power.Exponent) {
			return 0
		}
	}
	absent := false
	operand := func(o run.Slot) run.Slot {
		to := a.slot(c, o, a.at)
		absent = absent || c.static(to).Absent
		return to
	}
	if in.Op.Runs() {
		var slots []run.Slot
		in.Moved(main.Args, &slots, operand)
		st.Absent = absent
		f := c.p.Program.Funcs[in.A]
		c.cost, c.depth = min(c.cost+f.Cost, maxCost+1), max(c.depth, f.Depth)
		return max(c.invokes(in.Op, int(in.A), slots, a.at, st), 0)
	}
	if in.Op == ops.Solve {
		if in.A = a.resolving(c, in.A); a.failed {
			return 0
		}
	}
	if in.Op == ops.Fit { // how well it is known would be that of the old readings
		a.fail(c, "This version can't fit readings again with another value.",
			"Change the value in its own line; the fit follows.")
		return 0
	}
	if in.Op == ops.Spread && c.fn != nil {
		a.fail(c, "This version can't work out u( ) again with another value here.",
			"Work it out in its own line.")
		return 0
	}
	in = in.Moved(main.Args, &c.code.Args, operand)
	if in.Op != ops.Solve {
		st.Absent = absent
	}
	if named {
		power = run.NamedPower{Base: operand(power.Base), Exponent: operand(power.Exponent)}
	}
	to := c.emit(in, a.at, st)
	if named && to != run.NoSlot {
		c.code.NamePower(to, power)
	}
	return to
}

// fail says once what can't be planned again.
func (a *replacing) fail(c *coder, message, hint string) {
	if !a.failed {
		c.find(finding.NotAvailableYet, a.at, message, hint)
	}
	a.failed = true
}

// resolving is a solve with what is replaced. Its functions load that from the
// main code, and so does the search.
// Such a solve has slots for its candidates, or bounds for a search, which are moved
// like any operands.
func (a *replacing) resolving(c *coder, solve run.Slot) run.Slot {
	if c.fn != nil {
		a.fail(c, "This version can't replace a value in an equation inside a function.",
			"Put it in its own line, and use its name.")
		return solve
	}
	anew := c.p.Program.Solves[solve].On(func(fn int) int { return a.reloading(c, fn) })
	c.p.Program.Solves = append(c.p.Program.Solves, anew)
	return run.Slot(len(c.p.Program.Solves) - 1)
}

// reloading is a function that loads from the main code what stands for the slots
// that are replaced.
func (a *replacing) reloading(c *coder, fn int) int {
	if to, ok := a.reloaded[fn]; ok || len(a.replacedIn(fn)) == 0 {
		if !ok {
			to = fn
		}
		return to
	}
	f := *c.p.Program.Funcs[fn].Varying(func(base run.Static, exponent run.Slot) bool {
		return a.isOn(exponent) && a.takesAny(c, base, exponent)
	})
	f.Code.Instrs = append([]run.Instr{}, f.Code.Instrs...)
	for i := range f.Code.Instrs {
		in := &f.Code.Instrs[i]
		switch {
		case in.Op == ops.Load:
			in.A = a.slot(c, in.A, a.at)
		case in.Op.Runs():
			in.A = run.Slot(a.reloading(c, int(in.A)))
		}
	}
	c.p.Program.Funcs = append(c.p.Program.Funcs, &f)
	a.reloaded[fn] = len(c.p.Program.Funcs) - 1
	return a.reloaded[fn]
}

// replacedIn are the slots that a function loads and that something stands for.
func (a *replacing) replacedIn(fn int) []run.Slot {
	if a == nil {
		return nil
	}
	return slices.DeleteFunc(slices.Clone(a.reads.Loads(fn)), func(s run.Slot) bool { return !a.isOn(s) })
}

// function is a function that takes what stands for the slots that are replaced as
// further arguments, with those arguments. Without any, it is the function itself.
func (a *replacing) function(c *coder, fn int) (int, []run.Slot, bool) {
	slots := a.replacedIn(fn)
	if len(slots) == 0 {
		return fn, nil, true
	}
	extra := make([]run.Slot, len(slots))
	for i, s := range slots {
		extra[i] = a.slot(c, s, a.at)
	}
	return a.taking(c, fn, slots), extra, !a.failed
}

// taking is a function that takes the values of some slots, which it would load,
// as further arguments. For one function they are always the same: all that is
// replaced among those.
func (a *replacing) taking(c *coder, fn int, slots []run.Slot) int {
	p := c.p
	if to, ok := a.taken[fn]; ok {
		return to
	}
	old := p.Program.Funcs[fn].Varying(func(base run.Static, exponent run.Slot) bool {
		return slices.Contains(slots, exponent) && a.takesAny(c, base, exponent)
	})
	f := &run.Func{Name: old.Name, Params: old.Params + len(slots), Cost: old.Cost, Depth: old.Depth}
	given := make(map[run.Slot]run.Slot, len(slots))
	for i, s := range slots {
		given[s] = f.Code.Add(run.Instr{Op: ops.Param, A: run.Slot(old.Params + i)}, syntax.Span{}, p.Static(s))
	}
	shift := func(s run.Slot) run.Slot { return s + run.Slot(len(slots)) }
	f.Result = shift(old.Result)
	for i, in := range old.Code.Instrs {
		in = in.Moved(old.Code.Args, &f.Code.Args, shift)
		if to, ok := given[in.A]; ok && in.Op == ops.Load {
			in = run.Instr{Op: ops.Copy, A: to}
		}
		if in.Op.Runs() {
			var inner []run.Slot
			for _, s := range a.reads.Loads(int(in.A)) {
				if to, ok := given[s]; ok {
					inner, f.Code.Args = append(inner, s), append(f.Code.Args, to)
				}
			}
			if in.C += run.Slot(len(inner)); len(inner) > 0 {
				in.A = run.Slot(a.taking(c, int(in.A), inner))
			}
		}
		s := f.Code.Add(in, old.Code.Span(run.Slot(i)), old.Code.Statics[i])
		if power, named := old.Code.Named(run.Slot(i)); named {
			f.Code.NamePower(s, run.NamedPower{Base: shift(power.Base), Exponent: shift(power.Exponent)})
		}
	}
	p.Program.Funcs = append(p.Program.Funcs, f)
	a.taken[fn] = len(p.Program.Funcs) - 1
	return a.taken[fn]
}
