package reading

import (
	"steelyard/lang/finding"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// converted refuses the conversion of an angle that has its unit: with θ = 30°, θ*π/180
// would be converted twice, and θ/360 is no part of a turn. Above a bar with 180 or 360
// below, such an angle was thought of as a number of degrees; with 180° and 360° the
// line is right.
//
// On a calculator in degrees θ*π/180 is how radians are made; an angle here has its unit with it,
// and sin(θ*π/180) would be that of half a degree.
func (s *settler) converted(text string, stmt syntax.Stmt) Verdict {
	if !syntax.HoldsTurn(text) {
		return Verdict{}
	}
	var found *angleProduct
	for _, x := range stmt.Exprs() {
		for _, factors := range syntax.Products(x) {
			p := angleProduct{settler: s}
			for _, f := range factors {
				p.take(f)
			}
			if p.angles == 1 && p.turn != nil && found == nil {
				found = &p
			}
		}
	}
	if found == nil {
		return s.turnsInDegrees(text, stmt)
	}
	to := found.turn.At.To
	return refuse(s.whole(finding.TwoReadings, found.name+" is an angle with its unit already.",
		"Write "+found.turn.Value.Text+"° below it, or leave the conversion out.", text[:to]+"°"+text[to:]))
}

// turnsInDegrees refuses a number of degrees that is reported in °: 360*x/λ in °, where 360 is one
// of radians.
func (s *settler) turnsInDegrees(text string, stmt syntax.Stmt) Verdict {
	_, x, in := syntax.AsResult(stmt)
	if !in.Degrees() {
		return Verdict{}
	}
	p := angleProduct{settler: s}
	var turn *syntax.Number
	for _, f := range syntax.Factors(x) {
		p.take(f)
		switch x := syntax.Unbracket(f.X).(type) {
		case *syntax.Number:
			if !f.Minus && syntax.TurnOfDegrees(x.Value.Text) {
				turn = x
			}
		case *syntax.Pi, *syntax.Call:
			return Verdict{}
		}
	}
	if turn == nil || p.angles != 0 {
		return Verdict{}
	}
	to := turn.At.To
	return refuse(s.whole(finding.TwoReadings, turn.Value.Text+" is a number of radians here.", "For degrees, write "+turn.Value.Text+"°.", text[:to]+"°"+text[to:]))
}

func (s *settler) convertedHere() Verdict { return s.converted(s.Entry.Text, s.Entry.Stmt) }

// angleProduct is what a product has of angles.
type angleProduct struct {
	*settler
	angles int // the angles above the bar less those below
	name   string
	turn   *syntax.Number // a turn in degrees below the bar
}

// take notes a factor of the product.
//
// θ/θ0 has no angle left, so that one below the bar takes one above away.
func (p *angleProduct) take(f syntax.Link) {
	switch x := syntax.Unbracket(f.X).(type) {
	case *syntax.Number:
		if f.Minus && syntax.TurnOfDegrees(x.Value.Text) {
			p.turn = x
		}
	case *syntax.Quantity:
		p.angle(x.Unit.Degrees(), syntax.PrintExpr(x), !f.Minus)
	case *syntax.Name:
		d, ok := p.Planner.Find(x)
		if ok && d.Slot != run.NoSlot {
			st := p.Planner.Static(d.Slot)
			p.angle(st.Tag == units.Angle && st.Dim.IsOne(), x.Name, !f.Minus)
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
