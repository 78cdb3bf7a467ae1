package syntax

import "slices"

type (
	// Plot is graph Y against X [in UNIT] [with residuals] [log [across|up]] [blank]: the
	// points that two lists of readings are. Without X it is graph R, a path through the
	// points that a list of vectors goes to.
	Plot struct {
		Y         Curve
		X         Curve
		Residuals bool
		Log       bool
		Across    bool
		Up        bool
		Blank     bool
	}
	// Columns is table A[, B…], or table B against A: lists beside each other.
	Columns struct {
		Of      []Curve
		Against Curve
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

// ranged tells whether a line says from where to where its curves go; those of readings
// go as far as they do.
func ranged(tokens []token) bool {
	return slices.ContainsFunc(tokens, func(t token) bool { return t.is("from") })
}

// plot reads a graph or a table without a range.
func (p *exprParser) plot() Stmt {
	if p.tokens[0].is("table") {
		s := &Columns{Of: listOf(p, (*exprParser).curve)}
		if p.taken("against") {
			s.Against = p.curve()
		}
		return s
	}
	s := &Plot{Y: p.curve()}
	if p.taken("against") {
		s.X = p.curve()
	}
	s.Residuals = p.words("with residuals")
	s.Log, s.Across, s.Up = p.logarithmic()
	s.Blank = p.taken("blank")
	return s
}
