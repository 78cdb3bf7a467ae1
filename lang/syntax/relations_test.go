package syntax

import (
	_ "embed"
	"strings"
	"testing"
)

//go:embed testdata/relations.txt
var relations string

// Correct lines give no finding, and print as lines that read the same.
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
		if again, _ := Parse(Print(s)); dumpStmt(again) != dumpStmt(s) {
			t.Errorf("%s prints as %s", line, Print(s))
		}
		if _, ok := s.(*Define); !ok {
			t.Errorf("%s is read as %T", line, s)
		}
	}
	if n < 100 {
		t.Errorf("only %d relations", n)
	}
}
