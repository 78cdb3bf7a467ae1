package plan

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"steelyard/lang/run"
)

// TestKernelShapes runs every generated kernel of powers of one column, each
// reached through an expression, against the faithful program, and checks that
// one pass does.
func TestKernelShapes(t *testing.T) {
	term := map[int8]string{-2: "0.4/x^2", -1: "0.9/x", 0: "2.5", 1: "1.7*x", 2: "0.3*x^2", 3: "0.2*x^3"}
	const none = kernelNoTerm
	powers := []int8{-2, -1, 0, 1, 2, 3, none}
	count := 0
	for _, a := range powers[:6] {
		for _, b := range powers {
			for _, c := range powers {
				if b <= a || b == none && c != none || c == a || c == b && c != none {
					continue
				}
				s := kernelShape{e: [3]int8{a, b, c}}
				text := term[a]
				if b != none {
					text += " + " + term[b]
				}
				if c != none {
					text += " + " + term[c]
				}
				count += testShape(t, s, text)
			}
		}
	}
	if count < 70 {
		t.Errorf("only %d kernels reached", count)
	}
}

// testShape tries a shape in every surrounding that has a kernel for it and
// returns how many there were.
func testShape(t *testing.T, s kernelShape, text string) int {
	n := 0
	try := func(k kernel, format string) {
		if k != nil {
			n++
			testOnePass(t, fmt.Sprintf(format, text))
		}
	}
	scaled := s
	scaled.scaled = true
	if s.e != [3]int8{0, kernelNoTerm, kernelNoTerm} {
		try(kernelPoly(s.code()), "%s")
		try(kernelRoot(s.code()), "1.1*sqrt(%s)")
		try(kernelOver(s.code()), "1.2/(%s)")
		try(kernelPoly(scaled.code()), "1.3*(%s)")
		try(kernelRoot(scaled.code()), "1.1*sqrt(1.3*(%s))")
	}
	return n
}

func testOnePass(t *testing.T, text string) {
	t.Helper()
	f, p, out := kernelPlan(t, text, "x", 1)
	if len(f.steps) != 1 {
		t.Errorf("%s takes %d passes", text, len(f.steps))
	}
	x := runtimeSweep(67, 0.4, 2.6)
	kernelCompare(t, text, f, p, out, [][]float64{x})
}

func kernelPlan(t *testing.T, text, names string, vary int) (*Fast, *run.Program, run.Slot) {
	t.Helper()
	p, out := runtimeProgram(t, text, strings.Fields(names))
	var varying []run.Slot
	for i := range vary {
		varying = append(varying, run.Slot(i+1))
	}
	f, ok := FastOf(p, runtimeRun(p, nil), []run.Slot{out}, varying)
	if !ok || f.plain {
		t.Fatalf("%s: no fast plan", text)
	}
	return f, p, out
}

func kernelCompare(t *testing.T, text string, f *Fast, p *run.Program, out run.Slot, in [][]float64) {
	t.Helper()
	got := make([]float64, len(in[0]))
	f.Run(in, [][]float64{got})
	for i := range got {
		for j := range in {
			p.Main.Instrs[j+1].K = in[j][i]
		}
		st := &run.State{}
		p.Run(context.Background(), st, 0, run.Slot(len(p.Main.Instrs)))
		if want, ok := st.Value(out); !ok || runtimeUlps(got[i], want) > 5 {
			t.Fatalf("%s, lane %d: fast %v, faithful %v %t", text, i, got[i], want, ok)
		}
	}
}

// TestKernelColumns does the same for expressions of several columns.
func TestKernelColumns(t *testing.T) {
	for text, passes := range map[string]int{
		"x*y": 1, "3*x*y": 1, "2*x*y*z": 1, "x*y*z*3*x": 2, "x^4": 2, "x^4*y^3*z^2": 7,
		"x/y": 1, "2/x/y": 1, "x*y/z": 1, "x/y/z": 1, "x*x/y": 1, "1.5*x/y^2": 1, "x*y*z/(x*y*z)": 2,
		"1/x^3": 2, "1/x^4/y": 3,
		"x + y": 1, "x + y + 1": 1, "x + y + z": 1, "2*x^2 + 3*y^2": 1, "1 + 2*x*y": 1, "x*y + z": 1,
		"z + 3*x*y": 1, "x + 2*x": 1, "x*y + y*z": 2, "1 + x + 2": 2, "(x + y) + (y + z)": 3,
		"x + y + z + 1": 2, "x^2 + y^2 + z^2": 4, "2*sin(x)": 1, "sin(2*x + 1)*y": 2, "exp(x)*exp(x)": 2,
		"cos(x*y)": 2, "sqrt(x^2 + y^2)": 2, "tan(x + y)": 2, "sgn(x)": 1, "3*x^5": 2, "x^0.7": 1,
		"x^-0.5": 2, "x^1.5": 2, "x^(y)": 1, "2^x": 1, "sqrt(x)*sqrt(x)": 2, "x^2*0.25 + y^2*z^2*3": 4,
	} {
		f, p, out := kernelPlan(t, text, "x y z", 3)
		if len(f.steps) != passes {
			t.Errorf("%s takes %d passes, not %d", text, len(f.steps), passes)
		}
		kernelCompare(t, text, f, p, out, [][]float64{
			runtimeSweep(1300, 0.3, 2), runtimeSweep(1300, 3, 1), runtimeSweep(1300, 0.7, 0.9),
		})
	}
}
