package plan

import (
	"context"
	"math"
	"strings"
	"testing"

	"steelyard/lang/ops"
	"steelyard/lang/syntax"
)

// runtimeProgram plans the right side of an equation whose names are pure
// numbers. Slot 0 is π and the names' slots follow, then those of the equation.
func runtimeProgram(t testing.TB, equation string, names []string) (*Program, Slot) {
	t.Helper()
	if i := strings.IndexByte(equation, '='); i >= 0 {
		equation = equation[i+1:]
	}
	p := New()
	p.Emit(Instr{Op: ops.Const, K: math.Pi}, Static{})
	for _, n := range names {
		slot := p.Emit(Instr{Op: ops.Const, K: 1}, Static{})
		p.Define(&Def{Name: syntax.Canonical(n), Slot: slot})
	}
	x, findings := syntax.ParseExpr(strings.TrimSpace(equation))
	if len(findings) > 0 {
		t.Fatalf("%q: %v", equation, findings)
	}
	c := p.Compile(x, equation, "")
	if c.Slot == NoSlot {
		t.Fatalf("%q: %v", equation, c.Findings)
	}
	return &p.Program, c.Slot
}

// runtimeRun runs a program whose names have the given values.
func runtimeRun(p *Program, values []float64) *State {
	for i, v := range values {
		p.Main.Instrs[i+1].K = v
	}
	st := &State{}
	p.Run(context.Background(), st, 0, Slot(len(p.Main.Instrs)))
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
