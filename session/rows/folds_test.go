package rows

import (
	"strings"
	"testing"
)

func TestFolds(t *testing.T) {
	for _, c := range []struct {
		text               string
		first, hang, width int
		want               string
	}{
		{"table x", 6, 6, 20, "table x"},
		{"from 0 m to 0.10 m by 0.02 m in J", 6, 6, 24, "from 0 m to 0.10 m |by 0.02 m in J"},
		{"check 1/2*k*x^2 = W", 6, 6, 20, "check |1/2*k*x^2 = W"},
		{"unbreakablename = 3 m", 2, 2, 12, "unbreakabl|ename = |3 m"},
		{"two  blanks", 0, 0, 5, "two  |blank|s"},
		{"full row ", 0, 0, 8, "full row "},
		{"質量 質量 質量", 2, 2, 11, "質量 質量 |質量"},
		{"質量質量質量", 2, 2, 11, "質量質量|質量"},
	} {
		var got []string
		from := 0
		for _, at := range append(Folds(c.text, c.first, c.hang, c.width), len(c.text)) {
			got = append(got, c.text[from:at])
			from = at
		}
		if said := strings.Join(got, "|"); said != c.want {
			t.Errorf("%q in %d: %q, want %q", c.text, c.width, said, c.want)
		}
	}
}
