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
	Of []Expr   `parser:"'arrows' @@ ( ',' @@ )*"`
	In UnitText `parser:"( 'in' @@"`
	// Chained asks for one arrow after the other, with their sum; Boxed for a box
	// that they begin at, where else there is a dot.
	Chained bool `parser:"| 'head' 'to' @'tail'"`
	Boxed   bool `parser:"| 'on' 'a' @'box'"`
	// With are the marks that are asked for, each components or angles.
	With  []string `parser:"| 'with' @( 'components' | 'angles' ) ( 'and' @( 'components' | 'angles' ) )*"`
	Blank bool     `parser:"| @'blank' )*"` // axes alone
}

var arrowsWord = StatementWord{
	Word: "arrows", Form: "arrows F, G[, F + G] [head to tail|on a box] [with components] [blank]",
	Summary: "Draws vectors to scale.",
	Example: "arrows (3.0, 4.0) N, 5.0 N at -30°", Stored: true, Ready: true, read: clauses(statement(&Arrows{})),
	phrases: phrases("blank", "head to tail", "on a box", "with/and components/angles"), expr: true, next: []string{"in", "head", "to", "tail", "on", "box", "with", "components", "and", "angles", "blank"},
}

func (s *Arrows) Exprs() []Expr  { return exprs(slices.Clone(s.Of)...) }
func (*Arrows) Defines() []Ident { return nil }
func (*Arrows) is() nature       { return nature{kept, Task, nil} }

// Components and Angles tell whether these marks are asked for.
func (s *Arrows) Components() bool { return slices.Contains(s.With, "components") }
func (s *Arrows) Angles() bool     { return slices.Contains(s.With, "angles") }
