package syntax

import (
	"reflect"
	"slices"
	"strings"
	"testing"
)

// openScope knows every letter of a list as a name.
type openScope string

func (s openScope) Known(name string) bool {
	return strings.Contains(string(s), name) && len([]rune(name)) == 1
}
func (openScope) Function(string) bool               { return false }
func (openScope) Number(name string) (float64, bool) { return 30, name == "θ" }
func (openScope) Angle(string) bool                  { return false }
func (openScope) Turns(name string) bool             { return name == "n" }
func (openScope) Ways(string) []string               { return nil }
func (openScope) Measures(name, unit string) bool    { return false }
func (openScope) Everyday(string) bool               { return true }
func (openScope) IsUnit(text string) bool            { return !strings.ContainsAny(text, "xyzθ") }
func (openScope) Unit(text string) bool              { return text == "N/m" || text == "m/s" }

// TestTokensOfReadings scans the text of each reading: its tokens are those that it
// brings with it.
func TestTokensOfReadings(t *testing.T) {
	n := 0
	for _, line := range []string{
		"v = 2s/t", "a = 9.8 m/s^2*t", "T = 2π√L/g", "f = 1/2π√(k/m)", "F = m g sin θ/2 s", "E = 1/2kA^2", "k = 50 N / m",
		"F = -3 m^2*g + (2 s)^-1", "x = 2ms⁻¹ t", "v = πdn/60", "T = 1/n", "y = sin(θ)*4 m", "W = Fdcos(θ)", "V = 4/3πr^3", "m = 1/2 kg",
	} {
		o := OpenIn(line, nil, openScope("vstaTLgfkmFθEANdnxyWrV"))
		for i := range o.Readings {
			r := &o.Readings[i]
			if r.tokens == nil {
				continue
			}
			n++
			tokens, bad := scan(r.Text, 0, len(r.Text), "")
			if bad != nil || !slices.Equal(tokens, tokensAt(nil, r.Text, r.tokens)) {
				t.Errorf("%s: %s has the tokens\n%v and not\n%v", line, r.Text, tokens, r.tokens)
			}
		}
	}
	if n < 30 {
		t.Errorf("only %d readings bring their tokens", n)
	}
}

// TestReadOn reads the readings of a line one after the other, each from where it differs from the
// one before, and by itself: the trees are the same, places and all.
func TestReadOn(t *testing.T) {
	on, n := &Reader{}, 0
	for _, line := range []string{
		"2m*3s*4g*5h", "x = 2m + 3s - 4g/5h", "p = (s0 t, s0 t - ½gt²)", "E = ½mv² + mgh - 1/2kx^2", "T = 2π√L/g + 3s", "d = -2m^2*(3s + 4g) in m",
		"F = m g sin θ/2 s", "v = slope of 2s*t^2 at t = 3s", "W = 2m*3s with m = 2 kg", "r = (2m, 3s, 4g)*5h", "f(x) = 2m*x + 3s*x^2", "[2m, 3s]*4g",
	} {
		o := OpenIn(line, nil, openScope("msghkxvLtFs0θ"))
		for i := range o.Readings {
			r := &o.Readings[i]
			if r.tokens == nil {
				continue
			}
			n++
			if got, want := r.Parse(on), r.Parse(&Reader{}); !reflect.DeepEqual(got, want) {
				t.Errorf("%s: %s is read on as\n%#v and by itself as\n%#v", line, r.Text, got, want)
			}
		}
	}
	if n < 60 {
		t.Errorf("only %d readings bring their tokens", n)
	}
}
