package syntax

import (
	"slices"
	"strings"
)

// inner is the scope within a statement: that of the page, with names to which the
// statement itself gives a meaning; in a formula, those alone.
//
// In U(x) = 1/2*k*x^2 the name x is known though the page has none, and where the
// page has one, that one isn't meant.
type inner struct {
	Scope
	names []string
	only  bool
}

// within is the scope within a statement; it may be nil.
func within(stmt Stmt, in Scope) inner {
	_, formula := stmt.(*FormulaDef)
	names, _ := Bound(stmt)
	return inner{Scope: in, names: names, only: formula}
}

// Known tells whether a word is a name here.
//
// In a formula g is known, since every page has it.
func (s inner) Known(name string) bool {
	return slices.Contains(s.names, name) || (!s.only || name == "g") && s.Scope.Known(name)
}

// Number is the value of a name of the page that is given as a plain number.
//
// A name that the statement binds has no value here, whatever it has on the page.
func (s inner) Number(name string) (float64, bool) {
	if slices.Contains(s.names, name) {
		return 0, false
	}
	return s.Scope.Number(name)
}

// Turns tells whether a name of the page is in turns.
func (s inner) Turns(name string) bool {
	return !slices.Contains(s.names, name) && s.Scope.Turns(name)
}

// Bound lists the names to which a statement itself gives a meaning within its
// expressions: the arguments of a function, the symbols of a formula, unknowns, and
// what a curve is drawn against; and the expressions that are drawn against them.
//
// For slope of x(t) at t = 2 s they are t and x(t). A statement that binds
// nothing, as m = 3 kg does, has neither.
func Bound(stmt Stmt) (names []string, of []Expr) {
	switch s := stmt.(type) {
	case *FuncDef:
		for i := range s.Pieces {
			of = append(of, s.Pieces[i].X)
		}
		return s.Params, exprs(append(of, s.X)...)
	case *FormulaDef:
		return s.Names(), nil
	case *Graph:
		for _, c := range s.Curves {
			of = append(of, c.X)
		}
		return []string{s.Against.Name}, exprs(append(of, s.Path.X)...)
	case *Fit:
		names = namesOf(identsOf(s.Params))
	case *Data:
		names = namesOf(s.Defines())
	case *Solve:
		names = withRoots(namesOf(s.Defines()))
		for _, b := range s.With {
			names = append(names, b.Name)
		}
	}
	_, x, _ := AsResult(stmt)
	switch x := x.(type) {
	case *SlopeOf:
		return []string{x.Var.Name}, []Expr{x.X}
	case *AreaUnder:
		return []string{x.Var.Name}, []Expr{x.X}
	}
	return names, nil
}

func namesOf(idents []Ident) (names []string) {
	for _, n := range idents {
		names = append(names, n.Name)
	}
	return names
}

// Placed are the values that a statement itself gives names for a while: at s = 2 m,
// from 0 m to 2 m, with m = 2 kg.
func Placed(stmt Stmt) (out []Binding) {
	if s, ok := stmt.(*Graph); ok {
		for _, end := range exprs(s.From, s.To) {
			out = append(out, Binding{Name: s.Against.Name, X: end})
		}
	}
	_, x, _ := AsResult(stmt)
	switch x := x.(type) {
	case *With:
		return x.By
	case *SlopeOf:
		return []Binding{{Name: x.Var.Name, X: x.Place}}
	case *AreaUnder:
		return []Binding{{Name: x.Var.Name, X: x.From}, {Name: x.Var.Name, X: x.To}}
	}
	return out
}

// Idle counts the names that a function is one of, or that a curve is drawn against,
// and that do nothing in one of its expressions: the V of p(V) = 1200 J/V, where it is
// the volt.
//
// A reading with idle names is less likely: nobody gives a function an argument
// that changes nothing.
func Idle(stmt Stmt) (n int) {
	names, of := Bound(stmt)
	for _, x := range of {
		for _, name := range names {
			if !Holds(x, name) {
				n++
			}
		}
	}
	return n
}

// boundIn lists the names to which a line gives a meaning within it, by its tokens:
// the arguments of a function, unknowns, what a curve is drawn against, and those
// that a solve has `with` a value.
//
// It reads tokens, since a line that can't be read is no statement that Bound
// could look at.
func boundIn(tokens []token) []string {
	var out []string
	if at, ok := functionHead(tokens); ok {
		for i := 1; i < at && i < len(tokens); i++ {
			if tokens[i].kind == nameToken {
				out = append(out, Canonical(tokens[i].text))
			}
		}
	}
	after := false
	for i := range tokens {
		t := &tokens[i]
		switch {
		case t.is("for"), t.is("against"):
			after = true
		case t.kind == nameToken && after:
			out = append(out, Canonical(t.text))
		case t.is("the"), i > 0 && tokens[i-1].is("the"): // for the greater t
		case t.kind == wordToken:
			after = false
		}
	}
	if len(tokens) > 0 && tokens[0].is("solve") { // the symbol of an equation needs no value of its own
		out = append(withRoots(out), replacedIn(tokens)...)
	}
	return out
}

// withRoots adds the symbol whose roots have names of their own: t of t1 and t2.
func withRoots(names []string) []string {
	for _, name := range names {
		if root, ok := strings.CutSuffix(name, "1"); ok && root != "" && slices.Contains(names, root+"2") {
			names = append(names, root)
		}
	}
	return names
}

// replacedIn finds the names to which a line gives a value for itself alone: the x of with
// x = 3 cm.
func replacedIn(tokens []token) (out []string) {
	with := false
	for i := range tokens {
		with = with || tokens[i].is("with")
		if with && tokens[i].kind == nameToken && i+1 < len(tokens) && tokens[i+1].is("=") {
			out = append(out, Canonical(tokens[i].text))
		}
	}
	return out
}

// knownIn tells names from other words in a line with certain tokens; nil where the
// page is not known.
func (r *reader) knownIn(tokens []token) func(string) bool {
	switch {
	case r.known == nil, r.word == nil && (len(tokens) == 0 || !tokens[0].call):
		return r.known
	case r.word != nil && r.word.Word == "formula":
		return func(string) bool { return true } // its symbols are listed below
	}
	names := boundIn(tokens)
	return func(name string) bool { return slices.Contains(names, name) || r.known(name) }
}
