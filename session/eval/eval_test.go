package eval

import (
	"testing"

	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
)

// page is one with a length x of 3 m, a time z of 0 s and a symbol m in kg.
func page(t *testing.T) *Page {
	t.Helper()
	p := NewPage()
	for i, given := range []struct{ name, value string }{{"x", "3 m"}, {"z", "0 s"}, {"m", "1 kg"}} {
		l := line(p, i+1, given.value)
		got := l.Eval(expr(t, given.value), Want{Self: given.name, Shown: true})
		d := &plan.Def{Name: given.name, Kind: plan.Quantity, Slot: got.Slot, Unit: got.Unit}
		if given.name == "m" {
			d.Kind = plan.Symbol
			d.Slot = p.Planner.Emit(run.Instr{Op: ops.Const, K: 1}, run.Static{Dim: got.Static.Dim, Absent: true})
			l.CatchUp()
		}
		l.Settle(d)
		p.Entries = append(p.Entries, l.Entry)
	}
	return p
}

func line(p *Page, n int, text string) *Line {
	p.Planner.Begin(n)
	stmt, _ := syntax.Parse(text)
	return &Line{Page: p, Entry: &entry.Entry{Line: n, Text: text, Stmt: stmt}, Start: p.Planner.Size()}
}

func expr(t *testing.T, text string) syntax.Expr {
	t.Helper()
	x, fs := syntax.ParseExpr(text)
	if len(fs) > 0 {
		t.Fatalf("%s: %v", text, fs)
	}
	return x
}

func TestEval(t *testing.T) {
	tests := []struct {
		text    string
		want    Want
		ok      bool
		value   float64
		finding finding.ID
		uses    int
	}{
		{"2*x", Want{}, true, 6, "", 1},
		{"2*x", Want{Shown: true, In: syntax.UnitText{Text: "cm"}}, true, 6, "", 1},
		{"2*x", Want{Shown: true, In: syntax.UnitText{Text: "qq"}}, false, 0, finding.UnknownUnit, 1},
		{"x/z", Want{}, false, 0, finding.DivisionByZero, 2},
		{"x + z", Want{}, false, 0, finding.UnlikeDimensions, 2},
		{"2*q", Want{}, false, 0, finding.UnknownName, 0},
		{"2*x", Want{Self: "x"}, false, 0, finding.OwnName, 0},
		{"2*m", Want{}, true, 0, "", 1},
		{"2*m", Want{Lacking: "It has no value yet."}, false, 0, finding.NotWorkedOut, 1},
		// An expression that the person has not written.
		{"x/z", Want{Silent: true}, false, 0, "", 0},
		{"x + z", Want{Trial: true, Silent: true}, false, 0, "", 0},
		{"2*x", Want{Trial: true, Silent: true}, true, 6, "", 0},
	}
	for _, tt := range tests {
		l := line(page(t), 4, tt.text)
		got := l.Eval(expr(t, tt.text), tt.want)
		if got.OK != tt.ok || got.Value != tt.value {
			t.Errorf("%s %+v: %v %g", tt.text, tt.want, got.OK, got.Value)
		}
		var id finding.ID
		if len(l.Entry.Findings) > 0 {
			id = l.Entry.Findings[0].ID
		}
		if id != tt.finding || len(l.Entry.Uses) != tt.uses {
			t.Errorf("%s %+v: found %v, uses %v", tt.text, tt.want, l.Entry.Findings, l.Entry.Uses)
		}
	}
}

// TestTrialLeavesNoTrace holds the page before and after expressions on trial
// against each other: its program, its numbers and what its bare zeros mean.
func TestTrialLeavesNoTrace(t *testing.T) {
	p := page(t)
	l := line(p, 4, "0")
	zero := l.Eval(expr(t, "0"), Want{})
	l.Settle(&plan.Def{Name: "o", Kind: plan.Quantity, Slot: zero.Slot})
	size := func() [6]int {
		main := &p.Planner.Program.Main
		return [...]int{len(main.Instrs), len(main.Args), len(p.Planner.Program.Funcs), len(p.Planner.Program.Solves), int(p.State.Len()), len(p.Planner.Names.All())}
	}
	before := size()
	l = line(p, 5, "")
	for _, text := range []string{"2*x", "x/z", "o + x", "g*x", "kinetic_energy(m, x/(2 s))", "sqrt(x - 4 m)", "x +z", "spring_period(m, 3 N/m)"} {
		l.Try(expr(t, text))
		if after := size(); after != before {
			t.Errorf("%s leaves %v of %v", text, after, before)
		}
	}
	if st := p.Planner.Static(zero.Slot); st.Open == 0 {
		t.Errorf("a bare zero is settled as %+v", st)
	}
	if got := l.Eval(expr(t, "o + z"), Want{}); !got.OK || len(l.Entry.Findings) > 0 {
		t.Errorf("a bare zero fits no more: %v", l.Entry.Findings)
	}
}
