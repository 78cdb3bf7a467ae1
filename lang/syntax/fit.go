package syntax

import (
	"slices"

	"steelyard/lang/finding"
	"steelyard/lang/ops"
)

// Fit is fit Y against X [through the origin] [as a, b], the straight line that fits
// readings best, and the names of its slope and intercept; or fit Y = MODEL for A, B
// [starting at A = 1 cm], the parameters with which a model does.
//
// Behind as come names for the slope and the intercept, in this order; the line
// defines them, with their uncertainties. Without as, they are only told. An
// example, and what is told of it:
//
//	fit [2, 4, 7] m against [1, 2, 3] s as a1, b1
//	a1 = 2.50 ± 0.29 m/s, b1 = -0.67 ± 0.62 m
//
// Y and X are what is put in, with units; a unit of the slope follows from both.
type Fit struct {
	Y       Expr      `parser:"'fit' @@"`
	X       Expr      `parser:"( 'against' @@"`
	Through bool      `parser:"( @'through' 'the' 'origin' )?"`
	As      []Ident   `parser:"( 'as' @@ ( ',' @@ )* )?"`
	Only    bool      `parser:"( @'through' 'the' 'origin' )?"`           // the same, behind the name
	Ends    bool      `parser:"( @'with' 'steepest' 'and' 'flattest' )?"` // the lines through all error bars, too
	Model   Expr      `parser:"| '=' @@"`
	Params  []Unknown `parser:"'for' @@ ( ',' @@ )*"`
	Start   []Binding `parser:"( 'starting' 'at' @@ ( ',' @@ )* )? )"`
}

var fitWord = StatementWord{
	Word: "fit", Form: "fit Y against X [as a, b], or fit Y = MODEL for A, B [starting at …]",
	Summary: "Fits a line or a model to readings, with uncertainties.",
	Example: "fit [2, 4, 7] m against [1, 2, 3] s", Stored: true, Ready: true, read: clauses(readFit),
	phrases: phrases("through the origin", "through the …", "through …", "as …", "with steepest and flattest", "starting at …"), sure: " against ", expr: true, next: []string{"against", "through", "as", "with", "for", "starting", "at"},
}

// Exprs are the two sides, then the start values.
//
// Of the two forms one has X, the other Model; the part that is not there is left
// out.
func (s *Fit) Exprs() []Expr { return exprs(append([]Expr{s.Y, s.X, s.Model}, bound(s.Start)...)...) }

// Defines are the parameters that have a name.
//
// Either As or Params is empty, depending on the form.
func (s *Fit) Defines() []Ident {
	return append(slices.Clone(s.As), identsOf(s.Params)...)
}

func (*Fit) is() nature { return nature{recorded, Task, nil} }

var fitLines = production(&Fit{})

// readFit reads both forms. A line has one name for its slope and one for its
// intercept: a third is refused, and with through the origin a second, since the
// intercept is zero then and no result.
func readFit(r *reader, tokens []token) (Stmt, *fault) {
	got, bad := fitLines(tokens, r.to)
	if bad != nil {
		return nil, bad
	}
	s := got.(*Fit)
	s.Through, s.Only = s.Through || s.Only, false
	if s.Model != nil {
		s.Params[len(s.Params)-1].Meaning = r.words
		// x(t) is the list x, which goes with the list t.
		if c, ok := s.Y.(*Call); ok && len(c.Args) == 1 && !ops.IsFunction(c.Func) {
			if _, ok := c.Args[0].X.(*Name); ok {
				s.Y = &Name{At: c.Name, Name: c.Func}
			}
		}
		return s, s.started()
	}
	most, message := 2, "A line has a slope and an intercept, and no more."
	if s.Through {
		most, message = 1, "A line through the origin has only a slope."
	}
	if len(s.As) > most {
		return nil, &fault{finding.New(finding.WrongCall, s.As[most].NameAt, message, "Leave this name out.")}
	}
	if len(s.As) == 2 && s.As[0].Name == s.As[1].Name {
		return nil, &fault{finding.New(finding.WrongCall, s.As[1].NameAt, s.As[1].Name+" is there twice.", "Give the slope and the intercept different names.")}
	}
	return s, nil
}

// started checks that start values are of parameters, and all or none are there.
//
// Refused too are a parameter that is named twice and a choice of roots, as in for
// the greater A, which belongs to solve: a fit has one best value of each.
func (s *Fit) started() *fault {
	for i, p := range s.Params {
		if slices.ContainsFunc(s.Params[:i], func(q Unknown) bool { return q.Name == p.Name }) {
			return &fault{finding.New(finding.WrongCall, p.NameAt, p.Name+" is there twice.", "Leave one out.")}
		}
		if p.Which != AnyRoot {
			return &fault{finding.New(finding.WrongCall, p.NameAt, "A fit has one value of "+p.Name+".", "Write its name alone, as in `for "+p.Name+"`.")}
		}
	}
	for i, b := range s.Start {
		switch {
		case !slices.ContainsFunc(s.Params, func(p Unknown) bool { return p.Name == b.Name }):
			return &fault{finding.New(finding.WrongCall, b.NameAt, b.Name+" isn't one of the fitted names.", "Write it after `for` too, or leave it out.")}
		case slices.ContainsFunc(s.Start[:i], func(c Binding) bool { return c.Name == b.Name }):
			return &fault{finding.New(finding.WrongCall, b.NameAt, b.Name+" is there twice.", "Leave one out.")}
		}
	}
	return nil
}
