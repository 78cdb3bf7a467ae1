package typeset

import (
	"strings"
	"testing"

	"steelyard/lang/syntax"
)

func BenchmarkExpr(b *testing.B) {
	x := mustRead(b, "2π√((m_1 + m_2)/k)*sin(ω0*t)^2 - 1/2*k*(x - 0.06 m)^2")
	for name, write := range map[string]func(Box) string{"MathML": mathML, "LaTeX": Box.LaTeX} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				write(Expr(x))
			}
		})
	}
}

// Trees as deep and as long as a line allows: ten times the length should cost
// ten times as much.
func BenchmarkShapes(b *testing.B) {
	for _, c := range [...]struct {
		name string
		make func(n int) syntax.Expr
	}{
		{"brackets", func(n int) syntax.Expr {
			return nest(n, func(x syntax.Expr) syntax.Expr { return &syntax.Paren{X: x} })
		}},
		{"sums", func(n int) syntax.Expr {
			return nest(n, func(x syntax.Expr) syntax.Expr {
				return &syntax.Binary{Op: syntax.Sub, X: name("a"), Y: &syntax.Paren{X: x}}
			})
		}},
		{"products", func(n int) syntax.Expr { return nest(n, func(x syntax.Expr) syntax.Expr { return mul(name("a"), x) }) }},
		{"long products", func(n int) syntax.Expr { return nest(n, func(x syntax.Expr) syntax.Expr { return mul(x, name("a")) }) }},
		{"long quotients", func(n int) syntax.Expr {
			return nest(n, func(x syntax.Expr) syntax.Expr {
				return mul(&syntax.Binary{Op: syntax.Div, X: x, Y: name("b")}, name("a"))
			})
		}},
		{"signs", func(n int) syntax.Expr {
			return nest(n, func(x syntax.Expr) syntax.Expr { return &syntax.Unary{Op: syntax.Sub, X: x} })
		}},
		{"powers", func(n int) syntax.Expr {
			return nest(n, func(x syntax.Expr) syntax.Expr { return &syntax.Binary{Op: syntax.Pow, X: x, Y: num("2")} })
		}},
	} {
		for _, n := range [...]int{250, 2500} {
			x := c.make(n)
			b.Run(c.name+"/"+map[int]string{250: "250", 2500: "2500"}[n], func(b *testing.B) {
				for b.Loop() {
					set := Expr(x)
					set.LaTeX()
					set.Text()
				}
			})
		}
	}
}

func nest(n int, wrap func(syntax.Expr) syntax.Expr) syntax.Expr {
	var x syntax.Expr = name("x")
	for range n {
		x = wrap(x)
	}
	return x
}

// A tree as deep as the language allows is set like any other.
func TestDeepTree(t *testing.T) {
	text := strings.Repeat("√(1 + ", 120) + "x" + strings.Repeat(")", 120)
	x := mustRead(t, text)
	sound(t, text, Expr(x))
}
