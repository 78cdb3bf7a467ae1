package reading

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"steelyard/lang/finding"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/units"
	"steelyard/units/writing"
)

// Whether the unknown of an equation is a name of the page that was typed otherwise: another
// index, or a letter near it.

// unindexed looks for names of the page that are typed without the _ before their index: Qc/Tc
// where Q_c and T_c have values. What else the line was found to mean follows.
func (s *settler) unindexed() (finding.Finding, bool) {
	short := map[string]string{}
	for _, d := range s.Planner.Names.All() {
		if bare := strings.ReplaceAll(d.Name, "_", ""); bare != d.Name && !d.Failed() && !s.Known(bare) {
			short[bare] = d.Name
		}
	}
	if len(short) == 0 {
		return finding.Finding{}, false
	}
	text, from := s.Entry.Text, 0
	if entry.BeginsWith(text) != "" {
		from = strings.IndexByte(text, '=')
	}
	line, meant := text[:from], []string{}
	for rest := text[from:]; rest != ""; {
		n := strings.IndexFunc(rest, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '_' })
		if n < 0 {
			n = len(rest)
		}
		word := rest[:n]
		if name := short[word]; name != "" {
			if word = name; !slices.Contains(meant, name) {
				meant = append(meant, name)
			}
		}
		_, size := utf8.DecodeRuneInString(rest[n:])
		line, rest = line+word+rest[n:n+size], rest[n+size:]
	}
	if len(meant) == 0 || !s.accepted(line) || !s.makesSense(line) {
		return finding.Finding{}, false
	}
	lines := []string{line}
	if found := s.Entry.Findings; len(found) == 1 {
		for _, r := range found[0].Readings {
			at, reading := syntax.InPlace(text, found[0].At, r)
			if other := text[:at.From] + reading + text[at.To:]; other != line && s.accepted(other) {
				lines = append(lines, other)
			}
		}
	}
	return s.whole(finding.UnknownName, "On this page, an index is written after `_`.", "Did you mean "+writing.List(meant, "and")+"?", lines...), true
}

// pastIndex is the solve for a name with an index behind which a name of the page follows without
// a sign, where the name then is of a quantity that it is used for, and the whole word is of
// none: μ_kN, a force, is μ_k times N. It is empty where there is none.
func (s *settler) pastIndex(word string, w *weighed) string {
	_, index, has := strings.Cut(word, "_")
	if !has || units.Customary(word, w.dim) {
		return ""
	}
	for i := range index {
		name, factor := word[:len(word)-len(index)+i], index[i:]
		d, ok := s.planner.Names.Lookup(factor)
		if i == 0 || !ok || d.Slot == run.NoSlot || s.Known(name) || !units.Customary(name, w.dim.Div(s.Planner.Static(d.Slot).Dim)) {
			continue
		}
		solve := strings.TrimSuffix(w.Text, " for "+word)
		return strings.ReplaceAll(solve, word, name+"*"+factor) + " for " + name
	}
	return ""
}

// nearGiven is a name of the page with a value that is nearly the symbol, is none of the
// equation's, and is the quantity that comes out; "" if there is none, or the equation has
// the letter with another index: v2 beside v1.
func (s *settler) nearGiven(symbol string, dim units.Dim, solve *syntax.Solve) string {
	var has []string
	for _, x := range solve.Exprs() {
		has = append(has, namesIn(x)...)
	}
	if letter := units.Symbol(symbol); slices.ContainsFunc(has, func(name string) bool { return name != symbol && letter != "" && units.Symbol(name) == letter }) {
		return ""
	}
	for _, d := range slices.Backward(s.Planner.Names.All()) {
		if d.Kind == plan.Quantity && !d.Failed() && d.Slot != run.NoSlot && mistaken(symbol, d.Name) &&
			s.Planner.Static(d.Slot).Dim == dim && !slices.Contains(has, d.Name) {
			return d.Name
		}
	}
	return ""
}

// mistaken tells whether one name may be a slip for another: they differ in a capital, or in one
// letter of a word.
//
// L and l, hight and height are one quantity typed twice; T1 and T2, N_b and N_t, v and v0 are not,
// nor is the time t a slip for a period T.
func mistaken(a, b string) bool {
	if strings.EqualFold(a, b) {
		return a != "t"
	}
	_, index, _ := strings.Cut(a, "_")
	return index == "" && utf8.RuneCountInString(a) >= leastWord && utf8.RuneCountInString(b) >= leastWord && writing.Within(1, a, b)
}

// askNear asks about an equation whose unknown is nearly a name of the page: that name is
// offered first, unless the equation does not hold with it.
func (s *settler) askNear(unknown, near string, w *weighed) Verdict {
	named := w.Text[:strings.LastIndex(w.Text, " for ")]
	for _, m := range slices.Backward(syntax.Mentions(w.stmt)[1:]) { // the first is the unknown's own
		if m.Name == unknown {
			named = named[:m.NameAt.From] + near + named[m.NameAt.To:]
		}
	}
	if named = named[len("solve "):]; entry.BeginsWith(named) == "" {
		named = "check " + named
	}
	lines := []string{named, w.Text}
	if slices.ContainsFunc(s.try(named, true).Findings, func(f finding.Finding) bool { return f.ID == finding.CheckFailed }) {
		slices.Reverse(lines) // what does not hold is hardly meant
	}
	return s.ask(unknown+" has no value yet; "+near+" has one.", "Did you mean "+near+", or is "+unknown+" what you are looking for?", lines...)
}

// asIndex is the solve for a name of which the unknown is the index: FN, where N is a pure
// number behind a letter that has a value, so that FN may as well be a force. It is empty where
// there is none, or the unknown is used for a pure number and for no index: μ of mμ.
func (s *settler) asIndex(unknown string, w *weighed, tried *entry.Entry) string {
	if !w.dim.IsOne() || unknown[0] >= utf8.RuneSelf && w.sense > plain || len(tried.Values()) != 1 {
		return ""
	}
	letters := func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '_' }
	for _, word := range strings.FieldsFunc(s.Entry.Text, letters) {
		letter, ends := strings.CutSuffix(word, unknown)
		if !ends || utf8.RuneCountInString(letter) != 1 || !s.Known(letter) {
			continue
		}
		solve := strings.TrimSuffix(w.Text, " for "+unknown)
		if line := strings.ReplaceAll(solve, letter+"*"+unknown, word); line != solve {
			return line + " for " + word
		}
	}
	return ""
}
