package syntax

import (
	"strings"

	"steelyard/lang/finding"
)

// Command is a word that acts on the scratchpad and is not stored: those below.
//
// A command is what is typed at a scratchpad, as in change 3 to k = 250 N/m. It is
// never a line of the page, so a worksheet has none. What is behind the word is
// kept as text in Arg: only who runs the command knows what it should be.
type Command struct {
	aside
	Word   string
	WordAt Span
	Arg    string
	ArgAt  Span
}

// The words that act on the scratchpad.
var (
	describeWord  = StatementWord{Word: "describe", Form: "describe NAME", Summary: "Tells what a name is and where it is used.", Example: "describe k", Ready: true, read: readCommand, prose: true}
	helpWord      = StatementWord{Word: "help", Also: "?", Form: "help [WORD]", Summary: "Looks up a unit, a quantity, a formula, a function or a statement.", Example: "help newton", Ready: true, read: readCommand, prose: true}
	namesWord     = StatementWord{Word: "names", Form: "names", Summary: "Lists what has been given and worked out.", Example: "names", Ready: true, read: readCommand, alone: true}
	changeWord    = StatementWord{Word: "change", Form: "change LINE [to STATEMENT]", Summary: "Changes a line; what depends on it is worked out again.", Example: "change 3 to k = 250 N/m", Ready: true, read: readCommand, rows: true}
	insertWord    = StatementWord{Word: "insert", Form: "insert before LINE [STATEMENT]", Summary: "Puts a line in before another.", Example: "insert before 3 x = 6.0 cm", Ready: true, read: readCommand, rows: true}
	removeWord    = StatementWord{Word: "remove", Form: "remove LINE [to LINE]", Summary: "Takes a line out, or several.", Example: "remove 3", Ready: true, read: readCommand}
	renameWord    = StatementWord{Word: "rename", Form: "rename NAME to NAME", Summary: "Changes a name in every line that means it.", Example: "rename k to k_s", Ready: true, read: readCommand}
	withWord      = StatementWord{Word: "with", Form: "with NAME = VALUE[, …]", Summary: "Shows what would change if a given had another value.", Example: "with k = 260 N/m", Ready: true, read: readCommand, prose: true}
	titleWord     = StatementWord{Word: "title", Form: "title TEXT", Summary: "Sets the title of the worksheet.", Example: "title Crates over a pulley", Ready: true, read: readCommand, prose: true, colon: true}
	undoWord      = StatementWord{Word: "undo", Form: "undo", Summary: "Takes the last change back.", Example: "undo", Ready: true, read: readCommand, alone: true}
	redoWord      = StatementWord{Word: "redo", Form: "redo", Summary: "Does again what undo took back.", Example: "redo", Ready: true, read: readCommand, alone: true}
	pageWord      = StatementWord{Word: "page", Form: "page [LINE to LINE]", Summary: "Shows the page, or some lines or a part of it.", Example: "page 3 to 8", Ready: true, read: readCommand}
	previewWord   = StatementWord{Word: "preview", Form: "preview on|off", Summary: "Turns the preview of a line on or off.", Example: "preview off", Ready: true, read: readCommand, next: []string{"off", "on"}}
	saveWord      = StatementWord{Word: "save", Form: "save FILE", Summary: "Writes the worksheet to a file.", Example: "save porch-swing.worked", Ready: true, read: readCommand, prose: true}
	printWord     = StatementWord{Word: "print", Form: "print FILE [as handout]", Summary: "Prints the page as a key, or as a handout: .html, .md, .tex or .txt.", Example: "print key.html", Ready: true, read: readCommand, prose: true}
	openWord      = StatementWord{Word: "open", Form: "open FILE", Summary: "Reads a worksheet from a file.", Example: "open porch-swing.worked", Ready: true, read: readCommand, prose: true}
	recoverWord   = StatementWord{Word: "recover", Form: "recover [NUMBER]", Summary: "Brings back what an earlier scratchpad did not save, or lists it.", Example: "recover", Ready: true, read: readCommand, prose: true}
	forgetWord    = StatementWord{Word: "forget", Form: "forget [NUMBER]", Summary: "Deletes what recover would bring back.", Example: "forget", Ready: true, read: readCommand, prose: true}
	replayWord    = StatementWord{Word: "replay", Form: "replay", Summary: "Works every line out again and compares it with its record.", Example: "replay", Ready: true, read: readCommand, alone: true}
	worksheetWord = StatementWord{Word: "worksheet", Form: "worksheet 1 TITLE", Summary: "The first line of a file: sets the title.", Example: "worksheet 1 Crates over a pulley", Ready: true, read: readCommand}
	quitWord      = StatementWord{Word: "quit", Also: "exit", Form: "quit", Summary: "Leaves the scratchpad.", Example: "quit", Ready: true, read: readCommand, alone: true}
)

// A command that takes nothing, undo, refuses words behind it. One that takes a
// whole statement, change and insert, takes its indented lines along.
func readCommand(r *reader, at int) (Stmt, *fault) {
	w := r.word
	from, to := trimBlanks(r.text, at, r.to)
	if w.alone && from < to {
		f := finding.New(finding.Unreadable, Span{From: r.from, To: to}, "Nothing comes after `"+w.Word+"`.", "Leave the rest out.")
		f.Lines = []string{w.Word}
		return nil, &fault{f}
	}
	if w.rows {
		to = len(strings.TrimRight(r.text, " \t\r\n"))
		r.body = nil
	}
	c := &Command{Word: w.Word, WordAt: Span{From: r.from, To: at}, Arg: r.text[from:to], ArgAt: Span{From: from, To: to}}
	return c, r.noBody()
}
