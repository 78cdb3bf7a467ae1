package textbook

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"steelyard/session"
	"steelyard/session/entry"
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

// digits is to how many digits a number is another: the logarithm of the relative error. What
// should be 0 is it within what rounding leaves of numbers of a million.
func digits(got, want float64) float64 {
	switch {
	case got == want:
		return 15
	case want == 0:
		return -math.Log10(math.Abs(got))
	}
	return min(15, -math.Log10(math.Abs(got-want)/math.Abs(want)))
}

// found is what a page works out of a set, by the names of certified.csv; "sd of" stands
// before what goes into the column of uncertainties.
type found map[string]float64

// TestCertified holds every row of certified.csv against pages, to as many digits as the row
// says; where it says none, what is worked out must round to the value.
func TestCertified(t *testing.T) {
	all, pages := table(t, "certified.csv"), map[string][]found{}
	for i, set := range all["set"] {
		if pages[set] == nil {
			pages[set] = worked(t, set)
		}
		for _, page := range pages[set] {
			for name, text := range map[string]string{"": all["value"][i], "sd of ": all["uncertainty"][i]} {
				to := all["digits"][i]
				if name != "" {
					to = all["digits of uncertainty"][i]
				}
				name += all["quantity"][i]
				if got, ok := page[name]; text != "" && (!ok || !agrees(t, got, text, to)) {
					t.Errorf("%s of %s: %.15g, published %s", name, set, got, text)
				}
			}
		}
	}
}

// agrees tells whether a number is a published one to some digits, or rounds to it.
func agrees(t *testing.T, got float64, text, to string) bool {
	t.Helper()
	want, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	if to == "" {
		_, decimals, _ := strings.Cut(text, ".")
		return math.Abs(got-want) <= 0.5000001*math.Pow10(-len(decimals))
	}
	n, err := strconv.ParseFloat(to, 64)
	if err != nil {
		t.Fatal(err)
	}
	return digits(got, want) >= n
}

// worked works a set out, each in the ways that there are.
func worked(t *testing.T, set string) []found {
	switch file := "_" + strings.ToLower(set) + ".csv"; set {
	case "Lew", "Michelson", "NumAcc1", "NumAcc2", "NumAcc3":
		return []found{univariate(t, table(t, "uni"+file)["y"])}
	case "Norris":
		return []found{fitted(t, "lin"+file, "fit y against x as B1, B0", "B0 + B1*x", "mean(y)", 2)}
	case "NoInt1":
		return []found{fitted(t, "lin"+file, "fit y against x through the origin as B1", "B1*x", "0", 1)}
	case "Wampler1":
		model := "B0 + B1*x + B2*x^2 + B3*x^3 + B4*x^4 + B5*x^5"
		return []found{fitted(t, "lin"+file, "fit y = "+model+" for B0, B1, B2, B3, B4, B5", model, "mean(y)", 6)}
	case "Misra1a", "Chwirut2", "DanWood", "Gauss1":
		return models(t, set, "nls"+file)
	case "PearsonYork", "PearsonYork_yweights":
		return []found{weighted(t, set == "PearsonYork")}
	case "GUM_H1":
		return []found{gauge(t)}
	case "GUM_H2":
		return []found{simultaneous(t)}
	case "S1_9.2.2":
		return []found{fourSources(t, "0.0 ± 1.0")}
	case "S1_9.2.3":
		return []found{fourSources(t, "0.0 ± 1.7320508 uniform")}
	case "S1_9.3":
		return []found{calibration(t)}
	case "TN1900_E2":
		return []found{temperatures(t)}
	}
	t.Fatalf("no page works %s out", set)
	return nil
}

// page is a page that must have no fault.
type page struct {
	t   *testing.T
	pad *session.Pad
}

func newPage(t *testing.T, lines ...string) page {
	p := page{t, session.New()}
	for _, line := range lines {
		p.enter(line)
	}
	return p
}

func (p page) enter(line string) *entry.Entry {
	p.t.Helper()
	e := p.pad.Enter(p.t.Context(), line)
	if e.Failed() {
		p.t.Fatalf("%.80s: %v", line, e.Findings)
	}
	return e
}

// value is what a line comes to and its uncertainty, in the unit that it is shown in.
func (p page) value(line string) (v, u float64) {
	p.t.Helper()
	got := p.enter(line).Values()[0]
	return got.InUnit, got.UInUnit()
}

// note adds a quantity with its uncertainty.
func (f found) note(name string, v, u float64) { f[name], f["sd of "+name] = v, u }

func (p page) budget(line string) *entry.Budget {
	p.t.Helper()
	b, ok := p.enter(line).Outcome.(*entry.Budget)
	if !ok {
		p.t.Fatalf("%s is no budget", line)
	}
	return b
}

func univariate(t *testing.T, y []string) found {
	list := func(y []string) string { return "[" + strings.Join(y, ", ") + "]" }
	p := newPage(t, "y = "+list(y), "y1 = "+list(y[:len(y)-1]), "y2 = "+list(y[1:]))
	out := found{}
	for quantity, text := range map[string]string{"mean": "mean(y)", "sd": "sd(y)", "n": "count(y)",
		"autocorr_lag1": "sum((y1 - mean(y))*(y2 - mean(y)))/sum((y - mean(y))^2)"} {
		out[quantity], _ = p.value(text)
	}
	return out
}

// fitted is what a fit of a set finds; the squares of the regression count from a zero.
func fitted(t *testing.T, file, fit, model, zero string, params int) found {
	data := table(t, file)
	p := newPage(t, "x = ["+strings.Join(data["x"], ", ")+"]", "y = ["+strings.Join(data["y"], ", ")+"]")
	e, out := p.enter(fit), found{}
	for _, v := range e.Values() {
		out.note(v.Name, v.SI, v.U)
	}
	got := e.Result().Fit
	out["residual_sd"], out["r_squared"], out["n"] = got.SD, got.R2, float64(got.N)
	out["residual_ss"], _ = p.value("sum((y - (" + model + "))^2)")
	out["regression_ss"], _ = p.value("sum((" + model + " - " + zero + ")^2)")
	out["dof"], _ = p.value(fmt.Sprintf("count(y) - %d", params))
	return out
}

// models are the fits of a model that is not linear in its parameters: from both certified
// starts, and without a start.
func models(t *testing.T, set, file string) []found {
	all := table(t, "models.csv")
	var names, one, two []string
	var model string
	for i, of := range all["set"] {
		if of == set {
			model = all["expression"][i]
			names = append(names, all["param"][i])
			one = append(one, all["param"][i]+" = "+all["start1"][i])
			two = append(two, all["param"][i]+" = "+all["start2"][i])
		}
	}
	starts := []string{" starting at " + strings.Join(one, ", "), " starting at " + strings.Join(two, ", "), ""}
	if set == "Gauss1" { // two peaks of eight parameters need a start
		starts = starts[:2]
	}
	var out []found
	for _, start := range starts {
		out = append(out, fitted(t, file, "fit y = "+model+" for "+strings.Join(names, ", ")+start, model, "mean(y)", len(names)))
	}
	return out
}

// byOthers ends the names of what others found of the same data.
var byOthers = []string{"", "_york2004", "_williamson1968", "_reed1992", "_lybanon1984", "_york1966", "_searched"}

// weighted is the line of Pearson's data with York's weights, of both or of y alone.
func weighted(t *testing.T, both bool) found {
	all := table(t, "eiv_pearsonyork.csv")
	off := func(weight string) string {
		w, err := strconv.ParseFloat(weight, 64)
		if err != nil {
			t.Fatal(err)
		}
		return strconv.FormatFloat(1/math.Sqrt(w), 'g', -1, 64)
	}
	data := "data\n x  y  u(y)"
	if both {
		data += "  u(x)"
	}
	for i, x := range all["x"] {
		data += "\n " + x + " " + all["y"][i] + " " + off(all["wy"][i])
		if both {
			data += " " + off(all["wx"][i])
		}
	}
	e, out := newPage(t, data).enter("fit y against x as slope, intercept"), found{}
	chi := *e.Result().Fit.ChiSquared
	for _, name := range byOthers {
		for _, v := range e.Values() {
			out.note(v.Name+name, v.SI, v.U)
			out[v.Name+"_scaled_sd"] = v.U * math.Sqrt(chi)
		}
		out["reduced_chi2"+name] = chi
	}
	out["sqrt_reduced_chi2"] = math.Sqrt(chi)
	return out
}

// readings are a list of a mean, with a standard error and its degrees of freedom: n of
// them in equal steps scatter by √(n(n+1)/12) steps.
func readings(mean, u float64, freedom int) string {
	n := freedom + 1
	step, out := u/math.Sqrt(float64(n+1)/12), make([]string, n)
	for i := range out {
		out[i] = strconv.FormatFloat(mean+step*(float64(i)-float64(freedom)/2), 'f', -1, 64)
	}
	return "[" + strings.Join(out, ", ") + "]"
}

// gauge is the end gauge of JCGM 100:2008, H.1. Degrees of freedom come from as many readings;
// those that are off by nothing but what is known of them have none. The three parts of d are
// 9.68 nm together, which the example rounds to 9.7.
func gauge(t *testing.T) found {
	const l, part = "l = lS + d - lS*(dα*θ1 + αS*dθ) in nm", 9.7 / 9.681942
	plain := []string{"lS = 50000623 ± 25 nm", "d = 215 ± 9.7 nm", "αS = 11.5e-6 ± 1.2e-6 K^-1", "θ1 = -0.1 ± 0.41 K",
		"dα = 0 ± 0.58e-6 K^-1", "dθ = 0 ± 0.029 K", l}
	out := found{}
	p := newPage(t, plain[:len(plain)-1]...)
	v, u := p.value(l)
	out.note("l_nm", v, u)
	out["uc_unrounded_nm"] = u
	for _, s := range p.budget("budget l").Sources {
		switch s.Name {
		case "dα":
			out["contribution_dalpha_nm"] = u * math.Sqrt(s.Share)
		case "dθ":
			out["contribution_dtheta_nm"] = u * math.Sqrt(s.Share)
		}
	}
	out["uc_second_order_nm"] = p.budget("budget l by sampling").Sampled.U * 1e9

	p = newPage(t, "L = "+readings(50000623, 25, 18)+" nm", "lS = mean(L)", "D0 = "+readings(215, 5.8*part, 24)+" nm",
		"D1 = "+readings(0, 3.9*part, 5)+" nm", "D2 = "+readings(0, 6.7*part, 8)+" nm", "d = mean(D0) + mean(D1) + mean(D2)", plain[2], plain[3],
		"A = "+readings(0, 0.58, 50)+"", "dα = mean(A)*(1e-6 K^-1)", "B = "+readings(0, 0.029, 2)+" K", "dθ = mean(B)", l)
	out["d_effective_dof"] = p.budget("budget d covering 99 %").Expanded.Freedom
	expanded := p.budget("budget l covering 99 %").Expanded
	out["effective_dof"] = expanded.Freedom
	factor := func(freedom int) float64 {
		return newPage(t, "T = "+readings(1, 0.1, freedom), "Y = mean(T)").budget("budget Y covering 99 %").Expanded.Factor
	}
	out["k_99_16dof"], out["U99_nm"] = factor(16), expanded.Factor*u
	between := expanded.Freedom - 16 // what the program cuts off, interpolated here
	out["U99_at_untruncated_dof_nm"] = (factor(16) + between*(factor(17)-factor(16))) * u
	return out
}

// simultaneous is the resistance and reactance of JCGM 100:2008, H.2, from paired readings. How
// two values go together is told by the uncertainties of their sum and their difference.
func simultaneous(t *testing.T) found {
	p := newPage(t, "data\n  V / V  I / A  φ / rad\n  5.007  0.019663  1.0456\n  4.994  0.019639  1.0438\n  5.005  0.019640  1.0468\n"+
		"  4.990  0.019685  1.0428\n  4.999  0.019678  1.0433",
		"V1 = mean(V)", "I1 = mean(I)", "φ1 = mean(φ)", "R = V1/I1*cos(φ1)", "X = V1/I1*sin(φ1)", "Z = V1/I1",
		"aV = V1/u(V1)", "aI = I1/u(I1)", "aφ = φ1/u(φ1)", "aR = R/u(R)", "aX = X/u(X)", "aZ = Z/u(Z)")
	out := found{}
	for quantity, name := range map[string]string{"V_mean": "V1", "I_mean": "I1", "phi_mean": "φ1", "R_ohm": "R", "X_ohm": "X", "Z_ohm": "Z"} {
		v, u := p.value(name)
		out.note(quantity, v, u)
	}
	for _, pair := range []string{"V I", "V phi", "I phi", "R X", "R Z", "X Z"} {
		a, b, _ := strings.Cut(pair, " ")
		sides := "a" + a + " ± a" + strings.Replace(b, "phi", "φ", 1)
		out["r_"+a+"_"+b], _ = p.value("(u(" + strings.Replace(sides, "±", "+", 1) + ")^2 - u(" + strings.Replace(sides, "±", "-", 1) + ")^2)/4")
	}
	return out
}

// fourSources is the sum of four alike, JCGM 101:2008, 9.2.
func fourSources(t *testing.T, x string) found {
	p := newPage(t, "X1 = "+x, "X2 = "+x, "X3 = "+x, "X4 = "+x, "Y = X1 + X2 + X3 + X4")
	sampled := p.budget("budget Y by sampling").Sampled
	return found{"u_y": sampled.U, "interval95_high": sampled.Hi, "interval95_high_first_order": p.budget("budget Y covering 95 %").Expanded.U}
}

// calibration is the mass of JCGM 101:2008, 9.3. What the second order adds is that of the
// products of two that are off, as its derivatives by each pair are all that count.
func calibration(t *testing.T) found {
	p := newPage(t, "mR = 100000.000 ± 0.050 mg", "d = 1.234 ± 0.020 mg", "ρa = 1.20 ± 0.10 kg/m^3 uniform",
		"ρW = 8000 ± 1000 kg/m^3 uniform", "ρR = 8000 ± 50 kg/m^3 uniform",
		"Y = (mR + d)*(1 + (ρa - 1.2 kg/m^3)*(1/ρW - 1/ρR)) - 100000 mg in mg")
	out := found{}
	v, u := p.value("Y in mg")
	second, _ := p.value("√(u(Y)^2 + (mR*u(ρa)*u(ρW)/ρW^2)^2 + (mR*u(ρa)*u(ρR)/ρR^2)^2) in mg")
	factor := p.budget("budget Y covering 95 %").Expanded.Factor
	sampled := p.budget("budget Y by sampling").Sampled
	out["estimate_mg"] = v
	for order, u := range map[string]float64{"first": u, "second": second} {
		out["u_"+order+"_order_mg"], out["low95_"+order+"_order_mg"], out["high95_"+order+"_order_mg"] = u, v-factor*u, v+factor*u
	}
	out["u_mcm_mg"], out["low95_shortest_mcm_mg"], out["high95_shortest_mcm_mg"] = sampled.U*1e6, sampled.Lo*1e6, sampled.Hi*1e6
	return out
}

// temperatures is the mean of the readings of NIST TN 1900, example E2.
func temperatures(t *testing.T) found {
	p := newPage(t, "T = ["+strings.Join(table(t, "tn1900_e2.csv")["t_degC"], ", ")+"] °C", "Y = mean(T)")
	out := found{}
	v, u := p.value("Y")
	out.note("mean_degC", v, u)
	k := p.budget("budget Y covering 95 %").Expanded.Factor
	out["k95_21dof"], out["low95_degC"], out["high95_degC"] = k, v-k*u, v+k*u
	return out
}
