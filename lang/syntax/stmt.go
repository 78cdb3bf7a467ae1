package syntax

// Stmt is a statement. The set of statements is closed, and each answers for
// itself what the rest of the program asks of all of them.
type Stmt interface {
	// Exprs are the expressions that the statement works out, in the order in
	// which they are written; none for one that works nothing out.
	Exprs() []Expr
	// Defines are the names that the statement gives a meaning.
	Defines() []Ident
	// Records tells whether a worksheet keeps what the statement gives, as a
	// record below it.
	Records() bool
	// Stored tells whether the statement is kept in a worksheet.
	Stored() bool

	stmt()
}

// Ident is a name that a statement gives or asks for, in canonical form.
type Ident struct {
	Name   string
	NameAt Span
}

// exprs lists expressions, without those that are left out.
func exprs(list ...Expr) []Expr {
	out := list[:0]
	for _, x := range list {
		if x != nil {
			out = append(out, x)
		}
	}
	return out
}

// defined lists the one name that a statement gives.
func defined(name string, at Span) []Ident { return []Ident{{name, at}} }
