package session

import (
	"reflect"
	"testing"

	"steelyard/lang/syntax"
)

// TestEveryStatementHasARoom holds the table of rooms against the language: what
// can be written is worked out somewhere.
func TestEveryStatementHasARoom(t *testing.T) {
	lines := []string{"x = 2 m", "x/(2 s)", "v(t) = 2 m/s", "1 lap = 400 m", "# said"}
	for _, w := range syntax.Statements() {
		if w.Ready {
			lines = append(lines, w.Example)
		}
	}
	for _, line := range lines {
		stmt, findings := syntax.Parse(line)
		if stmt == nil {
			t.Errorf("%s: %v", line, findings)
			continue
		}
		if _, asks := stmt.(*syntax.Command); !asks && statements[reflect.TypeOf(stmt)].work == nil {
			t.Errorf("%s: no room works a %T out", line, stmt)
		}
	}
	// And the other way round: a command, which is not stored, has no row.
	if _, some := statements[reflect.TypeOf(&syntax.Command{})]; some {
		t.Error("a command has a room, as if it were stored")
	}
}
