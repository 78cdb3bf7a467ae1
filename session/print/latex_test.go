package print

import (
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"steelyard/lang/syntax"
	"steelyard/session/entry"
)

func TestLaTeXGoldens(t *testing.T) {
	golden(t, "key.tex", LaTeX(scaleKey()))
	golden(t, "handout.tex", LaTeX(scaleHandout()))
}

// command is a control word; braces that are escaped are none.
var command = regexp.MustCompile(`\\[a-zA-Z]+`)

func TestLaTeXIsSafe(t *testing.T) {
	for name, d := range map[string]*Document{"key": scaleKey(), "handout": scaleHandout(), "hostile": hostile(), "empty": {}} {
		source := string(LaTeX(d))
		for i := range len(source) {
			if c := source[i]; c > '~' || c < ' ' && c != '\n' {
				t.Fatalf("%s: byte %#x at …%q", name, c, source[max(0, i-30):i])
			}
		}
		for _, word := range command.FindAllString(source, -1) {
			switch word {
			case `\input`, `\include`, `\write`, `\openin`, `\openout`, `\csname`, `\catcode`, `\def`, `\read`, `\special`:
				t.Errorf("%s has %s", name, word)
			}
		}
		if strings.Count(source, `\end{document}`) != 1 {
			t.Errorf("%s ends %d times", name, strings.Count(source, `\end{document}`))
		}
	}
}

// TestLaTeXCompiles needs pdflatex, which isn't everywhere.
func TestLaTeXCompiles(t *testing.T) {
	program, err := exec.LookPath("pdflatex")
	if err != nil || testing.Short() {
		t.Skip("no pdflatex")
	}
	for name, d := range map[string]*Document{"key": scaleKey(), "handout": scaleHandout(), "hostile": hostile(), "empty": {}, "long": tenParts()} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			dir := t.TempDir()
			if err := os.WriteFile(filepath.Join(dir, "page.tex"), LaTeX(d), 0o600); err != nil {
				t.Fatal(err)
			}
			c := exec.Command(program, "-interaction=nonstopmode", "-halt-on-error", "-no-shell-escape", "page.tex")
			c.Dir = dir
			c.Env = append(os.Environ(), "openin_any=p", "openout_any=p", "max_print_line=1000")
			out, err := c.CombinedOutput()
			if err != nil {
				t.Fatalf("%v\n%s", err, out)
			}
			if strings.Contains(string(out), "Missing character") {
				t.Errorf("a character is lost:\n%s", out)
			}
		})
	}
}

func BenchmarkLaTeX(b *testing.B) {
	d := tenParts()
	b.ReportAllocs()
	for b.Loop() {
		LaTeX(d)
	}
}

// TestWhole sets a line as one relation where its left side is too long to stand in a column,
// and all of it is short enough for a phone.
func TestWhole(t *testing.T) {
	read := func(text string) syntax.Expr { x, _ := syntax.ParseExpr(text); return x }
	for _, c := range []struct{ left, right, want string }{
		{"m*a", "F", ""},
		{"T1*cos(α) + T2*cos(β)", "0", "T1·cos(α) + T2·cos(β) = 0"},
		{"m1*g - m1*a - m2*g*sin(θ) - f_k", "m2*a + m1*a + f_k + m2*g", ""},
	} {
		l := entry.WorkLine{Left: read(c.left), Right: read(c.right)}
		if got := whole(&l, right(&l)); got.Text() != c.want {
			t.Errorf("%s = %s is set whole as %q, want %q", c.left, c.right, got.Text(), c.want)
		}
	}
}
