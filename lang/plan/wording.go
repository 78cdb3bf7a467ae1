package plan

import (
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// Words says what a quantity of a dimension is: "a force per length (N/m)",
// or, where the dimension has no name, "in kg m/s³".
//
// The unit goes with the name, since N m is both a torque and an energy, and a reader
// may know one of name and unit only.
func Words(st run.Static) string {
	if st.Open != 0 {
		return "zero, which fits any unit"
	}
	u := units.Preferred(st.Dim, st.Tag).Screen()
	k, ok := units.KindOf(st.Dim, st.Tag)
	switch {
	case st.Dim.IsOne():
		return k.Articled()
	case ok:
		return k.Articled() + " (" + u + ")"
	}
	return "in " + u
}

// phrase is Words without the unit where the quantity has a name.
func phrase(st run.Static) string {
	if st.Open == 0 && !st.Dim.IsOne() {
		if k, ok := units.KindOf(st.Dim, st.Tag); ok {
			return k.Articled()
		}
	}
	return Words(st)
}

// another is a second quantity of the kind of one, by which it may be divided.
func another(st run.Static) string {
	if k, ok := units.KindOf(st.Dim, st.Tag); ok {
		return "another " + k.Name
	}
	return "a value in " + units.Preferred(st.Dim, st.Tag).Screen()
}

// shown is the source text of an expression, for use in a sentence.
//
// Above 40 letters it is cut, or the finding is a copy of the line with a few words
// round it.
func (c *coder) shown(x syntax.Expr) string {
	text := c.source(x.Span())
	if text == "" {
		text = syntax.PrintExpr(x)
	}
	if rs := []rune(text); len(rs) > 40 {
		text = string(rs[:37]) + "…"
	}
	return text
}

func verb(op syntax.Op) string {
	if op == syntax.Sub {
		return "subtracted"
	}
	return "added"
}

// unitWord is a unit in a sentence.
func unitWord(u *units.Unit) string {
	if u.Text() == "" || u == units.One {
		return "a pure number"
	}
	return u.Screen()
}

// Findings speak of what a person sees: the expression as it is written, and what it
// is in words, a force before kg m/s². Where the kind of quantity has no name, its
// unit is said; a number without a unit is a pure number.

// unlike records that two quantities of different dimensions meet.
func (c *coder) unlike(at syntax.Span, x, y syntax.Expr, a, b run.Slot, done string) run.Slot {
	if f, ok := c.zeroTwice(at, x, y, a, b); ok {
		return c.says(f)
	}
	if c.unread {
		return c.refuse(finding.UnlikeDimensions, at, "", "")
	}
	sa, sb := c.static(a), c.static(b)
	left, right := c.shown(x), c.shown(y)
	msg := "`" + left + "` is " + phrase(sa) + ", `" + right + "` is " + phrase(sb) + ": they can't be " + done + "."
	f := finding.New(finding.UnlikeDimensions, at, msg, "")
	f.Hint, f.Readings = c.unlikeHint(at, x, y, sa, sb)
	if share, ok := c.shareOf(x, y, done); ok {
		f.Hint, f.Readings = "To change `"+left+"` by "+right+", write `"+share+"`.", []string{share}
	}
	return c.says(f)
}

// shareOf is L*(1 + 30 %) for L + 30 %.
//
// 30 % is the number 0.3, which no length can be added to. A pocket calculator may
// take it as a share of what is on its left; here that must be written.
func (c *coder) shareOf(x, y syntax.Expr, done string) (string, bool) {
	q, ok := y.(*syntax.Quantity)
	left, right := c.source(x.Span()), c.source(y.Span())
	if !ok || q.Unit.Text != "%" || left == "" || right == "" {
		return "", false
	}
	if b, ok := x.(*syntax.Binary); ok && (b.Op == syntax.Add || b.Op == syntax.Sub) {
		left = "(" + left + ")"
	}
	switch done {
	case verb(syntax.Add):
		return left + "*(1 + " + right + ")", true
	case verb(syntax.Sub):
		return left + "*(1 - " + right + ")", true
	}
	return "", false
}

// zeroTwice tells whether one side is a bare 0 whose earlier use gave it
// another dimension.
//
// A bare 0 takes the dimension of its first use: x0 = 0 is a length from the line on
// that adds it to one. The finding speaks of that use, since this line alone looks
// right.
func (c *coder) zeroTwice(at syntax.Span, x, y syntax.Expr, a, b run.Slot) (finding.Finding, bool) {
	for _, side := range []struct {
		x    syntax.Expr
		slot run.Slot
		st   run.Static
	}{{x, a, c.static(b)}, {y, b, c.static(a)}} {
		raw := c.code.Statics[side.slot]
		if raw.Open == 0 {
			continue
		}
		z, here := c.p.zeros[raw.Open], "; here it would be "+phrase(side.st)+"."
		if _, bare := side.x.(*syntax.Number); z.line == c.p.line && !bare { // an unknown
			return finding.New(finding.UnlikeDimensions, at, "`"+c.source(side.x.Span())+"` is used as "+phrase(c.static(side.slot))+" in this line"+here,
				"Check the units of each equation."), true
		}
		return finding.New(finding.ZeroTwice, at,
			"The 0 of line "+itoa(z.line)+" was used as "+phrase(c.static(side.slot))+" in line "+itoa(z.fixedBy)+
				here,
			"Give the 0 of line "+itoa(z.line)+" its unit, or use another name here."), true
	}
	return finding.Finding{}, false
}

// Text is a message with what to do about it.
type Text struct{ Message, Hint string }

// MismatchText says that a value comes out in another dimension than the unit
// it is reported in, what is missing, and what to report.
//
// The dimension is compared with those of named quantities first: "you are missing a
// factor of time" helps more than two products of base units.
func MismatchText(name string, st run.Static, u *units.Unit) Text {
	subject := name
	if subject == "" {
		subject = "The value"
	}
	own := units.Preferred(st.Dim, st.Tag)
	wanted := run.Static{Dim: u.Dim(), Tag: u.Tag()}
	is := u.Screen() + " is " + phrase(wanted)
	if u.Dim().IsOne() {
		is = "it is reported as " + phrase(wanted)
	} else if _, ok := units.KindOf(u.Dim(), u.Tag()); !ok {
		is = "it is reported in " + u.Screen()
	}
	verb := " comes out as "
	if _, ok := units.KindOf(st.Dim, st.Tag); !ok && !st.Dim.IsOne() {
		verb = " comes out "
	}
	t := Text{Message: subject + verb + Words(st) + "; " + is + "."}
	report := "report it in " + own.Screen() + "."
	if own == units.One {
		report = "report it without a unit."
	}
	if missing := units.Missing(st.Dim, u.Dim()); missing != "" {
		t.Hint = strings.ToUpper(missing[:1]) + missing[1:] + ": " + report
	} else {
		t.Hint = "R" + strings.TrimSuffix(report[1:], ".") + ", or check the formula."
	}
	return t
}

// CycleText says that an angle per time is reported in cycles per time, or the
// other way round.
//
// Hz and rad/s have one dimension, 1/s, and differ by 2π in what they count. Only the
// tags tell them apart.
func CycleText(name string, st run.Static, u *units.Unit) Text {
	if name == "" {
		name = "The value"
	}
	if st.Dim.IsOne() {
		return Text{
			Message: name + " is " + map[bool]string{true: "an angle", false: "a number of cycles"}[st.Tag == units.Angle] + "; " + u.Screen() +
				" counts the other: one cycle is an angle of 2π.",
			Hint: "Multiply or divide by 2π.",
		}
	}
	if st.Tag == units.Angle {
		return Text{
			Message: name + " comes out as an angle per time (rad/s); " + u.Screen() + " counts cycles per time. They differ by a factor 2π.",
			Hint:    "Divide by 2π to report it in " + u.Screen() + ", or report it in rad/s.",
		}
	}
	return Text{
		Message: name + " comes out as a frequency (Hz); " + u.Screen() + " is an angle per time. They differ by a factor 2π.",
		Hint:    "Multiply by 2π to report it in " + u.Screen() + ", or report it in Hz.",
	}
}
