package syntax

import (
	"steelyard/lang/finding"
	"steelyard/units/writing"
)

// secondWords are the words that must follow the first of some statements.
var secondWords = map[string]string{"slope": "of", "area": "under", "bars": "at"}

// alone are the commands after which nothing stands.
var alone = map[string]bool{"undo": true, "names": true, "replay": true, "quit": true}

// halfStatement tells whether a line begins with the first word of a statement
// of two words, and goes on as that statement would without the second one.
func halfStatement(line string) (StatementWord, bool) {
	word := unitScan{text: line, end: len(line)}.word(0)
	second, ok := secondWords[word]
	from, _ := trimBlanks(line, len(word), len(line))
	if !ok || from == len(word) || from == len(line) {
		return StatementWord{}, false
	}
	rest := line[from:]
	next := unitScan{text: rest, end: len(rest)}.word(0)
	_, quoted := quotes[firstRune(rest)]
	if next == second || Reserved(next) || !quoted && !startsName(firstRune(rest)) {
		return StatementWord{}, false
	}
	return statementWord(word)
}

// nearStatement adds to a finding about words side by side which statement the
// line perhaps begins with.
func (r *reader) nearStatement(bad *fault) *fault {
	line := r.text[r.from:r.to]
	word := unitScan{text: line, end: len(line)}.word(0)
	if bad.ID != finding.NamesTogether || bad.At.From != r.from || len(word) < 4 || len(word) == len(line) || !isBlank(firstRune(line[len(word):])) {
		return bad
	}
	for _, w := range statements {
		if w.Ready && w.Word != word && w.Word[0] == word[0] && writing.Within(2, word, w.Word) {
			bad.Hint = "Perhaps the statement is meant that is written `" + w.Form + "`. " + bad.Hint
			bad.Readings = append([]string{w.Word + line[len(word):]}, bad.Readings...)
			return bad
		}
	}
	return bad
}
