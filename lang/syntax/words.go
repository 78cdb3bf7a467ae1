package syntax

import (
	"strings"
	"sync"
	"unicode/utf8"
)

// StatementWord is a word that a statement begins with.
type StatementWord struct {
	Word    string
	Also    string // another word for it, or empty
	Form    string // how the statement is written
	Summary string // what it does, in one sentence
	Example string // a line that can be entered as it is
	Stored  bool   // it is kept in a worksheet
	Ready   bool   // this version works it out

	// read reads the statement; its word ends at a byte offset of the text. It is
	// nil for a word that an expression begins with.
	read    func(r *reader, at int) (Stmt, *fault)
	phrases []phrase // that are names elsewhere
	// second is the word that must follow, so that the first may be a name.
	second string
	next   []string // the words with which it goes on, for completion
	// expr tells that an expression follows the word directly, so that a bracket
	// or a sign before an operand may stand there, and names side by side are a
	// product without its sign; elsewhere one of them is out of place.
	expr  bool
	sure  string // what stands only in a line of this statement
	prose bool   // text follows that is not read as an expression
	colon bool   // a colon may follow directly
	bare  bool   // it may stand alone
	alone bool   // nothing may follow
	rows  bool   // its text goes on in indented lines
}

// firstExample is the first line of its example.
func (w *StatementWord) firstExample() string {
	line, _, _ := strings.Cut(w.Example, "\n")
	return line
}

// statements is the language's table of statement words, in the order in which
// help lists them.
var statements = [...]*StatementWord{
	&checkWord, &compareWord, &letWord, &formulaWord, &partWord, &noteWord, &reportWord, &constantsWord, &resultsWord, &givensWord, &roundWord,
	&describeWord, &helpWord, &namesWord, &pageWord, &changeWord, &insertWord, &removeWord, &renameWord, &titleWord, &withWord, &undoWord, &redoWord, &previewWord, &saveWord, &openWord, &printWord, &recoverWord, &forgetWord, &replayWord, &worksheetWord, &quitWord,
	&solveWord, &scalingWord, &slopeWord, &areaWord, &graphWord, &tableWord, &barsWord, &arrowsWord,
	&dataWord, &fitWord, &straightenWord, &stepsWord, &budgetWord, &varyWord, &markingWord, &diagnoseWord,
}

// Statements lists the words that statements begin with.
func Statements() []*StatementWord { return statements[:] }

// Clauses lists the words with which the statement goes on.
func (w *StatementWord) Clauses() []string { return w.next }

// Clauses lists the words with which the statement of a line goes on.
func Clauses(line string) []string {
	if w := leadingStatement(line); w != nil {
		return w.next
	}
	return nil
}

// statementWord finds a statement by its word, or nil.
func statementWord(word string) *StatementWord { return byWord()[word] }

// byWord are the statements by their words: each line that is typed begins with one that may be.
var byWord = sync.OnceValue(func() map[string]*StatementWord {
	all := map[string]*StatementWord{}
	for _, w := range statements {
		all[w.Word] = w
		if w.Also != "" {
			all[w.Also] = w
		}
	}
	return all
})

// firstWord is the run of letters, or the question mark, that a line begins with.
func firstWord(line string) string {
	if strings.HasPrefix(line, "?") {
		return "?"
	}
	n := 0
	for n < len(line) && isLetterByte(line[n]) {
		n++
	}
	return line[:n]
}

// leadingStatement finds the statement that a line begins with, or nil. A word
// that is followed by an equals sign, an operator or its bracket is a name.
func leadingStatement(line string) *StatementWord {
	w := statementWord(firstWord(line))
	if w != nil && w.leads(line) {
		return w
	}
	return nil
}

// leads tells whether a line that begins with the statement's word is one.
func (w *StatementWord) leads(line string) bool {
	n := len(firstWord(line))
	from, _ := trimBlanks(line, n, len(line))
	rest := line[from:]
	if rest == "" {
		return !w.Stored || w.bare
	}
	r, _ := utf8.DecodeRuneInString(rest)
	switch {
	case from == n && line[0] != '?' && !(r == ':' && w.colon), r == '=':
		return false
	case w.prose, w.sure != "" && strings.Contains(rest, w.sure):
		return true
	case w.second != "":
		return (unitScan{text: rest, end: len(rest)}).word(0) == w.second
	case w.expr:
		return signBefore(rest, r) || r == '(' || !operatorNext(rest, r)
	case operatorNext(rest, r):
		return w == &letWord && isLetterByte(rest[0]) // let in: said when it is read
	}
	return true
}

// signBefore tells whether a sign belongs to the operand after it: check -x < 0,
// and not check - x.
func signBefore(rest string, r rune) bool {
	if !isMinus(r) && r != '+' {
		return false
	}
	next := firstRune(rest[utf8.RuneLen(r):])
	return next != utf8.RuneError && !isBlank(next)
}

// operatorNext tells whether what follows a word makes it a name.
func operatorNext(rest string, r rune) bool {
	if strings.ContainsRune("+*/÷^(),<>≤≥", r) || isMinus(r) || isTimes(r) || isSuper(r) {
		return true
	}
	word := unitScan{text: rest, end: len(rest)}.word(0)
	return word == "in" || word == "with" || word == "within"
}
