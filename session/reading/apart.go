package reading

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/plan"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// asOnly reads a line as the one of its readings that makes sense: E = mgh, where m, g and
// h have values, or v = A√(k/m). It says so at the first use. The line is read so where
// nobody can mean another thing:
//
//   - of all readings that print allows, this makes most sense;
//   - the dimensions prove it: the name that the line gives, its `in`, or the other side
//     of a sum or an equation says what must come out;
//   - no word that is taken apart is nearly a name of the page that makes as much sense.
//
// All else stays a question. A word may be one quantity that somebody forgot to give a
// value, Fx or vi, and only dimensions can tell that it is none.
func (s *settler) asOnly(open *syntax.Open) bool {
	if open.Many || open.Equation || open.Uncertain || len(open.Readings) == 0 || !s.writtenOtherwise(open) {
		return false
	}
	own, others := s.best(open)
	if own == nil || own.sense == none || others >= own.sense || open.Exponential && own.sense == odd {
		return false // in k*e^2/r^2, e is a charge
	}
	stmt, notes, words := s.roomOf().ReadPlaced(s.Entry.Text, open, &own.Reading, own.stmt, &s.scope)
	if d, ok := stmt.(*syntax.Define); stmt == nil || len(words) == 0 || !sameShape(stmt, own.stmt) || ok && syntax.Holds(d.X, d.Name) ||
		slices.ContainsFunc(words, s.unsure) || !s.proves(stmt, own, words) {
		return false
	}
	for _, w := range words {
		if s.isNear(&w, own) || slices.ContainsFunc(w.Within, func(in syntax.Glued) bool { return s.unsure(in) || s.isNear(&in, own) }) {
			return false
		}
	}
	for _, w := range words {
		word := s.Entry.Text[w.At.From:w.At.To]
		if w.Means == "("+word+")" || areNames(word, w.Means) && !s.IsUnit(word) {
			continue // 2.0 Ah of 2.0 Ah/I; m1 u1
		}
		f := finding.New(finding.ReadAs, w.At, readAs(word)+w.Means+".", "")
		if !s.Page.Set.CanNote(f.Message) {
			return false
		}
		notes = append(notes, f)
	}
	s.Entry.Stmt, s.Entry.Findings = stmt, notes
	return true
}

// mended is what is open in a line that can't be read, as it is written with what was found
// wrong put right: sin(θ)/g or sin(θ/g) for sin θ/g.
//
// A line with two slips has readings only when one of them is put right first. Where a power is in
// question, sin θ^2, nothing is: that is another question than how far the argument goes.
func (s *settler) mended() *syntax.Open {
	var out syntax.Open
	for _, f := range s.Entry.Findings {
		for _, r := range f.Readings {
			if f.ID == finding.NotWritten && f.At.To <= len(s.Entry.Text) && !strings.ContainsAny(s.Entry.Text[f.At.From:f.At.To], "^²³⁻") {
				text := s.Entry.Text[:f.At.From] + r + s.Entry.Text[f.At.To:]
				out.Readings = append(out.Readings, syntax.OpenIn(text, nil, &s.scope).Readings...)
			}
		}
	}
	return &out
}

// writtenOtherwise tells whether a line has a reading that is written in another way.
func (s *settler) writtenOtherwise(open *syntax.Open) bool {
	return slices.ContainsFunc(open.Readings, func(r syntax.Reading) bool { return r.Text != s.Entry.Text })
}

// severalWays tells whether parts of a word come apart into names, or make one together:
// mgh where mg is a name too.
//
// mgh is m*g*h; on a page with a name mg it may be (mg)*h, a weight and a height, and dimensions
// would agree with both.
func (s *settler) severalWays(parts []string) bool {
	for i, part := range parts {
		if inside, _, ok := syntax.Apart(part, func(name string) bool { return name != part && s.Known(name) }, nil); ok && len(inside) > 1 {
			return true
		}
		for _, next := range parts[i+1:] {
			if part += next; s.Known(part) {
				return true
			}
		}
	}
	return false
}

// best weighs the readings of a line: the one that makes most sense, and what the best of
// the others makes. It is nil where that is the one by the rules.
//
// A unit with a prefix that nobody uses makes little sense, however well it would fit: ½QV is a
// charge and a voltage, and no number of quettavolts.
func (s *settler) best(open *syntax.Open) (own *weighed, others sense) {
	rule, all := s.weighAll(open)
	rare := slices.ContainsFunc(open.Words, func(word string) bool { return utf8.RuneCountInString(word) > 1 && !s.Everyday(word) })
	as := func(w *weighed) sense {
		switch {
		case rare && len(w.Names) == 0 && w.Units > 0:
			return min(w.sense, odd) // the quettavolts of ½QV
		case w.fitsLetter():
			return fitting
		}
		return w.sense
	}
	others = as(&rule)
	for i := range all {
		w := &all[i]
		if w.same(&rule) {
			others = min(others, as(w))
		}
		if own == nil || as(w) > as(own) {
			own = w
		}
	}
	if own == nil || own.same(&rule) {
		return nil, none
	}
	for i := range all {
		if w := &all[i]; !own.same(w) {
			others = max(others, as(w))
		}
	}
	best := *own
	best.sense = as(own)
	return &best, others
}

// isCalled tells whether a line is one name before a bracket with one value in it, and no more.
func isCalled(stmt syntax.Stmt) bool {
	_, x, _ := syntax.AsResult(stmt)
	b, ok := x.(*syntax.Binary)
	if !ok || b.Op != syntax.Mul {
		return false
	}
	_, name := b.X.(*syntax.Name)
	in, round := b.Y.(*syntax.Paren)
	if !name || !round {
		return false
	}
	_, name = in.X.(*syntax.Name)
	return name || syntax.IsPlain(in.X)
}

// areNames tells whether a word is names with blanks between them alone, and a reading their
// product: every line takes those so.
func areNames(word, product string) bool {
	names := strings.Fields(word)
	return strings.Join(names, "*") == product && !slices.ContainsFunc(names, func(name string) bool { return strings.IndexFunc(name, unicode.IsLetter) != 0 })
}

// readAs begins what is said of names that run together.
func readAs(word string) string { return "`" + word + "` is read as " }

// roomOf is the reader of readings.
func (s *settler) roomOf() *syntax.Reader {
	if s.known == nil {
		s.known = func(name string) bool { return s.Known(name) }
	}
	s.Page.Reader.Known = s.known
	return &s.Page.Reader
}

// longestSpoken is how long a word of a language may be that is a product: W = mad.
const longestSpoken = 3

// unsure tells of names that run together whether dimensions can't prove them: one is
// there twice, as if a key had been hit twice; they come apart in several ways or spell a
// word; or a letter for a plain number is behind another name, where an index is.
func (s *settler) unsure(w syntax.Glued) bool {
	word := ""
	for _, name := range w.Parts {
		letters, _, _ := strings.Cut(name, "_") // an index spells nothing with the letter before it
		word += letters
	}
	if syntax.HasTwice(w.Parts) || s.severalWays(w.Parts) || syntax.IsSpoken(word) && utf8.RuneCountInString(word) > longestSpoken {
		return true
	}
	return len(w.Parts) > 1 && slices.ContainsFunc(w.Parts[1:], func(name string) bool {
		d, ok := s.planner.Names.Lookup(name)
		if !ok || d.Kind != plan.Quantity || d.Slot < 0 || s.Angle(name) || utf8.RuneCountInString(name) > 1 {
			return false
		}
		st := s.planner.Static(d.Slot)
		return st.Dim.IsOne() && st.Open == 0 // u2 = 0 may be a speed
	})
}

// sameShape tells whether two statements have the same expressions but for brackets.
//
// The reading has brackets that the line has not; the tree of the line, with its places, must come
// out as that of the reading, or something was put where it was not typed.
func sameShape(a, b syntax.Stmt) bool {
	same := func(x, y syntax.Expr) bool { return syntax.Shape(x) == syntax.Shape(y) }
	_, x, _ := syntax.AsResult(a)
	_, y, _ := syntax.AsResult(b)
	if x != nil && y != nil {
		return same(x, y)
	}
	return slices.EqualFunc(a.Exprs(), b.Exprs(), same)
}

// proves tells whether a line says what must come out, and the dimensions agree.
//
// A name on the left that is used for what comes out proves it, E of mgh, and so does `in J`. Two
// sides of an equation prove each other; in a sum each term proves the rest. A line without any of
// these says nothing, and is asked about.
func (s *settler) proves(stmt syntax.Stmt, own *weighed, words []syntax.Glued) bool {
	if solve, ok := stmt.(*syntax.Solve); ok && len(solve.Equations) > 1 {
		return s.provesEach(solve, own, words)
	}
	c, letters := s.claimOf(stmt), len(own.Names)+own.Units > 0
	if s.inPlaces(stmt, words) {
		return true
	}
	for _, x := range c.of {
		switch x.(type) {
		case *syntax.SlopeOf, *syntax.AreaUnder:
			return false
		}
	}
	switch {
	case len(c.of) == 0:
		return false
	case !c.speaks() && isCalled(stmt):
		return false // v(2 s) may be meant as the value of a function
	case c.quantities == nil && !hasLetter(stmt) && !slices.ContainsFunc(words, func(w syntax.Glued) bool { return w.Open }):
		return true // (m1+m2)v
	case words[0].Calls && !slices.ContainsFunc(words, func(w syntax.Glued) bool { return len(w.Parts) > 0 }):
		return true // 2sinθcosθ
	case !letters && !slices.ContainsFunc(words, func(w syntax.Glued) bool { return w.Joined || len(w.Within) > 0 }), s.ofOneKind(stmt, own):
		return true
	case c.speaks() && !(len(c.free) == 0 && slices.ContainsFunc(c.of, syntax.IsZero)): // a 0 fits everything
		if own.sense == fitting && len(c.free) == 0 {
			return true
		}
		fits, _, _ := s.fittingOf(stmt, s.Entry.Text, nil)
		return fits
	case own.fitsLetter():
		return true
	}
	if !letters {
		words = joined(words)
	}
	return !slices.ContainsFunc(words, func(w syntax.Glued) bool {
		side := c.of[0]
		if len(c.of) > 1 && c.of[1].Span().From <= w.At.From {
			side = c.of[1]
		}
		measured := slices.ContainsFunc(w.Parts, func(name string) bool { return !s.Try(&syntax.Name{Name: name}).Static.Dim.IsOne() })
		return !s.inSum(side, w.At, len(c.of) > 1 && !s.Try(side).Static.Dim.IsOne(), measured)
	})
}

// provesEach tells whether each equation of a solve proves what is read in it, as one does that
// is solved alone.
func (s *settler) provesEach(solve *syntax.Solve, own *weighed, words []syntax.Glued) bool {
	for i, e := range solve.Equations {
		one := *solve
		one.Equations = solve.Equations[i : i+1]
		one.Unknowns = slices.DeleteFunc(slices.Clone(solve.Unknowns), func(u syntax.Unknown) bool {
			return !syntax.Holds(e.Left, u.Name) && (e.Right == nil || !syntax.Holds(e.Right, u.Name))
		})
		sides := e.Left.Span()
		if e.Right != nil {
			sides = sides.Join(e.Right.Span())
		}
		within := slices.DeleteFunc(slices.Clone(words), func(w syntax.Glued) bool { return w.At.From < sides.From || w.At.To > sides.To })
		if len(within) > 0 && !s.proves(&one, own, within) {
			return false
		}
	}
	return true
}

// joined are the names that run together: those in brackets, where others have a blank
// between them.
func joined(words []syntax.Glued) (out []syntax.Glued) {
	for _, w := range words {
		if w.Joined {
			out = append(out, w)
		} else {
			out = append(out, w.Within...)
		}
	}
	return out
}

// ofOneKind tells whether a reading puts quantities of one kind together to another of that
// kind, as v = u*f/(u - f) does with lengths.
//
// A reading in which a letter is taken for something else would hardly give that kind again.
func (s *settler) ofOneKind(stmt syntax.Stmt, own *weighed) bool {
	d, ok := stmt.(*syntax.Define)
	if !ok || own.dim.IsOne() {
		return false
	}
	names := namesIn(d.X)
	return len(names) > 1 && !slices.ContainsFunc(names, func(name string) bool {
		return s.Try(&syntax.Name{Name: name}).Static.Dim != own.dim
	})
}

// longestIndex is how many letters may follow that of a quantity as its index.
const longestIndex = 3

// indices are words that are written behind the letter of a quantity: vmax.
var indices = [...]string{"max", "min", "net", "tot", "out", "avg", "end"}

// fitsLetter tells whether a reading gives a name that its letter fits.
func (w *weighed) fitsLetter() bool {
	d, ok := w.stmt.(*syntax.Define)
	return ok && w.sense > odd && !w.speaks && isOfLetter(d.Name, w.dim, units.Customary)
}

// isOfLetter tells whether a quantity is one that the letter of a name is used for, with its
// index directly behind: Ep = mgh, Fx = mg; or that of an energy with what kind it is before:
// PE = mgh.
func isOfLetter(name string, dim units.Dim, used func(letter string, dim units.Dim) bool) bool {
	letter, n := utf8.DecodeRuneInString(name)
	if dim.IsOne() || utf8.RuneCountInString(name[n:]) > longestIndex || syntax.IsSpoken(name) && !slices.Contains(indices[:], name[n:]) {
		return false
	}
	return used(string(letter), dim) || strings.HasSuffix(name, "E") && used("E", dim)
}

// inPlaces tells whether all that is read with signs is in places of a curve that are a
// quantity which its name is used for: 5τ of from 0 to 5τ, where t goes over times. A letter
// that is a unit, as the L of 2L, is asked about.
func (s *settler) inPlaces(stmt syntax.Stmt, words []syntax.Glued) bool {
	_, places := along(stmt)
	if g, ok := stmt.(*syntax.Graph); ok && g.By != nil {
		places = append(places, syntax.Binding{Name: g.Against.Name, X: g.By})
	}
	return len(places) > 0 && !slices.ContainsFunc(words, func(w syntax.Glued) bool {
		letters := strings.TrimLeft(s.Entry.Text[w.At.From:w.At.To], "0123456789. ")
		return s.IsUnit(letters) || !slices.ContainsFunc(places, func(p syntax.Binding) bool {
			at := p.X.Span()
			return at.From <= w.At.From && w.At.To <= at.To && units.Customary(p.Name, s.Try(p.X).Static.Dim)
		})
	})
}

// hasLetter tells whether a line gives a name that is a letter, perhaps with an index.
func hasLetter(stmt syntax.Stmt) bool {
	d, ok := stmt.(*syntax.Define)
	return ok && utf8.RuneCountInString(d.Name) <= 1+longestIndex
}

// inSum tells whether what is at a place of an expression is a factor in a term of a sum
// that has a dimension; or, where it has one itself, in an argument that must have none, as
// the mλ of asin(mλ/d).
//
// In F = μN + mg each term must be a force for the sum to be one; in F = k/mg nothing tells what is
// below the bar.
func (s *settler) inSum(x syntax.Expr, at syntax.Span, sum, measured bool) bool {
	switch x := x.(type) {
	case *syntax.Binary:
		part := x.X
		if x.Y.Span().From <= at.From {
			part = x.Y
		}
		if within := x.OpFrom >= at.From && x.OpFrom < at.To; within {
			return sum
		}
		if x.Op == syntax.Add || x.Op == syntax.Sub {
			got := s.Try(x.X)
			sum = sum || !got.Static.Dim.IsOne() && got.Static.Open == 0
		}
		return s.inSum(part, at, sum, measured)
	case *syntax.Call:
		if f, ok := ops.Named(x.Func); ok && len(x.Args) == 1 {
			pure := f.Takes == ops.PureToPure || f.Takes == ops.PureToAngle || f.Takes == ops.AngleToPure
			return s.inSum(x.Args[0].X, at, pure && measured, measured)
		}
	case *syntax.List: // the components of a vector are one quantity
		for i, part := range x.Elems {
			if of := part.Span(); x.Vector && of.From <= at.From && at.To <= of.To {
				beside := s.Try(x.Elems[(i+1)%len(x.Elems)]).Static
				return s.inSum(part, at, sum || !beside.Dim.IsOne() && beside.Open == 0, measured)
			}
		}
	case *syntax.Paren:
		return s.inSum(x.X, at, sum, measured)
	case *syntax.Root:
		return s.inSum(x.X, at, sum, measured)
	case *syntax.Unary:
		return s.inSum(x.X, at, sum, measured)
	}
	return false
}

// isNear tells whether a word is written as a name of the page but for its capitals, or
// nearly so as one with which the line makes as much sense.
//
// Where the page has vf and the line says v_f, it is that name, and no product of v and f.
func (s *settler) isNear(w *syntax.Glued, own *weighed) bool {
	text := s.Entry.Text
	word := text[w.At.From:w.At.To]
	bare := func(name string) string { return strings.ReplaceAll(strings.ReplaceAll(name, "_", ""), "'", "") }
	name := syntax.Canonical(word)
	for _, near := range s.planner.Near(name) {
		if near == name {
			continue // of a line that failed
		}
		if strings.EqualFold(bare(near), bare(name)) && (near[0] == word[0] || !strings.Contains(near, "_")) {
			return true // but GM is no g_M
		}
		if slices.Contains(w.Parts, near) || utf8.RuneCountInString(near) < utf8.RuneCountInString(word) {
			continue
		}
		meant := s.weigh(syntax.Reading{Text: text[:w.At.From] + near + text[w.At.To:]})
		if meant.sense >= own.sense {
			return true
		}
	}
	return false
}

// wasProduct cautions where a line gives a name that lines above have read as a product.
//
// On paper a symbol means one thing on a page. Here it is a product above and a name below, so
// that the same word on two lines would differ without a word on it.
func (s *settler) wasProduct() []finding.Finding {
	d, ok := s.Entry.Stmt.(*syntax.Define)
	if !ok || utf8.RuneCountInString(d.Name) < 2 {
		return nil
	}
	product, ok := s.Page.Set.NotedAs(readAs(d.Name))
	if !ok {
		return nil
	}
	f := finding.New(finding.NamesTogether, d.NameAt, "Lines above read `"+d.Name+"` as "+strings.TrimSuffix(product, ".")+".",
		"From here on it is one name. If they mean this one, move this line above them.")
	f.Severity = finding.Caution
	return []finding.Finding{f}
}
