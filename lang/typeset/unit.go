package typeset

import (
	"strconv"

	"steelyard/lang/syntax"
	"steelyard/units"
)

// Value lays out a number as it is written in a file, such as -4.63e6, with what
// stands behind it of a unit: "N m", "s^-1", or nothing.
//
// It takes text, as values come rounded to the page from the one place that rounds
// (units.FormatNumber).
func Value(digits, unit string) Box {
	return laidOut(func(l *layout) Box {
		l.number(digits)
		l.unitAfter(unit)
		return holding(row, "", l.end(0))
	})
}

// Values lays out a list of numbers in brackets, with its unit; of vectors with so many
// components each, if there are any, each has brackets of its own.
//
// A list has its unit once, behind the bracket, as it is typed: [1.21, 1.19] s.
func Values(digits []string, axes int, brackets, unit string) Box {
	var l layout
	outer := l.begin()
	for i := 0; i < len(digits); i += max(axes, 1) {
		if i > 0 {
			l.put(Comma())
		}
		if axes > 0 {
			l.put(Values(digits[i:i+axes], 0, "()", ""))
			continue
		}
		l.number(digits[i])
	}
	l.put(holding(fence, brackets, l.end(outer)))
	l.unitAfter(unit)
	return holding(row, "", l.end(0))
}

// Polar lays out a magnitude and a direction.
//
// The same words as an expression has: 12 m/s at 37° can be typed.
func Polar(size, turn Box) Box {
	return Row(size, Box{kind: gap}, Box{kind: word, text: "at"}, Box{kind: gap}, turn)
}

// ManyValues lays out how many values a list has, and their mean.
//
// A list too long to be shown is told so, and recorded in a worksheet in the same form.
func ManyValues(n int, mean Box) Box {
	parts := []Box{{kind: digits, text: strconv.Itoa(n)}}
	for _, text := range [...]string{"values", "of", "mean"} {
		parts = append(parts, Box{kind: gap}, Box{kind: word, text: text})
	}
	return Row(append(parts, Box{kind: gap}, mean)...)
}

// Unit lays out a product of units as it is written: "N m", "m/s^2", "kg·m²/s³".
// Its symbols are upright (SI Brochure, 5.2).
//
// Units are written as they were typed, m s^-1 or m/s: changing their form would hide which was
// meant.
func Unit(text string) Box {
	return laidOut(func(l *layout) Box {
		l.unit(text)
		return holding(row, "", l.end(0))
	})
}

// Quantity is a number with its unit.
func (l *layout) Quantity(q *syntax.Quantity) {
	outer := l.begin()
	l.spread(q.Value)
	l.unitAfter(q.Unit.Text)
	l.put(holding(group, "", l.end(outer)))
}

// Measured is a bracket of numbers with its unit.
func (l *layout) Measured(x *syntax.Measured) {
	outer := l.begin()
	l.operand(x.X, productRank, true)
	l.unitAfter(x.Unit.Text)
	l.put(holding(group, "", l.end(outer)))
}

// List is values in their brackets, with their unit behind.
//
// Its elements are expressions: one that was worked out, 2*1.2, is set as such.
func (l *layout) List(x *syntax.List) {
	outer := l.begin()
	inner := l.begin()
	for i, e := range x.Elems {
		if i > 0 {
			l.put(Comma())
		}
		l.expr(e)
	}
	l.put(holding(fence, x.Brackets(), l.end(inner)))
	l.unitAfter(x.Unit.Text)
	l.put(holding(group, "", l.end(outer)))
}

// Mixed is quantities that are written together.
//
// A sign before the first of its parts holds for all: −(3 min 20 s).
func (l *layout) Mixed(x *syntax.Mixed) {
	outer := l.begin()
	if x.Neg {
		l.put(minus)
	}
	for i, q := range x.Parts {
		if i > 0 {
			l.put(Box{kind: gap})
		}
		l.number(q.Value.Text)
		l.unitAfter(q.Unit.Text)
	}
	l.put(holding(group, "", l.end(outer)))
}

// unitAfter lays out a unit behind a number, with the space between them.
//
// Between a number and its unit is a thin space, but for the marks of an angle, which touch (SI
// Brochure 9, 5.4.3). The unit 1 is nothing to see.
func (l *layout) unitAfter(text string) {
	switch text {
	case "", "1":
		return
	case "°", "′", "″":
	default:
		l.put(Box{kind: thin})
	}
	l.unit(text)
}

// unit lays out the parts of a unit: words, marks, signs and what is raised.
//
// The text is scanned by the scanner of units itself (units.Scanner), the one that reads them,
// so that nothing can be set otherwise than it is read.
func (l *layout) unit(text string) {
	first := len(l.stack)
	s := units.Scanner{Text: text}
	for p := s.Next(); p.Kind != units.PartEnd; p = s.Next() {
		if n := len(l.stack); p.Kind == units.PartPower && p.Exp.Num() != 0 && n > first && takesPower(l.stack[n-1]) {
			l.stack[n-1] = l.scripted("", l.stack[n-1], Box{}, l.unitExponent(p.Exp))
		} else {
			l.put(unitPart(p, text[p.From:p.To]))
		}
	}
}

// takesPower tells whether what stands before a power can have one.
//
// Of °C^-1 the exponent stands on the C, of (kg m)^2 on the bracket.
func takesPower(b Box) bool {
	return b.kind == upright || b.kind == digits || b.kind == loose && b.text == ")"
}

// unitPart is one part of a unit that is not raised.
//
// A blank between two units is a product: a thin space where it is set, and a raised dot in plain
// text.
func unitPart(p units.Part, written string) Box {
	switch p.Kind {
	case units.PartBlank:
		return Box{kind: thin, text: "·"} // the unit is a product
	case units.PartSolidus:
		return Box{kind: close, text: "/"}
	case units.PartDot, units.PartStar:
		return Box{kind: close, text: "⋅"}
	case units.PartOpen, units.PartClose:
		return Box{kind: loose, text: written}
	case units.PartNumber: // 1/s
		return Box{kind: digits, text: p.Text}
	}
	if p.Text == "′" || p.Text == "″" {
		written = p.Text // however they were typed
	}
	return Box{kind: upright, text: written}
}

// unitExponent is what stands raised in a unit.
//
// Powers of units are whole or of a small fraction: kg^(1/2) has 1/2 on one line.
func (l *layout) unitExponent(e units.Exp) Box {
	n, over := e.Num(), e.Den()
	outer := l.begin()
	if n < 0 {
		l.put(minus)
		n = -n
	}
	l.put(Box{kind: digits, text: strconv.Itoa(n)})
	if over != 1 {
		l.put(Box{kind: close, text: "/"})
		l.put(Box{kind: digits, text: strconv.Itoa(over)})
	}
	return l.one(outer)
}
