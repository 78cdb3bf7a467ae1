package plan

import (
	"context"
	"math"
	"strings"
	"testing"

	"steelyard/lang/ops"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
)

// runtimeProgram plans the right side of an equation whose names are pure
// numbers. Slot 0 is π and the names' slots follow, then those of the equation.
func runtimeProgram(t testing.TB, equation string, names []string) (*run.Program, run.Slot) {
	t.Helper()
	if i := strings.IndexByte(equation, '='); i >= 0 {
		equation = equation[i+1:]
	}
	p := New()
	p.Emit(run.Instr{Op: ops.Const, K: math.Pi}, run.Static{})
	for _, n := range names {
		slot := p.Emit(run.Instr{Op: ops.Const, K: 1}, run.Static{})
		p.Define(&Def{Name: syntax.Canonical(n), Slot: slot})
	}
	x, findings := syntax.ParseExpr(strings.TrimSpace(equation))
	if len(findings) > 0 {
		t.Fatalf("%q: %v", equation, findings)
	}
	c := p.Compile(x, equation, "")
	if c.Slot == run.NoSlot {
		t.Fatalf("%q: %v", equation, c.Findings)
	}
	return &p.Program, c.Slot
}

// runtimeRun runs a program whose names have the given values.
func runtimeRun(p *run.Program, values []float64) *run.State {
	for i, v := range values {
		p.Main.Instrs[i+1].K = v
	}
	st := &run.State{}
	p.Run(context.Background(), st, 0, run.Slot(len(p.Main.Instrs)))
	return st
}

// runtimeUlps is the distance of two numbers in units of the last place.
func runtimeUlps(a, b float64) float64 {
	if a == b || a != a && b != b {
		return 0
	}
	m := max(math.Abs(a), math.Abs(b))
	return math.Abs(a-b) / (math.Nextafter(m, math.Inf(1)) - m)
}
