package main

import (
	"cmp"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"steelyard/lang/limit"
	"steelyard/session/entry"
	"steelyard/session/live"
	"steelyard/session/print"
	"steelyard/session/spreadsheet"
	"steelyard/session/view"
	"steelyard/session/worksheet"
	"steelyard/units/writing"
)

// openFile is the worksheet that the scratchpad was opened from or last saved
// to.
type openFile struct {
	path  string
	stamp *worksheet.Stamp
	gaps  map[int]int // blank lines before a statement
}

// order takes a file's name from what follows save, open or print, and which of some
// words come behind it. The name may be in quotes, and ~ is the user's folder.
func order(arg string, words ...string) (name string, said map[string]bool) {
	name, said = " "+strings.TrimSpace(arg), map[string]bool{}
	for again := true; again; {
		again = false
		for _, w := range words {
			if head, found := strings.CutSuffix(name, " "+w); found {
				name, said[w], again = strings.TrimRight(head, " "), true, true
			}
		}
	}
	name = strings.TrimSpace(name)
	if n := len(name); n > 1 && (name[0] == '"' || name[0] == '\'') && name[n-1] == name[0] {
		name = name[1 : n-1]
	}
	return fromHome(name), said
}

// fromHome is a file's name with the user's folder in the place of ~.
func fromHome(name string) string {
	if home, err := os.UserHomeDir(); err == nil && (name == "~" || strings.HasPrefix(name, "~/") || strings.HasPrefix(name, `~\`)) {
		return home + name[1:]
	}
	return name
}

// withExtension is a file's name with an extension, if it has none.
func withExtension(name, extension string) string {
	if name != "" && filepath.Ext(name) == "" {
		name += extension
	}
	return name
}

// save writes the worksheet to a file.
func (s *scratchpad) save(arg string) {
	name, said := order(arg, "anyway", "with failed lines")
	name = cmp.Or(withExtension(name, worksheet.Extension), s.file.path)
	if name == "" {
		s.tell("Write save and a name: save porch-swing.worked.")
		return
	}
	ext, asked := filepath.Ext(name), said["anyway"] || s.file.isOpen(name)
	if (printsAs(ext) != nil || ext == ".pdf") && !asked {
		s.tell("save writes worksheets, whose names end in " + worksheet.Extension + ". To print the page, write: print " + name)
		s.offers = []string{"print " + name}
		return
	}
	failed := said["with failed lines"]
	how := worksheet.Saving{Title: s.pad.Title(), Anyway: said["anyway"], From: filepath.Dir(s.file.path), Gaps: s.file.gaps}
	if failed {
		how.Failed = s.pad.Failed()
	}
	if s.file.isOpen(name) {
		how.Since = s.file.stamp
	}
	if how.Title == "" {
		how.Title = worksheet.TitleOf(name)
	}
	stamp, problem := worksheet.Save(name, s.pad.Entries(), how)
	if problem != nil {
		s.tell("! "+problem.Path+": "+problem.Message, problem.Hint)
		if problem.Kind == worksheet.Exists || problem.Kind == worksheet.Changed {
			s.tell("To replace it, write: save " + name + " anyway")
		}
		return
	}
	s.pad.SetTitle(how.Title)
	s.file = openFile{path: name, stamp: stamp, gaps: s.file.gaps}
	s.unsaved, s.leaving = false, false
	s.cautioned(s.journal.Saved(how.Title))
	s.tell("saved to " + name + ": " + writing.Count(len(s.pad.Entries()), "statement"))
	s.tellFailed(name, failed)
}

// tellFailed says what became of the lines that failed and were not entered anew.
func (s *scratchpad) tellFailed(name string, kept bool) {
	all, n := len(s.pad.Failed()), s.pad.Unmended()
	switch {
	case all > 0 && kept:
		s.tell(fmt.Sprintf("Lines in it that failed, as remarks: %d.", all))
	case n > 0 && !kept:
		s.tell(fmt.Sprintf("Lines that failed and are left out: %d. To keep them as remarks, write: save %s with failed lines", n, name))
	}
}

// isOpen tells whether a name is that of the open file, in whatever spelling.
func (f openFile) isOpen(name string) bool {
	if f.path == "" || name == f.path {
		return name == f.path
	}
	is, err1 := os.Stat(f.path)
	other, err2 := os.Stat(name)
	return err1 == nil && err2 == nil && os.SameFile(is, other)
}

// open replaces what is on the scratchpad by a worksheet.
func (s *scratchpad) open(ctx context.Context, arg string) {
	name, said := order(arg, "anyway")
	name = withExtension(name, worksheet.Extension)
	if s.unsaved && len(s.pad.Entries()) > 0 && !said["anyway"] {
		s.tell("What is on the scratchpad is not saved. Save it first, or write: open " + arg + " anyway")
		return
	}
	if name == "" {
		s.tell("Write open and a name: open porch-swing.worked.")
		return
	}
	sheet, problem := worksheet.Load(name)
	if problem != nil {
		s.tell("! "+problem.Path+": "+problem.Message, problem.Hint)
		return
	}
	s.fresh()
	s.fill(ctx, name, sheet)
}

// fill puts the statements of a file on an empty scratchpad.
func (s *scratchpad) fill(ctx context.Context, name string, sheet *worksheet.Sheet) {
	entries, gaps, whole := s.enterSheet(ctx, sheet)
	s.pad.SetTitle(sheet.Title)
	texts := make([]string, len(entries))
	for i, e := range entries {
		texts[i] = e.Text
	}
	s.cautioned(s.journal.Accept(texts...))
	s.keepRead()
	if s.unsaved = !whole; whole {
		s.file = openFile{path: name, stamp: sheet.Stamp(), gaps: gaps}
		s.cautioned(s.journal.Saved(sheet.Title))
	} else {
		s.cautioned(s.journal.Title(sheet.Title))
	}
	for _, e := range entries {
		s.show(e)
	}
	s.tell(sheet.Title + ": " + writing.Count(len(entries), "statement"))
	if !whole {
		s.tell("Opening was stopped: lines below these are not here, so save needs another name.")
	}
}

// enterSheet enters the statements of a file. It returns those that are part of a
// worksheet, the blank lines before each, and whether it came to the end.
func (s *scratchpad) enterSheet(ctx context.Context, sheet *worksheet.Sheet) ([]*entry.Entry, map[int]int, bool) {
	place, gaps, blank := map[int]int{}, map[int]int{}, 0
	for i := range sheet.Statements {
		st := &sheet.Statements[i]
		if strings.TrimSpace(st.Text) == "" {
			blank++
			continue
		}
		next := s.pad.Next()
		place[st.Line] = next
		gaps[next], blank = blank, 0
		s.pad.Add(ctx, live.Renumber(st.Whole(), place))
		if ctx.Err() != nil {
			if s.pad.Next() > next { // what was cut short is no line of the file
				s.pad.Undo(ctx)
			}
			return s.pad.Entries(), gaps, false
		}
	}
	return s.pad.Entries(), gaps, true
}

// blank is an empty page, which reads files of the folder that it is saved in.
func (s *scratchpad) blank() *live.Page {
	page := live.New()
	page.Reads(s.reads)
	return page
}

// reads reads a file of the folder that the page is saved in, or else of the one at hand.
func (s *scratchpad) reads(name, sheet string) ([]byte, error) {
	return spreadsheet.Folder(filepath.Dir(s.file.path))(name, sheet)
}

// fresh empties the scratchpad and begins a new journal.
func (s *scratchpad) fresh() {
	s.pad, s.file, s.next = s.blank(), openFile{}, nil
	s.journal.Close(false)
	s.newJournal()
	s.read = filesRead{}
}

// show prints an entry that was not typed.
func (s *scratchpad) show(e *entry.Entry) {
	o := s.options()
	o.Statement = true
	view.Text(s.w.stdout, e, o)
}

// print prints the page to a file.
func (s *scratchpad) print(arg string) {
	name, said := order(arg, "as handout", "as key")
	name = withExtension(name, ".html")
	p := &printing{w: s.w, form: printsAs(filepath.Ext(name))}
	switch n := len(s.pad.Entries()); {
	case name == "":
		s.tell("Write print and a name: print key.html, or print handout.html as handout.")
		return
	case p.form == nil:
		s.tell("What is printed is HTML, Markdown, LaTeX or text: write a name that ends in .html, .md, .tex or .txt. For a PDF, print to HTML, and print that page from a browser.")
		return
	case n > limit.Printed:
		s.tell(fmt.Sprintf("The page has %d statements; the most that are printed is %d.", n, limit.Printed))
		return
	}
	what := "a key"
	if said["as handout"] {
		p.edition, what = print.Handout, "a handout"
	}
	text, told, _ := p.compose(s.pad.Title(), worksheet.Printed(s.w.ctx, s.pad.Entries(), s.reads))
	for _, t := range told {
		s.tell(t)
	}
	if problem := worksheet.WriteFile(name, string(text)); problem != nil {
		s.tell("! "+problem.Path+": "+problem.Message, problem.Hint)
		return
	}
	s.tell("printed to " + name + ": " + what)
}

// replay works the worksheet's file out again.
func (s *scratchpad) replay(ctx context.Context) {
	switch {
	case s.file.path == "":
		s.tell("replay compares the worksheet with its file. Save it first: save porch-swing.worked")
		return
	case s.unsaved:
		s.tell("replay compares the worksheet with its file, " + s.file.path + ", and what is on the scratchpad has changed since. Write save first.")
		return
	}
	sheet, problem := s.w.load(s.file.path)
	if problem != nil {
		s.tell("! "+problem.Path+": "+problem.Message, problem.Hint)
		return
	}
	o := s.options()
	worksheet.Replay(ctx, sheet, worksheet.Options{Numbered: true}).Text(s.w.stdout, o)
}
