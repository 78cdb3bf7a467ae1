package session

import (
	"context"
	"encoding/csv"
	"os"
	"strings"
	"testing"

	"steelyard/lang/finding"
)

// FuzzOffers enters a line below others, and then every whole line that a finding
// offers: none is refused, but for a name that no line gives.
func FuzzOffers(f *testing.F) {
	for _, path := range []string{"testdata/readings.csv", "testdata/readings-own.csv"} {
		file, err := os.Open(path)
		if err != nil {
			f.Fatal(err)
		}
		r := csv.NewReader(file)
		r.Comment = '#'
		rows, err := r.ReadAll()
		file.Close()
		if err != nil {
			f.Fatal(err)
		}
		for _, row := range rows[1:] {
			f.Add(row[0], row[1])
		}
	}
	f.Fuzz(func(t *testing.T, scope, line string) {
		if len(scope) > 600 || len(line) > 200 || strings.Contains(line, "\n") {
			return
		}
		p := New()
		for given := range strings.SplitSeq(scope, "; ") {
			p.Enter(context.Background(), given)
		}
		e := p.Enter(context.Background(), line)
		p.Undo()
		for _, found := range e.Findings {
			if found.At.From != 0 || found.At.To != len(e.Text) || found.ID != finding.TwoReadings && found.ID != finding.UnitOrName {
				continue
			}
			for _, offer := range found.Readings {
				got := p.Enter(context.Background(), offer)
				p.Undo()
				for _, bad := range got.Findings {
					if bad.Severity <= finding.Mismatch && bad.ID != finding.NotWorkedOut && bad.ID != finding.UnknownName {
						t.Errorf("%s | %s offers %s, which is refused: %s %s", scope, line, offer, bad.ID, bad.Message)
					}
				}
			}
		}
	})
}
