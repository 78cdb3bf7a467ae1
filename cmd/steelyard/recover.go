package main

import (
	"context"

	"steelyard/session/journal"
	"steelyard/session/live"
)

// startJournal begins a journal, and offers what earlier runs left behind.
func (s *scratchpad) startJournal() {
	s.abandoned = journal.Abandoned(journal.Dir())
	s.newJournal()
	s.offer()
}

// offer says what recover would bring back: the last scratchpad that ended without
// being saved. The earlier ones come after it.
func (s *scratchpad) offer() {
	n := len(s.abandoned)
	if n == 0 {
		return
	}
	last := s.abandoned[n-1]
	s.tell("A scratchpad of " + last.Last.Local().Format("2 January, 15:04") + " ended without being saved: " + counted(len(last.Statements), "statement") + ".")
	if len(last.Statements) > 0 {
		s.tell("It begins with `" + firstLine(last.Statements[0]) + "`.")
	}
	s.tell("`recover` brings it back, `forget` deletes it; until then it is kept.")
	if n > 1 {
		s.tell(counted(n-1, "earlier one") + " can be brought back after it, in the same way.")
	}
}

// recover brings back the statements of an earlier run.
func (s *scratchpad) recover(ctx context.Context, arg string) {
	switch {
	case arg != "" && arg != "anyway":
		s.tell("Nothing comes after `recover`; it brings back the last scratchpad that was not saved.")
		return
	case s.unsaved && len(s.pad.Entries()) > 0 && arg == "":
		s.tell("What is on the scratchpad is not saved. Save it first, or write: recover anyway")
		return
	}
	last := s.last()
	if last == nil {
		return
	}
	resumed, problem := last.Resume()
	if problem != nil {
		s.tell("! "+problem.Message, problem.Hint)
		return
	}
	// From here on this run writes the journal that it was recovered from.
	s.journal.Close(false)
	s.pad, s.file, s.journal = live.New(), openFile{}, resumed
	s.pad.SetTitle(last.Title)
	for _, text := range last.Statements {
		s.show(s.pad.Add(ctx, text))
	}
	s.unsaved = true
	s.tell("brought back: " + counted(len(s.pad.Entries()), "statement"))
}

// forget deletes what recover would bring back, and says what is left.
func (s *scratchpad) forget() {
	last := s.last()
	if last == nil {
		return
	}
	if problem := last.Forget(); problem != nil {
		s.tell("! "+problem.Message, problem.Hint)
		return
	}
	s.tell("forgotten: " + counted(len(last.Statements), "statement"))
	s.offer()
}

// last takes the last of the scratchpads that were not saved off the list; nil, and
// says so, if there is none.
func (s *scratchpad) last() *journal.Recovered {
	n := len(s.abandoned) - 1
	if n < 0 {
		s.tell("There is nothing to bring back: every earlier scratchpad was saved, recovered or forgotten.")
		return nil
	}
	last := s.abandoned[n]
	s.abandoned = s.abandoned[:n]
	return last
}
