package reading

import (
	"slices"
	"strings"
	"unicode/utf8"

	"steelyard/lang/finding"
	"steelyard/lang/plan"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// asProducts reads a line in which names run together as their product: E = mgh, where m,
// g and h have values. It says so at the first use. The line is read so where nobody can
// mean another thing:
//
//   - each word comes apart into names in one way, and is not nearly a name of the page
//     that makes as much sense;
//   - of all readings that print allows, this makes most sense;
//   - the dimensions prove it: the name that the line gives, its `in`, or the other side
//     of a sum or an equation says what must come out.
//
// All else stays a question. A word may be one quantity that somebody forgot to give a
// value, Fx or vi, and only dimensions can tell that it is none.
func (s *settler) asProducts(open *syntax.Open) (Verdict, bool) {
	if open.Many || open.Equation || open.Uncertain || open.Exponential || len(open.Readings) == 0 || !s.mayRunTogether(open) {
		return Verdict{}, false
	}
	stmt, notes, words := s.roomOf().ReadApart(s.Entry.Text, &s.scope)
	if d, ok := stmt.(*syntax.Define); stmt == nil || len(words) == 0 || ok && syntax.Holds(d.X, d.Name) || slices.ContainsFunc(words, s.unsure) {
		return Verdict{}, false
	}
	own, others := s.weighApart(open, stmt)
	if own.sense == none || others >= own.sense || !s.proves(stmt, words) {
		return Verdict{}, false
	}
	for _, w := range words {
		if s.isNear(&w, &own) {
			return Verdict{}, false
		}
	}
	for _, w := range words {
		word := s.Entry.Text[w.At.From:w.At.To]
		f := finding.New(finding.ReadAs, w.At, readAs(word)+w.Means+".", "")
		if !s.Page.Set.CanNote(f.Message) {
			return Verdict{}, false
		}
		notes = append(notes, f)
	}
	s.Entry.Stmt, s.Entry.Findings = stmt, notes
	return Verdict{}, true
}

// mayRunTogether tells whether names may run together in a line. It is quick: a line that
// can't be read is none if it has no reading that is written in another way.
func (s *settler) mayRunTogether(open *syntax.Open) bool {
	if s.Entry.Stmt == nil {
		return slices.ContainsFunc(open.Readings, func(r syntax.Reading) bool { return r.Text != s.Entry.Text })
	}
	return open.Beside || slices.ContainsFunc(open.Words, func(word string) bool { return utf8.RuneCountInString(word) > 1 })
}

// readAs begins what is said of names that run together.
func readAs(word string) string { return "`" + word + "` is read as " }

// roomOf is the reader of readings.
func (s *settler) roomOf() *syntax.Reader {
	if s.reader == nil {
		s.reader = &syntax.Reader{}
	}
	s.reader.Known = s.Known
	return s.reader
}

// longestSpoken is how long a word of a language may be that is a product: W = mad.
const longestSpoken = 3

// unsure tells of names that run together whether dimensions can't prove them: one is
// there twice, as if a key had been hit twice; they spell a word; or a plain number is
// behind another name, where an index is.
func (s *settler) unsure(w syntax.Glued) bool {
	word := strings.Join(w.Parts, "")
	if syntax.HasTwice(w.Parts) || syntax.IsSpoken(word) && utf8.RuneCountInString(word) > longestSpoken {
		return true
	}
	return slices.ContainsFunc(w.Parts[1:], func(name string) bool {
		d, ok := s.planner.Names.Lookup(name)
		return ok && d.Kind == plan.Quantity && d.Slot >= 0 && s.planner.Static(d.Slot).Dim.IsOne() && !s.Angle(name)
	})
}

// weighApart weighs the reading of a line that is the statement with its words taken
// apart, and the best of the others.
func (s *settler) weighApart(open *syntax.Open, stmt syntax.Stmt) (own weighed, others sense) {
	all := s.weighAll(open, &weighed{})
	k := slices.IndexFunc(all, func(w weighed) bool { return w.stmt != nil && sameShape(w.stmt, stmt) })
	if k < 0 {
		return own, others
	}
	for i := range all {
		if w := &all[i]; !all[k].same(w) {
			others = max(others, w.sense)
		}
	}
	return all[k], others
}

// sameShape tells whether two statements have the same expressions but for brackets.
func sameShape(a, b syntax.Stmt) bool {
	return slices.EqualFunc(a.Exprs(), b.Exprs(), func(x, y syntax.Expr) bool { return syntax.Shape(x) == syntax.Shape(y) })
}

// proves tells whether a line says what must come out, and the dimensions agree.
func (s *settler) proves(stmt syntax.Stmt, words []syntax.Glued) bool {
	c := s.claimOf(stmt)
	for _, x := range c.of {
		switch x.(type) {
		case *syntax.With, *syntax.SlopeOf, *syntax.AreaUnder:
			return false
		}
	}
	switch {
	case len(c.of) == 0:
		return false
	case c.speaks():
		fits, _, _ := s.fittingOf(stmt, s.Entry.Text, nil)
		return fits
	case s.fitsLetter(stmt):
		return true
	}
	return !slices.ContainsFunc(words, func(w syntax.Glued) bool { return !s.inSum(c.of[0], w.At, false) })
}

// longestIndex is how many letters may follow that of a quantity as its index.
const longestIndex = 3

// indices are words that are written behind the letter of a quantity: vmax.
var indices = [...]string{"max", "min", "net", "tot", "out", "avg", "end"}

// fitsLetter tells whether a line gives a name that is the letter of a quantity with its
// index directly behind, and is that quantity: Ep = mgh, Fx = mg; or that of an energy
// with what kind it is before: PE = mgh.
func (s *settler) fitsLetter(stmt syntax.Stmt) bool {
	d, ok := stmt.(*syntax.Define)
	if !ok {
		return false
	}
	got := s.Try(d.X)
	return got.Static.Open == 0 && isOfLetter(d.Name, got.Static.Dim, func(letter string, dim units.Dim) bool { return units.Customary(letter, dim) })
}

// isOfLetter tells whether a quantity is one that the letter of a name is used for.
func isOfLetter(name string, dim units.Dim, used func(letter string, dim units.Dim) bool) bool {
	letter, n := utf8.DecodeRuneInString(name)
	if dim.IsOne() || utf8.RuneCountInString(name[n:]) > longestIndex || syntax.IsSpoken(name) && !slices.Contains(indices[:], name[n:]) {
		return false
	}
	return used(string(letter), dim) || strings.HasSuffix(name, "E") && used("E", dim)
}

// inSum tells whether what is at a place of an expression is a factor in a term of a sum
// that has a dimension.
func (s *settler) inSum(x syntax.Expr, at syntax.Span, sum bool) bool {
	switch x := x.(type) {
	case *syntax.Binary:
		part := x.X
		if x.Y.Span().From <= at.From {
			part = x.Y
		}
		if within := x.OpAt.From >= at.From && x.OpAt.From < at.To; within {
			return sum
		}
		if x.Op == syntax.Add || x.Op == syntax.Sub {
			got := s.Try(x.X)
			sum = !got.Static.Dim.IsOne() && got.Static.Open == 0
		}
		return s.inSum(part, at, sum)
	case *syntax.Paren:
		return s.inSum(x.X, at, sum)
	case *syntax.Root:
		return s.inSum(x.X, at, sum)
	case *syntax.Unary:
		return s.inSum(x.X, at, sum)
	}
	return false
}

// isNear tells whether a word is written as a name of the page but for its capitals, or
// nearly so as one with which the line makes as much sense.
func (s *settler) isNear(w *syntax.Glued, own *weighed) bool {
	text := s.Entry.Text
	word := text[w.At.From:w.At.To]
	bare := strings.NewReplacer("_", "", "'", "").Replace
	for _, near := range s.planner.Near(syntax.Canonical(word)) {
		if strings.EqualFold(bare(near), bare(syntax.Canonical(word))) {
			return true
		}
		if slices.Contains(w.Parts, near) {
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
		"From here on it is a name of its own. If they mean it, give it above them.")
	f.Severity = finding.Caution
	return []finding.Finding{f}
}
