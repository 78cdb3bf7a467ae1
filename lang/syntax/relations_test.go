package syntax

import (
	_ "embed"
	"strings"
	"testing"
)

//go:embed testdata/relations.txt
var relations string

// Correct lines give no finding, and their right sides print as what reads the same.
func TestRelations(t *testing.T) {
	n := 0
	for line := range strings.Lines(relations) {
		line = strings.TrimSpace(line)
		if strings.HasPrefix(line, "#") {
			continue
		}
		n++
		s, bad := Parse(line)
		if len(bad) > 0 {
			t.Errorf("%s: %v", line, bad)
			continue
		}
		d, ok := s.(*Define)
		if !ok {
			t.Errorf("%s is read as %T", line, s)
			continue
		}
		if again, _ := ParseExpr(PrintExpr(d.X)); dump(again) != dump(d.X) {
			t.Errorf("%s prints as %s", line, PrintExpr(d.X))
		}
	}
	if n < 100 {
		t.Errorf("only %d relations", n)
	}
}
