package syntax

import (
	"slices"
	"strings"

	"steelyard/lang/finding"
)

// mixedUnits are the units that quantities are written together in: of time, angle, length and
// mass, each from the greatest down, in all its forms.
//
// Metric units have none: 2 m 30 cm is no usual way to write a length, and is more likely two
// quantities.
var mixedUnits = [...][]string{
	{"d day days", "h hour hours", "min minute minutes", "s second seconds"},
	{"° deg", "′ arcmin", "″ arcsec"},
	{"ft foot feet", "inch inches"},
	{"lb pound pounds", "oz ounce ounces"},
}

// mixedUnit places a unit among them, family and rank from 1 on; 0 for another.
func mixedUnit(text string) (family, rank int) {
	for f, all := range mixedUnits {
		for r, forms := range all {
			if slices.Contains(strings.Fields(forms), text) {
				return f + 1, r + 1
			}
		}
	}
	return 0, 0
}

// mixed reads the rest of a quantity in units of one family, falling, all but
// the last whole: 13 h 4 min 58 s.
//
// A number behind a quantity that is no such part is a slip. Refused are 4 min 3
// h, where the greater unit is not first, and an uncertainty on a part, which
// would be of the whole.
func (p *exprParser) mixed(first *Quantity) Expr {
	m := &Mixed{At: first.At, Parts: []*Quantity{first}}
	for p.tok.kind == numToken {
		t := p.take()
		at := t.span()
		d := p.decimal(t.text, at, false)
		last := m.Parts[len(m.Parts)-1]
		q := &Quantity{At: at, Value: d, Unit: p.unitNext()}
		if bad := letterTimes(last, q, at.Join(q.Unit.At)); bad != nil {
			p.fail(bad)
		}
		if !q.Unit.Present() {
			p.fail(&fault{finding.New(finding.Unreadable, Span{From: last.At.From, To: at.To},
				"There is a number without a unit after a quantity.", "Add its unit, or put a sign before it.")})
		}
		q.At = at.Join(q.Unit.At)
		f, r := mixedUnit(last.Unit.Text)
		g, s := mixedUnit(q.Unit.Text)
		if f == 0 || f != g || s <= r || strings.ContainsAny(last.Value.Text, ".e") {
			p.fail(notMixed(last, q, f != 0 && f == g))
		}
		if last.Value.Off != nil || q.Value.Off != nil {
			p.fail(notSpread(Span{From: first.At.From, To: q.At.To}, "A value in several units has no place for its uncertainty.",
				"Write it in one unit, like 72 ± 1 min."))
		}
		m.Parts = append(m.Parts, q)
		m.At.To = q.At.To
	}
	return m
}

// notMixed says why two quantities side by side are not a sum.
//
// Within a family the sum is offered, 4 min + 3 h; else the sum where both are of
// one kind, and the product where they are not.
func notMixed(a, b *Quantity, family bool) *fault {
	at := Span{From: a.At.From, To: b.At.To}
	sum := PrintExpr(a) + " + " + PrintExpr(b)
	product := PrintExpr(a) + "*" + PrintExpr(b)
	if family {
		return &fault{finding.New(finding.Unreadable, at,
			"Write the greater unit first, and decimals only in the last.",
			"Put a sign between them.", sum)}
	}
	readings := []string{product}
	if one, alike := inOneUnit(a, b); one != "" {
		readings = []string{one, sum}
	} else if alike {
		readings = []string{sum}
	}
	return &fault{finding.New(finding.Unreadable, at, "There is no sign between these two quantities.",
		"Put a sign between them.", readings...)}
}
