package print

import (
	"strings"
	"testing"
)

// TestAnswersAndDrawings puts an answer before the drawings that stand between it and its
// working, and says in words what an equals sign would blur.
func TestAnswersAndDrawings(t *testing.T) {
	d, _ := New("A", entered("m = 2.0 kg", "part a: An energy", "v = 3.0 m/s", "E = 1/2*m*v^2", "graph 1/2*m*u^2 against u from 0 m/s to 3 m/s",
		"bars at \"a\": E | at \"b\": E", "report E", "report m", "part b: A slope", "x(t) = v*t", "slope of x(t) at t = 2 s",
		"part c: A period", "graph pendulum_period(x) against x from 0 m to 3 m", "part d: Again", "v in km/h"), Key)
	page := string(Markdown(d))
	order := 0
	for _, want := range []string{"\\boxed{E =", "```text", "The energies add up", "\\boxed{m =",
		`\boxed{\textrm{slope of}\;x(t)`, "pendulum period}}(x)$ goes as the square root"} {
		at := strings.Index(page, want)
		if at < order {
			t.Errorf("%q is at %d, after %d, in\n%s", want, at, order, page)
		}
		order = max(order, at)
	}
	if strings.Contains(page, "pendulum_period") || !strings.Contains(page, `\ \text{is}\ 3\,`) {
		t.Error(page)
	}
	d, _ = New("A", entered("part a: A speed", "v = 3.0 m/s", "w = 2*v", "w in km/h", "part b: No name", "w^2"), Handout)
	if page := string(Plain(d, 80)); strings.Count(page, "w = ___") != 1 || strings.Contains(page, "w² =") {
		t.Error(page)
	}
}

// TestDecimalPoints puts the points of a column one under the other.
func TestDecimalPoints(t *testing.T) {
	d, _ := New("A", entered("part a: A table", "table x^2 against x from 0 m to 10 m by 2.5 m"), Key)
	page := string(HTML(d))
	for _, want := range []string{`calc(0.9rem + 1ch + 0.28em)">10<`, `<td class="number">2.5<`, `calc(0.9rem + 2ch + 0.28em)">100<`} {
		if !strings.Contains(page, want) {
			t.Errorf("no %s in\n%s", want, page[strings.Index(page, "<table"):])
		}
	}
	if !strings.Contains(string(LaTeX(d)), `$10$$\phantom{0{.}}$`) {
		t.Error(string(LaTeX(d)))
	}
}
