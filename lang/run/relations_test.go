package run_test

import (
	"encoding/csv"
	"math"
	"os"
	"strings"
	"testing"

	"steelyard/lang/run"
)

// runtimeRelation is a row of testdata/relations.csv. Its sections are those of
// University Physics Volume 1 (UP1), College Physics 2e (CP2e) and Physics for
// high school (HS), OpenStax, CC BY 4.0.
type runtimeRelation struct {
	id, equation, swept string
	names               []string
	values              []float64
}

func runtimeRelations(t testing.TB) []runtimeRelation {
	t.Helper()
	file, err := os.Open("testdata/relations.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	some := []float64{1.3, 0.7, 2.1, 1.9, 0.55, 1.7, 2.3}
	var out []runtimeRelation
	for _, r := range rows[1:] {
		names := strings.Fields(r[4])
		_, right, _ := strings.Cut(r[2], "= ")
		out = append(out, runtimeRelation{r[0], right, r[3], names, some[:len(names)]})
	}
	return out
}

// plan returns the columns of a relation, its program and result.
func (r *runtimeRelation) plan(t testing.TB) (*run.Columns, *run.Program, run.Slot) {
	t.Helper()
	p, out := program(t, r.equation, r.names)
	st := ran(p, r.values)
	f, ok := p.Columns(st, []run.Slot{out}, []run.Slot{r.slot()})
	if !ok {
		t.Fatalf("%s: no columns", r.id)
	}
	return f, p, out
}

// slot is the slot of the swept name.
func (r *runtimeRelation) slot() run.Slot {
	for i, n := range r.names {
		if n == r.swept {
			return run.Slot(i + 1)
		}
	}
	return run.NoSlot
}

// runtimeSweep returns n values that grow from lo to hi.
func runtimeSweep(n int, lo, hi float64) []float64 {
	x := make([]float64, n)
	for i := range x {
		x[i] = lo + (hi-lo)*float64(i)/float64(n)
	}
	return x
}

// ulps is the distance of two numbers in units of the last place.
func ulps(a, b float64) float64 {
	if a == b || a != a && b != b {
		return 0
	}
	m := max(math.Abs(a), math.Abs(b))
	return math.Abs(a-b) / (math.Nextafter(m, math.Inf(1)) - m)
}
