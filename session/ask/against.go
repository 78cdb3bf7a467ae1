package ask

import (
	"math"
	"strings"

	"steelyard/lang/plan"
	"steelyard/lang/syntax"
	"steelyard/session/eval"
	"steelyard/units"
)

// contradiction is a phrase of what a formula holds for, and what in a worksheet
// speaks against it: a quantity of one of some names and of a dimension, and a
// bound on its size.
type contradiction struct {
	phrase string
	names  []string // beginnings of names; none: any name
	unit   string   // of the quantity's dimension
	beyond float64  // the greatest size in that unit that the phrase allows
}

// contradictions is common practice: beyond 20° the period of a pendulum is off
// by 0.8 %, at a tenth of the speed of light the kinetic energy by 0.75 %, at
// 64 km gravity by 2 %.
var contradictions = []contradiction{
	{"small angle", []string{"θ", "α", "φ", "Θ", "Φ"}, "°", 20},
	{"below that of light", nil, "m/s", 2.998e7},
	{"heights small beside the radius", []string{"h", "y", "H", "z"}, "km", 64},
	{"near the ground", []string{"h", "y", "H", "z"}, "km", 64},
	{"no friction", []string{"μ"}, "1", 0},
	{"without friction", []string{"μ"}, "1", 0},
	{"no friction", []string{"b"}, "kg/s", 0},
	{"without friction", []string{"b"}, "kg/s", 0},
	{"no friction", []string{"f_k", "F_fr", "F_f"}, "N", 0},
	{"without friction", []string{"f_k", "F_fr", "F_f"}, "N", 0},
	{"without drag", []string{"C_d", "C_D"}, "1", 0},
	{"without drag", []string{"b"}, "kg/s", 0},
	{"without drag", []string{"F_d", "F_D"}, "N", 0},
	{"level ground", []string{"h", "y0", "y_0"}, "m", 0},
	{"from rest", []string{"v0", "v_0", "v_i"}, "m/s", 0},
	{"negligible mass", []string{"m_spring", "m_s"}, "kg", 0},
}

// against says what in the worksheet contradicts what a formula holds for;
// nothing if nothing does.
func against(p *eval.Page, f *syntax.FormulaDef) string {
	for _, c := range contradictions {
		if !strings.Contains(f.Holds, c.phrase) {
			continue
		}
		u := p.Unit(syntax.UnitText{Text: c.unit})
		for _, d := range p.Planner.Names.All() {
			if now, _ := p.Planner.Names.Lookup(d.Name); now != d || d.Line == 0 || !c.speaksOf(p, d, u, f) {
				continue
			}
			return "it holds " + f.Holds + "; here " + d.Name + " is " + p.Shown(d, units.Screen)
		}
	}
	return ""
}

// speaksOf tells whether a definition is beyond what a phrase allows. That there
// is a quantity at all does not speak against a formula in which it stands.
func (c contradiction) speaksOf(p *eval.Page, d *plan.Def, u *units.Unit, f *syntax.FormulaDef) bool {
	if d.Kind != plan.Quantity || d.Failed() || c.beyond == 0 && f.Has(d.Name) {
		return false
	}
	named := c.names == nil
	for _, n := range c.names {
		named = named || d.Name == n || strings.HasPrefix(d.Name, n+"_") || len(d.Name) > len(n) && strings.HasPrefix(d.Name, n) && d.Name[len(n)] >= '0' && d.Name[len(n)] <= '9'
	}
	st := p.Planner.Static(d.Slot)
	if !named || st.Dim != u.Dim() || st.Absent {
		return false
	}
	v, ok := p.State.Value(d.Slot)
	return ok && math.Abs(u.FromSI(v)) > c.beyond*(1+1e-9)
}
