package textbook

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"steelyard/session"
)

// table is a file of data as its columns by name. Lines that begin with # are left out.
func table(t *testing.T, name string) map[string][]string {
	t.Helper()
	f, err := os.Open(filepath.Join("testdata", "lab", name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	out := map[string][]string{}
	for i, head := range rows[0] {
		for _, row := range rows[1:] {
			out[head] = append(out[head], row[i])
		}
	}
	return out
}

// certified is the certified values of a set by quantity.
func certified(t *testing.T, set string) map[string]float64 {
	all := table(t, "certified.csv")
	out := map[string]float64{}
	for i, s := range all["set"] {
		if s == set {
			v, err := strconv.ParseFloat(all["value"][i], 64)
			if err != nil {
				t.Fatal(err)
			}
			out[all["quantity"][i]] = v
		}
	}
	return out
}

// digits is to how many digits a number is another: the logarithm of the relative error.
func digits(got, want float64) float64 {
	if got == want {
		return 15
	}
	return min(15, -math.Log10(math.Abs(got-want)/math.Abs(want)))
}

// TestUnivariate holds means and standard deviations against the certified ones, to nine
// digits.
func TestUnivariate(t *testing.T) {
	for _, set := range []string{"Lew", "Michelson", "NumAcc1", "NumAcc2", "NumAcc3"} {
		want := certified(t, set)
		pad := session.New()
		y := table(t, "uni_"+strings.ToLower(set)+".csv")["y"]
		pad.Enter(t.Context(), "y = ["+strings.Join(y, ", ")+"]")
		for call, quantity := range map[string]string{"mean(y)": "mean", "sd(y)": "sd", "count(y)": "n"} {
			e := pad.Enter(t.Context(), call)
			if e.Failed() || digits(e.Values()[0].SI, want[quantity]) < 9 {
				t.Errorf("%s of %s: %v, certified %v", quantity, set, e.Values(), want[quantity])
			}
		}
	}
}
