package print

import (
	"bytes"
	"strings"
	"testing"
)

// Whatever text a worksheet has, what is written is sound.
func FuzzWriters(f *testing.F) {
	for _, s := range []string{hostileText, "", "m / kg", "2.0 cm", "-", "1. a", "````", "[a](b)", "\\\\", "√(m/s) = √(", "x'_1", "<math>", "&#60;", "\u0301", "(((", "1e9999 m", "a\n- b\n\n\tc", ".\x1b", ".\u202e"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > 300 {
			return
		}
		d := everywhere(text)
		tags, _ := elements(t, HTML(d))
		if tags["script"] > 0 || tags["h1"] != 1 {
			t.Errorf("the page has %d scripts and %d h1", tags["script"], tags["h1"])
		}
		source := LaTeX(d)
		for i, c := range source {
			if c > '~' || c < ' ' && c != '\n' {
				t.Fatalf("byte %#x at …%q", c, source[max(0, i-30):i])
			}
		}
		if n := bytes.Count(source, []byte(`\end{document}`)); n != 1 {
			t.Errorf("the article ends %d times", n)
		}
		html := rendered(t, Markdown(d))
		if strings.Contains(html, "raw HTML omitted") || strings.Contains(html, "<img") || strings.Count(html, "<h1>") != 1 {
			t.Errorf("rendered, the text has markup of its own:\n%s", html)
		}
		Plain(d, 40)
	})
}
