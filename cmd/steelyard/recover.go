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
	s.offer(atStart)
}

// atStart is how many scratchpads that weren't saved are listed before the first line: more
// would push what is being worked on off the screen.
const atStart = 5

// offer says what recover would bring back: the scratchpads that ended without being
// saved, the last first, and of many only the first.
func (s *scratchpad) offer(most int) {
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
			if n-i > most {
				s.tell(fmt.Sprintf("and %d more: `recover` lists them all.", i+1))
				break
			}
			begins := ""
			if len(one.Statements) > 0 {
				begins = ", begins with `" + live.FirstRow(one.Statements[0]) + "`"
			}
			s.tell(fmt.Sprintf("%d  %s: %s%s", n-i, when(one), writing.Count(len(one.Statements), "statement"), begins))
		}
		s.tell("`recover 1` brings the first of them back, `forget 1` deletes it, `forget all` all of them; until then they are kept.")
	}
}

func when(r *journal.Recovered) string { return r.Last.Local().Format("2 January, 15:04") }

// recover brings back the statements of an earlier run; where there are several, it lists
// them unless one is named.
func (s *scratchpad) recover(ctx context.Context, arg string) {
	which, anyway := strings.CutSuffix(" "+arg, " anyway")
	which = strings.TrimSpace(which)
	if which == "" && len(s.abandoned) > 1 {
		s.offer(len(s.abandoned))
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

// forget deletes one of those that recover would bring back, or all, and says what is left.
func (s *scratchpad) forget(which string) {
	if which == "all" && len(s.abandoned) > 0 {
		for len(s.abandoned) > 0 && s.forgotten(len(s.abandoned)-1) {
		}
		s.offer(atStart)
		return
	}
	if at, ok := s.lost("forget", which); ok && s.forgotten(at) {
		s.offer(atStart)
	}
}

// forgotten deletes one of them; false, and says so, where that can't be done.
func (s *scratchpad) forgotten(at int) bool {
	last := s.take(at)
	problem := last.Forget()
	if problem != nil {
		s.tell("! "+problem.Message, problem.Hint)
		return false
	}
	s.tell("forgotten: " + writing.Count(len(last.Statements), "statement"))
	return true
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
