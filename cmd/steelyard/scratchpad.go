package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/signal"
	"path/filepath"

	"golang.org/x/term"

	"steelyard/lang/syntax"
	"steelyard/session/help"
	"steelyard/session/journal"
	"steelyard/session/live"
	"steelyard/session/repl"
	"steelyard/session/rows"
	"steelyard/session/view"
	"steelyard/session/worksheet"
	"steelyard/units/writing"
)

// openPage opens the scratchpad with the worksheet that the command line names.
func (w *world) openPage(files []string) int {
	switch {
	case len(files) > 1:
		return w.usage("", "one worksheet is opened at a time.")
	case w.in == nil:
		return w.usage("", "there is no terminal to open "+quoted(files[0])+" at. To replay it: steelyard replay "+files[0])
	}
	return runScratchpad(w, files[0])
}

// runScratchpad opens the scratchpad at a terminal, with a worksheet if one is named;
// elsewhere it works out the lines of standard input.
func runScratchpad(w *world, file string) int {
	if w.in == nil {
		return w.stoppable(func(w *world) int { return runEval(w, nil, nil) })
	}
	s := &scratchpad{w: w}
	s.pad = s.blank()
	var sheet *worksheet.Sheet
	if file != "" {
		var problem *worksheet.FileProblem
		if sheet, problem = worksheet.Load(file); problem != nil {
			fmt.Fprintln(w.stderr, problem.Error())
			return statusUsage
		}
	}
	s.startJournal()
	s.greet()
	if sheet != nil {
		ctx, stop := signal.NotifyContext(w.ctx, os.Interrupt)
		s.fill(ctx, file, sheet)
		stop()
	}
	how := repl.Config{In: w.in, Out: w.out, Pad: s, Look: lookOf(os.Getenv)}
	if s.journal != nil {
		how.History = filepath.Join(journal.Dir(), "history")
	}
	err := repl.Run(context.WithoutCancel(w.ctx), how)
	if errors.Is(err, repl.ErrBusy) {
		return statusHolds // the journal stays as it is, for the next start
	}
	s.journal.Close(s.unsaved && len(s.pad.Entries()) > 0)
	if err != nil {
		return w.usage("", "the terminal can't be used; try steelyard eval.")
	}
	return statusHolds
}

// greetings is how many starts say how to begin.
const greetings = 10

// greet says in the first starts how to begin. A file has a byte for each of them;
// where there is no folder for it, every start is one of the first.
func (s *scratchpad) greet() {
	if dir := journal.Dir(); dir != "" {
		path := filepath.Join(dir, "starts")
		was, _ := os.ReadFile(path)
		if len(was) >= greetings {
			return
		}
		_ = os.WriteFile(path, append(was, '.'), 0o600) // else it is said once more
	}
	dim := ""
	if s.w.bold {
		dim = dimOn
	}
	for _, row := range rows.Wrap("Type a line such as m = 80 g. help tells more, quit leaves.", max(s.options().Width-6, 20)) {
		s.say("      " + dim + row)
	}
}

// scratchpad is what stands behind the prompt: the pad with its file and its
// journal.
type scratchpad struct {
	w         *world
	pad       *live.Page
	file      openFile
	journal   *journal.Journal
	abandoned []*journal.Recovered
	read      filesRead // what the journal has of the files that the lines read
	unsaved   bool
	draft     *live.Draft // the line above that is being edited
	next      *live.Draft // the one to be edited at the next prompt
	offers    []string    // what the line that failed may have been meant for
	// leaving is set once leaving without saving has been asked about.
	leaving bool
	unseen  bool // no preview is wanted
	lend    func(run func() error) error
}

// Prompt is what the next statement begins with. A line above that is being edited has
// one prompt: where that is left, the next is that of a new line; but lines that are put in
// go on until an empty one, and the rest of a paste goes where its lines went.
func (s *scratchpad) Prompt(goesOn bool) repl.Prompt {
	s.cautioned(s.journal.Flush())
	if goesOn && s.next == nil {
		s.next = s.draft
	}
	p := repl.Prompt{Number: view.Prompt(s.pad.Next()), Offers: s.offers}
	if s.draft = s.next; s.draft != nil {
		p.Number, p.Text = view.Prompt(s.draft.Line), s.draft.Text
	}
	s.next, s.offers = nil, nil
	return p
}

// newJournal begins a journal.
func (s *scratchpad) newJournal() {
	j, problem := journal.Start(journal.Dir())
	s.journal = j
	if problem != nil {
		s.tell("caution: "+problem.Message, problem.Hint)
	}
}

// cautioned says that something is not in the journal.
func (s *scratchpad) cautioned(problem *journal.Problem) {
	if problem != nil {
		s.tell("caution: " + problem.Message)
	}
}

// say prints lines as they are.
func (s *scratchpad) say(lines ...string) {
	for _, l := range lines {
		fmt.Fprintln(s.w.stdout, l)
	}
}

// tell prints sentences under the statement, in rows of the terminal's width.
func (s *scratchpad) tell(sentences ...string) {
	for _, text := range sentences {
		text = writing.Clean(text, writing.Screen) // one row, whatever name is in it
		for _, row := range rows.Wrap(text, max(s.options().Width-6, 20)) {
			s.say("      " + row)
		}
	}
}

// Enter works a statement out and prints what becomes of it.
func (s *scratchpad) Enter(ctx context.Context, text string, shown bool) bool {
	lines := []string{text}
	if s.draft == nil {
		lines = s.pad.Several(ctx, text)
	}
	for _, line := range lines {
		if !s.enter(ctx, line, shown && len(lines) == 1) {
			return false
		}
	}
	return true
}

// enter is Enter for one statement.
func (s *scratchpad) enter(ctx context.Context, text string, shown bool) bool {
	if !shown {
		s.journal.Hold() // a paste is flushed once, before the next prompt
	}
	e, got := s.pad.Write(ctx, text, s.draft)
	s.done(got)
	cmd, asks := e.Stmt.(*syntax.Command)
	if asks && cmd.Word == "quit" {
		return !s.Leave()
	}
	s.leaving = false
	o := s.options()
	o.Statement = !shown
	view.Text(s.w.stdout, e, o)
	s.follows(got)
	if at := got.Draft; asks && at != nil && at.Insert {
		s.tell(fmt.Sprintf("Lines go in before line %d; Enter on an empty line ends that.", at.Line))
	}
	if asks {
		s.command(ctx, cmd)
	}
	return true
}

// done writes what has changed to the journal. It is shown after that.
func (s *scratchpad) done(got live.Answer) {
	s.next, s.offers = got.Draft, got.Offers
	if s.draft != nil {
		inserts := s.draft.Insert
		if got.Done {
			s.draft = s.draft.After(got.Change.Edit)
		}
		if inserts && s.next == nil {
			s.next = s.draft
		}
	}
	if !got.Done {
		return
	}
	s.unsaved = true
	if title := got.Change.Title; title != nil {
		s.cautioned(s.journal.Title(*title))
	}
	if ed := got.Change.Edit; len(ed.Texts)+ed.Drop+len(ed.Put) > 0 {
		s.cautioned(s.journal.Change(ed))
		s.keepRead()
	}
}

// follows shows what has moved, and the lines that are asked for.
func (s *scratchpad) follows(got live.Answer) {
	for i := range got.Change.Moved {
		s.show(got.Change.Moved[i].Told())
	}
	if len(got.Lines) > 0 {
		s.long(func() {
			for _, e := range got.Lines {
				s.show(e)
			}
		})
	}
}

// command answers the commands that need more than the page itself.
func (s *scratchpad) command(ctx context.Context, cmd *syntax.Command) {
	switch cmd.Word {
	case "help":
		s.long(func() {
			for _, line := range help.Topic(s.pad.Pad, cmd.Arg, s.options().Width-2) {
				s.say("  " + line)
			}
		})
	case "save":
		s.save(cmd.Arg)
	case "open":
		s.open(ctx, cmd.Arg)
	case "print":
		s.print(cmd.Arg)
	case "recover":
		s.recover(ctx, cmd.Arg)
	case "forget":
		s.forget(cmd.Arg)
	case "replay":
		s.replay(ctx)
	case "preview":
		s.preview(cmd.Arg)
	}
}

// options are those of the terminal as it is now.
func (s *scratchpad) options() view.Options {
	width, height := s.w.width, s.w.height
	if cells, rows, err := term.GetSize(int(s.w.out.Fd())); err == nil && cells > 0 {
		width, height = cells, rows
	}
	return view.Options{Bold: s.w.bold, Width: width, Height: height, Folds: s.w.folds, ASCII: s.w.ascii}
}

// Leave asks once more where there is work that is not saved.
func (s *scratchpad) Leave() bool {
	if !s.unsaved || len(s.pad.Entries()) == 0 || s.leaving {
		return true
	}
	s.leaving = true
	s.cautioned(s.journal.Flush())
	text := "This worksheet is not saved: `save FILE` saves it"
	if s.file.path != "" {
		text = "What has changed is not saved to " + s.file.path + ": `save` saves it"
	}
	if s.journal.Whole() {
		text += "; if you leave again, the next start offers it."
	} else {
		text += "; if you leave again, it is lost."
	}
	s.tell(text)
	return false
}
