package syntax

import (
	"slices"

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
		Equations []Equation
		Unknowns  []Unknown
		With      []Binding
		Where     []Condition
		// Alone tells that an equation was written and nothing else: the unknown is the
		// one symbol in it that has no value.
		Alone bool
	}
	// Equation is one equation of a solve. Right is nil where Left names a formula.
	Equation struct {
		Left  Expr
		Right Expr
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
	}
)

// Asks tells whether a name is one of those that the solve gives a value.
func (s *Solve) Asks(name string) bool {
	return slices.ContainsFunc(s.Unknowns, func(u Unknown) bool { return u.Name == name })
}

// Choice says which of several roots is meant.
type Choice uint8

// The choices.
const (
	AnyRoot Choice = iota
	GreatestRoot
	LeastRoot
)

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
func (s *Solve) Defines() []Ident { return identsOf(s.Unknowns) }

// identsOf are the names of unknowns, with what is said of them.
func identsOf(unknowns []Unknown) (out []Ident) {
	for _, u := range unknowns {
		out = append(out, Ident{Name: u.Name, NameAt: u.NameAt, Meaning: u.Meaning})
	}
	return out
}

func (*Solve) is() nature { return nature{recorded, Task, nil} }

// solveLines reads the clauses up to the end of the text, by hand: a production takes several
// times as long, and a page may be all solves. The bindings may stand behind the conditions, and
// the unit of the last unknown last of all.
func solveLines(tokens []token, end int) (*Solve, *fault) {
	p := (&reader{to: end}).line(tokens, 1)
	p.equation = true
	s := &Solve{}
	for more := true; more; more = p.taken("and") {
		e := Equation{Left: p.sum()}
		if p.tok.sign("=") {
			p.take()
			e.Right = p.sum()
		}
		s.Equations = append(s.Equations, e)
	}
	p.word("for")
	for more := true; more; more = p.comma() {
		s.Unknowns = append(s.Unknowns, p.unknown())
	}
	s.With = p.others(s.With)
	if p.taken("where") {
		s.Where = p.conditions()
	}
	s.With = p.others(s.With)
	if last := &s.Unknowns[len(s.Unknowns)-1]; p.tok.is("in") {
		in := p.inUnit()
		if p.bad == nil && last.In.Present() {
			p.fail(&fault{finding.New(finding.Unreadable, in.At, "The unit of "+last.Name+" is there twice.", "Write it once.")})
		}
		last.In = in
	}
	return s, p.ends()
}

// others reads [with NAME = EXPR[, …]] behind bindings that have been read.
func (p *exprParser) others(all []Binding) []Binding {
	for more := p.taken("with"); more; more = p.comma() {
		all = append(all, p.plainBinding())
	}
	return all
}

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
		if len(tokens) > 1 && tokens[1].is("for") {
			return nil, &fault{finding.New(finding.Unreadable, tokens[1].span(), "The equation is missing between `solve` and `for`.", "")}
		}
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
				"Choose by size, and say in what range, as in `for the smaller "+n+" where 0"+unit+" < "+n+" < 2"+unit+"`.")
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

// Parse reads [the later] NAME [in UNIT] within a production.
func (u *Unknown) Parse(lex *lexer.PeekingLexer) error {
	p := newParser(produced{lex})
	*u = p.unknown()
	return p.err()
}

// unknown reads [the later] NAME [in UNIT].
func (p *exprParser) unknown() (u Unknown) {
	if p.taken("the") {
		u.Which = choosing[p.take().text]
	}
	n := p.ident()
	u.Name, u.NameAt, u.In = n.Name, n.NameAt, p.inUnit()
	return u
}
