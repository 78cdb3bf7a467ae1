package session_test

import (
	"context"
	"slices"
	"strings"
	"testing"

	"steelyard/lang/finding"
	"steelyard/session"
)

// misreadings are lines that take a vector for something else, each with what a teacher would
// say: the finding, and a piece of its message, its hint or a line that it offers. The slips are
// those that teachers know (common practice).
var misreadings = []struct {
	slip, line string
	id         finding.ID
	says       string
}{
	{"degrees left out", "u = 12 m/s at 37", finding.TwoReadings, "37°"},
	{"degrees left out in a cosine", "c_x = c*cos(37)", finding.TwoReadings, "c_x = c*cos(37°)"},
	{"a number taken for degrees", "u = 12 m/s at θ", finding.TwoReadings, "u = 12 m/s at (θ*1°)"},
	{"sine for cosine", "c_x = c*sin(37°)", finding.CommonSlip, "c*cos(37°)"},
	{"cosine for sine", "c_y = c*cos(37°)", finding.CommonSlip, "c*sin(37°)"},
	{"sine for cosine in an answer", "check v = (4.0, -3.0) m/s", finding.CheckFailed, "components are swapped"},
	{"angle from the y axis", "atan(v_x/v_y)", finding.CommonSlip, "from the y axis"},
	{"angle from the vertical, in words", "u = 12 m/s at 37° from the vertical", finding.NotWritten, "u = 12 m/s at (90° - 37°)"},
	{"angle of the opposite direction", "atan(v_y/v_x)", finding.CommonSlip, "direction(v)"},
	{"sign of a component", "check v = (3.0, 4.0) m/s", finding.CheckFailed, "sign of the component along x"},
	{"opposite direction", "check v = (3.0, -4.0) m/s", finding.CheckFailed, "opposite directions"},
	{"sign of an angle, twice", "u = 12 m/s at -37° below +x", finding.CommonSlip, "12 m/s at 37° below +x"},
	{"sign of a magnitude", "u = -3.0 m/s at 20°", finding.CommonSlip, "3.0 m/s at (20° + 180°)"},
	{"magnitudes added", "|F1| + |F2|", finding.CommonSlip, "|F1 + F2|"},
	{"a magnitude added to a vector", "F1 + 4 N", finding.VectorOrNumber, "|F1| + 4 N"},
	{"a vector compared with a number", "check F1 > 2 N", finding.VectorOrNumber, "|F1| > 2 N"},
	{"a product without its sign", "F1*d", finding.VectorOrNumber, "F1·d"},
	{"a product of three", "F1·d·F2", finding.TwoReadings, "(F1·d)·F2"},
	{"a root of a vector", "√F1", finding.VectorOrNumber, "|F1|"},
	{"direction in a word", "u = 2.4 m/s east", finding.NotWritten, "u = 2.4 m/s at 0°"},
	{"magnitude and angle with a comma", "u = 12 m/s, 37°", finding.NotWritten, "u = 12 m/s at 37°"},
	{"unit vectors", "u = 3.0 i + 4.0 j", finding.NotWritten, "(3.0, 4.0)"},
	{"a decimal comma", "u = (3,5) m", finding.BadNumber, "(3, 5)"},
	{"components of two kinds", "u = (3 m, 2 s)", finding.UnlikeDimensions, "is a time"},
	{"a component given anew", "v_x = 5.0 m/s", finding.NameKind, "component of the vector v"},
	{"the direction of nothing", "2*direction(0*v)", finding.CommonSlip, "no direction"},
}

// TestMisreadings holds each slip against what is said of it.
func TestMisreadings(t *testing.T) {
	if len(misreadings) < 20 {
		t.Fatalf("only %d misreadings", len(misreadings))
	}
	for _, m := range misreadings {
		p := session.New()
		for _, line := range []string{"v = (-3.0, 4.0) m/s", "c = 12 m/s", "θ = 40", "F1 = 3.0 N at 0°", "F2 = 4.0 N at 90°", "d = (2.0, 1.0) m"} {
			p.Enter(context.Background(), line)
		}
		e := p.Enter(context.Background(), m.line)
		at := slices.IndexFunc(e.Findings, func(f finding.Finding) bool { return f.ID == m.id })
		if at < 0 {
			t.Errorf("%s: %s: no %s in %v", m.slip, m.line, m.id, e.Findings)
			continue
		}
		f := e.Findings[at]
		if said := strings.Join(append(slices.Clone(f.Readings), f.Message, f.Hint), "\n"); !strings.Contains(said, m.says) {
			t.Errorf("%s: %s: does not say %q, but\n%s", m.slip, m.line, m.says, said)
		}
	}
}
