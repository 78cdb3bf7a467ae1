package worksheet

import (
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"unicode"

	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/live"
	"steelyard/units/writing"
)

// Extension is what the name of a worksheet's file ends in.
const Extension = ".worked"

// Saving says how a worksheet is written.
type Saving struct {
	Title string
	// Since is what the file was when it was opened or last saved; nil if it
	// was not.
	Since *Stamp
	// Anyway overwrites a file that was not opened here, or that has changed
	// since.
	Anyway bool
	// From is the folder that the lines read their files from.
	From string
	// Gaps is how many blank lines stood before a statement, by its number; a
	// part has one where nothing is said.
	Gaps map[int]int
	// Failed are lines that could not be worked out, which are written as remarks.
	Failed []live.Failed
}

// Save writes the statements of a scratchpad with records of their results. The file is
// put in place in one step, and one that someone else has changed is left alone unless
// told. It returns what the file is now.
func Save(path string, entries []*entry.Entry, how Saving) (*Stamp, *FileProblem) {
	text := compose(entries, how)
	if problem := readsOthers(entries, how.From, path); problem != nil {
		return nil, problem
	}
	if problem := mayReplace(path, how); problem != nil {
		return nil, problem
	}
	if problem := replaceFile(path, text); problem != nil {
		return nil, problem
	}
	return stampOf(text), nil
}

// mayReplace tells whether what stands at the path may be replaced.
func mayReplace(path string, how Saving) *FileProblem {
	if how.Anyway {
		return nil
	}
	if _, err := os.Stat(path); os.IsNotExist(err) {
		return nil
	}
	now, problem := readFile(path)
	if problem != nil {
		return problem
	}
	if how.Since == nil {
		return &FileProblem{Kind: Exists, Path: path, Message: "there is a file of this name already.", Hint: "Choose another name."}
	}
	if was := stampOf(now); *was != *how.Since {
		return &FileProblem{Kind: Changed, Path: path, Message: "the file was changed by someone else since it was opened here.", Hint: "Save under another name, and compare the two."}
	}
	return nil
}

// compose is the text of a worksheet.
func compose(entries []*entry.Entry, how Saving) string {
	eol, mark := "\n", ""
	if how.Since != nil && how.Since.crlf {
		eol = "\r\n"
	}
	if how.Since != nil && how.Since.mark {
		mark = byteOrderMark
	}
	lines := []string{mark + "worksheet " + strconv.Itoa(formatVersion) + "  " + writing.Clean(strings.Join(strings.Fields(how.Title), " "), writing.File), ""}
	place := map[int]int{} // the number in the scratchpad → the line of the file
	failed := how.Failed
	remarks := func(after int) {
		for ; len(failed) > 0 && failed[0].After <= after; failed = failed[1:] {
			lines = append(lines, rows(failed[0].Text, "# ", "")...)
		}
	}
	first := true
	for i, e := range entries {
		remarks(i)
		gap, known := how.Gaps[e.Line]
		if _, part := e.Stmt.(*syntax.Part); part && !first && !known {
			gap = 1
		}
		if !first {
			lines = append(lines, make([]string, gap)...)
		}
		first = false
		place[e.Line] = len(lines) + 1
		lines = append(lines, entryLines(e, place)...)
	}
	remarks(len(entries))
	return strings.Join(lines, eol) + eol
}

// entryLines is one statement as a worksheet has it, with its records.
func entryLines(e *entry.Entry, place map[int]int) []string {
	out := rows(live.RenumberEntry(e, place), "", "  ")
	if !e.Failed() && e.Records() && len(e.Values()) > 0 {
		out = append(out, recordLines(e)...)
	}
	return out
}

// rows are the lines of a statement: its first line at the margin and the others
// indented, none of them blank.
func rows(text, lead, indent string) []string {
	var out []string
	for line := range strings.SplitSeq(text, "\n") {
		line = strings.TrimRightFunc(writing.Clean(strings.TrimRight(line, "\r"), writing.File), unicode.IsSpace)
		switch {
		case line == "" && len(out) > 0:
			continue
		case len(out) == 0:
			line = strings.TrimLeftFunc(line, unicode.IsSpace)
		case !beginsBlank(line):
			line = indent + line
		}
		out = append(out, lead+line)
	}
	return out
}

// TitleOf makes a title of a file's name: porch-swing.worked is Porch swing.
func TitleOf(path string) string {
	name := strings.TrimSuffix(filepath.Base(path), Extension)
	name = strings.Join(strings.FieldsFunc(name, func(r rune) bool { return r == '-' || r == '_' || unicode.IsSpace(r) || unicode.IsControl(r) }), " ")
	rs := []rune(strings.ToValidUTF8(name, ""))
	if len(rs) == 0 {
		return "Untitled"
	}
	rs[0] = unicode.ToUpper(rs[0])
	return string(rs)
}
