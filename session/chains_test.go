package session

import (
	"context"
	"steelyard/session/entry"
	"strings"
	"testing"
)

// TestChains asks for names without a value, and enters the lines of every
// chain that is offered. Links is how many formulas the shortest chain has; 0
// stands for none.
func TestChains(t *testing.T) {
	tests := []struct {
		givens, asked string
		links         int
	}{
		{"m = 2 kg; k = 30 N/m", "T", 1},
		{"m = 2 kg; k = 30 N/m", "f", 1},
		{"m = 2 kg; k = 30 N/m", "ω", 1},
		{"T = 0.5 s", "f", 1},
		{"T = 0.5 s", "ω", 2},
		{"f = 2 Hz", "ω", 1},
		{"f = 2 Hz", "T", 1},
		{"ω = 3 rad/s", "f", 1},
		{"ω = 3 rad/s", "T", 2},
		{"k = 30 N/m; x = 3 cm", "U", 1},
		{"U = 3 J; x = 3 cm", "k", 1},
		{"U = 3 J; k = 30 N/m", "x", 1},
		{"m = 2 kg; v = 3 m/s", "K", 1},
		{"m = 2 kg; v = 3 m/s", "p", 1},
		{"p = 6 kg m/s; m = 2 kg", "K", 1},
		{"m = 2 kg; a = 3 m/s^2", "F", 1},
		{"F = 6 N; m = 2 kg", "a", 1},
		{"F = 6 N; d = 3 m", "W", 1},
		{"F = 6 N; d = 3 m; t = 2 s", "P", 2},
		{"A = 3 cm; m = 2 kg; k = 30 N/m", "v_max", 2},
		{"A = 3 cm; m = 2 kg; k = 30 N/m", "a_max", 2},
		{"A = 3 cm; T = 0.5 s", "v_max", 3},
		{"A = 3 cm; T = 0.5 s", "a_max", 3},
		{"L = 0.9 m", "T", 1},
		{"L = 0.9 m", "f", 2},
		{"A = 3 cm; L = 0.9 m", "v_max", 2},
		{"f = 440 Hz; λ = 0.78 m", "v", 1},
		{"λ = 0.78 m; T = 2 ms", "v", 2},
		{"λ = 0.78 m; T = 2 ms; m = 3 kg", "K", 3},
		{"λ = 0.78 m; T = 2 ms; m = 3 kg; r = 2 m", "F", 2},
		{"m = 2 kg; k = 30 N/m; A = 8 cm", "λ", 4},
		{"m = 2 kg", "zeta", 0},
		{"m = 2 kg", "f_src", 0},
	}
	most := 0
	for _, tt := range tests {
		p := New()
		ctx := context.Background()
		for _, g := range strings.Split(tt.givens, "; ") {
			p.Enter(ctx, g)
		}
		e := p.Enter(ctx, "describe "+tt.asked)
		chains := chainLines(told(e))
		if tt.links == 0 {
			if len(chains) > 0 {
				t.Errorf("%s from %s: %q", tt.asked, tt.givens, told(e))
			}
			continue
		}
		if len(chains) == 0 || len(chains[0]) != tt.links {
			t.Errorf("%s from %s: %q", tt.asked, tt.givens, told(e))
			continue
		}
		most = max(most, len(chains[0]))
		for _, chain := range chains {
			own := New()
			for _, g := range strings.Split(tt.givens, "; ") {
				own.Enter(ctx, g)
			}
			for _, line := range chain {
				if e := own.Enter(ctx, line); len(e.Values()) != 1 && !solvable(e) {
					t.Errorf("%s from %s: %s: %v", tt.asked, tt.givens, line, e.Findings)
				}
			}
		}
	}
	if most < 4 {
		t.Errorf("the longest chain has %d links", most)
	}
}

// solvable tells whether a line of a chain failed only because these numbers
// have no real solution, or several.
func solvable(e *entry.Entry) bool {
	for _, f := range e.Findings {
		switch f.ID {
		case "no-solution", "which-root", "no-real-value", "not-worked-out":
			return true
		}
	}
	return false
}

// chainLines takes an answer apart into chains of lines.
func chainLines(told []string) [][]string {
	var out [][]string
	begin := true
	for _, line := range told {
		switch {
		case strings.HasPrefix(line, "    "):
			if begin {
				out, begin = append(out, nil), false
			}
			last := len(out) - 1
			out[last] = append(out[last], strings.TrimSpace(line))
		default:
			begin = true
		}
	}
	return out
}

// BenchmarkChains looks for a chain of several links.
func BenchmarkChains(b *testing.B) {
	p := New()
	ctx := context.Background()
	for _, g := range []string{"m = 2 kg", "k = 30 N/m", "A = 3 cm"} {
		p.Enter(ctx, g)
	}
	for b.Loop() {
		p.Enter(ctx, "describe λ")
	}
}

// TestChainsLeaveOut asks for names that a formula would give if the worksheet
// did not contradict what it holds for.
func TestChainsLeaveOut(t *testing.T) {
	tests := []struct {
		givens, asked string
		without       string // the formula that must not be offered
		says          string
	}{
		{"L = 0.9 m; θ_max = 40°", "T", "pendulum_period", "small angles"},
		{"L = 0.9 m; θ_max = 8°", "T", "", ""},
		{"v0 = 20 m/s; θ = 40°; h = 3 m", "R", "throw_range", "level ground"},
		{"v0 = 20 m/s; θ = 40°; h = 0 m", "R", "", ""},
		{"m = 2 kg; v = 2e8 m/s", "K", "kinetic_energy", "below that of light"},
		{"m = 2 kg; k = 30 N/m; b = 0.4 kg/s", "T", "spring_period", "no friction"},
		{"m = 2 kg; k = 30 N/m; μ_k = 0.3", "T", "spring_period", "no friction"},
		{"m = 2 kg; k = 30 N/m; μ_k = 0", "T", "", ""},
		{"m = 2 kg; k = 30 N/m; m_spring = 40 g", "T", "spring_period", "negligible mass"},
	}
	for _, tt := range tests {
		p := New()
		for _, g := range strings.Split(tt.givens, "; ") {
			p.Enter(context.Background(), g)
		}
		told := told(p.Enter(context.Background(), "describe "+tt.asked))
		text := strings.Join(told, "\n")
		for _, chain := range chainLines(told) {
			for _, line := range chain {
				if tt.without != "" && strings.Contains(line, tt.without+"(") {
					t.Errorf("%s from %s: offered %s", tt.asked, tt.givens, line)
				}
			}
		}
		if tt.without == "" && strings.Contains(text, "Left out") || !strings.Contains(text, tt.says) || tt.without != "" && !strings.Contains(text, "Left out: "+tt.without) {
			t.Errorf("%s from %s: %q", tt.asked, tt.givens, told)
		}
	}
}
