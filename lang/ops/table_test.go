package ops

import "testing"

// TestRowsAreWhole finds a row that lacks what every row needs.
func TestRowsAreWhole(t *testing.T) {
	for i := range table {
		op, r := Op(i), &table[i]
		if r.name == "" || r.value == nil {
			t.Errorf("operation %d has no name or no value", i)
		}
		if r.over != nil && op != Min && op != Max && (r.da == "" || r.operands == 2 && r.db == "") {
			t.Errorf("%s lacks a slope", op)
		}
		if f := r.call; f != nil && (f.Least < 1 || f.Most < f.Least || f.Args == "" || f.Summary == "" || f.Example == "") {
			t.Errorf("%s is not told to people", op)
		}
	}
}

// TestWordsAreFound looks every function up by all its names.
func TestWordsAreFound(t *testing.T) {
	for _, f := range Functions() {
		for _, word := range append(f.Aliases, f.Name) {
			got, ok := Named(word)
			if !ok || got.Name != f.Name || !IsFunction(word) {
				t.Errorf("%s is found as %q", word, got.Name)
			}
		}
	}
	if _, ok := Named("swing"); ok {
		t.Error("a word of no function is found")
	}
}
