package syntax

import "slices"

// Mention is a place of a statement where a name of the page stands: v, v@3.
//
// A rename changes each of them, at its place.
type Mention struct {
	Ident     // the name alone
	Line  int // v@3, else 0
}

// Mentions are the names that a statement gives and uses, but for those to which it
// gives a meaning of its own: the symbols of a formula, the argument of a function or of
// a curve.
//
// Of U(x) = 1/2*k*x^2 they are U and k, as x is its own.
//
// A with in the line replaces a name of the page, so it is a mention of it; the argument of
// U(x) is not, whatever x is on the page.
func Mentions(s Stmt) []Mention {
	var m mentions
	m.idents(s.Defines())
	m.idents(s.is().asks)
	switch s := s.(type) {
	case *FormulaDef:
		return m.all
	case *Solve:
		// With a formula that is named, its symbols are.
		if s.Equations[0].Right != nil {
			m.bindings(s.With)
		}
	case *Fit:
		m.bindings(s.Start)
	case *Data: // its columns are names of the page, u(T) is of that of T
		for _, h := range s.Heads {
			if h.Uncertain {
				m.idents([]Ident{h.Ident})
			}
		}
	default:
		m.own, _ = Bound(s)
	}
	for _, x := range s.Exprs() {
		for x := range Nodes(x) {
			switch x := x.(type) {
			case *Name:
				m.add(Ident{Name: x.Name, NameAt: x.At}, x.Line)
			case *Call:
				m.add(Ident{Name: x.Func, NameAt: x.Name}, 0)
			case *With:
				m.bindings(x.By)
			}
		}
	}
	return m.all
}

// mentions collects those of one statement.
type mentions struct {
	own []string
	all []Mention
}

func (m *mentions) add(n Ident, line int) {
	if !slices.Contains(m.own, n.Name) {
		m.all = append(m.all, Mention{n, line})
	}
}

func (m *mentions) idents(all []Ident) {
	for _, n := range all {
		m.add(n, 0)
	}
}

func (m *mentions) bindings(by []Binding) {
	for _, b := range by {
		m.add(Ident{Name: b.Name, NameAt: b.NameAt}, b.Line)
	}
}
