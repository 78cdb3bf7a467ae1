package worksheet

import (
	"context"
	"strings"
	"testing"

	"steelyard/session/view"
)

// TestWithMistaken replaces givens in ways that can't be meant, or that leave a
// result without a value.
func TestWithMistaken(t *testing.T) {
	const text = "worksheet 1  Ball\n\nm = 2 kg\nv = 3 m/s\nK = 1/2*m*v^2\n  = 9 J\nq = 1/m\n  = 0.5 kg^-1\n"
	tests := []struct {
		with   []string
		status int
		says   string
	}{
		{[]string{"m = 1 kg", "m = 3 kg"}, refused, "replaced twice"},
		{[]string{"m = 1 kg", "m@3 = 3 kg"}, refused, "replaced twice"},
		{[]string{"m@ = 1 kg"}, refused, "names no line after @"},
		{[]string{"m = 0 kg"}, faulty, "2 results move"},
		{[]string{"m = 55"}, refused, "--with 'm = 55 kg'"},
		{[]string{"m = -5.50"}, refused, "--with 'm = -5.50 kg'"},
		{[]string{"m = 0"}, faulty, "2 results move"},
		{[]string{"m = 4 kg"}, holds, "2 results move"},
		{[]string{"m = 2.0 kg"}, holds, "nothing moves"},
	}
	for _, tt := range tests {
		sheet, bad := Parse("ball.worked", text)
		if bad != nil {
			t.Fatal(bad)
		}
		r := Replay(context.Background(), sheet, Options{With: tt.with})
		var b strings.Builder
		if err := r.Text(&b, view.Options{}); err != nil {
			t.Fatal(err)
		}
		if r.Status() != tt.status || !strings.Contains(b.String(), tt.says) {
			t.Errorf("%q: status %d\n%s", tt.with, r.Status(), b.String())
		}
	}
}
