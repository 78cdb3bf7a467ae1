package reading

import (
	"regexp"
	"slices"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"steelyard/lang/finding"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// aGiven is a name with a number and the words behind it: R = 4.7k.
var aGiven = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`^\s*([\pL][\pL\pN_']*)\s*=\s*([-−]?\d[\d.]*(?:[eE][-+]?\d+)?)\s*([\pL°Ω][^=*,()]*)$`)
})

// clock is the h30 of 2h30.
var clock = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^h[0-5]\d$`) })

// unitMeant looks at a given of which the unit is none: R = 4.7k, T = 300 k, τ = 8 NM, L = 3 mu m.
// What is nearly the word and a unit of what its name is used for is meant, and no product of
// letters that nobody gave. The number is none that formulas have: λ = 2L.
func (s *settler) unitMeant(f *finding.Finding) (finding.Finding, bool) {
	part := aGiven().FindStringSubmatchIndex(s.Entry.Text)
	if part == nil || f.ID != finding.UnknownUnit && f.ID != finding.UnitText && f.ID != finding.UnitOrName {
		return *f, false
	}
	text := func(i int) string { return s.Entry.Text[part[2*i]:part[2*i+1]] }
	name, number, word := text(1), text(2), strings.TrimSpace(text(3))
	glued := part[5] == part[6] || strings.Contains(word, " ")
	if parts, _, ok := syntax.Apart(word, s.Known, units.IsSymbol); ok && (syntax.IsCoefficient(number) && glued || slices.ContainsFunc(parts, s.Known)) && !clock().MatchString(word) {
		return *f, false
	}
	if clock().MatchString(word) {
		if line := s.Entry.Text[:part[5]] + " h " + word[1:] + " min"; s.accepted(line) {
			return s.whole(finding.UnitText, "Minutes need their unit.", "", line), true
		}
		return *f, false
	}
	var lines []string
	var values []float64
	for _, unit := range s.unitsLike(name, word) {
		u, bad := s.Planner.Units.Parse(unit, units.AfterNumber)
		if bad != nil || !units.Customary(name, u.Dim()) || len(lines) == maxOffers || len(lines) > 0 && unit[0] != word[0] && lines[0][part[5]+1] == word[0] {
			continue // who types mh means no megahenry
		}
		line := s.Entry.Text[:part[5]] + " " + unit
		e := s.try(line, true)
		if v := e.Values(); worst(e) > finding.Mismatch && len(v) == 1 && !slices.Contains(values, v[0].SI) {
			lines, values = append(lines, line), append(values, v[0].SI)
		}
	}
	if len(lines) == 0 {
		return *f, false
	}
	return s.whole(finding.UnknownUnit, "`"+word+"` isn't a unit of "+name+".", "", lines...), true
}

// unitsLike are texts that a word which is no unit may be meant for: as it is with other
// capitals, with a blank in it, as a prefix of the unit that the name has most often, with its
// micro in one sign.
func (s *settler) unitsLike(name, word string) (out []string) {
	if rest, micro := strings.CutPrefix(strings.TrimPrefix(word, "micro "), "mu "); micro || rest != word {
		return []string{"μ" + rest}
	}
	if utf8.RuneCountInString(word) > longestUnitLike || strings.ContainsFunc(word, func(r rune) bool { return !unicode.IsLetter(r) }) {
		return nil
	}
	cased := []string{""}
	for _, r := range word {
		var next []string
		for _, head := range cased {
			for _, c := range slices.Compact([]rune{r, unicode.ToUpper(r), unicode.ToLower(r)}) {
				next = append(next, head+string(c))
			}
		}
		cased = next
	}
	out = append(out, cased...)
	if utf8.RuneCountInString(word) == 1 {
		out = append(out, word+"Ω", word+"F", word+"H", word+units.Usual(name)) // as parts of circuits are marked
	}
	for _, whole := range cased {
		first, n := utf8.DecodeRuneInString(whole)
		if rest := whole[n:]; rest != "" {
			out = append(out, rest+" "+string(first), string(first)+" "+rest)
		}
	}
	return out
}

// longestUnitLike is how many letters a word has at most that is tried with other capitals.
const longestUnitLike = 3
