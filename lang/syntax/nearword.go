package syntax

import (
	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/units/writing"
)

// halfStatement says of a line that begins with the first word of a statement of
// two words, and goes on as that statement would, that the second one is missing.
//
// For instance givens exact lacks its are. A word that no line could go on with as
// a statement, such as results = 3, is a name as any other, and the line is read
// on.
func (r *reader) halfStatement() *fault {
	line := r.text[r.from:r.to]
	w := statementWord(firstWord(line))
	if w == nil || w.second == "" || ops.IsFunction(w.Word) {
		return nil
	}
	from, _ := trimBlanks(line, len(w.Word), len(line))
	if from == len(w.Word) || from == len(line) {
		return nil
	}
	rest := line[from:]
	next := unitScan{text: rest, end: len(rest)}.word(0)
	_, quoted := quotes[firstRune(rest)]
	if next == w.second || Reserved(next) || !quoted && !startsName(firstRune(rest)) {
		return nil
	}
	r.word = w
	if offer := r.reworded(w.Word); offer != nil {
		return offer
	}
	return r.word.form(&fault{finding.New(finding.Unreadable, Span{From: r.from, To: r.from + len(w.Word)},
		"A word of this statement is missing after `"+w.Word+"`.", "")})
}

// otherWords are words that a line may begin with for a statement of another name.
var otherWords = [...]struct{ wrong, right string }{
	{"plot", "graph"}, {"draw", "graph"}, {"sketch", "graph"}, {"find", "solve"}, {"calculate", "solve"},
	{"integrate", "area"}, {"differentiate", "slope"}, {"verify", "check"}, {"assert", "check"}, {"test", "check"},
}

// nearStatement says which statement a line perhaps begins with, in which words
// stand side by side.
//
// Plot x against t is told to use graph, and calculate v to use solve. A word that
// is at most two letters from one of the language, chekc, is offered as that. The
// line has been refused already, as two words side by side.
//
// Two letters are enough for a slip of the keys in the middle of a word, and few enough not to
// make a statement of any word.
func (r *reader) nearStatement(why *fault) *fault {
	line := r.text[r.from:r.to]
	word := unitScan{text: line, end: len(line)}.word(0)
	if why.ID != finding.NamesTogether || why.At.From != r.from {
		return nil
	}
	bad := *why
	for _, o := range otherWords {
		if w := statementWord(o.right); o.wrong == word {
			bad.ID, bad.Message, bad.Readings = finding.Unreadable, "`"+word+"` isn't a statement. Use "+w.Word+".", nil
			bad.At.To = bad.At.From + len(word)
			return w.form(&bad)
		}
	}
	if w := statementNear(line); w != nil {
		bad.ID, bad.Message = finding.Unreadable, "`"+word+"` isn't a statement. Did you mean "+w.Word+"?"
		bad.Hint = "`help " + w.Word + "` shows how it is written."
		bad.At = Span{From: r.from, To: r.to}
		bad.Readings = []string{w.Word + line[len(word):]}
		return &bad
	}
	return nil
}

// statementNear is the statement of which a line begins with nearly the word, and goes on behind
// a blank as no result does; nil if there is none.
func statementNear(line string) *StatementWord {
	word := unitScan{text: line, end: len(line)}.word(0)
	from, _ := trimBlanks(line, len(word), len(line))
	if len(word) < 4 || from == len(word) || from == len(line) || line[from] == '=' {
		return nil
	}
	for _, w := range statements {
		if w.Ready && w.Word != word && w.Word[0] == word[0] && writing.Within(2, word, w.Word) {
			return w
		}
	}
	return nil
}
