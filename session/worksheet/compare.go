package worksheet

import (
	"slices"
	"strconv"

	"steelyard/session/entry"
	"steelyard/session/record"
	"steelyard/units"
)

func itoa(n int) string { return strconv.Itoa(n) }

// compareAll compares every result with its record, from the top, so that a
// difference that only follows from one above is known as such.
func compareAll(s *Sheet, rows []Row, table *units.Table) {
	unlike := map[int]bool{} // lines
	for i := range rows {
		r := &rows[i]
		r.state, r.recorded = record.Compare(r.Entry, s.Statements[r.at].records, table, record.ByProgram)
		if r.state != record.Differs && r.state != record.Unkept {
			for _, l := range r.Entry.Uses {
				// An unrecorded result hands a difference on.
				if unlike[l] && r.state != record.Agrees {
					unlike[r.Entry.Line] = true
				}
			}
			continue
		}
		for _, l := range r.Entry.Uses {
			if unlike[l] && r.state == record.Differs {
				r.state = record.Follows
			}
		}
		unlike[r.Entry.Line] = true
		if r.state == record.Differs {
			r.Entry.Findings = append(r.Entry.Findings, record.Different(r.Entry, r.recorded, table, func(line int) *entry.Entry {
				at, _ := slices.BinarySearchFunc(rows, line, func(r Row, line int) int { return r.Entry.Line - line })
				return rows[at].Entry
			}))
		}
	}
}
