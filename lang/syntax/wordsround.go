package syntax

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/units"
)

// WordsRound is what is found of a line that holds words besides a statement, as the painter
// of M = 72 kg painter, which is no unit.
func (rd *Reader) WordsRound(text string) (finding.Finding, bool) {
	r := reader{text: text, to: len(text), known: rd.Known}
	if bad := r.wordsRound(); bad != nil {
		statement, _, meaning := strings.Cut(bad.Readings[0], ", ")
		return bad.Finding, meaning && !isDigit(lastRune(statement)) // not 5 blorps
	}
	return finding.Finding{}, false
}

// wordsRound finds words before or behind a statement that are about it: F = 260 N pull of
// the rope; on wet road a = -4 m/s^2; number of swings: n = t/T. They are offered as the
// meaning of the name that the statement gives, else as a remark above it.
//
// Whoever copies a problem has its words with him. They are kept with the line where they say
// what its name means, and above it where they say anything else; none is dropped.
func (r *reader) wordsRound() *fault {
	if r.silent || len(r.body) > 0 {
		return nil
	}
	fields := strings.Fields(r.text[r.from:r.to])
	line := strings.Join(fields, " ")
	words := 0 // with which the line begins
	for words < len(fields) && r.isSpoken(fields[words], words) {
		words++
	}
	place := func(n int) int {
		return strings.Index(line, strings.Join(fields[:n], " ")) + len(strings.Join(fields[:n], " "))
	}
	if head, rest, ok := strings.Cut(line, ": "); ok && strings.Contains(head, "=") && !strings.Contains(rest, "=") {
		return r.about(strings.TrimSpace(head), strings.TrimSpace(rest)) // F = 5 N: pull of the rope
	} else if ok && !isSymbol(head) {
		return r.about(strings.TrimSpace(rest), strings.TrimSpace(head))
	}
	if words > 0 && words < len(fields) && hasSpoken(fields[:words]) && strings.Contains(line[place(words):], "=") {
		if bad := r.about(line[place(words)+1:], line[:place(words)]); bad != nil {
			return bad
		}
	}
	last := len(fields) // the words with which the line ends
	for last > 1 && r.isSpoken(strings.Trim(fields[last-1], "(),."), last-1) {
		last--
	}
	table := units.NewTable()
	for last < len(fields) && table.Has(fields[last]) {
		last++ // the kg of 5 kg of ice
	}
	alone := len(fields)-last == 1 && r.known != nil && last > 0 && r.known(Canonical(fields[last-1]))                                                                                                                                                     // p = mass velocity
	if alone || !strings.Contains(line, "=") && hasSpoken(fields[:last]) || !strings.ContainsAny(line[:place(last)], "=0123456789+*/·×^(") || !hasSpoken(fields[last:]) || slices.Contains(fields[:last], "at") || slices.Contains(fields[last:], "per") { // at 30° north, 3 parts per litre
		return nil
	}
	return r.about(line[:place(last)], strings.Trim(strings.Join(fields[last:], " "), "(),."))
}

// leastWords is how many words a line has at least that is taken for a note.
const leastWords = 3

// onlyWords tells whether a line is words of a language and no statement, such as Find the
// speed at the bottom. It has no name of the page, and nothing but letters.
func (r *reader) onlyWords() bool {
	line := r.text[r.from:r.to]
	fields, spoken := strings.Fields(line), 0
	if len(fields) < leastWords || len(r.body) > 0 || r.words != "" || statementWord(strings.ToLower(firstWord(line))) != nil {
		return false
	}
	for i, field := range fields {
		word := strings.Trim(field, ".,?!")
		if strings.ToLower(word) != "a" && !r.isSpoken(word, i) || i > 0 && Reserved(word) && slices.Contains(clauseWords[:], word) {
			return false
		}
		if hasSpoken([]string{word}) {
			spoken++
		}
	}
	return spoken > 1
}

// startsSentence tells whether a line that gives no name begins as a sentence does: with a
// capital, or with nothing but words.
func (r *reader) startsSentence() bool {
	line := r.text[r.from:r.to]
	fields := strings.Fields(line)
	if len(fields) < 2 || strings.ContainsAny(line, "=<>≤≥") {
		return false
	}
	unlike := func(word string) bool { return !r.isSpoken(strings.Trim(word, ".,?!"), 1) }
	return isUpper(line[0]) && hasSpoken(fields[:1]) && !unlike(fields[0]) || !slices.ContainsFunc(fields, unlike) && hasSpoken(fields)
}

func isUpper(c byte) bool { return c >= 'A' && c <= 'Z' }

// clauseWords go on in a statement, of which the first word may be another: plot x against t.
var clauseWords = [...]string{"against", "from", "in", "with", "where", "within"}

// isSpoken tells whether the field of a line at a place may be a word of a language: letters
// alone, two at least, and no name of the page. The article may follow others.
//
// The words that may be about a line are any words, of two letters too; hasSpoken asks for one
// that is a word beyond doubt before any of them is taken for prose.
func (r *reader) isSpoken(word string, at int) bool {
	if at > 0 && word == "a" {
		return true
	}
	return utf8.RuneCountInString(word) > 1 && !strings.ContainsFunc(word, func(c rune) bool { return !unicode.In(c, unicode.Latin) && c != '-' && c != '\'' }) &&
		!ops.IsFunction(word) && (r.known == nil || !r.known(Canonical(word)))
}

// hasSpoken tells whether one of some words is a word beyond doubt.
func hasSpoken(words []string) bool {
	return slices.ContainsFunc(words, func(word string) bool { return len(word) > 3 && IsSpoken(strings.ToLower(word)) && !Reserved(word) })
}

// inUnit finds a word for a unit behind `in`, which is no word about the name: ½*α*t² in turns.
func inUnit(at Span, statement, words string) *fault {
	word, ok := strings.CutPrefix(words, "in ")
	if !ok || strings.Contains(word, " ") {
		return nil
	}
	var lines []string
	for _, unit := range units.ShortFor(word) {
		lines = append(lines, statement+" in "+unit)
	}
	if lines == nil {
		return nil
	}
	return &fault{finding.New(finding.UnknownUnit, at, "`"+word+"` isn't a unit.", "", lines...)}
}

// about offers a statement with the words about it; nil where it can't be read.
func (r *reader) about(statement, words string) *fault {
	statement = strings.TrimRight(statement, " ,;.")
	if strings.EqualFold(words, checkWord.Word) {
		statement, words = checkWord.Word+" "+statement, ""
	}
	rd := Reader{Known: r.known}
	s, bad := rd.read(statement, reader{silent: true})
	if s == nil && !slices.Contains(settled, bad[0].ID) && bad[0].ID != finding.Unreadable {
		return nil
	}
	if v, ok := s.(*Value); ok && IsPlain(v.X) {
		return nil // Answer: 5 m
	}
	at := Span{From: r.from, To: r.to}
	if bad := inUnit(at, statement, words); bad != nil {
		return bad
	}
	switch {
	case words == "":
		return &fault{finding.New(finding.NotWritten, at, "A check has no colon.", "", statement)}
	case meaningFrom(statement) > 0 && areWords(words) && (strings.Contains(words, " ") || strings.HasSuffix(strings.TrimRight(r.source(at), ")., "), words)) && !strings.ContainsAny(words, "=:,"):
		return &fault{finding.New(finding.NotWritten, at, "Words about a name come after a comma.", "", statement+", "+words)}
	}
	return &fault{finding.New(finding.NotWritten, at, "A remark needs its own line.", "", "# "+words+"\n"+statement)}
}
