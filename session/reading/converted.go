package reading

import (
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// converted refuses the conversion of an angle that has its unit: with θ = 30°, θ*π/180
// would be converted twice, and θ/360 is no part of a turn. Above a bar with 180 or 360
// below, such an angle was thought of as a number of degrees; with 180° and 360° the
// line is right.
func (s *settler) converted() (Verdict, bool) {
	text := s.Entry.Text
	if !strings.Contains(text, "180") && !strings.Contains(text, "360") {
		return Verdict{}, false
	}
	for _, x := range s.Entry.Stmt.Exprs() {
		seen := map[syntax.Expr]bool{}
		for part := range syntax.Nodes(x) {
			p := angleProduct{settler: s, seen: seen}
			if p.take(part, true); p.angles == 1 && p.turn != nil {
				to := p.turn.At.To
				f := finding.New(finding.TwoReadings, syntax.Span{To: len(text)}, p.name+" is an angle with its unit already.",
					"Write "+p.turn.Value.Text+"° below it, or leave the conversion out.", text[:to]+"°"+text[to:])
				return Verdict{Refused: true, Findings: []finding.Finding{f}}, true
			}
		}
	}
	return Verdict{}, false
}

// angleProduct is what a product has of angles.
type angleProduct struct {
	*settler
	seen   map[syntax.Expr]bool // the products that are parts of others
	angles int                  // the angles above the bar less those below
	name   string
	turn   *syntax.Number // 180 or 360 below the bar
}

// take collects the factors of a product.
func (p *angleProduct) take(x syntax.Expr, above bool) {
	if p.seen[x] {
		return
	}
	switch x := x.(type) {
	case *syntax.Paren:
		p.seen[x] = true
		p.take(x.X, above)
	case *syntax.Binary:
		if x.Op == syntax.Mul || x.Op == syntax.Div {
			p.seen[x] = true
			p.take(x.X, above)
			p.take(x.Y, above == (x.Op == syntax.Mul))
		}
	case *syntax.Number:
		if t := x.Value.Text; !above && (t == "180" || t == "360") {
			p.turn = x
		}
	case *syntax.Quantity:
		p.angle(x.Unit.Text == "°" || x.Unit.Text == "deg", syntax.PrintExpr(x), above)
	case *syntax.Name:
		d, ok := p.Planner.Find(x)
		if ok && d.Slot != run.NoSlot {
			st := p.Planner.Static(d.Slot)
			p.angle(st.Tag == units.Angle && st.Dim.IsOne(), x.Name, above)
		}
	}
}

func (p *angleProduct) angle(is bool, name string, above bool) {
	switch {
	case !is:
	case above:
		p.angles++
		p.name = name
	default:
		p.angles--
	}
}
