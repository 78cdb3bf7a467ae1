package print

import (
	"bytes"
	"slices"
	"strings"
	"testing"

	"github.com/mattn/go-runewidth"
	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/extension"

	"steelyard/session/entry"
	"steelyard/session/rows"
)

func TestTextGoldens(t *testing.T) {
	golden(t, "key.md", Markdown(scaleKey()))
	golden(t, "handout.md", Markdown(scaleHandout()))
	golden(t, "key.txt", Plain(scaleKey(), 0))
	golden(t, "key.narrow.txt", Plain(scaleKey(), 40))
	golden(t, "handout.txt", Plain(scaleHandout(), 0))
}

func rendered(t *testing.T, source []byte) string {
	t.Helper()
	var b bytes.Buffer
	if err := goldmark.New(goldmark.WithExtensions(extension.GFM)).Convert(source, &b); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestMarkdownRenders(t *testing.T) {
	html := rendered(t, Markdown(scaleKey()))
	for tag, n := range map[string]int{"<h1>": 1, "<h2>": 4, "<h3>": 3, "<table>": 2, "<pre>": 2, "<blockquote>": 2, "<hr>": 1} {
		if got := strings.Count(html, tag); got != n {
			t.Errorf("%s stands %d times, want %d", tag, got, n)
		}
	}
}

// Hostile text becomes text: not a script, picture, link, heading or list.
func TestMarkdownIsSafe(t *testing.T) {
	html := rendered(t, Markdown(hostile()))
	if strings.Contains(html, "raw HTML omitted") {
		t.Error("the text has HTML")
	}
	for _, tag := range [...]string{"<script", "<img", "<a ", "<h4", "<ol"} {
		if strings.Contains(html, tag) {
			t.Errorf("rendered, the text has %s", tag)
		}
	}
	for tag, n := range map[string]int{"<h1>": 1, "<h2>": 1, "<h3>": 1} {
		if got := strings.Count(html, tag); got != n {
			t.Errorf("%s stands %d times, want %d", tag, got, n)
		}
	}
}

func TestEscapeMarkdown(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"a_b*c`d`", "a\\_b\\*c\\`d\\`"},
		{"- item", `\- item`},
		{"12. item", `12\. item`},
		{"2.5 kg", `2.5 kg`}, {"2. Then", `2\. Then`},
		{"a 12. b", "a 12. b"},
		{"<b>&lt;", `\<b\>\&lt;`},
		{"one\n# two", `one \# two`},
		{"$5 | $6", `\$5 \| \$6`},
	} {
		if got := escapeMarkdown(c.text); got != c.want {
			t.Errorf("escapeMarkdown(%q) = %s, want %s", c.text, got, c.want)
		}
	}
	for text, want := range map[string]string{"a": "`a`", "a``b": "```a``b```", "`": "`` ` ``", "": ""} {
		if got := codeSpan(text); got != want {
			t.Errorf("codeSpan(%q) = %s, want %s", text, got, want)
		}
	}
}

func TestPlainKeepsItsWidth(t *testing.T) {
	flat := hostile() // drawings count their own cells
	flat.Parts[0].Blocks = slices.DeleteFunc(flat.Parts[0].Blocks, func(b block) bool {
		_, graph := b.(figure)
		_, bars := b.(energyBars)
		return graph || bars
	})
	for _, d := range []*Document{scaleKey(), scaleHandout(), flat, {}} {
		for _, columns := range [...]int{-1, 24, 40, 76, 200, 1 << 40} {
			most := columns
			if columns <= 0 {
				most = usualColumns
			}
			text := Plain(d, columns)
			for line := range strings.SplitSeq(string(text), "\n") {
				if n := runewidth.StringWidth(line); n > most {
					t.Errorf("%d columns: %d in %q", columns, n, line)
				}
			}
			if bytes.ContainsAny(text, "\x00\x1b\u202e") {
				t.Errorf("%d columns: a control character is left", columns)
			}
		}
	}
}

func BenchmarkMarkdown(b *testing.B) {
	d := tenParts()
	b.ReportAllocs()
	for b.Loop() {
		Markdown(d)
	}
}

func BenchmarkPlain(b *testing.B) {
	d := tenParts()
	b.ReportAllocs()
	for b.Loop() {
		Plain(d, 0)
	}
}

// Where a long sum goes on in a line of its own, what is taken away keeps its
// brackets.
func TestBrokenSumKeepsItsBrackets(t *testing.T) {
	sum := x("m*g*h_first + k_spring*x_first^2/2 + m*v_first^2/2 + F_air*h_first - (m*g*h_second + k_spring*x_second^2/2)")
	d := &Document{Edition: Key, Blocks: []block{working{Lines: []entry.WorkLine{{Left: x("E"), Right: sum}}}}}
	for form, want := range map[string]string{
		string(HTML(d)):  `<mo form="infix">−</mo><mrow><mo>(</mo>`,
		string(LaTeX(d)): `{}- \mathopen{}\left(m g`,
	} {
		if !strings.Contains(form, want) {
			t.Errorf("no %s in\n%s", want, form)
		}
	}
}

// A number is not parted from its unit, and a row begins with a sign that is in few
// brackets.
func TestRowsOfFormulas(t *testing.T) {
	for _, c := range []struct{ formula, want string }{
		{"(13.5 m/s − √((13.5 m/s)² − 2·(9.80665 m/s²)·(9.0 m)))/(9.80665 m/s²)",
			"(13.5 m/s − √((13.5 m/s)² − 2·(9.80665 m/s²)·(9.0 m)))|/(9.80665 m/s²)"},
		{"√((0.045 kg)²·(9.80665 m/s²)² + (420 N/m)·(0.045 kg)·(13.5 m/s)²)",
			"√((0.045 kg)²·(9.80665 m/s²)²| + (420 N/m)·(0.045 kg)·(13.5 m/s)²)"},
		{"(0.85 kg)·(4.19 J/(g·°C))·(96 °C − 14 °C)·(0.48 kJ/(kg·K))·(240 g)",
			"(0.85 kg)·(4.19 J/(g·°C))·(96 °C − 14 °C)|·(0.48 kJ/(kg·K))·(240 g)"},
		{"a + b", "a + b"},
		{strings.Repeat("x", 60), strings.Repeat("x", 56) + "|xxxx"},
	} {
		got := strings.Join(rows.Formula(c.formula, 56), "|")
		if want := strings.ReplaceAll(c.want, "| ", "|"); got != want {
			t.Errorf("%s:\n got %s\nwant %s", c.formula, got, want)
		}
	}
}
