package main

import (
	"context"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"steelyard/session/journal"
	"steelyard/session/live"
	"steelyard/units/writing"
)

// startJournal begins a journal, and offers what earlier runs left behind.
func (s *scratchpad) startJournal() {
	s.abandoned = journal.Abandoned(journal.Dir())
	s.newJournal()
	s.offer()
}

// offer says what recover would bring back: the scratchpads that ended without being
// saved, the last first.
func (s *scratchpad) offer() {
	switch n := len(s.abandoned); {
	case n == 1:
		last := s.abandoned[0]
		s.tell("A scratchpad of " + when(last) + " ended without being saved: " + writing.Count(len(last.Statements), "statement") + ".")
		if len(last.Statements) > 0 {
			s.tell("It begins with `" + live.FirstRow(last.Statements[0]) + "`.")
		}
		s.tell("`recover` brings it back, `forget` deletes it; until then it is kept.")
	case n > 1:
		s.tell("Scratchpads that ended without being saved:")
		for i, one := range slices.Backward(s.abandoned) {
			begins := ""
			if len(one.Statements) > 0 {
				begins = ", begins with `" + live.FirstRow(one.Statements[0]) + "`"
			}
			s.tell(fmt.Sprintf("%d  %s: %s%s", n-i, when(one), writing.Count(len(one.Statements), "statement"), begins))
		}
		s.tell("`recover 1` brings the first of them back, `forget 1` deletes it; until then they are kept.")
	}
}

func when(r *journal.Recovered) string { return r.Last.Local().Format("2 January, 15:04") }

// recover brings back the statements of an earlier run; where there are several, it lists
// them unless one is named.
func (s *scratchpad) recover(ctx context.Context, arg string) {
	which, anyway := strings.CutSuffix(" "+arg, " anyway")
	which = strings.TrimSpace(which)
	if which == "" && len(s.abandoned) > 1 {
		s.offer()
		return
	}
	at, ok := s.lost("recover", which)
	switch {
	case !ok:
		return
	case s.unsaved && len(s.pad.Entries()) > 0 && !anyway:
		s.tell("What is on the scratchpad is not saved. Save it first, or write: " + strings.TrimSpace("recover "+which) + " anyway")
		return
	}
	last := s.take(at)
	resumed, problem := last.Resume()
	if problem != nil {
		s.tell("! "+problem.Message, problem.Hint)
		return
	}
	// From here on this run writes the journal that it was recovered from.
	s.journal.Close(false)
	s.pad, s.file, s.journal, s.next = s.blank(), openFile{}, resumed, nil
	s.pad.SetTitle(last.Title)
	for _, text := range last.Statements {
		s.show(s.pad.Add(ctx, text))
	}
	s.unsaved = true
	s.tell("brought back: " + writing.Count(len(s.pad.Entries()), "statement"))
	s.read = filesRead{rows: last.Reads}
	s.keepRead()
	s.tellChanged(last.Reads)
}

// forget deletes one of those that recover would bring back, and says what is left.
func (s *scratchpad) forget(which string) {
	at, ok := s.lost("forget", which)
	if !ok {
		return
	}
	last := s.take(at)
	if problem := last.Forget(); problem != nil {
		s.tell("! "+problem.Message, problem.Hint)
		return
	}
	s.tell("forgotten: " + writing.Count(len(last.Statements), "statement"))
	s.offer()
}

// lost finds the scratchpad that a command names by its number, or the only one; false,
// and says so, if there is none.
func (s *scratchpad) lost(command, which string) (at int, ok bool) {
	n := len(s.abandoned)
	number, err := strconv.Atoi(which)
	switch {
	case n == 0:
		s.tell("There is nothing to bring back: every earlier scratchpad was saved, recovered or forgotten.")
	case which == "" && n == 1:
		return 0, true
	case which == "":
		s.tell("There are " + strconv.Itoa(n) + " of them; say which: `" + command + " 1`. `recover` lists them.")
	case err != nil || number < 1 || number > n:
		s.tell("Write `" + command + "` and a number from 1 to " + strconv.Itoa(n) + ". `recover` lists the scratchpads.")
	default:
		return n - number, true
	}
	return 0, false
}

// take takes one off the list.
func (s *scratchpad) take(at int) *journal.Recovered {
	one := s.abandoned[at]
	s.abandoned = slices.Delete(s.abandoned, at, at+1)
	return one
}
