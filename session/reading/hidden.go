package reading

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"unicode"

	"steelyard/lang/finding"
	"steelyard/lang/plan"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// hidden looks for a name of the page that may be meant as a product by now. It keeps the
// value that its own line gave it.
//
//   - Where one letter is what the line is to depend on, it is refused: the ωt of
//     y(t) = A*sin(ωt), which stays 60° at every t.
//   - Where the product would be the same quantity, and another value, the line says so:
//     E = mgh below mgh = 30 J.
//
// A letter with its index is none, such as Fx, nor is a name that is given as the product.
func (s *settler) hidden() (v Verdict) {
	stmt := s.Entry.Stmt
	own, _ := syntax.Bound(stmt)
	for x := range syntax.ExprsOf(stmt) {
		syntax.Any(x, func(x syntax.Expr) bool {
			n, ok := x.(*syntax.Name)
			if !ok || n.Line != 0 || len(n.Name) < 2 || slices.Contains(own, n.Name) {
				return false
			}
			if parts := s.lettersOf(n.Name, own, stmt); len(parts) > 1 {
				v = s.asProduct(n, parts, own)
			}
			return len(v.Findings) > 0
		})
	}
	return v
}

// lettersOf are the names that a name with a value runs together from. Symbols without a value
// count where the line depends on nothing else: x(t) = vt + 3 m.
func (s *settler) lettersOf(word string, own []string, stmt syntax.Stmt) []string {
	first, last := word[:1], word[len(word)-1]
	if last >= '0' && last <= '9' || len(own) == 0 && first[0] < '\x80' && !s.Known(first) || syntax.IsSpoken(word) || !s.Known(word) {
		return nil // most names
	}
	known := func(part string) bool { return part != word && (slices.Contains(own, part) || s.Known(part)) }
	parts, lacking, ok := syntax.Apart(word, known, units.IsSymbol)
	if !ok || syntax.HasTwice(parts) {
		return nil
	}
	idle := func(name string) bool {
		return slices.Contains(parts, name) && !slices.ContainsFunc(stmt.Exprs(), func(x syntax.Expr) bool { return syntax.Holds(x, name) })
	}
	if len(lacking) > 0 && !slices.ContainsFunc(own, idle) {
		return nil
	}
	return parts
}

// asProduct is what becomes of a line with such a name.
func (s *settler) asProduct(n *syntax.Name, parts, own []string) Verdict {
	d, ok := s.planner.Names.Lookup(n.Name)
	if !ok || d.Failed() || d.Slot < 0 || isOfLetter(n.Name, s.planner.Static(d.Slot).Dim, units.Customary) {
		return Verdict{}
	}
	product := strings.Join(parts, "*")
	f := finding.New(finding.NamesTogether, n.At, n.Name+" is a name of its own here, not a product.", "", product)
	if i := slices.IndexFunc(parts, func(part string) bool { return slices.Contains(own, part) }); i >= 0 {
		f.Hint = "It stays " + s.Shown(d, units.Screen) + " whatever " + parts[i] + " is."
		return refuse(f)
	}
	x, _ := syntax.ParseExpr(product)
	// The 10⁻⁹ by which a check compares.
	if meant, is := s.Try(x), s.Try(n); !meant.OK || !is.OK || meant.Static.Dim != is.Static.Dim || math.Abs(meant.Value-is.Value) <= 1e-9*math.Abs(is.Value) {
		return Verdict{}
	}
	f.Hint = "It is " + s.Shown(d, units.Screen) + ", as its line says."
	return caution(f)
}

// functionAgain refuses y(t) = 0 where y is a function of t: written so, it is an equation for
// t, and hardly another function, of which nothing depends on t. So is y1(t) = y2(t).
func (s *settler) functionAgain() Verdict {
	f, ok := s.Entry.Stmt.(*syntax.FuncDef)
	if !ok || f.X == nil {
		return Verdict{}
	}
	idle := func(f *syntax.FuncDef) bool {
		return !slices.ContainsFunc(f.Params, func(name string) bool {
			return slices.ContainsFunc(f.Exprs(), func(x syntax.Expr) bool { return syntax.Holds(x, name) })
		})
	}
	d, given := s.planner.Names.Lookup(f.Name)
	if !given || d.Failed() || d.Kind != plan.Function || idle(d.Func) || !s.ofFunctions(f) && (!idle(f) || s.lacks(f.X)) {
		return Verdict{}
	}
	head := s.Entry.Text[:f.X.Span().From]
	head = strings.TrimSpace(head[:strings.LastIndexByte(head, '=')])
	at := f.X.Span()
	out := s.whole(finding.NameKind, f.Name+" is a function already, from line "+strconv.Itoa(d.Line)+".",
		"To find "+f.Params[0]+", solve the equation. For another function, choose another name.")
	if line := "solve " + head + " = " + s.Entry.Text[at.From:at.To] + " for " + f.Params[0]; s.offered && s.accepted(line) {
		out.Readings = []string{line}
	}
	return refuse(out)
}

// ofFunctions tells whether a function is made of others of the page at its own argument, and has
// that nowhere else: y2(t), or y2(t) + 3 m.
func (s *settler) ofFunctions(f *syntax.FuncDef) bool {
	var within, all int
	for _, x := range f.Exprs() {
		for n := range syntax.Nodes(x) {
			switch n := n.(type) {
			case *syntax.Name:
				if slices.Contains(f.Params, n.Name) {
					all++
				}
			case *syntax.Call:
				if n.Func == f.Name || !s.scope.Function(n.Func) {
					continue
				}
				for _, arg := range n.Args {
					if a, ok := arg.X.(*syntax.Name); ok && slices.Contains(f.Params, a.Name) {
						within++
					}
				}
			}
		}
	}
	return all > 0 && within == all
}

// resistors are R1 || R2 || R3, and no magnitudes as in 2*||v||.
var resistors = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`[\pL\pN_')]\s*\|\|\s*[\pL\pN(].*\|\|`)
})

// parallels refuses resistors side by side whose signs can be read as magnitudes.
func (s *settler) parallels() Verdict {
	if strings.Count(s.Entry.Text, "||") < 2 || !resistors().MatchString(s.Entry.Text) {
		return Verdict{}
	}
	return refuse(s.whole(finding.NotWritten, "Resistors in parallel have the sum of 1/R as their 1/R.", "Write it like 1/(1/R1 + 1/R2 + 1/R3)."))
}

// functionAt refuses A(10 s) = 9 cm where A is a function: it is an equation for a symbol that has no
// value, or else a check.
func (s *settler) functionAt() Verdict {
	text := s.Entry.Text
	head, _, called := strings.Cut(text, "(")
	d, given := s.planner.Names.Lookup(syntax.Canonical(head))
	if !called || !s.offered || s.Entry.Stmt != nil || strings.Count(text, "=") != 1 || !given || d.Failed() || d.Kind != plan.Function {
		return Verdict{}
	}
	f := s.whole(finding.NameKind, d.Name+" is a function already, from line "+strconv.Itoa(d.Line)+".", "")
	for _, symbol := range slices.Backward(s.planner.Names.All()) {
		if line := "solve " + text + " for " + symbol.Name; symbol.Kind == plan.Symbol && s.accepted(line) {
			f.Hint, f.Readings = "To find "+symbol.Name+", solve the equation.", []string{line}
			return refuse(f)
		}
	}
	if line := "check " + text; s.accepted(line) {
		f.Hint, f.Readings = "To compare its value, use `check`.", []string{line}
		return refuse(f)
	}
	return Verdict{}
}

// besideFunction asks about v(1.0 s) where v is a quantity and v1 a function: a product is
// written so, and the value of a function whose name lacks its index.
func (s *settler) besideFunction() Verdict {
	text := s.Entry.Text
	for i := strings.IndexByte(text, '('); i > 0 && s.Entry.Stmt != nil; {
		from := strings.LastIndexFunc(text[:i], func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '_' }) + 1
		if from == i {
			i = nextBracket(text, i)
			continue
		}
		name := syntax.Canonical(text[from:i])
		inner, rest, closed := strings.Cut(text[i+1:], ")")
		head := from == 0 && strings.HasPrefix(strings.TrimSpace(rest), "=")
		if letter := units.Symbol(name); letter != "" && closed && !head && inner != "" && !strings.ContainsAny(inner, "+-−(,") && s.Known(name) && !s.scope.Function(name) {
			for _, d := range slices.Backward(s.planner.Names.All()) {
				if d.Kind == plan.Function && !d.Failed() && len(d.Func.Params) == 1 && units.Symbol(d.Name) == letter {
					return refuse(s.whole(finding.TwoReadings, name+" is a quantity here, and "+d.Name+" a function.", "Choose the one you mean.",
						text[:from]+d.Name+text[i:], text[:i]+"*"+text[i:]))
				}
			}
		}
		i = nextBracket(text, i)
	}
	return Verdict{}
}

// nextBracket is the place of the next opening bracket of a text behind another; -1 if that is the last.
func nextBracket(text string, at int) int {
	next := strings.IndexByte(text[at+1:], '(')
	if next < 0 {
		return -1
	}
	return at + 1 + next
}
