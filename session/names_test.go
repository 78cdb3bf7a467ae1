package session

import (
	"context"
	"strings"
	"testing"
)

// TestNamesListFailures holds names whose last line failed against the list of
// names: one that had a value keeps it, and another stands there with its line
// until that is undone.
func TestNamesListFailures(t *testing.T) {
	p := New()
	for _, text := range []string{"m = 2 kg", "v = 3 m/s", "m = 3 kg + 2 s", "q = 2*("} {
		p.Enter(context.Background(), text)
	}
	want := "m   2 kg    given, line 1\nv   3 m/s   given, line 2\nq           not worked out, line 4"
	if got := strings.Join(told(p.Enter(context.Background(), "names")), "\n"); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	p.Undo()
	p.Undo()
	want = "m   2 kg    given, line 1\nv   3 m/s   given, line 2"
	if got := strings.Join(told(p.Enter(context.Background(), "names")), "\n"); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}
