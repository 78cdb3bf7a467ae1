package textbook

import (
	"context"
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"steelyard/lang/finding"
	"steelyard/session"
)

// TestVectors works each row of the published problems on vectors out as statements: to the
// value worked out from its givens and, unless the row says why not, to the published one.
func TestVectors(t *testing.T) {
	f, err := os.Open("testdata/vectors.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil || len(rows) < 200 {
		t.Fatal(err, len(rows))
	}
	column := map[string]int{}
	for i, head := range rows[0] {
		column[head] = i
	}
	for _, row := range rows[1:] {
		of := func(head string) string { return row[column[head]] }
		t.Run(of("id"), func(t *testing.T) {
			p := session.New()
			// The file has products of units as print may have them, and a mass called a, which
			// is asked about in g.
			givens := strings.NewReplacer("N*m", "N m", "m*s", "m s", "kg*m", "kg m", " g;", " gram;").Replace(of("givens"))
			lines := strings.Split(givens+"; "+of("derivation"), "; ")
			last := len(lines) - 1
			if unit := of("published_unit"); unit != "1" {
				lines[last] += " in " + unit
			}
			var got float64
			for _, line := range lines {
				e := p.Enter(context.Background(), strings.TrimSpace(line))
				for _, f := range e.Findings {
					if f.Severity <= finding.Mismatch {
						t.Errorf("%s: %s %s", line, f.Message, f.Hint)
					}
				}
				if values := e.Values(); len(values) > 0 {
					got = values[0].InUnit
				}
			}
			want, _ := strconv.ParseFloat(of("computed_value"), 64)
			if math.Abs(got-want) > 1e-9*math.Abs(want)+1e-12 {
				t.Errorf("%s: %v, want %v", strings.Join(lines, "; "), got, want)
			}
			published, _ := strconv.ParseFloat(of("published_value"), 64)
			figures, _ := strconv.Atoi(of("published_sf"))
			step := math.Pow10(int(math.Floor(math.Log10(math.Abs(published)))) - figures + 1)
			if !strings.Contains(of("notes"), "FLAG") && published != 0 && math.Abs(got-published) > 0.5*step*(1+1e-9) {
				t.Errorf("%s: %v, published %v to %d figures", strings.Join(lines, "; "), got, published, figures)
			}
		})
	}
}
