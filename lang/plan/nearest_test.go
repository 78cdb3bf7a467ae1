package plan

import (
	"fmt"
	"strings"
	"testing"

	"steelyard/lang/finding"
	"steelyard/lang/limit"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// wordOf returns distinct names of one length.
func wordOf(i int) string { return fmt.Sprintf("speed%05d", i) }

func TestLikeLooksAtFewNames(t *testing.T) {
	for _, n := range []int{limit.Near, limit.Near + 1, 20 * limit.Near} {
		var names Names
		for i := range n {
			names.add(&Def{Name: wordOf(i)})
		}
		looked := 0
		for d := range names.like("sped00000") {
			looked++
			if want := wordOf(n - looked); d.Name != want {
				t.Fatalf("of %d names, number %d looked at is %s, want %s", n, looked, d.Name, want)
			}
		}
		if want := min(n, limit.Near); looked != want {
			t.Errorf("of %d names of a length, %d are looked at, want %d", n, looked, want)
		}
	}
}

func TestLikeBeginsWithTheSameLength(t *testing.T) {
	var names Names
	for _, name := range []string{"ab", "abc", "abcd", "abcde", "abcdef", "abcdefg", "abcd", "θbcd"} {
		names.add(&Def{Name: name})
	}
	var got []string
	for d := range names.like("bbcd") {
		got = append(got, d.Name)
	}
	if want := "θbcd abcd abc abcde ab abcdef"; strings.Join(got, " ") != want {
		t.Errorf("%q, want %q", got, want)
	}
}

// TestLikeFollowsTheNames takes definitions back and adds others between two
// questions, as lines that are tried out do.
func TestLikeFollowsTheNames(t *testing.T) {
	var names Names
	looked := func() string {
		var got []string
		for d := range names.like("abcd") {
			got = append(got, d.Name)
		}
		return strings.Join(got, " ")
	}
	for _, name := range []string{"one1", "two2", "one1", "six6"} {
		names.add(&Def{Name: name})
	}
	if got := looked(); got != "six6 two2 one1" {
		t.Errorf("at first %q", got)
	}
	names.cut(1)
	names.add(&Def{Name: "ten0"})
	if got := looked(); got != "ten0 one1" {
		t.Errorf("after another line %q", got)
	}
	names.cut(0)
	if got := looked(); got != "" {
		t.Errorf("without a line %q", got)
	}
}

// BenchmarkNearest asks for a misspelt name among many.
func BenchmarkNearest(b *testing.B) {
	for _, n := range []int{100, 1000, 10000, 100000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			p := &Planner{}
			for i := range n {
				p.Names.add(&Def{Name: wordOf(i)})
			}
			c := p.coder("")
			for b.Loop() {
				c.nearest("speeed00007")
			}
		})
	}
}

// TestOnTrialLooksAtNoNames plans an unknown name on trial, which brings not even
// the index of the names up to date, and then in earnest, which does.
func TestOnTrialLooksAtNoNames(t *testing.T) {
	p := &Planner{Units: units.NewTable()}
	for i := range 100 {
		p.Names.add(&Def{Name: wordOf(i)})
	}
	x := &syntax.Name{Name: "sped00007"}
	if c := p.CompileOnTrial(x, x.Name, ""); c.Slot != run.NoSlot || len(c.Findings) != 1 || c.Findings[0].ID != finding.UnknownName {
		t.Errorf("on trial: slot %d, %v", c.Slot, c.Findings)
	}
	if n := len(p.Names.lengths.taken); n != 0 {
		t.Errorf("on trial, %d names were looked at", n)
	}
	if c := p.Compile(x, x.Name, ""); len(c.Findings) != 1 || len(c.Findings[0].Readings) == 0 {
		t.Errorf("in earnest: %v", c.Findings)
	}
}
