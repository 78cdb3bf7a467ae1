package entry

import (
	"slices"
	"testing"

	"steelyard/lang/finding"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// TestGives names what statements give, and what those that can't be read would
// have given.
func TestGives(t *testing.T) {
	for text, want := range map[string][]string{
		"k = 257 N/m":                   {"k"},
		"U(x) = 1/2*k*x^2":              {"U"},
		"solve a = b*t for b":           {"b"},
		"1 lap = 400 m":                 {"lap"},
		"check a = b":                   nil,
		"note k = 3":                    nil,
		"k = ) 3":                       {"k"},
		"solve x = = for the first t_1": {"t1"},
		"(k) = 3 )":                     nil,
	} {
		stmt, _ := syntax.Parse(text)
		if got := (&Entry{Text: text, Stmt: stmt}).Gives(); !slices.Equal(got, want) {
			t.Errorf("%s gives %q, want %q", text, got, want)
		}
	}
}

// TestFailed tells a line that is kept as a remark from one with a wrong unit
// and a value.
func TestFailed(t *testing.T) {
	e := &Entry{Findings: []finding.Finding{{Severity: finding.Caution}}}
	if e.Failed() {
		t.Error("a caution fails")
	}
	e.Findings = append(e.Findings, finding.Finding{Severity: finding.Mismatch})
	if !e.Failed() {
		t.Error("a mismatch without a value does not fail")
	}
	e.Give(Value{SI: 1, Unit: units.One})
	if e.Failed() {
		t.Error("a value in a wrong unit fails")
	}
	if e.Give(Value{SI: 2, Unit: units.One}); len(e.Values()) != 2 || e.Values()[0].SI != 1 {
		t.Errorf("%v", e.Values())
	}
}

// TestHead writes quantities over their unit.
func TestHead(t *testing.T) {
	parse := func(unit string) *units.Unit {
		u, bad := units.NewTable().Parse(unit, units.AloneInPlace)
		if bad != nil {
			t.Fatal(unit)
		}
		return u
	}
	x, v := &syntax.Name{Name: "x"}, &syntax.Name{Name: "v_max"}
	for want, h := range map[string]Head{
		"x / cm":           {Of: []syntax.Expr{x}, Unit: parse("cm")},
		"x, v_max / (m/s)": {Of: []syntax.Expr{x, v}, Unit: parse("m/s")},
		"x":                {Of: []syntax.Expr{x}, Unit: units.One},
		"energy / J":       {Words: "energy", Unit: parse("J")},
	} {
		if got := h.String(); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// TestCancelled writes how units cancel, a root over all of a side.
func TestCancelled(t *testing.T) {
	sides := []UnitSide{{Product: "kg/(N/m)", Root: 2}, {Product: "s"}}
	if got := Cancelled(sides); got != "√(kg/(N/m)) = s" {
		t.Error(got)
	}
}

// TestSaid puts what a sentence speaks of into its place.
func TestSaid(t *testing.T) {
	k, m := Name("k"), Name("m")
	base := Say("divide by …", k)
	for want, s := range map[string]Said{
		"divide both sides by k":     Say("divide both sides by …", k),
		"multiply by k, divide by m": Say("multiply by …, divide by …", k, m),
		"take the root of each side": Say("take the root of each side"),
		"divide by  and by ":         Say("divide by … and by …"),
		"divide by k and m":          base.And(" and …", m),
		"divide by k twice":          base.And(" twice"),
		"a … of \"k\"":               Say("a … of \"…\"", Words("…"), Written("k")),
		"k, m and k":                 Listed([]Said{k, m, k}),
		"k":                          Listed([]Said{k}),
		"":                           Joined(nil, ", "),
	} {
		if got := s.String(); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
