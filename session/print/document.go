// Package print writes a worksheet as a document on paper or on a page: a key
// with the working and the answers, or a handout with the questions and room to
// answer. A document is first made from the entries of a session, and then
// written as HTML, Markdown, LaTeX or plain text; no writer works anything out.
package print

import (
	"slices"

	"steelyard/lang/finding"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
)

// Edition is for whom a document is.
type Edition uint8

// The editions.
const (
	Key     Edition = iota // everything
	Handout                // title, givens, questions, room, blank axes
)

// Document is a worksheet made ready for print. All texts are as they were
// typed: the writers escape them.
type Document struct {
	Title   string
	Edition Edition
	Blocks  []block // what stands above the first part
	Parts   []part
	Caution string // a study aid, not for decisions that matter
	set     *setter
}

// Only leaves one part of a document and what stands above the parts; false if there is
// none of that label.
func (d *Document) Only(label string) bool {
	d.Parts = slices.DeleteFunc(d.Parts, func(p part) bool { return p.Label != label })
	return len(d.Parts) > 0
}

// part is one part of the question.
type part struct {
	Label    string // "a"; empty for a part without one
	Question string
	Points   int // of all its answers; 0 if none were given
	Blocks   []block
}

// block is one thing in a document, which sends itself to a format. The set is
// closed.
type block interface{ write(*writer) }

type (
	// note is prose.
	note struct{ Text string }
	// givens is a table of the known quantities.
	givens struct{ Rows []given }
	// working is the worked lines of one result, one under the other.
	working struct {
		Lines []entry.WorkLine
		Of    []syntax.Expr // the names that it works out
		// Definitions tells that the lines define functions: they stand without
		// a head.
		Definitions bool
	}
	// cases is a function whose value goes by intervals.
	cases struct {
		Of   syntax.Expr // the function with its argument
		Rows []syntax.Piece
	}
	// answer is a result that is asked for, in a box.
	answer struct {
		X      syntax.Expr // what is asked for: a name as a rule; nil where words say it
		Shown  shown
		Points int
	}
	// check is a second route, which agrees; one that does not is a flaw.
	check struct {
		Left, Right syntax.Expr // Right is nil where Sign is set
		Relation    string      // "=", "<", "≤" …
		Sign        string      // "is negative" …
		Within      string      // "within 1 %", or empty
		Says        entry.Said  // "both sides are 0.46 J"
	}
	// figure is a graph with the shape of each curve in words.
	figure struct{ *entry.Graph }
	// energyBars is an energy bar chart, and what its books come to.
	energyBars struct{ *entry.Bars }
	// arrows is vectors drawn to scale, and what they are.
	arrows struct{ *entry.Arrows }
	// table is columns of values under heads such as "x / cm".
	table struct{ *entry.Table }
	// text is lines that a statement told.
	text struct{ Lines []entry.Said }
	// flaw is a finding that the reader must see: a mismatch, a failed check, an
	// error, or a caution.
	flaw struct {
		finding.Severity
		Line   int       // of the worksheet
		Source string    // the statement as it was typed
		Says   [][]piece // what was found, and what to do
	}
	// room is empty space to answer in, for about so many lines of writing, and below
	// it a line for each result that is asked for.
	room struct {
		Lines   int
		Answers []syntax.Expr
	}
)

// given is one row of the known quantities.
type given struct {
	Name    syntax.Expr // a name, or 1 lap for a unit of the worksheet
	Shown   shown
	Meaning string // in words, or empty
}

// haveMeanings tells whether there are words for one of the known quantities.
func haveMeanings(rows []given) bool {
	return slices.ContainsFunc(rows, func(g given) bool { return oneLine(g.Meaning) != "" })
}

// shown is what a document tells of a quantity. One of its fields is set, or none.
type shown struct {
	Value *entry.Value // as its line shows it
	X     syntax.Expr  // as it was written: 3 lb 8 oz
	Words string       // "unknown, in m"
}
