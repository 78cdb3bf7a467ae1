package worksheet

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"unicode"

	"github.com/mattn/go-runewidth"

	"steelyard/lang/finding"
	"steelyard/session/disk"
	"steelyard/session/entry"
	"steelyard/session/record"
	"steelyard/units"
)

// writeRecords writes the records that are missing or differ, and leaves every
// other byte of the file as it is.
func (r *Report) writeRecords(s *Sheet) *FileProblem {
	text := r.recorded(s)
	if text == s.text {
		return nil
	}
	now, problem := readFile(s.path)
	if problem != nil {
		return problem
	}
	if now != s.text {
		return &FileProblem{Kind: Changed, Path: s.path, Message: "the file was changed while it was replayed; nothing was written.", Hint: "Replay it again."}
	}
	if problem := replaceFile(s.path, text); problem != nil {
		return problem
	}
	r.written = true
	return nil
}

// recorded is the text of the sheet with its records brought up to date. Rows
// whose records change are marked as agreeing.
func (r *Report) recorded(s *Sheet) string {
	eol := "\n"
	if stampOf(s.text).crlf {
		eol = "\r\n"
	}
	var b strings.Builder
	done := 0
	for i := range r.Rows {
		row := &r.Rows[i]
		st := &s.Statements[row.at]
		if len(row.Entry.Values()) == 0 || !row.Entry.Records() {
			continue
		}
		line := strings.Join(recordLines(row.Entry), eol)
		switch {
		case row.state == record.Unrecorded:
			b.WriteString(s.text[done:st.end])
			done = st.end
			if !strings.HasSuffix(s.text[:st.end], "\n") {
				b.WriteString(eol)
				line = strings.TrimRight(line, "\r\n")
				b.WriteString(line)
			} else {
				b.WriteString(line + eol)
			}
		case len(st.records) > 0 && (row.state == record.Differs || row.state == record.Follows || row.state == record.Unkept):
			b.WriteString(s.text[done:st.records[0].From])
			b.WriteString(line)
			done = st.records[len(st.records)-1].To
			row.anew = true
		default:
			continue
		}
		row.settle()
	}
	b.WriteString(s.text[done:])
	return b.String()
}

// settle takes back what was said of a record that is written anew.
func (row *Row) settle() {
	row.state = record.Agrees
	keep := row.Entry.Findings[:0]
	for _, f := range row.Entry.Findings {
		if f.ID != finding.RecordDiffers {
			keep = append(keep, f)
		}
	}
	row.Entry.Findings = keep
}

// cells counts the columns of a text alike on every machine, whatever its
// language is set to.
var cells = &runewidth.Condition{StrictEmojiNeutral: true}

// recordLines are the records of an entry, with the = under that of a statement
// which begins NAME =, else two blanks in. Of several results each has a line
// with its name.
func recordLines(e *entry.Entry) []string {
	indent := 2
	if e.Named() {
		text := strings.TrimLeftFunc(e.Text, unicode.IsSpace)
		if i := strings.IndexByte(text, '='); i >= 0 {
			indent = cells.StringWidth(text[:i])
		}
	}
	lead := strings.Repeat(" ", max(1, indent)) + "= "
	if !e.NamesValues() && len(e.Values()) == 1 {
		return []string{lead + e.Values()[0].Shown(units.File)}
	}
	lines := make([]string, len(e.Values()))
	for i, v := range e.Values() {
		lines[i] = lead + v.Name + " = " + v.Shown(units.File)
	}
	return lines
}

// WriteFile puts a text in the place of a file in one step. A device or a pipe is
// written to.
func WriteFile(path, text string) *FileProblem {
	if info, err := os.Stat(path); err != nil || info.Mode().IsRegular() {
		return replaceFile(path, text)
	}
	// Without waiting for someone to read.
	f, err := os.OpenFile(path, os.O_WRONLY|syscall.O_NONBLOCK, 0)
	if err == nil {
		_, err = f.WriteString(text)
		if shut := f.Close(); err == nil {
			err = shut
		}
	}
	if err != nil {
		return unwritten(path, err)
	}
	return nil
}

// replaceFile puts a new text in the place of a file in one step: at no time
// does half a file stand there. A symbolic link is followed, and owner and
// permissions are kept; where that can't be, nothing is written.
func replaceFile(path, text string) *FileProblem {
	old, err := os.Stat(path)
	refuse := func(why, hint string) *FileProblem {
		return &FileProblem{Kind: NotWritten, Path: path, Message: why + "; nothing was written.", Hint: hint}
	}
	switch {
	case os.IsNotExist(err):
		old = nil
	case err != nil:
		return unwritten(path, err)
	case !old.Mode().IsRegular():
		return refuse("this isn't a file: it is a folder, a device or a pipe", "Name a file.")
	case old.Mode().Perm()&0o200 == 0:
		return refuse("the file is marked as read-only", "Allow writing, or save it under another name.")
	case disk.Linked(old):
		return refuse("the file has another name too (a hard link), and what is saved would have this one alone", "Save it under another name.")
	}
	err = disk.Replace(target(path), []byte(text), old)
	switch {
	case errors.Is(err, disk.ErrOwner):
		return refuse("the file belongs to someone else, and what is saved would be yours", "Save it under another name.")
	case err != nil:
		return unwritten(path, err)
	}
	return nil
}

// target follows links to the file that is meant, which need not be there yet.
func target(path string) string {
	for range 40 {
		to, err := os.Readlink(path)
		if err != nil {
			break
		}
		if !filepath.IsAbs(to) {
			to = filepath.Join(filepath.Dir(path), to)
		}
		path = to
	}
	return path
}
