package syntax

import "slices"

type (
	// Plot is graph Y against X [in UNIT] [with residuals] [log [across|up]] [blank]: the
	// points that two lists of readings are. Without X it is graph R, a path through the
	// points that a list of vectors goes to.
	Plot struct {
		Y         Curve `parser:"'graph' @@"`
		X         Curve `parser:"( 'against' @@ )?"`
		Residuals bool  `parser:"( @'with' 'residuals' )?"`
		Log       bool  `parser:"( @'log'"`
		Across    bool  `parser:"( @'across'"`
		Up        bool  `parser:"| @'up' )? )?"`
		Blank     bool  `parser:"@'blank'?"`
	}
	// Columns is table A[, B…], or table B against A: lists beside each other.
	Columns struct {
		Of      []Curve `parser:"'table' @@ ( ',' @@ )*"`
		Against Curve   `parser:"( 'against' @@ )?"`
	}
)

func (s *Plot) Exprs() []Expr     { return exprs(s.Y.X, s.X.X) }
func (*Plot) Defines() []Ident    { return nil }
func (*Plot) is() nature          { return nature{kept, Task, nil} }
func (*Columns) Defines() []Ident { return nil }
func (*Columns) is() nature       { return nature{kept, Task, nil} }

// Exprs are the lists, that which the others are against first.
func (s *Columns) Exprs() []Expr {
	out := []Expr{s.Against.X}
	for _, c := range s.Of {
		out = append(out, c.X)
	}
	return exprs(out...)
}

var (
	plotLines   = production(&Plot{})
	columnLines = production(&Columns{})
)

// ranged tells whether a line says from where to where its curves go; those of readings
// go as far as they do.
func ranged(tokens []token) bool {
	return slices.ContainsFunc(tokens, func(t token) bool { return t.is("from") })
}

// readPlot reads a graph or a table without a range.
func readPlot(r *reader, tokens []token) (Stmt, *fault) {
	if tokens[0].is("table") {
		return columnLines(tokens, r.to)
	}
	got, bad := plotLines(tokens, r.to)
	if bad != nil {
		return nil, bad
	}
	s := got.(*Plot)
	s.Across, s.Up = s.Log && !s.Up, s.Log && !s.Across
	return s, nil
}
