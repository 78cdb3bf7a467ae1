package syntax

import (
	"slices"
	"strconv"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/limit"
	"steelyard/lang/ops"
)

type (
	// FuncDef is NAME(PARAMS) = EXPR [in UNIT][, WORDS], or a body of pieces.
	//
	// A body of pieces stands on indented lines, one interval each. The intervals need not
	// meet: where none holds the argument, the function has no value.
	//
	// The forms:
	//
	//	U(x) = 1/2*(30 N/m)*x^2
	//
	//	U(x) = 1/2*(30 N/m)*x^2 for x ≥ 0
	//
	//	f(t) =
	//	  2 m/s*t for 0 s ≤ t ≤ 2 s
	//	  4 m for t > 2 s
	//
	// Parameters have no units of their own: U(2 m) puts 2 m in for x and works the
	// expression out, so that a wrong unit is found there. In a body of pieces an
	// argument that no interval holds, f(-1 s), is told to have no value, and is not
	// taken for the nearest one.
	FuncDef struct {
		Ident
		Params []string
		X      Expr // nil if there are pieces
		Pieces []Piece
		In     UnitText
	}
	// Piece is one interval of a function's body: X for Lo ≤ Var ≤ Hi. Lo or Hi
	// is nil for a bound that is not given.
	Piece struct {
		At     Span
		X      Expr
		Var    string
		VarAt  Span
		Lo, Hi Expr
		LoOpen bool // Lo < Var
		HiOpen bool // Var < Hi
	}
)

// Exprs are the function's expression, or those of its pieces with their bounds.
//
// A bound that is not there is left out; who wants to know which is which asks the
// pieces.
func (s *FuncDef) Exprs() []Expr {
	out := []Expr{s.X}
	for i := range s.Pieces {
		p := &s.Pieces[i]
		out = append(out, p.X, p.Lo, p.Hi)
	}
	return exprs(out...)
}

func (s *FuncDef) Defines() []Ident { return []Ident{s.Ident} }

// is says Support: in a part a function is a step towards its answer. Above the
// parts, where nothing is asked yet, it is of the problem all the same.
func (*FuncDef) is() nature { return nature{kept, Support, nil} }

// functionHead tells whether tokens begin with NAME(…) =, and where what follows
// begins.
//
// What the brackets hold must be names and commas: m1c1(T1 - T) = … begins with a product.
//
// For U(x) = x^2 the place is that of the x behind the equals sign, token 5. A
// number in the brackets is let through here, since params has more to say of it.
func functionHead(tokens []token) (int, bool) {
	if len(tokens) < 3 || tokens[0].kind != nameToken || !tokens[0].call {
		return 0, false
	}
	depth := 0
	for i := 1; i < len(tokens); i++ {
		switch tokens[i].text {
		case "(":
			depth++
		case ")":
			depth--
		case ",":
		default:
			if tokens[i].kind == signToken {
				return 0, false // m1c1(T1 - T) = …
			}
		}
		if depth == 0 {
			return i + 2, i+1 < len(tokens) && tokens[i+1].is("=")
		}
	}
	return 0, false
}

// builtIn refuses a function with the name of a built-in one. The u of a displacement or a
// voltage is the only letter among them.
func builtIn(t *token) *fault {
	if len(t.text) > 1 {
		return &fault{finding.New(finding.NameKind, t.span(), t.text+"( ) is a built-in function.", "Use another name for yours.")}
	}
	return &fault{finding.New(finding.NameKind, t.span(), t.text+"( ) is the standard uncertainty of a value.", "Use another name for your function.", t.text+"1")}
}

// function reads U(x) = … or a function in pieces; its body begins at from.
//
// A built-in function can't be defined again: sin means one thing on every page. A
// head with nothing behind the = or with a unit alone, f(t) = in m, takes pieces.
func (r *reader) function(tokens []token, from int) (Stmt, *fault) {
	name, bad := newName(&tokens[0])
	if bad != nil {
		return nil, bad
	}
	f := &FuncDef{Ident: Ident{Name: name, NameAt: tokens[0].span(), Meaning: r.words}}
	if ops.IsFunction(name) {
		return nil, builtIn(&tokens[0])
	}
	if f.Params, bad = params(tokens[2 : from-2]); bad != nil {
		return nil, bad
	}
	if takesPieces(r.text[r.from:r.to]) {
		p := r.line(tokens, from)
		f.In = p.inUnit()
		if bad = p.bad; bad == nil {
			f.Pieces, bad = r.pieces()
		}
	} else if i := slices.IndexFunc(tokens, func(t token) bool { return t.is("for") }); i > from && strings.ContainsAny(r.text[tokens[i].to:r.to], "<>≤≥") {
		f.Pieces = make([]Piece, 1)
		if f.Pieces[0], bad = r.piece(Span{From: tokens[from].from, To: r.to}); bad == nil {
			bad = r.noBody()
		}
	} else if f.X, f.In, bad = r.result(tokens, from); bad == nil {
		bad = r.noBody()
	}
	if bad != nil {
		return nil, bad
	}
	return f, f.arguments(tokens[2 : from-2])
}

// params reads the names between the brackets of a function that is defined.
//
// They alternate with commas, so that names have the even places. Refused are a
// number, U(3) = 2 J, and words of the language.
func params(tokens []token) ([]string, *fault) {
	var names []string
	for i := range tokens {
		t := &tokens[i]
		if i%2 == 1 {
			if !t.sign(",") {
				return nil, unexpected(*t)
			}
			continue
		}
		name, bad := newName(t)
		if bad != nil {
			bad.Message = "The brackets of a new function hold names. " + bad.Message
			return nil, bad
		}
		names = append(names, name)
	}
	if len(tokens)%2 == 0 {
		return nil, unexpected(tokens[len(tokens)-1])
	}
	return names, nil
}

// arguments refuses too many of them, and one that stands twice.
//
// U(x, x) = 3 J would leave one of the two without any effect.
func (f *FuncDef) arguments(tokens []token) *fault {
	if len(f.Params) > limit.Args {
		return &fault{finding.New(finding.TooLong, f.NameAt, "This function has more than "+strconv.Itoa(limit.Args)+" values.", "Use fewer.")}
	}
	for i, p := range f.Params {
		for j := range i {
			if f.Params[j] == p {
				return &fault{finding.New(finding.NameKind, tokens[2*i].span(), "The argument "+p+" is there twice.", "Change the name of one of them.")}
			}
		}
	}
	return nil
}

// pieces reads the indented lines of a function by intervals.
//
// That two pieces do not overlap isn't known here: their bounds may be names.
func (r *reader) pieces() ([]Piece, *fault) {
	if len(r.body) == 0 {
		return nil, &fault{finding.New(finding.Incomplete, Span{From: r.to, To: r.to}, "The function has no right side.",
			"Write it after =, or indented lines such as `2 m/s*t for 0 s ≤ t ≤ 2 s` below.")}
	}
	if len(r.body) > limit.Pieces {
		return nil, &fault{finding.New(finding.TooLong, r.body[limit.Pieces], "A function has at most "+strconv.Itoa(limit.Pieces)+" intervals.", "Join some of them.")}
	}
	pieces := make([]Piece, 0, len(r.body))
	for _, at := range r.body {
		p, bad := r.piece(at)
		if bad != nil {
			return nil, bad
		}
		pieces = append(pieces, p)
	}
	return pieces, nil
}

// piece reads 2 m/s^2*t for 0 s ≤ t ≤ 2 s.
//
// Its interval is a chain of comparisons, as in a check, with the argument in it.
//
// A piece has a reader of its own over its line, so that faults and notes have the
// place of it in the whole text.
func (r *reader) piece(at Span) (Piece, *fault) {
	line := &reader{text: r.text, from: at.From, to: at.To, known: r.known}
	tokens, bad := line.tokens("")
	if bad != nil {
		return Piece{}, bad
	}
	r.notes = append(r.notes, line.notes...)
	from := line.line(tokens, 0)
	p := Piece{At: at, X: from.sum()}
	from.word("for")
	c := from.comparisons()
	if bad = from.ends(); bad == nil {
		bad = line.treeSlips(append([]Expr{p.X}, c.sides...)...)
	}
	if bad == nil {
		return p, p.interval(c)
	}
	if bad.ID == finding.Unreadable || bad.ID == finding.Incomplete {
		bad.Hint = "Write this line like `2 m/s*t for 0 s ≤ t ≤ 2 s`."
	}
	return p, bad
}

// interval takes the bounds from 0 s ≤ t ≤ 2 s, t > 2 s and 2 s > t.
//
// The chain may run up or down, and have one bound or two. It is turned so that the lower
// bound comes first; a bound with < or > does not belong to the interval.
//
// What the fields are for some intervals, of which Lo and Hi are written as text:
//
//	0 s ≤ t ≤ 2 s     Lo 0 s, Hi 2 s
//	2 s > t           Hi 2 s, open
//	t > 2 s           Lo 2 s, open
//	2 s ≥ t > 0 s     Lo 0 s, open, Hi 2 s
//
// Refused are a chain of which the signs point both ways, 0 s ≤ t ≥ 2 s, and one
// that has no name in the middle.
func (p *Piece) interval(c chain) *fault {
	wrong := func(message string) *fault {
		return &fault{finding.New(finding.Unreadable, c.sides[0].Span().Join(c.sides[1].Span()), message,
			"Write the interval like `0 s ≤ t ≤ 2 s`, `t < 0 s` or `t > 2 s`.")}
	}
	// Equal marks a bound that is not there.
	low, high, first, second := c.sides[0], Expr(nil), c.signs[0], Equal
	name, ok := c.sides[1].(*Name)
	if len(c.signs) == 2 {
		high, second = c.sides[2], c.signs[1]
	} else if n, is := c.sides[0].(*Name); is {
		name, ok, low, high, second, first = n, true, nil, c.sides[1], first, Equal
	}
	if !ok || name.Line != 0 {
		return wrong("The interval doesn't have the name in the brackets.")
	}
	p.Var, p.VarAt = name.Name, name.At
	down := first == Greater || first == AtLeast || second == Greater || second == AtLeast
	up := first == Less || first == AtMost || second == Less || second == AtMost
	if down && up {
		return wrong("The two signs of this interval point in different directions.")
	}
	if down {
		low, high, first, second = high, low, second, first
	}
	p.Lo, p.Hi = low, high
	p.LoOpen = low != nil && (first == Less || first == Greater)
	p.HiOpen = high != nil && (second == Less || second == Greater)
	return nil
}
