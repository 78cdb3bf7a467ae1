package help

import (
	"slices"
	"strings"

	"steelyard/lang/syntax"
	"steelyard/session"
	"steelyard/units"
)

// unit answers a unit: its exact size and where that is from.
func unit(pad *session.Pad, word string) []string {
	info, ok := units.Lookup(word)
	if !ok {
		return otherUnit(pad, word)
	}
	u, bad := pad.Table().Parse(word, units.AfterNumber)
	if bad != nil {
		u = units.One // a name of several words that no line can hold
	}
	head := info.Name
	if info.Core && info.Symbol != "" && info.Symbol != info.Name {
		head += " (" + info.Symbol + ")"
	}
	out := fold("    ", head+", a unit of "+info.Quantity)
	out = append(out, under(size(info, u))...)
	if info.Prefixable && info.Core {
		out = append(out, under("with a prefix: k"+info.Symbol+", m"+info.Symbol+" …; in words kilo"+info.Name+", milli"+info.Name)...)
	}
	if info.Remark != "" {
		out = append(out, under(info.Remark)...)
	}
	if others := otherUnits(u, info.Symbol); others != "" && bad == nil {
		out = append(out, under("same dimension: "+others)...)
	}
	return append(out, under("source: "+info.Source)...)
}

// size tells how large a unit is.
func size(info units.Info, u *units.Unit) string {
	name := info.Symbol
	if !info.Core || name == "" {
		name = info.Name
	}
	switch {
	case u.Affine():
		zero, step, _ := strings.Cut(strings.TrimSuffix(info.Exact, " each"), " + ")
		return "0 " + name + " is " + zero + ", and each " + name + " more is " + step + " more"
	case info.Exact == name || info.Exact == "1 "+name:
		return name + " is a base unit of the SI"
	}
	return "1 " + name + " = " + info.Exact
}

// otherUnit answers a compound unit, or a unit of the scratchpad's own.
func otherUnit(pad *session.Pad, word string) []string {
	if word == "1" || strings.ContainsAny(word, "=,") {
		return nil
	}
	u, bad := pad.Table().Parse(word, units.AloneInPlace)
	if bad != nil || u.Text() == "" {
		return nil
	}
	head := u.Screen() + ", a unit"
	if name := measures(u); name != "" {
		head += " of " + name
	}
	out := fold("    ", head)
	own := units.Preferred(u.Dim(), u.Tag())
	if own.SameAs(u) {
		return append(out, under("dimension "+u.Dim().String())...)
	}
	one := units.FormatQuantity(u.ToSIFloat(1), own, units.Figures{N: 9}, units.HalfAway, units.Screen)
	return append(out, under("1 "+u.Screen()+" = "+one)...)
}

// measures names the quantity that a unit is for: a torque for N m, though an
// energy has its dimension too.
func measures(u *units.Unit) string {
	for _, k := range units.Kinds() {
		if k.Unit == u.Text() && k.Dim() == u.Dim() && k.Tag == u.Tag() {
			return k.Name
		}
	}
	k, _ := units.KindOf(u.Dim(), u.Tag())
	return k.Name
}

// otherUnits lists the units of the dimension of one that are read by symbol.
func otherUnits(u *units.Unit, but string) string {
	var out []string
	for _, info := range coreUnits() {
		if v := units.Of(info.Symbol); info.Symbol != but && v.Dim() == u.Dim() && v.Tag() == u.Tag() {
			out = append(out, info.Symbol)
		}
	}
	return strings.Join(out, ", ")
}

// remarks are what the SI advises on quantities that share a dimension.
var remarks = [...]struct{ quantity, advice string }{
	{"torque", "Torque has the dimension of energy. It is in N m, and an energy in J, to tell them apart."},
	{"energy", "An energy is given in J; N m is for a torque."},
	{"frequency", "Cycles per time, in Hz. The angular velocity is 2π times that, in rad/s."},
	{"angular velocity", "Angle per time, in rad/s. The frequency in Hz is that over 2π."},
	{"temperature", "A number in °C or °F is a temperature; a difference is in K. help temperatures tells more."},
	{"angle", "help angles tells more."},
	{"force", "A weight is a force too: 2 kg is a mass, and 2 kg*g its weight."},
}

// quantity answers the name of a kind of quantity.
func quantity(pad *session.Pad, word string) []string {
	kinds := units.FindKind(word)
	if len(kinds) > 1 && strings.EqualFold(strings.ReplaceAll(word, "_", " "), kinds[0].Name) {
		kinds = kinds[:1]
	}
	var out []string
	for _, k := range kinds {
		if out != nil {
			out = append(out, "")
		}
		out = append(out, quantityPage(pad, word, k)...)
	}
	return out
}

func quantityPage(pad *session.Pad, word string, k units.Kind) []string {
	head := k.Name + ", a quantity"
	if !strings.EqualFold(k.Name, word) {
		head = word + ": a quantity with the dimension of " + k.Name
	}
	out := fold("    ", head)
	u := units.Of(k.Unit)
	if k.Unit != "1" {
		out = append(out, "  shown in "+u.Screen())
	}
	if k.Name != "torque" {
		if others := otherUnits(u, u.Text()); others != "" && k.Unit != "1" {
			out = append(out, under("units: "+others)...)
		}
	}
	if k.Dim().IsOne() {
		out = append(out, "  dimension one")
	} else {
		out = append(out, "  dimension "+k.Dim().String())
	}
	if len(k.Others()) > 0 {
		out = append(out, under("same dimension: "+strings.Join(k.Others(), ", "))...)
	}
	if fs := formulasFor(pad, k, u); len(fs) > 0 {
		out = append(out, under("formulas that give it: "+strings.Join(fs, ", "))...)
	}
	for _, r := range remarks {
		if r.quantity == k.Name {
			out = append(out, under(r.advice)...)
		}
	}
	return out
}

// formulasFor lists the formulas whose left side is in the unit of a quantity.
func formulasFor(pad *session.Pad, k units.Kind, u *units.Unit) []string {
	var out []string
	for _, name := range pad.FormulaNames() {
		f, ok := pad.Formula(name)
		if !ok {
			continue
		}
		gives, ok := f.Gives()
		if !ok {
			continue
		}
		v, bad := pad.Table().Parse(gives.Unit.Text, units.AloneInPlace)
		if bad == nil && v.Dim() == u.Dim() && v.Tag() == u.Tag() && (k.Name != "torque" || v.Text() == u.Text()) {
			out = append(out, name)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// constant answers a constant of nature.
func constant(_ *session.Pad, word string) []string {
	c, ok := units.LookupConstant(syntax.Canonical(word))
	if !ok {
		return nil
	}
	value := c.Value().Text
	if head, tail, ok := strings.Cut(value, "e"); ok {
		value = head + "×10^" + tail
	}
	if c.Unit != "" && c.Unit != "1" {
		value += " " + c.Unit
	}
	if c.Exact {
		value += ", exact"
	}
	out := fold("    ", c.Symbol+", the "+c.Name+": a constant of nature")
	out = append(out, under(c.Symbol+" = "+value)...)
	out = append(out, "  bring it in with constants "+c.Symbol)
	return append(out, under("source: "+c.Source)...)
}
