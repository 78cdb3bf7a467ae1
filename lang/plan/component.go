package plan

import (
	"strings"

	"steelyard/lang/run"
	"steelyard/lang/syntax"
)

// AxisOf takes a name apart that may be a component: v_x is axis 0 of v.
//
// A name such as F_x is taken apart by its form alone: whether there is a vector F is for who
// asks.
func AxisOf(name string) (vector string, axis int, ok bool) {
	cut := len(name) - len("_x")
	if cut <= 0 || name[cut] != '_' {
		return "", 0, false
	}
	axis = strings.IndexByte(syntax.Axes, name[cut+1])
	return name[:cut], axis, axis >= 0
}

// partOfParam tells whether a name is a component of a vector that the function takes.
func (c *coder) partOfParam(name string) bool {
	base, axis, ok := AxisOf(name)
	if !ok {
		return false
	}
	v := c.param(base)
	return v != nil && c.isVector(v.slot) && axis < int(c.static(v.slot).Components())
}

// defineComponents gives the components of a vector their names, but for those that a line
// has given; of a product along z, which is a number, that of its one.
//
// A component is looked up like any name, so it is one, behind the names that lines give: v_x =
// 3 m/s stays what its line says.
func (p *Planner) defineComponents(d *Def) {
	if d.Slot == run.NoSlot {
		return
	}
	st := p.Static(d.Slot)
	if !st.IsVector() && !st.Along {
		return
	}
	if d.parts == nil {
		d.parts = new([len(syntax.Axes)]*Def)
		for k := range int(st.Components()) {
			d.parts[k] = p.componentOf(d, st, k)
		}
	}
	for _, c := range d.parts[:st.Components()] {
		if own, ok := p.Names.Lookup(c.Name); !ok || own.Vector != nil || own.Failed() {
			c.Line, c.Part = d.Line, d.Part
			p.Names.add(c)
		}
	}
}

// componentOf is the definition of a component, counted from 0.
//
// Of r×F in the plane there is one component, τ_z, and it is the value itself.
func (p *Planner) componentOf(d *Def, st run.Static, k int) *Def {
	c := &Def{Kind: d.Kind, Slot: d.Slot, Unit: d.Unit, Vector: d}
	if st.Along && !st.IsVector() {
		k = len(syntax.Axes) - 1
	} else {
		c.Slot = p.coder("").component(d.Slot, k, syntax.Span{})
	}
	c.Name = d.Name + "_" + syntax.Axes[k:k+1]
	return c
}

// VectorOf is the vector of which a name is a component by its form, v of v_x, if there is
// one of that name.
//
// Whether a name can be given is asked before it is: v_x below a vector v is taken.
func (p *Planner) VectorOf(name string) (*Def, bool) {
	base, axis, ok := AxisOf(name)
	if !ok {
		return nil, false
	}
	d, ok := p.Names.Lookup(base)
	return d, ok && d.Slot != run.NoSlot && p.Static(d.Slot).IsVector() && axis < int(p.Static(d.Slot).Components())
}

// Axis is along which axis a component is, counted from 0.
func (d *Def) Axis() int { return strings.IndexByte(syntax.Axes, d.Name[len(d.Name)-1]) }
