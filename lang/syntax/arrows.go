package syntax

import "slices"

// Arrows is arrows F1, F2 [in UNIT] [head to tail] [on a box] [with components] [with
// angles] [blank]: vectors of the plane, drawn to scale from one point or one after the
// other. The clauses come in any order.
//
//	arrows F1, F2, F1 + F2
//	arrows F1, F2 head to tail with components and angles
//	arrows W, N, f on a box blank
type Arrows struct {
	Of []Expr
	In UnitText
	// Chained asks for one arrow after the other, with their sum; Boxed for a box
	// that they begin at, where else there is a dot.
	Chained bool
	Boxed   bool
	// With are the marks that are asked for, each components or angles.
	With  []string
	Blank bool // axes alone
}

var arrowsWord = StatementWord{
	Word: "arrows", Form: "arrows F, G[, F + G] [head to tail|on a box] [with components] [blank]",
	Summary: "Draws vectors to scale.",
	Example: "arrows (3.0, 4.0) N, 5.0 N at -30°", Stored: true, Ready: true, read: reads((*exprParser).arrows),
	phrases: phrases("blank", "head to tail", "on a box", "with/and components/angles"), expr: true, next: []string{"in", "head", "to", "tail", "on", "box", "with", "components", "and", "angles", "blank"},
}

func (p *exprParser) arrows() Stmt {
	s := &Arrows{Of: listOf(p, (*exprParser).sum)}
	for {
		switch {
		case p.tok.is("in"):
			s.In = p.inUnit()
		case p.words("head to tail"):
			s.Chained = true
		case p.words("on a box"):
			s.Boxed = true
		case p.taken("blank"):
			s.Blank = true
		case p.taken("with"):
			for more := true; more; more = p.taken("and") {
				if !p.tok.is("components") && !p.tok.is("angles") {
					p.refuse()
				}
				s.With = append(s.With, p.take().text)
			}
		default:
			return s
		}
	}
}

func (s *Arrows) Exprs() []Expr  { return exprs(slices.Clone(s.Of)...) }
func (*Arrows) Defines() []Ident { return nil }
func (*Arrows) is() nature       { return nature{kept, Task, nil} }

// Components and Angles tell whether these marks are asked for.
func (s *Arrows) Components() bool { return slices.Contains(s.With, "components") }
func (s *Arrows) Angles() bool     { return slices.Contains(s.With, "angles") }
