package typeset

import (
	"strconv"

	"steelyard/lang/syntax"
	"steelyard/units"
)

// Value lays out a number as it is written in a file, such as -4.63e6, with what
// stands behind it of a unit: "N m", "s^-1", or nothing.
func Value(digits, unit string) Box { return Row(unitAfter(number(nil, digits), unit)...) }

// Unit lays out a product of units as it is written: "N m", "m/s^2", "kg·m²/s³".
// Its symbols are upright (SI Brochure, 5.2).
func Unit(text string) Box { return Row(unit(nil, text)...) }

func quantity(to []Box, q *syntax.Quantity) []Box {
	return unitAfter(number(to, q.Value.Text), q.Unit.Text)
}

func mixed(to []Box, x *syntax.Mixed) []Box {
	if x.Neg {
		to = append(to, minus)
	}
	for i, q := range x.Parts {
		if i > 0 {
			to = append(to, Box{kind: gap})
		}
		to = quantity(to, q)
	}
	return to
}

// unitAfter lays out a unit behind a number, with the space between them.
func unitAfter(to []Box, text string) []Box {
	switch text {
	case "":
		return to
	case "°", "′", "″":
	default:
		to = append(to, Box{kind: thin})
	}
	return unit(to, text)
}

// unit lays out the parts of a unit: words, marks, signs and what is raised.
func unit(to []Box, text string) []Box {
	first := len(to)
	s := units.Scanner{Text: text}
	for p := s.Next(); p.Kind != units.PartEnd; p = s.Next() {
		if n := len(to); p.Kind == units.PartPower && p.Exp.Num() != 0 && n > first && takesPower(to[n-1]) {
			to[n-1] = scripted(to[n-1], Box{}, unitExponent(p.Exp))
		} else {
			to = append(to, unitPart(p, text[p.From:p.To]))
		}
	}
	return to
}

// takesPower tells whether what stands before a power can have one.
func takesPower(b Box) bool {
	return b.kind == upright || b.kind == digits || b.kind == loose && b.text == ")"
}

// unitPart is one part of a unit that is not raised.
func unitPart(p units.Part, written string) Box {
	switch p.Kind {
	case units.PartBlank:
		return Box{kind: thin}
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
func unitExponent(e units.Exp) Box {
	n, over := e.Num(), e.Den()
	var all []Box
	if n < 0 {
		all, n = append(all, minus), -n
	}
	all = append(all, Box{kind: digits, text: strconv.Itoa(n)})
	if over != 1 {
		all = append(all, Box{kind: close, text: "/"}, Box{kind: digits, text: strconv.Itoa(over)})
	}
	return one(all)
}
