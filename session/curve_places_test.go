package session

import (
	"context"
	"testing"
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
