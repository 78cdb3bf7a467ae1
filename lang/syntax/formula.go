package syntax

import (
	"slices"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/ops"
)

type (
	// FormulaDef is formula NAME: LEFT = RIGHT with its indented lines.
	//
	// For instance, with a line for each symbol:
	//
	//	formula hill_energy: E = m*a*h
	//	  E in J, energy gained
	//	  m in kg, mass
	//	  a in m/s^2, gravity
	//	  h in m, height
	//
	// Then hill_energy(3 kg, 9.8 m/s^2, 2 m) is 58.8 J. Units of the symbols are what
	// the two sides and each argument are checked with. Lines that begin with holds,
	// topic or source say when the formula is right, where a list has it, and where it
	// is from.
	FormulaDef struct {
		Name        string
		NameAt      Span
		Left, Right Expr
		Symbols     []FormulaSymbol
		Holds       string
		Topic       string
		Source      string
	}
	// FormulaSymbol is one indented line of a formula: U in J, spring energy.
	//
	// The unit tells the kind of quantity; an argument may be in any unit of that
	// kind.
	FormulaSymbol struct {
		Ident
		Unit    UnitText // "1" for a pure number
		Axes    int      // components, where it is a vector: F in N, a vector
		Default Expr     // θ in °, angle, 0° if left out; else nil
	}
)

var formulaWord = StatementWord{
	Word: "formula", Form: "formula NAME: A = B",
	Summary: "Defines an equation with the units and the words of its symbols on indented lines.",
	Example: "formula hill_energy: E = m*a*h\n  E in J, energy gained\n  m in kg, mass\n  a in m/s^2, gravity\n  h in m, height",
	Stored:  true, Ready: true, read: readFormula, colon: true,
}

func (s *FormulaDef) Exprs() []Expr    { return []Expr{s.Left, s.Right} }
func (s *FormulaDef) Defines() []Ident { return []Ident{{Name: s.Name, NameAt: s.NameAt}} }
func (*FormulaDef) is() nature         { return nature{kept, Support, nil} }

// Symbol finds a symbol of the formula by its name.
//
// The name is in canonical form.
func (s *FormulaDef) Symbol(name string) (FormulaSymbol, bool) {
	i := slices.IndexFunc(s.Symbols, func(s FormulaSymbol) bool { return s.Name == name })
	if i < 0 {
		return FormulaSymbol{}, false
	}
	return s.Symbols[i], true
}

// Has tells whether a name is a symbol of the formula; g is one of each.
//
// Names of the page are none: within a formula its own symbols alone have a
// meaning, so that it is the same on every page.
func (s *FormulaDef) Has(name string) bool {
	_, ok := s.Symbol(name)
	return ok || name == "g"
}

// Names are those of the symbols, in the order of their lines.
func (s *FormulaDef) Names() []string {
	names := make([]string, len(s.Symbols))
	for i := range s.Symbols {
		names[i] = s.Symbols[i].Name
	}
	return names
}

// Gives is the symbol that a call of the formula gives the value of: the one that its
// left side is; false where that is no name or no symbol.
//
// A formula such as p*V = n*R*T gives none, and can be solved but not called.
func (s *FormulaDef) Gives() (FormulaSymbol, bool) {
	left, ok := s.Left.(*Name)
	if !ok {
		return FormulaSymbol{}, false
	}
	return s.Symbol(left.Name)
}

// Takes are the symbols that a call gives values in their order: all but the one that
// comes out, and g, which is given by name.
//
// So spring_energy(k, x) reads as its equation does: U = ½kx².
//
// Their order is that of the lines, which is the one to write them in.
func (s *FormulaDef) Takes() []FormulaSymbol {
	gives, _ := s.Gives()
	return slices.DeleteFunc(slices.Clone(s.Symbols), func(s FormulaSymbol) bool { return s.Name == gives.Name || s.Name == "g" })
}

// Match pairs what a call of the formula takes with the call's arguments, by their place
// or their name; what is left out has its default, or nil. The first placed symbols are
// those that have a place; g, where the formula has it, is given by name alone, so that
// weight(m) is m·g with the gravity of the page, if its line says nothing else. An argument that no symbol is left for
// is returned as wrong.
//
// The two slices have one length. A nil among args is an argument that is missing:
// what to say of it is up to the caller, who knows the page. Wrong is an argument
// too many, one with a name that no symbol has, or the second for one symbol.
func (s *FormulaDef) Match(c *Call) (symbols []FormulaSymbol, args []Expr, placed int, wrong *Arg) {
	symbols = s.Takes()
	placed = len(symbols)
	if left, ok := s.Left.(*Name); Holds(s.Right, "g") && !(ok && left.Name == "g") {
		g, own := s.Symbol("g")
		if !own {
			g = FormulaSymbol{Ident: Ident{Name: "g"}, Unit: UnitText{Text: "m/s^2"}}
		}
		if g.Default == nil {
			g.Default = &Name{At: c.Name, Name: "g"}
		}
		symbols = append(symbols, g)
	}
	args = make([]Expr, len(symbols))
	next := 0
	for k := range c.Args {
		a, i := &c.Args[k], next
		if a.Name != "" {
			i = slices.IndexFunc(symbols, func(s FormulaSymbol) bool { return s.Name == a.Name })
		} else if next++; i >= placed {
			i = -1
		}
		if i < 0 || args[i] != nil {
			return symbols, args, placed, a
		}
		args[i] = a.X
	}
	for i, s := range symbols {
		if args[i] == nil {
			args[i] = s.Default
		}
	}
	return symbols, args, placed, nil
}

// Call is a call of the formula with its symbols, but for those that may be left out.
//
// It is shown where a call is asked for: hill_energy(m, a, h).
func (s *FormulaDef) Call() string {
	var args []string
	for _, sym := range s.Takes() {
		if sym.Default == nil {
			args = append(args, sym.Name)
		}
	}
	return s.Name + "(" + strings.Join(args, ", ") + ")"
}

// String is the line of a symbol as a formula has it.
//
// So a is "a in m/s^2, gravity"; a pure number has no unit here: "μ, friction".
func (s FormulaSymbol) String() string {
	text := s.Name
	if s.Unit.Text != "1" {
		text += " in " + s.Unit.Text
	}
	switch s.Axes {
	case len(Axes) - 1:
		text += ", a vector"
	case len(Axes):
		text += ", a vector in space"
	}
	if s.Meaning != "" {
		text += ", " + s.Meaning
	}
	if s.Default != nil {
		text += ", " + PrintExpr(s.Default) + " if left out"
	}
	return text
}

// readFormula reads a formula with its indented lines.
//
// A formula with no symbol is refused: its units would be known of nothing. A
// symbol that the equation has and no line tells of is found when the formula is
// planned.
func readFormula(r *reader, _ int) (Stmt, *fault) {
	tokens, bad := r.tokens("formula")
	if bad != nil {
		return nil, bad
	}
	f := &FormulaDef{}
	if bad := f.equation(r.line(tokens, 1)); bad != nil {
		return nil, r.word.form(bad)
	}
	if ops.IsFunction(f.Name) || strings.Contains(f.Name, "π") {
		return nil, &fault{finding.New(finding.NameKind, f.NameAt, f.Name+" can't be the name of a formula.", "Give it another name.")}
	}
	for _, at := range r.body {
		if bad := r.formulaLine(f, at); bad != nil {
			return nil, bad
		}
	}
	if len(f.Symbols) == 0 {
		return nil, &fault{finding.New(finding.Incomplete, Span{From: r.to, To: r.to}, "The formula's symbols have no units.",
			"Write a line for each below, with a space in front, such as `  U in J, spring energy`.")}
	}
	return f, nil
}

// equation reads NAME: A = B.
//
// Both sides are sums. There is one equals sign: a second one is a fault.
func (f *FormulaDef) equation(p *exprParser) *fault {
	n := p.ident()
	f.Name, f.NameAt = n.Name, n.NameAt
	p.sign(":")
	f.Left = p.sum()
	p.sign("=")
	f.Right = p.sum()
	return p.ends()
}

// formulaLine reads one indented line of a formula.
//
// Holds, topic and source begin a line with words of their own, unless in follows: a symbol
// may have those names.
//
// The words behind the first comma are the meaning, with commas of their own.
func (r *reader) formulaLine(f *FormulaDef, at Span) *fault {
	line := r.text[at.From:at.To]
	word, rest, _ := strings.Cut(line, " ")
	rest = strings.TrimSpace(rest)
	switch {
	case strings.HasPrefix(rest, "in ") || rest == "in":
	case word == "holds":
		f.Holds = rest
		return nil
	case word == "topic":
		f.Topic = rest
		return nil
	case word == "source":
		f.Source = rest
		return nil
	}
	end := len(line)
	if i := strings.IndexByte(line, ','); i >= 0 {
		end = i
	}
	s, bad := r.symbol(Span{From: at.From, To: at.From + end}, line)
	if bad != nil {
		return bad
	}
	for _, other := range f.Symbols {
		if other.Name == s.Name {
			return &fault{finding.New(finding.NameKind, s.NameAt, "The symbol "+s.Name+" already has a line.", "Take one of them out.")}
		}
	}
	s.Meaning, s.Default, bad = r.leftOut(Span{From: min(at.From+end+1, at.To), To: at.To})
	s.Axes, s.Meaning = vectorWords(s.Meaning)
	f.Symbols = append(f.Symbols, s)
	return bad
}

// symbol reads U in J, with which a line about a symbol begins.
//
// A symbol without a unit is not taken for a pure number, since the unit is
// forgotten more often than not: a pure number is in 1, as in μ in 1, friction.
func (r *reader) symbol(at Span, line string) (FormulaSymbol, *fault) {
	var s FormulaSymbol
	head := &reader{text: r.text, from: at.From, to: at.To}
	tokens, bad := head.tokens("")
	if bad == nil && len(tokens) > 0 {
		s.NameAt = tokens[0].span()
		s.Name, bad = newName(&tokens[0])
	}
	if bad == nil && len(tokens) == 1 {
		return s, noUnit(s.NameAt, r.source(at), line)
	}
	if bad == nil {
		p := head.line(tokens, 1)
		if s.Unit = p.inUnit(); !s.Unit.Present() {
			p.refuse()
		}
		bad = p.ends()
	}
	if bad != nil && (bad.ID == finding.Unreadable || bad.ID == finding.Incomplete || bad.ID == finding.NamesTogether) {
		bad.Hint, bad.Readings = "Write it like `U in J, spring energy`. Other lines begin with holds, topic or source.", nil
	}
	return s, bad
}

// noUnit says that a symbol of a formula has no unit, and how that of a pure
// number is written.
func noUnit(at Span, name, line string) *fault {
	name = strings.TrimSpace(name)
	return &fault{finding.New(finding.Incomplete, at, "The unit of "+name+" is missing.",
		"For a pure number write `"+name+" in 1"+strings.TrimPrefix(strings.TrimSpace(line), name)+"`; otherwise use its unit instead of the 1.", name+" in 1")}
}

// meaning reads the words for a name.
//
// Blanks at both ends are left out; the words are not looked at.
func (r *reader) meaning(at Span) string {
	from, to := trimBlanks(r.text, at.From, at.To)
	return r.text[from:to]
}

// leftOut reads the words for a symbol, and what it is if it is left out.
//
// The default is the last thing before the words, behind their last comma.
//
// Of "angle, 0° if left out" the words are angle and the default is 0°; of "angle"
// there is no default, and a call must have the symbol.
func (r *reader) leftOut(at Span) (string, Expr, *fault) {
	words := r.meaning(at)
	head, ok := strings.CutSuffix(words, " if left out")
	if !ok {
		return words, nil, nil
	}
	from, _ := trimBlanks(r.text, at.From, at.To)
	cut := strings.LastIndexByte(head, ',')
	line := &reader{text: r.text}
	line.from, line.to = trimBlanks(r.text, from+cut+1, from+len(head))
	tokens, bad := line.tokens("")
	if bad != nil {
		return "", nil, bad
	}
	x, _, bad := line.result(tokens, 0)
	return strings.TrimSpace(head[:max(cut, 0)]), x, bad
}
