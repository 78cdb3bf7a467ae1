package syntax

import (
	"runtime"
	"strings"
	"testing"

	"steelyard/lang/finding"
	"steelyard/lang/limit"
)

func seeds(f *testing.F) {
	for _, c := range treeTests {
		f.Add(c.text)
	}
	for _, c := range statementTests {
		f.Add(c.text)
	}
	for _, c := range helpfulTests {
		f.Add(c.text)
	}
}

// FuzzLine: any text gives a statement or findings whose spans lie in it.
func FuzzLine(f *testing.F) {
	seeds(f)
	f.Fuzz(func(t *testing.T, text string) {
		s, bad := Parse(text)
		if s == nil && len(bad) == 0 {
			t.Fatalf("%q: neither a statement nor a finding", text)
		}
		for _, b := range bad {
			if b.At.From < 0 || b.At.To < b.At.From || b.At.To > len(text) {
				t.Fatalf("%q: span %v", text, b.At)
			}
			if b.Message == "" {
				t.Fatalf("%q: no message", text)
			}
		}
		Incomplete(text)
		ParseRecord(text)
		PlaceAt(text, len(text)/2)
		PlaceAt(text, len(text))
		if c := Canonical(text); Canonical(c) != c {
			t.Fatalf("Canonical(%q) = %q is not canonical", text, c)
		}
	})
}

// FuzzPrintRoundTrip: a printed expression reads as the same tree.
func FuzzPrintRoundTrip(f *testing.F) {
	seeds(f)
	f.Add("4.0 ± 0.1 uniform")
	f.Fuzz(func(t *testing.T, text string) {
		s, _ := Parse(text)
		if s == nil {
			return
		}
		for _, x := range s.Exprs() {
			printed := PrintExpr(x)
			again, bad := ParseExpr(printed)
			if dump(again) != dump(x) {
				t.Fatalf("%q prints as %q\n%s\n%s %v", text, printed, dump(x), dump(again), bad)
			}
		}
	})
}

var hostile = []struct {
	name, text string
	id         finding.ID
}{
	{"parentheses", strings.Repeat("(", 100000), finding.TooLong},
	{"nested", strings.Repeat("(", 30000) + "1" + strings.Repeat(")", 30000), finding.TooLong},
	{"calls", strings.Repeat("f(", 100000), finding.TooLong},
	{"calls within the line", strings.Repeat("f(", 30000), finding.TooLong},
	{"signs", strings.Repeat("-", 300000), finding.TooLong},
	{"signs within the line", strings.Repeat("-", 60000) + "1", finding.TooLong},
	{"roots", strings.Repeat("√", 20000) + "2", finding.TooLong},
	{"powers", strings.Repeat("2^", 30000) + "2", finding.TooLong},
	{"name", strings.Repeat("m", 2<<20), finding.TooLong},
	{"name within the line", strings.Repeat("m", 60000), finding.TooLong},
	{"operators", strings.Repeat("1+", 1000000) + "1", finding.TooLong},
	{"digits", strings.Repeat("1", 60000), finding.TooLong},
	{"unit", "1 " + strings.Repeat("m ", 30000) + "(", finding.NamesTogether},
	{"lines", strings.Repeat("(\n", 30000), finding.TooLong},
	{"bars", strings.Repeat("|", 60000), finding.TooLong},
	{"commas", "max(" + strings.Repeat("1,", 30000) + "1)", finding.TooLong},
	{"names", strings.Repeat("a ", 30000), finding.NamesTogether},
}

// Hostile lines give a finding each, in little memory. What they cost in time is
// in BenchmarkHostile.
func TestHostile(t *testing.T) {
	for _, c := range hostile {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		s, bad := Parse(c.text)
		Incomplete(c.text)
		runtime.ReadMemStats(&after)
		if s != nil || len(bad) != 1 || bad[0].ID != c.id {
			t.Errorf("%s: %T %.300v", c.name, s, bad)
		}
		if after.TotalAlloc-before.TotalAlloc > 50<<20 {
			t.Errorf("%s: %d MB", c.name, (after.TotalAlloc-before.TotalAlloc)>>20)
		}
	}
}

func BenchmarkHostile(b *testing.B) {
	for _, c := range hostile {
		b.Run(c.name, func(b *testing.B) {
			for b.Loop() {
				Parse(c.text)
			}
		})
	}
}

// Each limit holds at its number and is passed by one more.
func TestLimits(t *testing.T) {
	nest := func(open, shut string, n int) string { return strings.Repeat(open, n) + "1" + strings.Repeat(shut, n) }
	args := func(n int) string { return "max(" + strings.Repeat("1, ", n-1) + "1)" }
	pieces := func(n int) string { return "f(t) =" + strings.Repeat("\n  1 for t > 0", n) }
	for _, c := range []struct {
		name string
		text func(n int) string
		n    int
	}{
		{"brackets", func(n int) string { return nest("(", ")", n) }, limit.Nesting},
		{"calls", func(n int) string { return nest("f(", ")", n) }, limit.Nesting},
		{"signs", func(n int) string { return nest("-", "", n) }, limit.Nesting},
		{"roots", func(n int) string { return nest("√", "", n) }, limit.Nesting},
		{"line", func(n int) string { return "# " + strings.Repeat("x", n-2) }, limit.Line},
		{"name", func(n int) string { return strings.Repeat("x", n) }, limit.Name},
		{"args", args, limit.Args},
		{"pieces", pieces, limit.Pieces},
		{"digits", func(n int) string { return "0." + strings.Repeat("0", n-2) + "1" }, limit.Digits},
	} {
		if s, bad := Parse(c.text(c.n)); s == nil && c.name != "digits" {
			t.Errorf("%s: %d is refused: %v", c.name, c.n, bad)
		}
		if s, bad := Parse(c.text(c.n + 1)); s != nil || bad[0].ID != finding.TooLong {
			t.Errorf("%s: %d is taken: %v", c.name, c.n+1, bad)
		}
	}
	// A long sum is no deep one.
	if s, bad := Parse(strings.Repeat("1+", 30000) + "1"); s == nil {
		t.Errorf("a long sum: %v", bad)
	}
}
