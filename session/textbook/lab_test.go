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

// certified is the certified values of a set by quantity, with their standard deviations.
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
			if sd, err := strconv.ParseFloat(all["uncertainty"][i], 64); err == nil {
				out["sd of "+all["quantity"][i]] = sd
			}
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

// TestLines holds fitted lines against the certified ones, to nine digits.
func TestLines(t *testing.T) {
	for set, fit := range map[string]string{"Norris": "fit y against x as B1, B0", "NoInt1": "fit y against x through the origin as B1"} {
		want := certified(t, set)
		all := table(t, "lin_"+strings.ToLower(set)+".csv")
		pad := session.New()
		for _, name := range []string{"x", "y"} {
			pad.Enter(t.Context(), name+" = ["+strings.Join(all[name], ", ")+"]")
		}
		e := pad.Enter(t.Context(), fit)
		if e.Failed() {
			t.Fatal(e.Findings)
		}
		got := e.Result().Fit
		for _, v := range e.Values() {
			if digits(v.SI, want[v.Name]) < 9 || digits(v.U, want["sd of "+v.Name]) < 9 {
				t.Errorf("%s of %s: %v ± %v, certified %v ± %v", v.Name, set, v.SI, v.U, want[v.Name], want["sd of "+v.Name])
			}
		}
		if digits(got.R2, want["r_squared"]) < 9 || digits(got.SD, want["residual_sd"]) < 9 || got.N != int(want["n"]) {
			t.Errorf("%s: %+v", set, got)
		}
	}
}

// TestModels holds models that are not linear in their parameters against the certified
// ones, to six digits from both certified starts; and to six without a start.
func TestModels(t *testing.T) {
	all := table(t, "models.csv")
	for _, set := range []string{"Misra1a", "Chwirut2", "DanWood", "Gauss1"} {
		want, data := certified(t, set), table(t, "nls_"+strings.ToLower(set)+".csv")
		var names, one, two []string
		model := ""
		for i, of := range all["set"] {
			if of == set {
				model = all["response"][i] + " = " + all["expression"][i]
				names = append(names, all["param"][i])
				one = append(one, all["param"][i]+" = "+all["start1"][i])
				two = append(two, all["param"][i]+" = "+all["start2"][i])
			}
		}
		fit := "fit " + model + " for " + strings.Join(names, ", ")
		starts := []string{" starting at " + strings.Join(one, ", "), " starting at " + strings.Join(two, ", ")}
		if set != "Gauss1" { // two peaks of eight parameters need a start
			starts = append(starts, "")
		}
		for _, start := range starts {
			pad := session.New()
			for _, name := range []string{"x", "y"} {
				pad.Enter(t.Context(), name+" = ["+strings.Join(data[name], ", ")+"]")
			}
			e := pad.Enter(t.Context(), fit+start)
			if e.Failed() {
				t.Errorf("%s%s: %v", set, start, e.Findings)
				continue
			}
			for i, v := range e.Values() {
				if digits(v.SI, want[names[i]]) < 6 || digits(v.U, want["sd of "+names[i]]) < 6 {
					t.Errorf("%s of %s%s: %v ± %v, certified %v ± %v", names[i], set, start, v.SI, v.U, want[names[i]], want["sd of "+names[i]])
				}
			}
			if sd := e.Result().Fit.SD; digits(sd, want["residual_sd"]) < 6 {
				t.Errorf("%s%s: %v, certified %v", set, start, sd, want["residual_sd"])
			}
		}
	}
}

// TestPolynomial holds a model that is linear in its parameters against the certified
// ones, to nine digits.
func TestPolynomial(t *testing.T) {
	want, data := certified(t, "Wampler1"), table(t, "lin_wampler1.csv")
	pad := session.New()
	for _, name := range []string{"x", "y"} {
		pad.Enter(t.Context(), name+" = ["+strings.Join(data[name], ", ")+"]")
	}
	e := pad.Enter(t.Context(), "fit y = B0 + B1*x + B2*x^2 + B3*x^3 + B4*x^4 + B5*x^5 for B0, B1, B2, B3, B4, B5")
	if e.Failed() {
		t.Fatal(e.Findings)
	}
	for _, v := range e.Values() {
		if digits(v.SI, want[v.Name]) < 9 {
			t.Errorf("%s: %v, certified %v", v.Name, v.SI, want[v.Name])
		}
	}
}

// TestLineInBoth holds the line of Pearson's data with York's weights against the exact
// solution, to the nine digits that it is published with; and with the weights of y alone.
func TestLineInBoth(t *testing.T) {
	all := table(t, "eiv_pearsonyork.csv")
	off := func(weight string) string {
		w, err := strconv.ParseFloat(weight, 64)
		if err != nil {
			t.Fatal(err)
		}
		return strconv.FormatFloat(1/math.Sqrt(w), 'g', -1, 64)
	}
	var both, alone strings.Builder
	both.WriteString("data\n x  y  u(x)  u(y)")
	alone.WriteString("data\n x  y  u(y)")
	for i, x := range all["x"] {
		both.WriteString("\n " + x + " " + all["y"][i] + " " + off(all["wx"][i]) + " " + off(all["wy"][i]))
		alone.WriteString("\n " + x + " " + all["y"][i] + " " + off(all["wy"][i]))
	}
	for set, data := range map[string]string{"PearsonYork": both.String(), "PearsonYork_yweights": alone.String()} {
		want := certified(t, set)
		pad := session.New()
		pad.Enter(t.Context(), data)
		e := pad.Enter(t.Context(), "fit y against x as slope, intercept")
		if e.Failed() {
			t.Fatal(e.Findings)
		}
		for _, v := range e.Values() {
			if digits(v.SI, want[v.Name]) < 9 {
				t.Errorf("%s of %s: %v, published %v", v.Name, set, v.SI, want[v.Name])
			}
			if sd, ok := want["sd of "+v.Name]; ok && digits(v.U, sd) < 8 {
				t.Errorf("%s of %s: ± %v, published %v", v.Name, set, v.U, sd)
			}
		}
		if chi, ok := want["reduced_chi2"]; ok && digits(*e.Result().Fit.ChiSquared, chi) < 9 {
			t.Errorf("%s: %v, published %v", set, *e.Result().Fit.ChiSquared, chi)
		}
	}
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
