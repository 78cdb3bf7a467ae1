package eval

import (
	"math"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// failure says why a value can't be worked out.
//
// What can go wrong with numbers has a kind in the table of operations. Here each kind becomes
// a sentence about this line: with the number that was met, in its unit, and what to look at. A
// fault within a function names the function, as its text is elsewhere.
func (l *Line) failure(f run.Failure) finding.Finding {
	main := &l.Planner.Program.Main
	at := main.Span(f.Slot)
	within := ""
	code, slot := main, f.Slot
	if f.Func != nil {
		code, slot = &f.Func.Code, f.Inner
		within = "Within " + f.Func.Name + ": "
	}
	in := code.Instrs[slot]
	// The operand has a number only in the main code: within a function it was that of one
	// call.
	operand := ""
	if f.Func == nil && in.A < l.State.Len() && in.Op != ops.Const {
		operand = l.numberAt(in)
	}
	switch f.Kind {
	case ops.DivZero:
		// The tangent divides by the cosine, but no fraction bar is written.
		if in.Op == ops.Tan {
			return finding.New(finding.NoRealValue, at, within+"The tangent has no value at 90°, 270° and so on.", "Check the angle.")
		}
		hint := "Check what is under the fraction bar"
		if name := l.divisor(f, in, main); name != "" {
			hint += ": " + name
		}
		return finding.New(finding.DivisionByZero, at, within+"Something is divided by 0 here.", hint+".")
	case ops.NoReal:
		if in.Op == ops.Area {
			return finding.New(finding.NoRealValue, at, within+"The curve has no value in some part of the range.", "Use a range where it has one; a table or a graph shows where.")
		}
		return l.noReal(within, at, in, operand)
	case ops.NoInterval:
		return finding.New(finding.NoInterval, at, within+"No interval of the function has this value in it.",
			"Check the value, or add an interval to the function.")
	case ops.NoRoot:
		return finding.New(finding.NoSolution, at, within+"Nothing solves the equation here.", "Check the given values and their signs.")
	case ops.ManyRoots:
		return finding.New(finding.WhichRoot, at, within+"Several values solve the equation here.", "Choose one in the line with `solve`.")
	case ops.NoSlope:
		if f, ok := l.noSlope(f); ok {
			return f
		}
		return finding.New(finding.NoSlope, at, within+"The curve has no slope at this place.", "Choose a place next to it.")
	case ops.NoFit:
		if l.Planner.Program.Fits[in.A].Model < 0 {
			return finding.New(finding.NoFit, at, within+"No best line was found.", "Use two quantities that don't depend on each other. Units that make the numbers less huge or tiny may help too.")
		}
		return finding.New(finding.NoFit, at, within+"No best values were found for this fit.",
			"Look at a graph of the readings. Start values near the right ones may help, as in `starting at A = 1 cm`.")
	case ops.BackAndForth:
		return finding.New(finding.BadData, at, within+"The readings go back and forth: each place must be greater than the one before it, or each less.",
			"Put the rows in order. Of several readings at one place, take the mean.")
	case ops.BeyondReadings:
		return finding.New(finding.NoInterval, at, within+"The readings end before that. Nobody knows what happens beyond them.", "Choose a place between the first and the last reading.")
	case ops.LostAngle:
		return finding.New(finding.OutOfRange, at, within+"Rounding leaves too little of so large an angle to tell its sine, cosine or tangent.",
			"Numbers here have some sixteen figures: take whole turns away first.")
	case ops.Sure:
		return finding.New(finding.WrongCall, at, "No given behind this value has an uncertainty.",
			"Write one after its number, as in 0.842 ± 0.002 m.")
	case ops.Unbounded, ops.NotSettled:
		message, hint := "The area has no end: the curve grows without limit in the range.", "Leave that place out of the range."
		if f.Kind == ops.NotSettled {
			message, hint = "The area could not be found: the curve changes too often or too steeply.", "Use a shorter range, or several."
		}
		f := finding.New(finding.NotSettled, at, within+message, hint)
		f.Severity = finding.Error
		return f
	case ops.Stopped:
		return finding.New(finding.Stopped, at, "Stopped; this line has no value.", "")
	}
	return finding.New(finding.OutOfRange, at, within+"The value is too large or too small: numbers here go from 10^-308 to 10^308.",
		"Check the powers and exponents.")
}

// divisor names what is 0.
//
// Something is divided by 0 says less than `v - v0` is 0. A divisor that is itself a written 0
// needs no name.
func (l *Line) divisor(f run.Failure, in run.Instr, main *run.Code) string {
	if f.Func == nil && in.Op == ops.Div {
		span := main.Span(in.B)
		if in.B >= l.Start && span.To <= len(l.Entry.Text) && span.From < span.To {
			if text := l.Entry.Text[span.From:span.To]; strings.Trim(text, "0.") != "" {
				return "`" + text + "` is 0"
			}
		}
		if x := l.divisorText(main.Span(f.Slot)); x != "" && strings.Trim(x, "0.") != "" {
			return "`" + x + "` is 0"
		}
	}
	return ""
}

// divisorText finds the text under the fraction line of the quotient that a
// span covers.
func (l *Line) divisorText(at syntax.Span) string {
	for b := range syntax.Each[*syntax.Binary](l.Entry.Stmt.Exprs()...) {
		if b.Op == syntax.Div && b.At == at {
			s := b.Y.Span()
			return l.Entry.Text[s.From:s.To]
		}
	}
	return ""
}

// numberAt shows the operand of an instruction that failed in its own unit: of a list,
// the first element that has no value.
//
// An operand that is itself no number has nothing that could be shown. One just beyond the
// last that the operation takes is shown with as many figures as tell it from that: there is no
// sine of 1.0000000001, and there is one of 1.
func (l *Line) numberAt(in run.Instr) string {
	s := in.A
	v := l.State.At(s)
	_, all := in.Op.Elements(0)
	for _, one := range l.State.Elements(s) {
		if in.Op.Operands() == 1 && !all && in.Op.Fault(one, one, in.K, in.Op.Value(one, one, in.K)) != ops.NoFault {
			v = one
			break
		}
	}
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return ""
	}
	st := l.Planner.Static(s)
	u := units.Preferred(st.Dim, st.Tag)
	shown := func(v float64, figures int) string {
		return units.FormatQuantity(u.FromSI(v), u, units.Figures{N: figures}, l.Set.Rounding, units.Screen)
	}
	text := shown(v, 0)
	if edge, ok := in.Op.Edge(v); ok {
		for n := 7; n <= 17 && text == shown(edge, 0); n++ {
			text = shown(v, n)
		}
		switch {
		case text != shown(edge, 0):
		case v > edge:
			return "a little more than " + text
		case v < edge:
			return "a little less than " + text
		}
	}
	return text
}

// noReal says why there is no real value.
//
// The number under the root is shown in its unit: a sign is found faster than a formula.
func (l *Line) noReal(within string, at syntax.Span, in run.Instr, operand string) finding.Finding {
	of := func(what, why string) string {
		if operand != "" {
			return what + " of " + operand + " " + why
		}
		return what + " " + why
	}
	message, hint := "", ""
	switch in.Op {
	case ops.Sqrt, ops.Root, ops.Pow, ops.PowVar:
		message = of("The root", "has no real value")
		if operand == "" {
			message = "A root or a power of a negative number has no real value"
		}
		hint = "Check the signs under the root."
	case ops.Ln, ops.Log10:
		message = of("The logarithm", "has no real value")
		hint = "A logarithm needs a positive number."
	case ops.Asin, ops.Acos:
		word := map[ops.Op]string{ops.Asin: "sine", ops.Acos: "cosine"}[in.Op]
		message = "There is no angle with this " + word
		if operand != "" {
			message = "There is no angle with a " + word + " of " + operand
		}
		hint = "A " + word + " is between -1 and 1: check which side is divided by which."
	default:
		message = "There is no real value here"
	}
	return finding.New(finding.NoRealValue, at, within+message+".", hint)
}
