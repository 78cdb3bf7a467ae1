package plan

import (
	"context"
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"
	"unicode"
)

// runtimeSource builds a main code from an equation as it stands in a formula
// collection: + - * / ^, brackets and functions, so that the runtime is tested
// without the planner.
type runtimeSource struct {
	text string
	at   int
	code Code
	name map[string]Slot
	fail string
}

var runtimeFunctions = map[string]Op{
	"sqrt": OpSqrt, "cbrt": OpCbrt, "abs": OpAbs, "sgn": OpSgn, "sin": OpSin, "cos": OpCos, "tan": OpTan,
	"asin": OpAsin, "acos": OpAcos, "atan": OpAtan, "sinh": OpSinh, "cosh": OpCosh, "tanh": OpTanh,
	"exp": OpExp, "ln": OpLn, "log10": OpLog10,
}

// runtimeProgram returns a program for the right side of an equation, the names'
// slots first, with its result.
func runtimeProgram(t testing.TB, equation string, names []string) (*Program, Slot) {
	t.Helper()
	s := &runtimeSource{text: equation, name: map[string]Slot{}}
	if i := strings.IndexByte(equation, '='); i >= 0 {
		s.text = equation[i+1:]
	}
	s.name["pi"] = s.emit(Instr{Op: OpConst, K: math.Pi})
	for _, n := range names {
		s.name[n] = s.emit(Instr{Op: OpConst, K: 1})
	}
	out := s.sum()
	if s.blank(); s.at < len(s.text) || s.fail != "" {
		t.Fatalf("%q: stopped at %d: %s", s.text, s.at, s.fail)
	}
	return &Program{Main: s.code}, out
}

func (s *runtimeSource) emit(in Instr) Slot {
	s.code.Instrs = append(s.code.Instrs, in)
	return Slot(len(s.code.Instrs) - 1)
}

func (s *runtimeSource) blank() {
	for s.at < len(s.text) && s.text[s.at] == ' ' {
		s.at++
	}
}

func (s *runtimeSource) next() byte {
	if s.blank(); s.at < len(s.text) {
		return s.text[s.at]
	}
	return 0
}

func (s *runtimeSource) sum() Slot {
	a := s.product()
	for c := s.next(); c == '+' || c == '-'; c = s.next() {
		s.at++
		op := OpAdd
		if c == '-' {
			op = OpSub
		}
		a = s.emit(Instr{Op: op, A: a, B: s.product()})
	}
	return a
}

func (s *runtimeSource) product() Slot {
	if s.next() == '-' {
		s.at++
		return s.emit(Instr{Op: OpNeg, A: s.product()})
	}
	a := s.power()
	for c := s.next(); c == '*' || c == '/'; c = s.next() {
		s.at++
		op := OpMul
		if c == '/' {
			op = OpDiv
		}
		a = s.emit(Instr{Op: op, A: a, B: s.power()})
	}
	return a
}

func (s *runtimeSource) power() Slot {
	a := s.atom()
	if s.next() == '^' {
		s.at++
		at, sign := s.at, 1.0
		if s.next() == '-' {
			s.at++
			sign = -1
		}
		if k, err := strconv.ParseFloat(s.word(), 64); err == nil {
			return s.emit(Instr{Op: OpPow, A: a, K: sign * k})
		}
		s.at = at
		a = s.emit(Instr{Op: OpPowVar, A: a, B: s.atom()})
	}
	return a
}

func (s *runtimeSource) word() string {
	s.blank()
	from := s.at
	for s.at < len(s.text) {
		if c := rune(s.text[s.at]); !unicode.IsLetter(c) && !unicode.IsDigit(c) && c != '_' && c != '.' {
			break
		}
		s.at++
	}
	return s.text[from:s.at]
}

func (s *runtimeSource) atom() Slot {
	if s.next() == '(' {
		s.at++
		a := s.sum()
		s.next()
		s.at++
		return a
	}
	w := s.word()
	if v, err := strconv.ParseFloat(w, 64); err == nil {
		return s.emit(Instr{Op: OpConst, K: v})
	}
	if op, ok := runtimeFunctions[w]; ok {
		s.next()
		s.at++
		a := s.sum()
		s.next()
		s.at++
		return s.emit(Instr{Op: op, A: a})
	}
	slot, ok := s.name[w]
	if !ok && s.fail == "" {
		s.fail = fmt.Sprintf("no value for %q", w)
	}
	return slot
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
