package plan

import (
	"slices"

	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// list plans a list or a vector. Written numbers are data of the program; other values have a slot
// each, and are put together in one that has as many elements.
//
// Written numbers are the common case, and a table has thousands of them: they are one
// instruction, with their figures and uncertainties beside them.
func (c *coder) list(x *syntax.List) run.Slot {
	if s, ok := c.numbers(x); ok {
		return s
	}
	slots, good := make([]run.Slot, len(x.Elems)), true
	for i := range x.Elems {
		slots[i] = c.expr(x.Measured(i))
		good = good && slots[i] != run.NoSlot
	}
	if !good {
		return run.NoSlot
	}
	return c.join(x.At, x.Elems, slots, shapeOf(x), run.WrittenList)
}

// shapeOf tells a list from a vector.
func shapeOf(x *syntax.List) run.Shape {
	if x.Vector {
		return run.Vector
	}
	return run.List
}

// numbers plans a list of written numbers with one unit, or without any; false for
// another list. A list of many numbers is one instruction.
//
// A bare (0, 0) fits every vector, as 0 fits every number. A list of zeros does not: it is a
// list of pure numbers, [0, 0].
func (c *coder) numbers(x *syntax.List) (run.Slot, bool) {
	data := make([]run.Instr, len(x.Elems))
	for _, e := range x.Elems {
		if _, ok := e.(*syntax.Number); !ok {
			return run.NoSlot, false
		}
	}
	u := units.One
	if x.Unit.Present() {
		if u = c.unit(x.Unit, units.AfterNumber); u == nil {
			return run.NoSlot, true
		}
	}
	zero := true
	for i, e := range x.Elems {
		n := e.(*syntax.Number)
		zero = zero && n.Value.Hi == 0
		v := u.ToSI(n.Value)
		data[i] = written(v, n.Value, u)
		if !holds(v, n.Value, u) {
			return c.outOfRange(n.Value.Text, n.At), true
		}
	}
	st := unitStatic(u)
	if zero && x.Vector && !x.Unit.Present() {
		st = c.p.newZero() // (0, 0) is the zero vector of any kind
	}
	st.Shape = shapeOf(x)
	return c.data(data, x.At, st), true
}

// data adds a list of numbers to the program and plans it.
//
// The numbers belong to the program and not to the code, so that a list is worked out once,
// however many lanes run.
func (c *coder) data(list []run.Instr, at syntax.Span, st run.Static) run.Slot {
	all := &c.p.Program.Data
	*all = append(*all, list)
	st.Width = int32(len(list))
	uncertain := slices.ContainsFunc(list, func(in run.Instr) bool { return in.Uncertainty() != 0 })
	return c.emitWritten(run.Instr{Op: ops.Data, A: run.Slot(len(*all) - 1)}, at, st, uncertain)
}

// join puts values of one dimension together as a list, which may have been written as one.
// A bare zero among them is one of their kind.
//
// What the elements must agree in is told of the first that does not: a dimension, a tag, a
// temperature among differences. What may stand in a list is a number or a vector, and in a
// vector a number or a list of them.
func (c *coder) join(at syntax.Span, of []syntax.Expr, slots []run.Slot, shape run.Shape, written run.Slot) run.Slot {
	st, name := c.static(slots[0]), [...]string{run.List: "list", run.Vector: "vector"}[shape]
	for i, s := range slots {
		one := c.static(s)
		if !c.fits(at, slots, i, shape) {
			return run.NoSlot
		}
		if shape == run.Vector && one.IsVector() {
			return c.refuse(finding.OneValueNeeded, of[i].Span(), c.shown(of[i])+" is "+ShapeName(one)+"; each component of a vector is a number.",
				"A list of vectors has square brackets, as in [(3, 4), (1, 2)] N.")
		}
		if shape == run.List && (one.Shape == run.List || one.Shape == run.Vectors) {
			return c.refuse(finding.OneValueNeeded, of[i].Span(), c.shown(of[i])+" is "+several(one)+"; each value in a list is one number or one vector.",
				"Write the values themselves, with commas between them.")
		}
		agreed, ok := c.p.agree(st, one)
		switch {
		case !ok:
			if shape == run.Vector {
				at = of[i].Span()
			}
			return c.unlike(at, of[0], of[i], slots[0], s, "put into one "+name)
		case st.Tag != one.Tag && st.Tag.Clashes(one.Tag), st.Heat != one.Heat && (st.Heat == run.Point || one.Heat == run.Point):
			return c.refuse(finding.UnlikeDimensions, at, "This "+name+" mixes "+c.shown(of[0])+" with "+c.shown(of[i])+".",
				"Write all its values in one unit.")
		}
		agreed.Tag, agreed.Absent = units.SumTag(agreed.Dim, st.Tag, one.Tag), st.Absent || one.Absent
		st = agreed
	}
	switch {
	case shape == run.Vector:
		return c.vectorOf(slots, at, st)
	case st.IsVector():
		return c.listed(slots, at, st, written)
	}
	return c.together(slots, at, st, shape, written)
}

// together puts values that have one static together.
//
// The static of the whole is that of one element, with the number of columns added up.
func (c *coder) together(slots []run.Slot, at syntax.Span, st run.Static, shape run.Shape, written run.Slot) run.Slot {
	st.Shape, st.Width = shape, 0
	for _, s := range slots {
		st.Width += c.code.Statics[s].Width
	}
	first := run.Slot(len(c.code.Args))
	c.code.Args = append(c.code.Args, slots...)
	return c.emit(run.Instr{Op: ops.Join, A: written, B: first, C: run.Slot(len(slots))}, at, st)
}

// Listed puts values of the main code that have one static together as a list.
func (p *Planner) Listed(slots []run.Slot) run.Slot {
	return p.coder("").together(slots, syntax.Span{}, p.Static(slots[0]), run.List, 0)
}

// Vector puts components of the main code that have one static together; of lists, a list of
// vectors.
func (p *Planner) Vector(slots []run.Slot) run.Slot {
	return p.coder("").vectorOf(slots, syntax.Span{}, p.Static(slots[0]))
}

// Readings adds a list of readings in a unit to the main code: a column of a table, of which
// first is the first one, or run.NoSlot where it is that itself.
//
// Each column knows the first one of its table, so that what is read in one row is known to
// belong together: two means over such columns do not scatter by themselves.
func (p *Planner) Readings(list []run.Instr, u *units.Unit, first run.Slot) run.Slot {
	st := unitStatic(u)
	st.Shape = run.List
	s := p.coder("").data(list, syntax.Span{}, st)
	p.Program.Main.Instrs[s].B = first + 1
	return s
}

// Picked is an element of a list of the main code, counted from 0.
//
// Solving for each element of a list puts its name to such an element (session/solve).
func (p *Planner) Picked(list run.Slot, i int) run.Slot {
	return p.Emit(run.Instr{Op: ops.Pick, A: list, K: float64(i)}, p.Static(list))
}

// widened settles how many elements the result of an instruction has, from those of its
// operands: a single value goes with each element of a list. Two lists have the same
// number of elements, which may be told before any of them is known.
//
// So every operation is planned once for numbers, and goes for lists of any length: 2*T of a
// list T has its length, and T1 - T2 needs two of one length. What puts elements together has a
// length of its own.
//
// The cost counts elements, since a line over a list of a million takes that much longer.
func (c *coder) widened(in *run.Instr, at syntax.Span, st *run.Static) bool {
	operands := [...]run.Slot{in.A, in.B, in.C}
	n := in.Op.Operands()
	if n == 0 {
		return true // its static says
	}
	st.Shape, st.Width = run.Scalar, 1
	first := run.NoSlot
	for _, s := range operands[:n] {
		if s == run.NoSlot {
			return false // a finding has said why
		}
		of := c.code.Statics[s]
		switch {
		case of.IsVector():
			return c.joined(in, at, st)
		case of.Shape == run.Scalar:
		case first == run.NoSlot:
			first, st.Shape, st.Width = s, of.Shape, of.Width
		case of.Width != st.Width:
			c.unequal(at, c.listName(first), c.code.Statics[first], c.listName(s), of)
			return false
		}
	}
	if in.Op.OneOfAll() {
		st.Shape = run.Scalar
	}
	width, _ := in.Op.Elements(int(st.Width))
	st.Width = int32(width)
	c.cost = min(c.cost+int64(st.Width), maxCost+1)
	return true
}

// unequal says that two lists have not the same number of elements.
func (c *coder) unequal(at syntax.Span, one string, a run.Static, other string, b run.Static) {
	c.says(UnequalLists(at, one, a.Len(), other, b.Len()))
}

// UnequalLists says that two lists have not the same number of values.
func UnequalLists(at syntax.Span, one string, a int, other string, b int) finding.Finding {
	return finding.New(finding.UnequalLists, at, one+" has "+itoa(a)+" values, "+other+" has "+itoa(b)+".",
		"Two lists go together value by value, so they need the same number of values.")
}

// listName is what a list is called: the name of its line, or the text of what gave it.
//
// A reader knows T, or the text in his own line; what stands in a function elsewhere has
// neither.
func (c *coder) listName(s run.Slot) string {
	if c.fn == nil {
		for _, d := range c.uses {
			if d.Slot == s && d.Name != "" {
				return d.Name
			}
		}
	}
	for _, p := range c.params {
		if p.slot == s {
			return p.name
		}
	}
	if text := c.source(c.code.Span(s)); s >= c.start && text != "" {
		return text
	}
	return "a list"
}

// values says how many values are in a slot.
func values(st run.Static) string {
	switch st.Shape {
	case run.Scalar:
		return "one value"
	case run.Vector:
		return "a vector"
	case run.Vectors:
		return "a list of " + itoa(st.Len()) + " vectors"
	}
	return "a list of " + itoa(int(st.Width))
}

// several is values, of a list with what it is of.
func several(st run.Static) string {
	if st.Shape == run.List {
		return values(st) + " values"
	}
	return values(st)
}

// callTogether plans a function of all elements of a list. Several values in its
// brackets are a list.
//
// max(3 m, 2 m) and max([3, 2] m) are one function. Temperatures can be averaged and not added,
// and the standard deviation of temperatures is a difference.
//
// A list has one dimension, so that what is put together needs none of its own, but for count.
func (c *coder) callTogether(x *syntax.Call, b ops.Function, slots []run.Slot) run.Slot {
	list := slots[0]
	if len(slots) > 1 {
		of := make([]syntax.Expr, len(slots))
		for i, a := range x.Args {
			of[i] = a.X
		}
		if list = c.join(x.At, of, slots, run.List, 0); list == run.NoSlot {
			return run.NoSlot
		}
	}
	st := c.static(list)
	if st.Shape == run.Vectors {
		return c.vectorsTogether(x, b, list)
	}
	if st.Shape != run.List {
		return c.refuse(finding.WrongCall, x.At, b.Name+" takes a list; "+c.shown(x.Args[0].X)+" is "+values(st)+".",
			"Write the values in square brackets, as in "+b.Example+".")
	}
	switch {
	case st.Width < 2 && (b.Op == ops.SD || b.Op == ops.Steps):
		return c.refuse(finding.WrongCall, x.At, b.Name+" needs two values or more; "+c.shown(x.Args[0].X)+" has one.", "Put more values into the list.")
	case b.Takes == ops.ListToCount:
		st = run.Static{}
	case b.Takes == ops.ListToSum && st.Heat == run.Point:
		return c.refuse(finding.TemperatureSum, x.At, noSum,
			"For their mean, write mean("+c.shown(x.Args[0].X)+").", "mean("+c.shown(x.Args[0].X)+")")
	case b.Takes == ops.ListToSpan && st.Heat == run.Point:
		st.Heat = run.Difference
	}
	if b.Op == ops.Mean {
		return c.mean(list, x.At, st)
	}
	return c.emit(run.Instr{Op: b.Op, A: list}, x.At, st)
}

// mean plans the mean of a list, which is uncertain for how the readings scatter. That is one
// number of the main code, however often a function has it; a function that takes the mean of
// what it is given is pasted there.
//
// The standard error is the standard deviation over √n (JCGM 100:2008, 4.2.3). It is added to
// the mean as a number that is 0 and has that uncertainty, so that whatever is worked out from
// the mean carries it, and two uses of one mean vary together.
func (c *coder) mean(list run.Slot, at syntax.Span, st run.Static) run.Slot {
	mean := c.emit(run.Instr{Op: ops.Mean, A: list}, at, st)
	if c.static(list).Width < 2 {
		return mean
	}
	in, scatter := c.code.Instrs[list], run.Instr{Op: ops.Scatter, A: list}
	var off run.Slot
	switch {
	case c.fn == nil:
		off = c.emit(scatter, at, st)
	case in.Op == ops.Load:
		scatter.A = in.A
		off = c.emit(run.Instr{Op: ops.Load, A: c.p.Emit(scatter, c.static(mean))}, at, c.static(mean))
	default:
		c.means = true
		return mean
	}
	c.p.Unsure = true
	return c.emit(run.Instr{Op: ops.Add, A: mean, B: off}, at, c.static(mean))
}

// single tells whether an expression has one value, and says so where it has a list.
//
// Where one number is needed a list is refused by name, and never silently taken by its first
// value.
func (c *coder) single(x syntax.Expr, s run.Slot) bool {
	st := c.code.Statics[s]
	if st.Shape == run.Scalar {
		return true
	}
	c.says(OneValue(x, st))
	return false
}

// OneValue says that a list or a vector, of which is known what the static says, is where one value
// is needed.
//
// Each shape has its own way to one number: of a list the mean, of a vector the magnitude.
func OneValue(x syntax.Expr, of run.Static) finding.Finding {
	text := syntax.PrintExpr(x)
	if of.Shape == run.Vectors {
		return finding.New(finding.VectorOrNumber, x.Span(), "`"+text+"` is "+values(of)+"; here a number is needed.", "Their sum and their mean are vectors, and |"+text+"| has their magnitudes.")
	}
	if of.Shape == run.Vector {
		size := "|" + text + "|"
		return finding.New(finding.VectorOrNumber, x.Span(), "`"+text+"` is a vector; here a number is needed.", "Its magnitude is "+size+".", size)
	}
	return finding.New(finding.OneValueNeeded, x.Span(), "`"+text+"` is a list of "+itoa(int(of.Width))+" values; here one value is needed.",
		"Their mean is mean("+text+").", "mean("+text+")")
}
