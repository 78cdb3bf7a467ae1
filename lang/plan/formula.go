package plan

import (
	"slices"

	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/units"
	"steelyard/units/writing"
)

// libraryFormula returns a built-in formula as a definition.
//
// Its definition is made when it is first asked for: the library is long, and a line
// names one of them at most.
func (c *coder) libraryFormula(name string) (*Def, bool) {
	p := c.p
	if d, ok := p.library[name]; ok {
		return d, true
	}
	if p.Library == nil {
		return nil, false
	}
	f, ok := p.Library(name)
	if !ok {
		return nil, false
	}
	if p.library == nil {
		p.library = make(map[string]*Def)
	}
	d := &Def{Name: name, Kind: Formula, Formula: f, Slot: run.NoSlot}
	p.library[name] = d
	p.loaded = append(p.loaded, name)
	return d, true
}

// functionNames lists what can be called here.
//
// For a hint alone, where a name that is called is not known.
func (c *coder) functionNames() []string {
	var names []string
	for _, f := range ops.Functions() {
		names = append(append(names, f.Name), f.Aliases...)
	}
	for _, d := range c.p.Names.All() {
		if d.Kind == Function || d.Kind == Formula {
			names = append(names, d.Name)
		}
	}
	if c.p.LibraryNames != nil {
		names = append(names, c.p.LibraryNames()...)
	}
	return names
}

// callFormula plans a call of a formula: its right side, for the symbols that
// its indented lines declare. g is the worksheet's unless it is given by name.
// Formulas of the library and of the worksheet are called alike; they see each
// other and their symbols alone, never the names of the lines above.
//
// The units of the symbols decide what is taken and what comes out; the equation
// itself was checked when it was defined.
func (c *coder) callFormula(x *syntax.Call, d *Def) run.Slot {
	c.use(d)
	if d.Failed() {
		return c.needs(d, x.At)
	}
	if _, ok := d.Formula.Left.(*syntax.Name); !ok {
		return c.refuse(finding.NotAvailableYet, x.Name, d.Name+" can't be used with brackets: its left side isn't one name.",
			"Write out its right side instead.")
	}
	params, args, ok := c.formulaArgs(x, d.Formula)
	if !ok {
		return run.NoSlot
	}
	slots := make([]run.Slot, len(args))
	good := true
	for i, a := range args {
		slots[i] = c.formulaArg(x, a, params[i])
		good = good && slots[i] != run.NoSlot
	}
	if !good {
		return run.NoSlot
	}
	names := make([]string, len(params))
	for i, s := range params {
		names[i] = s.Name
	}
	s := c.invoke(x, d, slots, func(body *coder) run.Slot { return body.expr(d.Formula.Right) }, names)
	if s == run.NoSlot {
		return run.NoSlot
	}
	return c.formulaResult(x, d.Formula, s)
}

// formulaArgs pairs the arguments of a call with the symbols of a formula, each of which
// must have one.
//
// One thing is told at a time, and each time with the list of what the formula takes: a call is
// mended by reading it once more.
func (c *coder) formulaArgs(x *syntax.Call, f *syntax.FormulaDef) ([]syntax.FormulaSymbol, []syntax.Expr, bool) {
	params, args, placed, wrong := f.Match(x)
	isNamed := func(s syntax.FormulaSymbol) bool { return s.Name == wrong.Name }
	missing := slices.Index(args, nil)
	switch {
	case wrong != nil && wrong.Name != "" && !slices.ContainsFunc(params, isNamed):
		c.find(finding.WrongCall, wrong.NameAt, x.Func+" has no symbol "+wrong.Name+".", "It takes "+c.symbolList(params[:placed])+".")
	case wrong != nil:
		c.find(finding.WrongCall, wrong.X.Span(), x.Func+" takes fewer values.", "It takes "+c.symbolList(params[:placed])+".")
	case missing >= 0:
		c.find(finding.WrongCall, x.At, x.Func+" needs "+params[missing].Name+meaning(params[missing])+".", "It takes "+c.symbolList(params[:placed])+".")
	}
	return params, args, wrong == nil && missing < 0
}

// It goes into the sentence that says what is missing: `spring needs k, the spring
// constant`.
func meaning(s syntax.FormulaSymbol) string {
	if s.Meaning == "" {
		return ""
	}
	return ", " + s.Meaning
}

// symbolList tells which symbols a formula takes: "k (N/m) and x (m)".
//
// It is written as one would say it, with units, as these tell most about a letter.
func (c *coder) symbolList(ss []syntax.FormulaSymbol) string {
	words := make([]string, len(ss))
	for i, s := range ss {
		words[i] = s.Name
		if s.Unit.Text != "1" {
			if u, bad := c.p.Unit(s.Unit, units.AloneInPlace); bad == nil {
				words[i] += " (" + u.Screen() + ")"
			}
		}
		if s.Default != nil {
			words[i] += ", which may be left out"
		}
	}
	return writing.List(words, "and")
}

// formulaArg plans one argument and checks it against the symbol's unit. The unit
// decides the dimension alone: x in cm may be given in m. A pure number is an angle
// or a count of cycles as the symbol says, so that nobody writes `rad`; a number
// without a unit for a symbol in degrees is most likely a slip, and is said.
func (c *coder) formulaArg(x *syntax.Call, a syntax.Expr, sym syntax.FormulaSymbol) run.Slot {
	s := c.expr(a)
	if s == run.NoSlot {
		return run.NoSlot
	}
	want, zero := c.unit(sym.Unit, units.AloneInPlace), c.static(s).Open != 0
	if want == nil {
		return run.NoSlot
	}
	st := c.settledTo(s, want.Dim())
	if st.Dim != want.Dim() {
		wants := "in " + want.Screen()
		if want.Dim().IsOne() {
			wants = "a pure number"
			if want.Tag() == units.Angle {
				wants = "an angle"
			}
		}
		given := c.shown(a)
		if given == sym.Name {
			given = "here it"
		}
		f := finding.New(finding.FormulaArgument, a.Span(),
			"In "+x.Func+", "+sym.Name+" is "+wants+"; "+given+" is "+phrase(st)+".",
			c.fitHint(a, want, "It takes "+sym.Name+meaning(sym)+", in "+unitWord(want)+"."))
		return c.says(f)
	}
	if st.Tag.Clashes(want.Tag()) {
		return c.refuse(finding.AngleOrCycle, a.Span(), "In "+x.Func+", "+sym.Name+" is in "+want.Screen()+"; "+c.shown(a)+" is "+phrase(st)+".", "They differ by a factor 2π: multiply or divide by it.")
	}
	if n, bare := syntax.Unbracket(a).(*syntax.Number); bare && want.Tag() == units.Angle && want.Dim().IsOne() && want.ToSIFloat(1) != 1 && n.Value.Hi != 0 {
		f := finding.New(finding.FormulaArgument, n.At, n.Value.Text+" has no unit, so it is read as "+n.Value.Text+" rad; "+sym.Name+" is in "+want.Screen()+".",
			"Write the unit.", n.Value.Text+want.Text(), n.Value.Text+" rad")
		f.Severity = finding.Caution
		c.findings = append(c.findings, f)
	}
	if sym.Axes > 0 && !zero && (!st.IsVector() || int(st.Components()) != sym.Axes) {
		return c.refuse(finding.FormulaArgument, a.Span(), "In "+x.Func+", "+sym.Name+" is a vector with "+writing.Count(sym.Axes, "component")+"; "+c.shown(a)+" isn't.",
			"It takes "+sym.String()+".")
	}
	if st.Tag != want.Tag() {
		// The symbol's own unit says whether it is an angle or counts cycles.
		st.Tag = want.Tag()
		s = c.emit(run.Instr{Op: ops.Copy, A: s}, a.Span(), st)
	}
	return s
}

// formulaResult gives the value of a call what the formula declares of its
// left side: whether it is an angle or counts cycles can't be worked out, since
// ω = √(k/m) and f = √(k/m)/(2π) have the same dimension.
//
// A formula is a promise, as the unit of a function is: f = … in Hz comes out in Hz or
// not at all, whatever the arguments are.
func (c *coder) formulaResult(x *syntax.Call, f *syntax.FormulaDef, s run.Slot) run.Slot {
	gives, ok := f.Gives()
	if !ok {
		return s
	}
	u := c.unit(gives.Unit, units.AloneInPlace)
	if u == nil {
		return run.NoSlot
	}
	if st := c.settledTo(s, u.Dim()); st.Dim != u.Dim() {
		m := MismatchText(gives.Name, st, u)
		return c.refuse(finding.UnitMismatch, x.At, "Within "+f.Name+": "+m.Message, m.Hint)
	}
	c.code.Statics[s].Tag = u.Tag()
	return s
}

// CheckFormula looks at a formula as it is defined: its symbols must be
// declared, and its sides must have one dimension in the units declared.
//
// It is planned as a function of its symbols, and the function is thrown away: a call
// plans its own, for what its arguments are.
func (p *Planner) CheckFormula(f *syntax.FormulaDef, text string) []finding.Finding {
	c := p.body(f.Name, text, 0)
	for _, s := range f.Symbols {
		if u := c.unit(s.Unit, units.AloneInPlace); u != nil {
			st := unitStatic(u)
			st.Heat = run.Plain
			c.takes(s.Name, st.WithAxes(s.Axes))
		}
	}
	if c.failed() {
		return c.findings
	}
	if c.param("g") == nil {
		c.takes("g", unitStatic(units.Of("m/s^2")))
	}
	l, r := c.formulaSide(f.Left), c.formulaSide(f.Right)
	if l == run.NoSlot || r == run.NoSlot {
		return c.findings
	}
	at := f.Left.Span().Join(f.Right.Span())
	if _, ok := p.agree(c.static(l), c.static(r)); !ok {
		c.unlike(at, f.Left, f.Right, l, r, "set equal")
	} else if st := c.static(l); st.Shape != c.static(r).Shape && st.Open == 0 && c.static(r).Open == 0 {
		c.refuse(finding.VectorOrNumber, at, "`"+c.shown(f.Left)+"` is "+ShapeName(st)+", `"+c.shown(f.Right)+"` is "+ShapeName(c.static(r))+": they can't be equal.",
			"Say in the line of each symbol whether it is a vector: `F in N, a vector`.")
	}
	return c.findings
}

// formulaSide plans one side of a formula for its dimension alone; a name that
// no line declares is a finding of its own.
//
// All such names are told at once, since each needs a line of its own to be added.
func (c *coder) formulaSide(x syntax.Expr) run.Slot {
	good := true
	for n := range syntax.Each[*syntax.Name](x) {
		if c.param(n.Name) == nil && !c.partOfParam(n.Name) {
			c.find(finding.UnknownName, n.At, n.Name+" has no unit in this formula.",
				"Add an indented line, as in `  "+n.Name+" in m, what it means`.")
			good = false
		}
	}
	if !good {
		return run.NoSlot
	}
	return c.expr(x)
}
