package syntax

import (
	"slices"

	"github.com/alecthomas/participle/v2"
	"github.com/alecthomas/participle/v2/lexer"

	"steelyard/lang/finding"
	"steelyard/units"
)

type (
	// Solve is solve EQ [and EQ…] for NAME [in UNIT][, …] [with …] [where …].
	//
	// For instance solve 3 J = 1/2*k1*(5 cm)^2 for k1 in N/m. Several equations are
	// joined by and, several unknowns by commas. With replaces values in the
	// equations; where says which of several roots is meant, or for the greater t
	// does.
	Solve struct {
		Equations []Equation  `parser:"'solve' @@ ( 'and' @@ )*"`
		Unknowns  []Unknown   `parser:"'for' @@ ( ',' @@ )*"`
		With      []Binding   `parser:"( 'with' @@ ( ',' @@ )* )?"`
		Where     []Condition `parser:"( 'where' @@ ( 'and' @@ )* )?"`
		// Later are the bindings behind the conditions, which are read as those
		// before them are; With has them too.
		Later []Binding `parser:"( 'with' @@ ( ',' @@ )* )?"`
		// Last is the unit of a single unknown where that stands last.
		Last lastUnit `parser:"@@?"`
		// Alone tells that an equation was written and nothing else: the unknown is the
		// one symbol in it that has no value.
		Alone bool
	}
	// lastUnit is a clause in UNIT.
	lastUnit struct{ UnitText }
	// Equation is one equation of a solve. Right is nil where Left names a formula.
	Equation struct {
		Left  Expr `parser:"@@"`
		Right Expr `parser:"( '=' @@ )?"`
	}
	// Unknown is one name that a solve gives a value.
	//
	// In is the unit that its value is shown in; Which is AnyRoot where the line has
	// no the greater or the smaller.
	Unknown struct {
		Name   string
		NameAt Span
		In     UnitText
		Which  Choice
		// Meaning is what the line says of the name in words, or "".
		Meaning string
	}
	// Condition bounds the unknown: where t > 0.
	//
	// Both sides may be worked out: where t > 2*T. A chain is taken apart into its
	// links.
	Condition struct {
		Left  Expr
		Op    Comparison
		Right Expr

		next *Condition // 0 s < t < 5 s goes on with t < 5 s
	}
)

// Choice says which of several roots is meant.
type Choice uint8

// The choices.
const (
	AnyRoot Choice = iota
	GreatestRoot
	LeastRoot
)

// A statement with many clauses is easier to read as a grammar than as code: the tags above are
// all of it, but for the choice before a name and the chain of a condition, which have a Parse
// of their own.
var solveWord = StatementWord{
	Word: "solve", Form: "solve EQ for NAME [in UNIT] [with …] [where …]",
	Summary: "Rearranges an equation and works it out.",
	Example: "solve 3 J = 1/2*k1*(5 cm)^2 for k1 in N/m", Stored: true, Ready: true, read: clauses(readSolve),
	phrases: phrases("for/, the later/greater/larger/earlier/smaller/lesser …"), expr: true, sure: " for ", next: []string{"for", "in", "and", "with", "where"},
}

// Exprs are the sides of the equations, then what the bindings and the conditions
// hold.
func (s *Solve) Exprs() []Expr {
	var out []Expr
	for _, e := range s.Equations {
		out = append(out, e.Left, e.Right)
	}
	out = append(out, bound(s.With)...)
	for _, c := range s.Where {
		out = append(out, c.Left, c.Right)
	}
	return exprs(out...)
}

// Defines are the unknowns.
func (s *Solve) Defines() []Ident {
	var out []Ident
	for _, u := range s.Unknowns {
		out = append(out, Ident{Name: u.Name, NameAt: u.NameAt, Meaning: u.Meaning})
	}
	return out
}

func (*Solve) is() nature { return nature{recorded, Task, nil} }

var solveLines = production[Solve]()

// choosing are the words between for and a name that choose a root.
//
// Later and earlier are meant for times, greater and smaller for anything.
var choosing = map[string]Choice{
	"later": GreatestRoot, "greater": GreatestRoot, "larger": GreatestRoot,
	"earlier": LeastRoot, "smaller": LeastRoot, "lesser": LeastRoot,
}

// Where the grammar refuses a line, the slips that people make in a solve are looked for: and
// between unknowns, the first t, a times t written at.
func readSolve(r *reader, tokens []token) (Stmt, *fault) {
	s, bad := solveLines(tokens, r.to)
	if bad != nil {
		if offer := r.forWhat(tokens); offer != nil {
			bad = offer
		} else if one := inOrder(tokens); one != nil {
			bad = one
		} else if i := slices.IndexFunc(tokens, func(t token) bool { return t.is("at") || t.is("slope") }); i > 0 && tokens[i].is("at") {
			bad = timesT(tokens[i].span())
			if tokens[i-1].kind != signToken {
				bad = unexpected(tokens[i])
			}
		}
		return nil, bad
	}
	for _, e := range s.Equations {
		if _, named := e.Left.(*Name); e.Right == nil && !named {
			return nil, &fault{finding.New(finding.Unreadable, e.Left.Span(), "An equation needs a left and a right side.",
				"Write both, as in `solve U = 1/2*k*x^2 for k`, or the name of a formula.")}
		}
	}
	s.Unknowns[len(s.Unknowns)-1].Meaning = r.words
	s.With, s.Later = append(s.With, s.Later...), nil
	s.Where = single(s.Where)
	if s.Last.Present() {
		last := &s.Unknowns[len(s.Unknowns)-1]
		if last.In.Present() {
			return nil, &fault{finding.New(finding.Unreadable, s.Last.At, "The unit of "+last.Name+" is there twice.", "Write it once.")}
		}
		last.In, s.Last = s.Last.UnitText, lastUnit{}
	}
	return s, nil
}

// forWhat finds solve F = m*a, which doesn't say for what: for a name without a value, if
// there are some.
func (r *reader) forWhat(tokens []token) *fault {
	if !slices.ContainsFunc(tokens, func(t token) bool { return t.is("=") }) || slices.ContainsFunc(tokens, func(t token) bool { return t.is("for") || t.is(",") }) {
		return nil
	}
	var all, lacking []string
	for _, t := range tokens {
		name := r.text[r.from:r.to] + " for " + t.text
		if t.kind != nameToken || t.call || slices.Contains(all, name) {
			continue
		}
		if all = append(all, name); r.known != nil && !r.known(Canonical(t.text)) {
			lacking = append(lacking, name)
		}
	}
	if lacking != nil {
		all = lacking
	}
	if len(all) == 0 || len(all) > mostUnknown {
		return nil
	}
	return &fault{finding.New(finding.NotWritten, Span{From: r.from, To: r.to}, "Which symbol are you looking for?", "Write it after `for`.", all...)}
}

// inOrder finds for the first t: roots are chosen by their size and by conditions.
//
// Roots have no order but that of their size: which is the first hangs on where one begins to
// count.
func inOrder(tokens []token) *fault {
	for i := 1; i+1 < len(tokens); i++ {
		t, name := &tokens[i], &tokens[i+1]
		if name.kind != nameToken || !tokens[i-1].is("for") && tokens[i-1].text != "the" {
			continue
		}
		switch t.text {
		case "first", "second", "third", "next", "last", "smallest", "largest", "least", "greatest", "positive", "negative":
			n, the := Canonical(name.text), "the "
			if tokens[i-1].text == "the" {
				the = ""
			}
			unit := units.Usual(n)
			if unit != "" {
				unit = " " + unit
			}
			f := finding.New(finding.NotWritten, t.span(), "\""+t.text+"\" doesn't fit here.",
				"Choose by size, and say where it lies, as in `for the smaller "+n+" where 0"+unit+" < "+n+" < 2"+unit+"`.")
			switch t.text {
			case "smallest", "least":
				f.Readings = []string{the + "smaller"}
			case "largest", "greatest":
				f.Readings = []string{the + "greater"}
			}
			return &fault{f}
		}
	}
	return nil
}

// Parse reads in UNIT within a production.
func (u *lastUnit) Parse(lex *lexer.PeekingLexer) error {
	p := newParser(produced{lex})
	if u.UnitText = p.inUnit(); p.bad == nil && !u.Present() {
		return participle.NextMatch
	}
	return p.err()
}

// single takes chains of conditions apart: 0 s < t < 5 s are two.
func single(chains []Condition) []Condition {
	var out []Condition
	for _, c := range chains {
		for link := &c; link != nil; link = link.next {
			out = append(out, Condition{Left: link.Left, Op: link.Op, Right: link.Right})
		}
	}
	return out
}

// Parse reads [the later] NAME [in UNIT] within a production.
func (u *Unknown) Parse(lex *lexer.PeekingLexer) error {
	if the := fromLexer(lex.Peek()); the.kind == wordToken && the.text == "the" {
		lex.Next()
		u.Which = choosing[lex.Next().Value]
	}
	t := fromLexer(lex.Peek())
	if t.kind != nameToken {
		if u.Which == AnyRoot {
			return participle.NextMatch
		}
		return unexpected(t)
	}
	lex.Next()
	u.Name, u.NameAt = Canonical(t.text), t.span()
	p := newParser(produced{lex})
	u.In = p.inUnit()
	return p.err()
}

// Parse reads A < B or A < B < C within a production.
func (c *Condition) Parse(lex *lexer.PeekingLexer) error {
	p := newParser(produced{lex})
	read := p.comparisons()
	*c = Condition{Left: read.sides[0], Op: read.signs[0], Right: read.sides[1]}
	if len(read.signs) == 2 {
		c.next = &Condition{Left: read.sides[1], Op: read.signs[1], Right: read.sides[2]}
	}
	return p.err()
}
