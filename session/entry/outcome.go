package entry

// Outcome is what a statement came to. The set is closed: a new kind of outcome
// is a new method of Visitor, and every view that lacks it does not compile.
type Outcome interface{ visit(Visitor) }

// Visitor answers for each kind of outcome.
type Visitor interface {
	Result(*Result)
	Verdict(*Verdict)
	Graph(*Graph)
	Table(*Table)
	Budget(*Budget)
	Bars(*Bars)
	Arrows(*Arrows)
	Workings(*Workings)
	Lines(Lines)
}

// Visit hands the outcome to the method of its kind. Without an outcome it does
// nothing.
func (e *Entry) Visit(v Visitor) {
	if e.Outcome != nil {
		e.Outcome.visit(v)
	}
}

// Result is the outcome of a statement that gives values: at least one.
type Result struct {
	Values []Value
	// Shows tells whether a view prints the values: a plain given does not show
	// its own.
	Shows bool
	// Records tells whether a worksheet keeps a record of the values.
	Records bool
	// Notes say how the values compare with others: "1.41421 times v as it was".
	Notes []Said

	// Fit is how well a fit is that the values belong to, or nil.
	Fit *Fit

	one [1]Value // the room of the usual one value
}

// Fit is how well values fit readings, in coherent SI units.
type Fit struct {
	R2 float64 // the coefficient of determination; not a number of readings that are all the same
	SD float64 // the standard deviation of what is left of the readings
	N  int     // the number of points
	// ChiSquared is χ² per degree of freedom; nil where the points have no uncertainties.
	ChiSquared *float64
	// Covariance is that of the values.
	Covariance [][]float64
}

// Verdict is the outcome of a check.
type Verdict struct {
	Holds bool
	// Left and Right are the sides as compared.
	Left, Right Value
	// OfSign tells that only the sign of the left side was asked for.
	OfSign bool
}

// Sides says what the sides come to.
func (c *Verdict) Sides() Said {
	left, right := c.Left.Said(), c.Right.Said()
	switch {
	case c.OfSign:
		return left
	case left.Same(right):
		return Say("both sides are …", left)
	}
	return Say("… and …", left, right)
}

// Workings is the outcome of `steps`: the working of one result or of all.
type Workings struct {
	// Every tells that the results of all lines are worked, not that of one name.
	Every bool
	Of    []Working
}

// Working is the working of one line.
type Working struct {
	Line  int
	Lines []WorkLine
}

// Lines is the outcome of a statement that answers in words, row by row.
type Lines []Said

func (r *Result) visit(v Visitor)   { v.Result(r) }
func (c *Verdict) visit(v Visitor)  { v.Verdict(c) }
func (g *Graph) visit(v Visitor)    { v.Graph(g) }
func (t *Table) visit(v Visitor)    { v.Table(t) }
func (b *Budget) visit(v Visitor)   { v.Budget(b) }
func (b *Bars) visit(v Visitor)     { v.Bars(b) }
func (a *Arrows) visit(v Visitor)   { v.Arrows(a) }
func (w *Workings) visit(v Visitor) { v.Workings(w) }
func (l Lines) visit(v Visitor)     { v.Lines(l) }
