package ask

import (
	"math"

	"steelyard/lang/plan"
	"steelyard/session/entry"
	"steelyard/session/eval"
	"steelyard/units"
)

// uncertainty says the standard uncertainty of a quantity, and what part of it that is;
// nothing for one without.
func uncertainty(p *eval.Page, d *plan.Def) string {
	v := p.ValueOf(d)
	if v != nil && v.List != nil && v.List.U != nil {
		return uncertainties(v)
	}
	if v == nil || v.U == 0 {
		return ""
	}
	words := "standard uncertainty " + units.FormatQuantity(v.UInUnit(), v.Unit, units.Figures{N: 2, Keep: true, Off: true}, v.Rounding, units.Screen)
	if v.InUnit != 0 && !v.Unit.Affine() {
		words += ", " + units.FormatNumber(100*v.UInUnit()/math.Abs(v.InUnit), units.Figures{N: 2}, v.Rounding, units.Screen) + " %"
	}
	return words
}

// uncertainties says between what bounds those of a list are.
func uncertainties(v *entry.Value) string {
	least, most := v.Element(0), v.Element(0)
	for _, e := range v.Elements() {
		if e.U < least.U {
			least = e
		}
		if e.U > most.U {
			most = e
		}
	}
	said := func(e entry.Value) string {
		return units.FormatQuantity(e.UInUnit(), e.Unit, units.Figures{N: 2, Keep: true, Off: true}, e.Rounding, units.Screen)
	}
	if least.U == most.U {
		return "standard uncertainty of each value " + said(most)
	}
	return "standard uncertainties from " + said(least) + " to " + said(most)
}

// supported says in words how many figures of a quantity are known, and what limits
// them; nothing for one that has no value.
func supported(p *eval.Page, d *plan.Def) string {
	if _, ok := p.State.Value(d.Slot); !ok {
		return ""
	}
	of := p.Support(p.EntryAt(d.Line), d.Slot, p.UnitOf(d))
	switch {
	case of.Exact:
		return "exact: no measured number is in it"
	case of.Known <= 0:
		return "no figure is known: what is left is " + of.Lost()
	}
	words := eval.Counted(of.Known)
	if !p.Plain(d) && of.By != "" {
		words += ", limited by " + of.By
	}
	if of.ByNoughts != "" && of.Bare < of.Known {
		words += "; " + eval.Counted(of.Bare) + " if the zeros of " + of.ByNoughts + " only hold a place"
	}
	return words
}
