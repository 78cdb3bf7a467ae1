package plan

import (
	"steelyard/lang/finding"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// Compared is two sides of a comparison, planned.
type Compared struct {
	Left, Right Compiled
	// Findings are those of both sides and of their meeting.
	Findings []finding.Finding
	OK       bool
}

// CompileBoth plans the two sides of a comparison, which must have one
// dimension.
func (p *Planner) CompileBoth(l, r syntax.Expr, text string) Compared {
	out := Compared{Left: p.Compile(l, text, ""), Right: p.Compile(r, text, "")}
	out.Findings = append(out.Findings, out.Left.Findings...)
	for _, f := range out.Right.Findings {
		if f.Cause == 0 || f.Cause != out.Left.rootLine() {
			out.Findings = append(out.Findings, f)
		}
	}
	if out.Left.Slot == run.NoSlot || out.Right.Slot == run.NoSlot {
		return out
	}
	c := p.coder(text)
	a, b := out.Left.Slot, out.Right.Slot
	sa, sb := c.static(a), c.static(b)
	whole := l.Span().Join(r.Span())
	if _, ok := p.agree(sa, sb); !ok {
		c.unlike(whole, l, r, a, b, "compared")
	} else if sa.Tag != units.None && sb.Tag != units.None && sa.Tag != sb.Tag {
		c.angleOrCycle(whole, "One side is in rad/s, the other in Hz; they differ by a factor 2π.", "")
	}
	out.Findings = append(out.Findings, c.findings...)
	out.OK = !c.failed()
	out.Left.Static, out.Right.Static = c.static(a), c.static(b)
	return out
}

// rootLine is the line of the failed definition that a side needs, or 0.
func (c Compiled) rootLine() int {
	if c.Root == nil {
		return 0
	}
	return c.Root.Line
}
