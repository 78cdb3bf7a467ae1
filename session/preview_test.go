package session

import (
	"context"
	"testing"
)

// TestPreviewOfEquations has a preview of an equation that is read as a solve, and none of one
// that says nothing yet.
func TestPreviewOfEquations(t *testing.T) {
	p := New()
	for _, line := range []string{"m = 2 kg", "h = 3 m"} {
		p.Enter(context.Background(), line)
	}
	for line, name := range map[string]string{"½mv² = mgh": "v", "m*g*h = 1/2*m*v^2": "v", "½mv² = mg": "", "½mv² =": "", "m*g*h = q*r": ""} {
		e := p.Preview(p.Next(), line)
		switch {
		case name == "" && e != nil:
			t.Errorf("%s: a preview says %v", line, e.Findings)
		case name != "" && (e == nil || len(e.Values()) != 1 || e.Values()[0].Name != name):
			t.Errorf("%s: no preview of %s", line, name)
		}
	}
}
