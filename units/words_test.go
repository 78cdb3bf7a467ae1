package units

import (
	"bytes"
	"flag"
	"fmt"
	"go/format"
	"os"
	"slices"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "rewrite words.go from the catalogue")

// indexOf lists every word that the catalogue is found by.
func indexOf(t *testing.T) []word {
	var out []word
	seen := map[string]int{}
	add := func(text string, row int, symbol bool) {
		if at, ok := seen[text]; ok {
			old := &out[at]
			if int(old.row) != row {
				t.Errorf("%q is the word of two units: %s and %s", text, catalogue[old.row].name(), catalogue[row].name())
			}
			old.symbol, old.name = old.symbol || symbol, old.name || !symbol
			return
		}
		seen[text] = len(out)
		out = append(out, word{text, int16(row), symbol, !symbol})
	}
	for i := range catalogue {
		if r := &catalogue[i]; r.has(core) {
			add(r.symbol, i, true)
		}
	}
	for _, a := range aliases {
		for i := range catalogue {
			if catalogue[i].has(core) && catalogue[i].symbol == a.symbol {
				add(a.text, i, true)
			}
		}
	}
	for i := range catalogue {
		for _, n := range strings.Split(catalogue[i].names, ",") {
			if n != "" {
				add(n, i, false)
			}
		}
	}
	slices.SortFunc(out, func(a, b word) int { return strings.Compare(a.text, b.text) })
	return out
}

// TestWords holds the index, which the compiler lays out, against the rows it
// is made from. Run with -update to rewrite it.
func TestWords(t *testing.T) {
	index := indexOf(t)
	if *update {
		writeIndex(t, index)
		return
	}
	if !slices.Equal(index, words[:]) {
		t.Fatal("words.go is not what the catalogue gives: run go test -run TestWords -update")
	}
}

func writeIndex(t *testing.T, index []word) {
	var b bytes.Buffer
	b.WriteString("// Code generated from the catalogue by TestWords -update. DO NOT EDIT.\n\npackage units\n\n")
	b.WriteString("// words is the index of the catalogue, sorted by text.\nvar words = [...]word{\n")
	for i, w := range index {
		fmt.Fprintf(&b, "{%q, %d, %t, %t},", w.text, w.row, w.symbol, w.name)
		if i%5 == 4 {
			b.WriteByte('\n')
		}
	}
	b.WriteString("\n}\n")
	src, err := format.Source(b.Bytes())
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile("words.go", src, 0o644); err != nil {
		t.Fatal(err)
	}
}
