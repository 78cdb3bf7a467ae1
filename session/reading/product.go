package reading

import (
	"slices"
	"strings"
	"unicode/utf8"

	"steelyard/lang/finding"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/units"
)

// leftProduct is a word on the left of a line that may be a product of names.
type leftProduct struct {
	word    string
	parts   []string
	lacking []string // the parts that have no value
	right   syntax.Expr
}

// product settles a line that begins with names that run together, as pV = n*R*T does.
// It gives no name pV, which would keep its value when p has another:
//
//   - where all have values and the line makes sense as an equation, it is refused, and
//     the check or the solve is offered;
//   - where one has none, and the equation makes it a quantity that it is used for,
//     it is refused too, and the solve for it offered; a caution where the right side
//     is a plain quantity;
//   - where it is three or more, and the right side is no quantity that the first is used
//     for, the others being its index, it is an equation, whatever comes out: μmg = f;
//   - where all have values and the two sides disagree, it is refused, unless the right
//     side is a quantity that one of the letters is used for, so that the others are
//     its index: vA in m/s;
//   - where none has a value, and their commonest quantities make the right side, a
//     caution says that it is one name.
func (s *settler) product() Verdict {
	p := leftProduct{}
	switch stmt := s.Entry.Stmt.(type) {
	case *syntax.Define:
		p.word, p.right = s.Entry.Text[stmt.NameAt.From:stmt.NameAt.To], stmt.X // mu may be m*u
	case *syntax.Solve:
		return s.solvedFor(stmt)
	case nil:
		if entry.BeginsWith(s.Entry.Text) != "" {
			p.word = strings.TrimSpace(s.Entry.Text[:strings.IndexByte(s.Entry.Text, '=')])
		}
	}
	if len(p.word) < 2 {
		return Verdict{}
	}
	if call, ok := syntax.GluedCall(p.word, &s.scope); ok {
		return s.ofFunction(p.word, call)
	}
	if !s.takeApart(&p) {
		return s.indexedLast(&p)
	}
	if syntax.IsProductOf(p.right, p.parts) {
		return Verdict{}
	}
	if p.right != nil && s.Try(p.right).Slot == run.NoSlot {
		p.right = nil // nRT is read below
	}
	switch {
	case len(p.lacking) == 0:
		if s.indexed(p) {
			return Verdict{}
		}
		v := s.equation(&p, plain)
		if v.solved || len(v.Findings) > 0 || p.word != syntax.Canonical(p.word) {
			return v // or mu, a μ
		}
		if p.right == nil && len(syntax.NamesBehind(s.Entry.Text)) > 0 {
			s.nameless = true
		}
		return s.unlikeSides(&p)
	case p.right == nil:
		if len(p.lacking) == 1 && !s.indexed(p) {
			return s.equation(&p, fitting)
		}
		return Verdict{}
	}
	one, plain := len(p.lacking) == 1, syntax.IsPlain(p.right)
	switch {
	case !plain && s.runsTogether(&p) && !isOfLetter(p.word, s.Try(p.right).Static.Dim, units.Customary):
		if v := s.equation(&p, odd); v.solved || len(v.Findings) > 0 {
			return v
		}
		return s.unknownsOf(&p)
	case !one && plain || !s.fitsRight(&p):
		return Verdict{}
	case one && !plain:
		times := s.timesGiven(&p)
		if !times || s.usually(p.lacking[0], units.Dim{}) {
			if v := s.equation(&p, fitting); !times || v.solved || len(v.Findings) > 0 {
				return v
			}
		}
	}
	product := strings.Join(p.parts, "*")
	return caution(finding.New(finding.NamesTogether, syntax.Span{To: len(p.word)}, p.word+" is one name here, with a value of its own.",
		"For the product "+product+", write an equation: `solve "+product+" = … for "+p.lacking[0]+"`."))
}

// indexedLast cautions about a word whose letters are names of the page but for the last, which has
// an index and no value: mgh_min, where m and g are given, and kx_0.
func (s *settler) indexedLast(p *leftProduct) Verdict {
	head, index, has := strings.Cut(p.word, "_")
	letters := []rune(head)
	if !has || p.right == nil || len(letters) < 2 || syntax.IsPlain(p.right) || s.Known(p.word) {
		return Verdict{}
	}
	last := string(letters[len(letters)-1]) + "_" + index
	var parts []string
	for _, r := range letters[:len(letters)-1] {
		parts = append(parts, string(r))
	}
	unknown := func(name string) bool { return !(valued{&s.scope}).Known(name) }
	right := s.Try(p.right)
	if slices.ContainsFunc(parts, unknown) || s.withUnit(parts) < len(parts) || s.Known(last) || !units.Speaks(last) || right.Slot == run.NoSlot ||
		s.usually(parts[0], right.Static.Dim) || syntax.IsProductOf(p.right, append(slices.Clone(parts), string(letters[len(letters)-1]))) {
		return Verdict{}
	}
	product := strings.Join(append(parts, last), "*")
	line := "solve " + product + " = " + strings.TrimSpace(s.Entry.Text[strings.IndexByte(s.Entry.Text, '=')+1:]) + " for " + last
	f := s.whole(finding.NamesTogether, p.word+" is one name here, with a value of its own.", "For the product "+product+", solve for "+last+".", line)
	if s.offered && !s.accepted(line) {
		return Verdict{}
	}
	return caution(f)
}

// equation weighs the line as an equation, to be checked or solved; readings with less
// sense don't count.
//
// The word on the left is no name while this goes on: it may have been given on a line that failed.
func (s *settler) equation(p *leftProduct, least sense) Verdict {
	s.but, s.least = syntax.Canonical(p.word), least // the word may have failed before
	open := s.equationIn(s.Entry.Text, true)
	v := s.verdict(&open)
	s.but, s.least = "", odd
	if len(v.Findings) == 0 || v.settles() {
		return v
	}
	f := v.Findings[0]
	f.ID, f.Message = finding.NamesTogether, p.isProduct()
	f.Hint += anotherName
	return nameless(f)
}

// unknownsOf refuses an equation of which more than one symbol has no value.
func (s *settler) unknownsOf(p *leftProduct) Verdict {
	s.but = syntax.Canonical(p.word)
	defer func() { s.but = "" }()
	m := missing{}
	s.missingInEquation(s.Entry.Text, p.word, &m)
	if len(m.lines) == 0 || !isSolve(m.lines[0]) {
		return Verdict{}
	}
	return nameless(s.severalUnknowns(&m))
}

// indexed tells whether a line that can't be read makes most sense where its word is one
// name with an index: Fx = F cosθ is Fx = F*cos(θ), a force, and x is none of its factors,
// whether it has a value or not.
//
// Fx and F*x look the same, and x may well be on the page. A force on the right says which it is.
func (s *settler) indexed(p leftProduct) bool {
	best := none
	for _, r := range syntax.OpenIn(s.Entry.Text, nil, &s.scope).Readings {
		w := s.weigh(r)
		if d, ok := w.stmt.(*syntax.Define); ok && d.Name == p.word && w.sense > best {
			p.right, best = d.X, w.sense
		}
	}
	if best > none && len(p.lacking) == 0 {
		return isOfLetter(p.word, s.Try(p.right).Static.Dim, s.usually)
	}
	return best > none && !s.fitsRight(&p)
}

const anotherName = " For a separate quantity, choose another name."

func (p *leftProduct) isProduct() string {
	return p.word + " is " + strings.Join(p.parts, "*") + " on this page, not one name."
}

// unlikeSides refuses a product whose right side is another quantity, and none that a
// letter of it is used for.
//
// mv = F*d, with all of them given, is a momentum on one side and an energy on the other: a name mv
// would take the energy without a word.
func (s *settler) unlikeSides(p *leftProduct) Verdict {
	if p.right == nil || syntax.IsPlain(p.right) {
		return Verdict{}
	}
	right := s.Try(p.right)
	dim := right.Static.Dim
	if right.Slot == run.NoSlot || dim.IsOne() || slices.ContainsFunc(p.parts, func(name string) bool { return units.Customary(name, dim) }) {
		return Verdict{}
	}
	check := s.enter("check " + strings.Join(p.parts, "*") + s.Entry.Text[strings.IndexByte(s.Entry.Text, '='):])
	for _, f := range check.Findings {
		if f.ID == finding.UnlikeDimensions {
			return nameless(s.whole(finding.NamesTogether, p.isProduct(), f.Message+anotherName))
		}
	}
	return Verdict{}
}

// commonest is how many of the customary quantities of a letter are its common ones.
const commonest = 2

// fitsRight tells whether the product is what the right side is, if the letters that
// have no value are quantities that they are used for; several of them, if common ones.
// The quantity that one letter stands for most often is no product, dA in m², but with a number
// before it: NT in s.
//
// mg = 5 N with no m on the page: a mass times g is a force, so mg is hardly a name by itself.
func (s *settler) fitsRight(p *leftProduct) bool {
	right := s.Try(p.right)
	if s.numberTimes(p) {
		return right.Slot != run.NoSlot && s.usually(p.lacking[0], right.Static.Dim)
	}
	if right.Slot == run.NoSlot {
		return false
	}
	if s.timesGiven(p) {
		return true
	}
	if slices.ContainsFunc(p.parts, func(name string) bool { return s.usually(name, right.Static.Dim) }) {
		return false
	}
	product, _ := syntax.ParseExpr(strings.Join(p.parts, "*"))
	f := fitted{settler: s, text: s.Entry.Text, sides: []syntax.Expr{product, syntax.Unplaced(p.right)}, names: p.lacking, of: make([]run.Static, len(p.lacking))}
	for _, name := range p.lacking {
		all := units.Customs(name)
		if len(p.lacking) > 1 {
			all = all[:min(len(all), commonest)]
		}
		f.quantities = append(f.quantities, all)
	}
	fits, _ := f.from(0)
	return fits
}

// takeApart takes the word apart if it has no value on the page: into names of it, two
// of them at least with a unit; or into single letters, of which some may have no
// value. An index is no factor, and a plain number may be one: the n of Fn.
func (s *settler) takeApart(p *leftProduct) bool {
	if p.word == "" || p.word == "g" || !s.mayBeProduct(p.word) {
		return false
	}
	if d, ok := s.planner.Names.Lookup(syntax.Canonical(p.word)); ok && !d.Failed() {
		return false
	}
	known := valued{&s.scope}.Known // a name that failed splits nothing
	var ok bool
	p.parts, p.lacking, ok = syntax.Apart(p.word, known, units.Speaks)
	switch {
	case !ok || len(p.parts) == 1:
		return false
	case len(p.lacking) == 0:
		return s.withUnit(p.parts) > 1
	case units.Usual(syntax.Canonical(p.word)) != "" && !known(units.Symbol(p.word)) || syntax.HasTwice(p.parts) ||
		slices.ContainsFunc(p.parts, func(name string) bool { return units.Usual(name) == "" || s.scope.Function(name) }):
		return false
	}
	return len(p.lacking) == 1 && (s.withUnit(p.parts) > 1 || s.numberTimes(p)) || len(p.lacking) == len(p.parts) || s.runsTogether(p)
}

// numberTimes tells whether a word is given plain numbers before one symbol without a value:
// NT where N is 25.
func (s *settler) numberTimes(p *leftProduct) bool {
	return len(p.lacking) == 1 && p.lacking[0] == p.parts[len(p.parts)-1] && s.withUnit(p.parts) == 1
}

// timesGiven tells whether a word is a symbol without a value before one that is given, and the right
// side is of its kind and without it, so that the first is a number of them: nλ = d*sin(θ).
//
// Of CB = B - A, B is a point.
func (s *settler) timesGiven(p *leftProduct) bool {
	return !syntax.IsPlain(p.right) && s.timesKind(p.parts, p.lacking, s.Try(p.right).Static.Dim) && !syntax.Holds(p.right, p.parts[1])
}

// timesKind tells whether names that run together are one without a value and a given of a kind,
// which the first isn't used for: nλ, a length. dx is no number of x.
func (s *settler) timesKind(parts, lacking []string, kind units.Dim) bool {
	if len(parts) != 2 || len(lacking) != 1 || lacking[0] != parts[0] || parts[0] == "d" || parts[0] == "δ" || kind.IsOne() || s.usually(parts[0], kind) {
		return false
	}
	d, ok := s.planner.Names.Lookup(parts[1])
	return ok && d.Slot != run.NoSlot && s.planner.Static(d.Slot).Dim == kind
}

// runsTogether tells whether a word is so many symbols that it is hardly one of them with an
// index: mgh, of which one at least has a value.
func (s *settler) runsTogether(p *leftProduct) bool {
	return len(p.parts) > 2 && len(p.lacking) < len(p.parts) && !syntax.IsSpoken(p.word)
}

// withUnit counts the names that are no plain numbers, those without a value among them.
func (s *settler) withUnit(names []string) (n int) {
	for _, name := range names {
		d, ok := s.planner.Names.Lookup(name)
		if !ok || d.Slot == run.NoSlot || !s.planner.Static(d.Slot).Dim.IsOne() {
			n++
		}
	}
	return n
}

// mostLetters is how long a word may be of which some letters have no value.
const mostLetters = 4

// mayBeProduct tells whether a word begins with a name of the page and ends with one,
// or is short and has letters alone. It is quick: every line that gives a name asks.
func (s *settler) mayBeProduct(word string) bool {
	letters := utf8.RuneCountInString(word)
	if letters < 2 {
		return false
	}
	ends, digits := false, false
	for i, r := range word {
		digit := r >= '0' && r <= '9'
		digits = digits || r == '_' || r == '\'' || digit
		ends = ends || i > 0 && !digit && s.Known(word[i:]) ||
			i > 0 && strings.Contains(word[i:], "_") && units.IsSymbol(word[i:]) && s.Known(word[:i]) // kx_e
	}
	if !digits && letters <= mostLetters {
		return true
	}
	for i := range word {
		if ends && i > 0 && s.Known(word[:i]) {
			return true
		}
	}
	return false
}
