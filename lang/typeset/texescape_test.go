package typeset

import (
	"strings"
	"testing"
)

func TestTeXText(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{`\input{/etc/passwd}`, `\textbackslash{}input\{/etc/passwd\}`},
		{"100 % & #1_2 ^~ $", `100 \% \& \#1\_2 \textasciicircum{}\textasciitilde{} \$`},
		{"Пружина", "Pruzhina"},
		{"弹簧", "[U+5F39][U+7C27]"},
		{"Élan, naïve", `\'{E}lan,{} na\"{\i}ve`},
		{"½ √x²", `1/2 \ensuremath{\surd}x\ensuremath{^{2}}`},
		{`say "so"`, "say ``so''"},
		{"^^5c", `\textasciicircum{}\textasciicircum{}5c`},
		{"a--b", "a-{}-{}b"},
		{"ΔΩ", `\ensuremath{\Delta}\ensuremath{\Omega}`},
		{strings.Repeat("x", 23), strings.Repeat("x", 22) + `\allowbreak{}x`},
	} {
		if got := TeXText(c.text); got != c.want {
			t.Errorf("TeXText(%q) = %s, want %s", c.text, got, c.want)
		}
	}
}
