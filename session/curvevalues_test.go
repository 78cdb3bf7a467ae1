package session

import (
	"context"
	"strings"
	"testing"

	"steelyard/lang/finding"
	"steelyard/session/entry"
)

// A place that is worked out, such as three quarters of a period, is off by a few
// roundings: a curve that is 0 there is shown as 0.
func TestTableZeros(t *testing.T) {
	p := New()
	for _, line := range []string{"A = 6.0 cm", "ω = 17.8885 s^-1", "T = 2*π/ω", "x(t) = A*cos(ω*t)"} {
		p.Enter(context.Background(), line)
	}
	table := tableOf(p.Enter(context.Background(), "table x(t) against t from 0 s to 5*T by T/4"))
	for i, row := range table.Rows {
		if got := row[1].Value.SI; (got == 0) != (i%2 == 1) {
			t.Errorf("row %d: %g m", i, got)
		}
	}
}

// A table reads as lines do: what is 0 but for rounding is 0, also under a root and below a
// bar.
func TestTableSettles(t *testing.T) {
	p := New()
	p.Enter(context.Background(), "c = 0.1")
	for _, line := range []string{
		"table √(0.1+0.2-0.3)*z against z from 0 to 3 by 1",
		"table √(c+0.2-0.3)*z against z from 0 to 3 by 1",
		"table √(1 - sin(z)^2 - cos(z)^2) against z from 0° to 180° by 30°",
	} {
		for i, row := range tableOf(p.Enter(context.Background(), line)).Rows {
			if v := row[1].Value; v == nil || v.SI != 0 {
				t.Errorf("%s: row %d: %v", line, i, v)
			}
		}
	}
	row := tableOf(p.Enter(context.Background(), "table 1/(z + 0.2 - 0.3) against z from 0.1 to 0.3 by 0.1")).Rows[0]
	if v := row[1].Value; v != nil {
		t.Errorf("1/0 is %v", v)
	}
}

// A value where two pieces of a function meet is no residue, however far the function jumps
// there.
func TestTableAtJumps(t *testing.T) {
	p := New()
	for _, line := range []string{"f(t) =\n  (0.3 m)*t/(1 s) for 0 s ≤ t < 2 s\n  1.2 m for t ≥ 2 s", "g(t) =\n  1 m for t ≤ 2 s\n  -1 m for t > 2 s"} {
		p.Enter(context.Background(), line)
	}
	table := tableOf(p.Enter(context.Background(), "table f(t), g(t) against t from 0 s to 4 s by 1 s"))
	for i, want := range [][2]float64{{0, 1}, {0.3, 1}, {1.2, 1}, {1.2, -1}, {1.2, -1}} {
		if row := table.Rows[i]; row[1].Value.SI != want[0] || row[2].Value.SI != want[1] {
			t.Errorf("row %d: %g m and %g m", i, row[1].Value.SI, row[2].Value.SI)
		}
	}
}

// TestLevel draws what is constant but for rounding as one line, without dots of jumps.
func TestLevel(t *testing.T) {
	p := enter(t, "r(t) = (3.0 m*cos(2 rad/s*t), 3.0 m*sin(2 rad/s*t))")
	for line, want := range map[string]string{
		"graph |r(t)| against t from 0 s to 1 s":             "|r(t)| is constant: 3 m, judged from 257 values.",
		"graph √(sin(x)^2 + cos(x)^2) against x from 0 to 3": "√(sin(x)² + cos(x)²) is constant: 1, judged from 257 values.",
	} {
		e := p.Enter(context.Background(), line)
		g := e.Outcome.(*entry.Graph)
		if got := strings.Join(told(e), " "); got != want || len(g.Curves[0].Dots) > 0 || len(g.Curves[0].Runs) != 1 {
			t.Errorf("%s: %q, want %q; %d dots", line, got, want, len(g.Curves[0].Dots))
		}
	}
}

// TestCircle tells the places of a path in the order of their times, without rests of rounding.
func TestCircle(t *testing.T) {
	p := enter(t, "r(t) = (2 m at (1 rad/s*t))")
	got := strings.Join(told(p.Enter(context.Background(), "graph r(t) for t from 0 s to 10 s")), " ")
	for _, want := range []string{
		"It is highest when t = 1.5708 s, at (0 m, 2 m) and t = 7.85398 s, at (0 m, 2 m).",
		"It turns back when t = 3.14159 s, at (-2 m, 0 m), t = 6.28319 s, at (2 m, 0 m) and t = 9.42478 s, at (-2 m, 0 m).",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("%q is not in %q", want, got)
		}
	}
}

// TestVariedThroughFunctions varies a given that functions called on the line hold, whichever
// line gave it; by hand from 1/2*k*x^2.
func TestVariedThroughFunctions(t *testing.T) {
	p := enter(t, "k = 100 N/m", "v0 = 3 m/s", "W(x) = 1/2*k*x^2", "E0 = W(1 m)", "r(t) = (v0*t, 2 m)", "part b", "k = 200 N/m")
	for line, want := range map[string]string{
		"table W(1 m), E0 against k from 100 N/m to 300 N/m by 100 N/m":         "50 50|100 100|150 150",
		"table W(1 m) against k from 100 N/m to 300 N/m by 100 N/m":             "50|100|150",
		"table |r(2 s)| against v0 from 0 m/s to 0.75 m/s by 0.75 m/s":          "2|2.5",
		"table slope of W(x) at x = 1 m against k from 1 N/m to 2 N/m by 1 N/m": "1|2",
	} {
		e := p.Enter(context.Background(), line)
		var rows []string
		for _, r := range tableOf(e).Rows {
			cells := r[1].String()
			for _, c := range r[2:] {
				cells += " " + c.String()
			}
			rows = append(rows, cells)
		}
		if got := strings.Join(rows, "|"); got != want {
			t.Errorf("%s: %q, want %q; %v", line, got, want, e.Findings)
		}
	}
	for _, line := range []string{"check area under E0 against k from 0 N/m to 2 N/m = (1 J)*(1 N/m)", "check slope of E0 at k = 100 N/m = 0.5 m^2"} {
		if e := p.Enter(context.Background(), line); e.Failed() {
			t.Errorf("%s: %v", line, e.Findings)
		}
	}
	p.Enter(context.Background(), "E = W(1 m) + k*(1 m)^2")
	for _, line := range []string{"area under E against k from 0 N/m to 1 N/m", "slope of E at k = 1 N/m"} {
		if e := p.Enter(context.Background(), line); len(e.Findings) != 1 || e.Findings[0].ID != finding.TwoReadings {
			t.Errorf("%s: %v", line, e.Findings)
		}
	}
}

// TestNoDecades offers no logarithmic axis up for a curve that is small only where it falls
// to 0.
func TestNoDecades(t *testing.T) {
	for _, line := range []string{
		"graph 53 m - 1/2*g*t^2 against t from 0 s to 3.287 s",
		"graph 1 m + x against x from 0 m to 1 km",
	} {
		for _, f := range New().Enter(context.Background(), line).Findings {
			if f.ID == finding.Decades {
				t.Errorf("%s: %s", line, f.Message)
			}
		}
	}
}

// TestAreaOfHalves finds no residue in the area of a force that is reversed half-way.
func TestAreaOfHalves(t *testing.T) {
	for _, half := range []string{"0.001", "0.7", "0.013"} {
		p := enter(t, "a = "+half+" m", "F(x) =\n  5 N for 0 m ≤ x ≤ "+half+" m\n  -5 N for "+half+" m ≤ x")
		e := p.Enter(context.Background(), "area under F(x) from 0 m to 2*a")
		if v := e.Values(); len(v) != 1 || v[0].SI != 0 {
			t.Errorf("%s m: %v %v", half, v, e.Findings)
		}
	}
}
