package formula_test

import (
	"testing"

	"steelyard/lang/formula"
	"steelyard/lang/syntax"
)

// TestEveryFormula reads every formula of the library.
func TestEveryFormula(t *testing.T) {
	names := formula.Names()
	if len(names) < 117 {
		t.Fatalf("%d formulas", len(names))
	}
	for _, name := range names {
		text, ok := formula.Source(name)
		if !ok {
			t.Errorf("%s has no text", name)
		}
		stmt, findings := syntax.Parse(text)
		f, ok := stmt.(*syntax.FormulaDef)
		if !ok {
			t.Errorf("%s can't be read: %v", name, findings)
			continue
		}
		if f.Name != name || f.Holds == "" || f.Source == "" || f.Topic == "" || len(f.Symbols) < 2 {
			t.Errorf("%s lacks a line: %+v", name, f)
		}
		listed := false
		for _, other := range formula.ByTopic(f.Topic) {
			listed = listed || other == name
		}
		if !listed {
			t.Errorf("%s is not listed under its topic %s", name, f.Topic)
		}
		for _, s := range f.Symbols {
			if s.Meaning == "" {
				t.Errorf("%s: %s has no meaning", name, s.Name)
			}
		}
	}
	if _, ok := formula.Source("nothing"); ok {
		t.Error("a formula called nothing is found")
	}
}

// BenchmarkSource finds a formula once the files are scanned.
func BenchmarkSource(b *testing.B) {
	for b.Loop() {
		formula.Source("spring_energy")
	}
}
