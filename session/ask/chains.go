package ask

import (
	"slices"
	"sort"
	"strings"

	"steelyard/lang/plan"
	"steelyard/lang/syntax"
	"steelyard/session/eval"
	"steelyard/units"
)

const (
	// maxLinks is the most formulas of one chain.
	maxLinks = 4
	// maxChains is the most chains that are shown.
	maxChains = 5
	// lookSteps is how many elementary steps it takes to look at a partial chain.
	lookSteps = 100
)

// symbol is a name with the dimension that a formula gives it.
type symbol struct {
	name string
	dim  units.Dim
}

// link is one formula that gives one symbol.
type link struct {
	formula *syntax.FormulaDef
	gives   symbol
}

// relation is a formula with its symbols looked up.
type relation struct {
	formula *syntax.FormulaDef
	symbols []symbol
	free    map[string]bool // may be left out
}

// search finds chains of formulas from what is known to what is asked.
type search struct {
	page      *eval.Page
	relations []relation
	known     map[symbol]bool
	leftOut   map[string]string // formulas that the worksheet contradicts, and why
}

// newSearch looks up the symbols of every formula and the names in scope.
func newSearch(p *eval.Page) *search {
	s := &search{page: p, known: map[symbol]bool{}, leftOut: map[string]string{}}
	for _, name := range p.FormulaNames() {
		f, ok := p.Formula(name)
		if !ok {
			continue
		}
		if why := against(p, f); why != "" {
			s.leftOut[name] = why
			continue
		}
		r := relation{formula: f, free: map[string]bool{"g": true}}
		for _, sym := range f.Symbols {
			u := p.Unit(sym.Unit)
			if u == nil {
				continue
			}
			r.symbols = append(r.symbols, symbol{sym.Name, u.Dim()})
			if sym.Default != nil {
				r.free[sym.Name] = true
			}
		}
		s.relations = append(s.relations, r)
	}
	for _, d := range p.Planner.Names.All() {
		now, _ := p.Planner.Names.Lookup(d.Name)
		if now == d && !d.Failed() && (d.Kind == plan.Quantity || d.Kind == plan.Symbol) {
			s.known[symbol{d.Name, p.Planner.Static(d.Slot).Dim}] = true
		}
	}
	return s
}

// chains lists the shortest chains that give a name, the shortest first.
func (s *search) chains(name string) [][]link {
	for most := 1; most <= maxLinks; most++ {
		var found [][]link
		seen := map[symbol]bool{}
		for _, r := range s.relations {
			for _, sym := range r.symbols {
				if sym.name == name && !seen[sym] {
					seen[sym] = true
					found = append(found, s.reach(sym, most, map[symbol]bool{})...)
				}
			}
		}
		if len(found) > 0 {
			sort.SliceStable(found, func(i, j int) bool { return len(found[i]) < len(found[j]) })
			return distinct(found)
		}
	}
	return nil
}

// distinct drops chains that use the same formulas.
func distinct(all [][]link) [][]link {
	seen := map[string]bool{}
	var out [][]link
	for _, c := range all {
		var names []string
		for _, l := range c {
			names = append(names, l.formula.Name+">"+l.gives.name)
		}
		sort.Strings(names)
		key := strings.Join(names, " ")
		if !seen[key] && len(out) < maxChains {
			seen[key] = true
			out = append(out, c)
		}
	}
	return out
}

// reach lists chains of at most so many links that make a symbol known. What is
// being reached for already is not reached for again.
func (s *search) reach(want symbol, most int, reaching map[symbol]bool) [][]link {
	if s.known[want] {
		return [][]link{nil}
	}
	if most == 0 || reaching[want] {
		return nil
	}
	reaching[want] = true
	defer delete(reaching, want)
	var out [][]link
	for _, r := range s.relations {
		if !slices.Contains(r.symbols, want) || !s.page.Spend(lookSteps) {
			continue
		}
		for _, before := range s.reachAll(r.needs(want), most-1, reaching) {
			out = append(out, append(before, link{r.formula, want}))
		}
	}
	return out
}

// reachAll lists chains that make several symbols known, one after the other.
func (s *search) reachAll(wants []symbol, most int, reaching map[symbol]bool) [][]link {
	all := [][]link{nil}
	for _, w := range wants {
		var next [][]link
		for _, before := range all {
			if !s.page.Spend(lookSteps) {
				return nil
			}
			if given(before, w) {
				next = append(next, before)
				continue
			}
			for _, more := range s.reach(w, most-len(before), reaching) {
				next = append(next, append(append([]link{}, before...), missing(more, before)...))
			}
		}
		if all = next; len(all) == 0 {
			return nil
		}
	}
	return all
}

// given tells whether a chain gives a symbol.
func given(c []link, want symbol) bool {
	return slices.ContainsFunc(c, func(l link) bool { return l.gives == want })
}

// missing are the links that another chain does not have yet.
func missing(more, before []link) []link {
	var out []link
	for _, l := range more {
		if !given(before, l.gives) {
			out = append(out, l)
		}
	}
	return out
}

// needs are the symbols of a relation that must be known to give one of them.
func (r relation) needs(want symbol) []symbol {
	var out []symbol
	for _, s := range r.symbols {
		if s != want && !r.free[s.name] {
			out = append(out, s)
		}
	}
	return out
}

// tellChains says how a name without a value can be reached; nil if it can't.
func tellChains(p *eval.Page, name string) []string {
	s := newSearch(p)
	chains := s.chains(name)
	if len(chains) == 0 {
		if out := s.tellLeftOut(name); out != nil {
			return append([]string{name + " has no value, and no formula leads to it from what is known."}, out...)
		}
		return nil
	}
	head := name + " has no value. "
	if first := chains[0]; len(first) > 1 {
		var says []string
		for _, l := range first {
			says = append(says, l.formula.Name+" leads to "+l.gives.name)
		}
		head += "No single formula leads to it from what is known; " + strings.Join(says, ", ") + ":"
	} else {
		head += "It can be worked out from what is known:"
	}
	out := []string{head}
	for i, c := range chains {
		if i > 0 {
			out = append(out, "  or")
		}
		for _, l := range c {
			out = append(out, "    "+l.line())
		}
	}
	return append(out, s.tellLeftOut(name)...)
}

// tellLeftOut names the formulas with a symbol that were not looked at, because
// the worksheet contradicts what they hold for.
func (s *search) tellLeftOut(name string) []string {
	var out []string
	for _, f := range s.page.FormulaNames() {
		why, ok := s.leftOut[f]
		if def, found := s.page.Formula(f); ok && found && def.Has(name) {
			out = append(out, "Left out: "+f+", since "+why+".")
		}
	}
	return out
}

// line is a link as a line that can be entered as it is.
func (l link) line() string {
	f := l.formula
	unit := ""
	if s, ok := f.Symbol(l.gives.name); ok && s.Unit.Text != "1" {
		unit = " in " + s.Unit.Text
	}
	if gives, ok := f.Gives(); ok && gives.Name == l.gives.name {
		return l.gives.name + " = " + f.Call() + unit
	}
	return "solve " + f.Name + " for " + l.gives.name + unit
}
