package syntax

// Stmt is a statement. The set of statements is closed, and each answers for
// itself what the rest of the program asks of all of them.
type Stmt interface {
	// Exprs are the expressions that the statement works out, in the order in
	// which they are written; none for one that works nothing out.
	Exprs() []Expr
	// Defines are the names that the statement gives a meaning.
	Defines() []Ident

	// is tells how a worksheet keeps the statement, and its role in an exercise.
	is() nature
}

// nature is what a statement is for a worksheet and in an exercise.
//
// For m = 3 kg: recorded, a Given, and about no name outside of its expression.
type nature struct {
	storing storing
	role    Role
	// asks are names of the page that it is about, outside its expressions: of budget W.
	asks []Ident
}

// aside is a statement that works nothing out, gives no name and neither asks nor tells
// anything in an exercise: prose, a setting, a command.
type aside struct{}

func (aside) Exprs() []Expr    { return nil }
func (aside) Defines() []Ident { return nil }
func (aside) is() nature       { return nature{kept, Aside, nil} }

// storing is how a worksheet keeps a statement: alone, or recorded, with what it
// gives on the line below.
type storing bool

const (
	kept     storing = false
	recorded storing = true
)

// Records tells whether a worksheet keeps what a statement gives, as a record below
// it.
func Records(s Stmt) bool { return bool(s.is().storing) }

// RoleOf is what a statement does in an exercise. A line that can't be read, which is
// no statement, may be meant for anything: it is taken for one that holds an answer.
func RoleOf(s Stmt) Role {
	if s == nil {
		return Support
	}
	return s.is().role
}

// Role is what a statement does in an exercise: whether it is set up by the
// writer, asks for something, or belongs to the solution. What may be shown to
// one who has to find the answers hangs on it.
type Role uint8

// The roles; those from Task on belong to the solution.
const (
	Aside   Role = iota // neither: prose, settings, a symbol without a value
	Given               // is known from the start
	Task                // asks for a result of the numbers that are put in
	Answer              // asks for a result, or says it: a number in it may be one
	Support             // explains or tests a result, and asks for nothing
)

// Asks tells whether a statement asks for something, which takes room to answer.
func (r Role) Asks() bool { return r == Task || r == Answer }

// PutsIn tells whether the numbers of a statement are those of the problem, and
// not answers.
func (r Role) PutsIn() bool { return r == Given || r == Task }

// Solves tells whether a statement belongs to the solution; so does what explains
// it.
func (r Role) Solves() bool { return r >= Task }

// Ident is a name that a statement gives or asks for, in canonical form.
type Ident struct {
	Name    string
	NameAt  Span
	Meaning string // in words, where the line tells it: mass of the frog
}

// exprs lists expressions, without those that are left out.
//
// It uses the room of the list that comes in.
func exprs(list ...Expr) []Expr {
	out := list[:0]
	for _, x := range list {
		if x != nil {
			out = append(out, x)
		}
	}
	return out
}
