package session

import (
	"context"
	"strings"
	"testing"
)

// TestSeveral takes lines that hold several statements apart, below the givens that come
// before the last line of each case.
func TestSeveral(t *testing.T) {
	for _, c := range []struct{ page, want string }{
		{"m1 = 0.50 kg; m2 = 0.75 kg", "m1 = 0.50 kg|m2 = 0.75 kg"},
		{"m = 2 kg, v = 3 m/s", "m = 2 kg|v = 3 m/s"},
		{"u = 0 and a = 2.5 m/s^2, t = 3 s", "u = 0|a = 2.5 m/s^2|t = 3 s"},
		{"m = 2 kg v = 3 m/s", "m = 2 kg|v = 3 m/s"},
		{"x = 3 m, y = 2*x", "x = 3 m|y = 2*x"},
		// Values and what they are equal to.
		{"F = 6 N\nm = 2 kg\na = F/m = 3 m/s^2", "a = F/m|check a = 3 m/s^2"},
		{"F = 5 N\nd = 3 m\nW = F d = 5 N * 3 m = 15 J", "W = F d|check W = 5 N * 3 m|check W = 15 J"},
		{"t = 2 s = 2000 ms", "t = 2 s|check t = 2000 ms"},
		{"F_1 = F_2 = 20 N", "F_1 = 20 N|F_1 = F_2"},
		{"k = 200 N/m\nx = 0.1 m\nm = 0.2 kg\nE = 1/2 k x^2 = m g h", "E = 1/2 k x^2|E = m g h"},
		{"m = 2 kg\nh = 3 m\ng = 9.8 m/s^2\nmgh = 1/2 m v^2 = 58.8 J", "mgh = 1/2 m v^2|check mgh = 58.8 J"},
		// One statement, or none that is sure.
		{"F = 6 N\nm = 2 kg\na = F/m = 4 m/s^2", ""},
		{"h = 5 m t = 3 s", ""},
		{"W = 5 N m = 5 N", ""},
		{"x = 3 = 3 m", ""},
		{"F = 6 N\nm = 2 kg\na = 9 m/s^2\na = F/m = 3 m/s^2", ""},
		{"m = 2 kg, v = 3 blorps", ""},
		{"d = 20 m\nt = 4 s\nv = d/t with d = 2*d and t = 2*t", ""},
		{"check 3 m = 3 m", ""},
		{"note F = 3 N, m = 2 kg", ""},
	} {
		p := New()
		lines := strings.Split(c.page, "\n")
		last := lines[len(lines)-1]
		for _, line := range lines[:len(lines)-1] {
			p.Enter(context.Background(), line)
		}
		before := p.Next()
		want := c.want
		if want == "" {
			want = last
		}
		if got := strings.Join(p.Several(context.Background(), last), "|"); got != want {
			t.Errorf("%s: %s, not %s", c.page, got, want)
		}
		if p.Next() != before {
			t.Errorf("%s: a trial has left lines behind", c.page)
		}
	}
}
