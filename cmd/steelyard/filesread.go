package main

import (
	"fmt"
	"hash/fnv"
	"slices"
	"strings"

	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/units"
	"steelyard/units/each"
)

// filesRead is what the files that the lines of a page read came to: a digest of the values
// of each such line. A journal keeps no file, so that a page which is brought back reads
// them anew, and may come out otherwise.
type filesRead struct {
	lines []*entry.Entry // that read a file
	rows  string
}

// keepRead writes to the journal what the files came to, if that has changed.
func (s *scratchpad) keepRead() {
	var lines []*entry.Entry
	for _, e := range s.pad.Entries() {
		if data, is := e.Stmt.(*syntax.Data); is && data.File != "" {
			lines = append(lines, e)
		}
	}
	if slices.Equal(lines, s.read.lines) {
		return
	}
	was := s.read.rows
	s.read = filesRead{lines: lines}
	if s.read.rows = strings.Join(each.Of(lines, digest), "\n"); s.read.rows != was {
		s.cautioned(s.journal.Reads(s.read.rows))
	}
}

// digest tells what a line has read from what it would read in another file (FNV-1a of 64
// bits); it is no protection against a file made to have it.
func digest(e *entry.Entry) string {
	h := fnv.New64a()
	for _, v := range e.Values() {
		fmt.Fprintf(h, "%s = %s\n", v.Name, v.Shown(units.File))
	}
	return fmt.Sprintf("%016x", h.Sum64())
}

// tellChanged cautions where a line that is brought back reads other values than it did.
func (s *scratchpad) tellChanged(was string) {
	before, now := strings.Split(was, "\n"), strings.Split(s.read.rows, "\n")
	for i, e := range s.read.lines {
		if i < len(before) && before[i] != now[i] && !e.Failed() {
			s.tell(fmt.Sprintf("caution: %s has changed since line %d read it. The page uses the file as it is now.",
				e.Stmt.(*syntax.Data).File, e.Line))
		}
	}
}
