package main

import (
	"strings"

	"steelyard/session/journal"
)

// keep writes a statement to the journal, or the title of the worksheet as its
// first line gives it.
func (s *scratchpad) keep(text string, title bool) {
	s.kept = append(s.kept, title)
	s.cautioned(s.journal.Accept(text))
}

// keepTitle writes the title to the journal, where there is one.
func (s *scratchpad) keepTitle() {
	if title := s.pad.Title(); title != "" {
		s.keep("worksheet 1 "+title, true)
	}
}

// unkeep takes the last statement out of the journal. A title given after it
// stays.
func (s *scratchpad) unkeep() {
	titles := false
	for n := len(s.kept); n > 0; n = len(s.kept) {
		title := s.kept[n-1]
		s.kept = s.kept[:n-1]
		s.cautioned(s.journal.Undo())
		if !title {
			break
		}
		titles = true
	}
	if titles {
		s.keepTitle()
	}
}

// keptBefore notes the statements that a journal holds already.
func (s *scratchpad) keptBefore(texts []string) {
	s.kept = nil
	for _, text := range texts {
		s.kept = append(s.kept, strings.HasPrefix(text, "worksheet "))
	}
}

func (s *scratchpad) cautioned(problem *journal.Problem) {
	if problem != nil {
		s.tell("caution: " + problem.Message)
	}
}
