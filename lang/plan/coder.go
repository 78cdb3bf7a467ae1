package plan

import (
	"slices"
	"steelyard/lang/finding"
	"steelyard/lang/limit"
	"steelyard/lang/ops"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// maxCost is the most instructions that one line may run.
const maxCost = limit.Cost

// coder plans one expression into a code: the session's, or a function's.
//
// It lives for one expression. What outlasts that (names, zeros, functions that were
// planned) belongs to the Planner.
type coder struct {
	p    *Planner
	code *run.Code
	text string
	self string
	// start is where this expression's instructions begin.
	start run.Slot
	// seen is how many definitions the expression can see: a function's body
	// sees those above its own line only.
	seen int32
	// fn is the function whose body is planned, and nil in the session's code;
	// params are what only that body sees.
	fn     *run.Func
	params []param
	// replacing is set while something is planned with values replaced.
	replacing *replacing
	// unread tells that no one reads the findings: what matters is whether there
	// are any, and how heavy they are.
	unread bool

	// pastedAt is the call in whose place a function is pasted, or nil.
	pastedAt *syntax.Call

	// slot is what the last visit of an expression planned.
	slot run.Slot

	cost int64
	// over tells that a function whose body this is has no plan any more, so that
	// the rest of it is not looked at.
	over     bool
	means    bool // a mean is taken of a list that differs from call to call
	depth    int  // of the functions that are called within each other
	findings []finding.Finding
	uses     []*Def
	root     *Def
}

// param is a parameter of a function with what is known of its argument.
type param struct {
	name string
	slot run.Slot
}

func (p *Planner) coder(text string) *coder {
	c := p.spare
	if p.spare = nil; c == nil {
		c = &coder{}
	}
	main := &p.Program.Main
	*c = coder{p: p, code: main, text: text, start: run.Slot(len(main.Instrs)), seen: p.Names.count()}
	return c
}

// leave leaves the room of a coder that has done its work to the next.
func (c *coder) leave() { c.p.spare = c }

// find records a finding.
func (c *coder) find(id finding.ID, at syntax.Span, message, hint string, readings ...string) {
	c.refuse(id, at, message, hint, readings...)
}

// refuse records a finding that leaves what is planned without a value.
func (c *coder) refuse(id finding.ID, at syntax.Span, message, hint string, readings ...string) run.Slot {
	return c.says(finding.New(id, at, message, hint, readings...))
}

// says is refuse for a finding that has been made.
func (c *coder) says(f finding.Finding) run.Slot {
	c.findings = append(c.findings, f)
	return run.NoSlot
}

// failed tells whether a finding so far means that the line has no value.
func (c *coder) failed() bool {
	worst, _ := finding.Worst(c.findings)
	return worst < finding.Note
}

// emit adds an instruction and what is known of its slot.
//
// The cost stops counting just beyond the limit, so that it can't overflow.
func (c *coder) emit(in run.Instr, at syntax.Span, st run.Static) run.Slot {
	c.cost = min(c.cost+1, maxCost+1)
	if c.pastedAt != nil {
		at = c.pastedAt.At
	}
	if c.code.Wide() {
		if c.goesByAxes(&in) {
			return c.byAxes(in, at, st)
		}
		if !c.widened(&in, at, &st) {
			return run.NoSlot
		}
	} else {
		c.vanish(&in)
	}
	return c.code.Add(in, at, st)
}

// vanish puts 0 in the place of an operand that is a sum of written numbers and 0 but for
// rounding. A sum of values of the main code goes there from the code of a function: it is
// settled once, before the function runs. Sums of sums show what they were added up from, and
// stay.
func (c *coder) vanish(in *run.Instr) {
	if in.Op == ops.Add || in.Op == ops.Sub {
		return
	}
	for i, s := range [2]*run.Slot{&in.A, &in.B} {
		if i >= in.Op.Operands() || *s < c.start {
			continue
		}
		at, st := c.code.Span(*s), c.code.Statics[*s]
		if zero, ok := c.code.Vanishing(*s, c.start); ok {
			*s = c.code.Add(zero, at, st)
		} else if c.fn != nil && c.code.IsSumOfLoads(*s) {
			*s = c.code.Add(run.Instr{Op: ops.Load, A: c.p.Emit(run.Instr{Op: ops.Copy, A: c.outside(*s)}, st)}, at, st)
		}
	}
}

// outside plans what a slot of a function is worked out from, which is nothing of its own, in
// the main code.
func (c *coder) outside(s run.Slot) run.Slot {
	in := c.code.Instrs[s]
	if in.Op == ops.Load {
		return in.A
	}
	return c.p.Emit(in.Moved(nil, nil, c.outside), c.code.Statics[s])
}

// static returns what is known of a slot, its zero settled as far as it is.
func (c *coder) static(s run.Slot) run.Static { return c.p.settledStatic(c.code.Statics[s]) }

// constant adds a number of a given dimension.
func (c *coder) constant(v float64, at syntax.Span, st run.Static) run.Slot {
	return c.emit(run.Instr{Op: ops.Const, K: v}, at, st)
}

// source returns the text that a span covers.
func (c *coder) source(at syntax.Span) string {
	if at.From < 0 || at.To > len(c.text) || at.From >= at.To {
		return ""
	}
	return c.text[at.From:at.To]
}

// use notes that the expression refers to a definition.
func (c *coder) use(d *Def) {
	if slices.Contains(c.uses, d) {
		return
	}
	if c.uses == nil {
		c.uses = make([]*Def, 0, usualUses)
	}
	c.uses = append(c.uses, d)
}

// usualUses is how many names there is room for when the first is used.
const usualUses = 4

// unit reads the text of a unit; nil where it records what is wrong with it.
func (c *coder) unit(u syntax.UnitText, place units.Place) *units.Unit {
	got, bad := c.p.Unit(u, place)
	switch {
	case bad != nil:
		c.says(c.unitFinding(u, bad))
		return nil
	case place == units.AfterNumber:
		return c.unitFound(u, got)
	}
	return got
}

// unitFound notes a unit that is not written as print does.
func (c *coder) unitFound(u syntax.UnitText, got *units.Unit) *units.Unit {
	if got.Loose() {
		c.findings = append(c.findings, finding.ReadsAs(u.At, u.Text, got.Behind(units.File)))
	}
	return got
}
