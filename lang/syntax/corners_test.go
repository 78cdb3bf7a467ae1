package syntax

import (
	"strconv"
	"strings"
	"testing"

	"steelyard/lang/finding"
	"steelyard/lang/limit"
)

// TestHolds looks for a name where a slope or an area has one of its own.
func TestHolds(t *testing.T) {
	for _, c := range []struct {
		text, name string
		want       bool
	}{
		{"area under v(t) from 0 s to 3 s", "t", false},
		{"area under v(t) from 0 s to t", "t", true},
		{"area under v(t) from t0 to 3 s", "t0", true},
		{"slope of x(t) at t = 3 s", "t", false},
		{"slope of x(t) at t = 2*t", "t", true},
		{"2*(k + t)", "t", true},
		{"2*(k + t@3)", "t", false},
	} {
		x, bad := ParseExpr(c.text)
		if len(bad) > 0 {
			t.Fatalf("%s: %s", c.text, bad[0].Message)
		}
		if got := Holds(x, c.name); got != c.want {
			t.Errorf("%s holds %s: %v", c.text, c.name, got)
		}
	}
}

// TestTooMany holds two limits at N and at N + 1.
func TestTooMany(t *testing.T) {
	function := func(n int) string {
		names := make([]string, n)
		for i := range names {
			names[i] = "a" + strconv.Itoa(i)
		}
		return "f(" + strings.Join(names, ", ") + ") = 3"
	}
	if _, bad := Parse(function(limit.Args)); len(bad) > 0 {
		t.Errorf("%d arguments: %s", limit.Args, bad[0].Message)
	}
	if _, bad := Parse(function(limit.Args + 1)); len(bad) != 1 || bad[0].ID != finding.TooLong {
		t.Errorf("%d arguments: %v", limit.Args+1, bad)
	}
	rows := func(n int) *fault { // each is empty, which is said after the count
		return (&reader{body: make([]Span, 1+n)}).dataTable(&Data{})
	}
	if bad := rows(limit.DataRows); bad != nil && bad.ID == finding.TooLong {
		t.Errorf("%d rows: %v", limit.DataRows, bad)
	}
	if bad := rows(limit.DataRows + 1); bad == nil || bad.ID != finding.TooLong {
		t.Errorf("%d rows: %v", limit.DataRows+1, bad)
	}
}

// TestBracesInTeX reads groups where most people write none.
func TestBracesInTeX(t *testing.T) {
	for in, want := range map[string]string{
		`x = A\cos{\theta}`:        "x = A*cos(θ)",
		`E = \frac{1}{2}{m}v^2`:    "E = 1/2*m*v^2",
		`\vec{F} = 3\,\mathrm{N}`:  "F = 3 N",
		`\displaystyle v = \omega`: "v = ω",
	} {
		if got := FromTeX(in); got != want {
			t.Errorf("%s is read as %s, want %s", in, got, want)
		}
	}
}

// TestHalfTyped asks of lines as far as they have been typed.
func TestHalfTyped(t *testing.T) {
	for text, want := range map[string]bool{"x = 3 −": true, "key only m =": true, "key only m = 3 kg": false, "wait_for": false} {
		if got := Incomplete(text); got != want {
			t.Errorf("Incomplete(%q) = %v", text, got)
		}
	}
	for text, want := range map[string]CompletionPlace{"°": AtNothing, "report x to 3 figures ": AtClause} {
		if _, _, got := PlaceAt(text, len(text)); got != want {
			t.Errorf("at the end of %q: place %d, want %d", text, got, want)
		}
	}
}

// TestRecordOfMany reads records of lists, of vectors and of more values than are shown.
func TestRecordOfMany(t *testing.T) {
	for _, c := range []struct {
		text              string
		count, list, axes int
	}{
		{"= 40 values of mean 1.2 s, digest 5a1f", 40, 0, 0},
		{"= [3] s", 0, 1, 0},
		{"= [3, 4] s", 0, 2, 0},
		{"= [(1, 2)] m", 0, 2, 2},
		{"= [(1, 2), (3, 4)] m", 0, 4, 2},
	} {
		r, bad := ParseRecord(c.text)
		if len(bad) > 0 || r.Count != c.count || len(r.List) != c.list || r.Axes != c.axes {
			t.Errorf("%s: %d values, %d in a list, %d axes: %v", c.text, r.Count, len(r.List), r.Axes, bad)
		}
	}
	for _, text := range []string{"= [(1, 2), 3] m", "= [x] m", "= ((1, 2), 3) m", "= 40 values of mean 1.2 s, digest xyz", "= 1e999999999 J"} {
		if r, bad := ParseRecord(text); len(bad) != 1 {
			t.Errorf("%s: %+v %v", text, r, bad)
		}
	}
}
