package print

import (
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
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
