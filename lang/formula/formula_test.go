package formula_test

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
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
		if !strings.Contains(f.Source, ", sec. ") {
			t.Errorf("%s: the source %q names no section", name, f.Source)
		}
		listed := false
		for _, other := range formula.ByTopic(f.Topic) {
			listed = listed || other == name
		}
		if !listed {
			t.Errorf("%s is not listed under its topic %s", name, f.Topic)
		}
		for _, s := range f.Symbols {
			if s.Meaning == "" || s.Unit.Text == "" {
				t.Errorf("%s: %s has no meaning or no unit", name, s.Name)
			}
		}
	}
	if _, ok := formula.Source("nothing"); ok {
		t.Error("a formula called nothing is found")
	}
}

// TestNames holds the names against the files: all of them, in order, none
// twice, and each under one topic.
func TestNames(t *testing.T) {
	paths, err := filepath.Glob("*.txt")
	if err != nil {
		t.Fatal(err)
	}
	var written []string
	for _, path := range paths {
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		for line := range strings.Lines(string(data)) {
			if rest, ok := strings.CutPrefix(line, "formula "); ok {
				name, _, _ := strings.Cut(rest, ":")
				written = append(written, name)
			}
		}
	}
	slices.Sort(written)
	if names := formula.Names(); !slices.Equal(names, written) {
		t.Errorf("the files have %q, and the names are %q", written, names)
	}
	if again := slices.Compact(slices.Clone(written)); len(again) != len(written) {
		t.Error("a name is written twice")
	}
	var listed []string
	for _, topic := range formula.Topics() {
		listed = append(listed, formula.ByTopic(topic)...)
	}
	slices.Sort(listed)
	if !slices.Equal(listed, written) {
		t.Errorf("the topics list %q", listed)
	}
	if some := formula.ByTopic("nothing"); some != nil {
		t.Errorf("the topic nothing has %q", some)
	}
}

// TestFrozen keeps the names and the order of arguments that worksheets call:
// they can't be changed once a worksheet has been saved.
func TestFrozen(t *testing.T) {
	for name, symbols := range map[string]string{
		"work":                    "F d θ",
		"kinetic_energy":          "m v",
		"gravitational_energy":    "m h",
		"spring_force":            "k x",
		"spring_energy":           "k x",
		"power":                   "W t",
		"spring_period":           "m k",
		"pendulum_period":         "L",
		"period_frequency":        "T",
		"angular_frequency":       "f",
		"oscillator_speed":        "A ω",
		"oscillator_acceleration": "A ω",
		"oscillator_energy":       "k A",
	} {
		text, _ := formula.Source(name)
		stmt, _ := syntax.Parse(text)
		f, ok := stmt.(*syntax.FormulaDef)
		if !ok {
			t.Errorf("%s is gone", name)
			continue
		}
		var args []string
		for _, s := range f.Symbols {
			if left, ok := f.Left.(*syntax.Name); ok && left.Name == s.Name {
				continue
			}
			args = append(args, s.Name)
		}
		if got := strings.Join(args, " "); got != symbols {
			t.Errorf("%s takes %q; worksheets give %q", name, got, symbols)
		}
	}
}

// BenchmarkSource finds a formula once the files are scanned.
func BenchmarkSource(b *testing.B) {
	for b.Loop() {
		formula.Source("spring_energy")
	}
}
