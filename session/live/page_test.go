package live

import (
	"context"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"steelyard/session"
)

// typed is a page of lines.
func typed(t testing.TB, lines ...string) *Page {
	t.Helper()
	p := New()
	for _, line := range lines {
		if _, got := p.Enter(context.Background(), line); !got.Done {
			t.Fatalf("%s is no line", line)
		}
	}
	return p
}

// TestUndoRedo makes random changes, takes them all back and does them again: at each
// step the page is what it was there.
func TestUndoRedo(t *testing.T) {
	ctx := context.Background()
	for seed := range 40 {
		r := rand.New(rand.NewPCG(5, uint64(seed)))
		p := typed(t, "m = 3 kg")
		was := []string{state(p)}
		for step := range 20 {
			line := 1 + r.IntN(len(p.Entries()))
			for _, text := range []string{
				fmt.Sprintf("x_%d = %d*m@%d", step, step+1, line), fmt.Sprintf("change %d to m = %d kg", line, step+2),
				fmt.Sprintf("insert before %d m = %d kg", line, step+2), fmt.Sprintf("remove %d", line), "worksheet 1 Crates " + fmt.Sprint(step),
			}[r.IntN(5):] {
				if len(p.Entries()) == 1 && strings.HasPrefix(text, "remove") {
					continue
				}
				if _, got := p.Enter(ctx, text); got.Done {
					was = append(was, state(p))
					break
				}
			}
		}
		for _, want := range slices.Backward(was[:len(was)-1]) {
			if _, ok := p.Undo(ctx); !ok || state(p) != want {
				t.Fatalf("undo leaves\n%s\nwant\n%s", state(p), want)
			}
		}
		for _, want := range was[1:] {
			if _, ok := p.Redo(ctx); !ok || state(p) != want {
				t.Fatalf("redo leaves\n%s\nwant\n%s", state(p), want)
			}
		}
	}
}

// state is a page as text.
func state(p *Page) string {
	var b strings.Builder
	b.WriteString(p.Title() + "\n")
	for _, e := range p.Entries() {
		fmt.Fprintln(&b, e.Line, e.Text, Shown(e), e.Findings)
	}
	return b.String()
}

// TestSheet makes a page another one: what is alike at both ends is kept.
func TestSheet(t *testing.T) {
	p := typed(t, "m = 3 kg", "v = 2 m/s", "K = 1/2*m*v^2", "a = 2 m/s^2", "F = m*a")
	kept := p.Entries()[4]
	c, ok := p.Sheet(context.Background(), []string{"m = 3 kg", "v = 4 m/s", "K = 1/2*m*v^2", "a = 2 m/s^2", "F = m*a"})
	if !ok || len(c.Moved) != 2 || c.Moved[1].Was != "6 J" || Shown(c.Moved[1].Entry) != "24 J" || p.Entries()[4] != kept {
		t.Errorf("%+v", c)
	}
	if c, ok = p.Sheet(context.Background(), []string{"m = 3 kg"}); !ok || len(p.Entries()) != 1 || len(c.Moved) != 0 {
		t.Errorf("%+v", c)
	}
}

// TestStoppedChange leaves the page as it was.
func TestStoppedChange(t *testing.T) {
	p := typed(t, "m = 3 kg", "v = 2 m/s", "K = 1/2*m*v^2")
	ctx, stop := context.WithCancel(context.Background())
	stop()
	was := state(p)
	if _, ok := p.Change(ctx, session.Edit{Texts: map[int]string{1: "m = 4 kg"}}); ok || state(p) != was {
		t.Errorf("the page is\n%s", state(p))
	}
}

// long is a page of n lines, most of which do not depend on line 3.
func long(b *testing.B, n int) *Page {
	lines := []string{"m = 0.080 kg", "v = 3.4 m/s", "x = 6.0 cm"}
	for i := len(lines); i < n; i++ {
		switch i % 10 {
		case 0:
			lines = append(lines, fmt.Sprintf("k_%d = 2*W_%d/x^2 in N/m", i, i-1))
		case 1:
			lines = append(lines, fmt.Sprintf("solve W_%d = 1/2*m*u_%d^2 for u_%d", i-2, i, i))
		case 2:
			lines = append(lines, fmt.Sprintf("y_%d(t) = v*t - 1/2*g*t^2", i))
		case 3:
			lines = append(lines, fmt.Sprintf("graph y_%d(t) against t from 0 s to 3 s", i-1))
		case 4:
			lines = append(lines, fmt.Sprintf("check W_%d < 1 J", i-5))
		default:
			lines = append(lines, fmt.Sprintf("W_%d = %d/2*m*v^2", i, i))
		}
	}
	p := New()
	for _, line := range lines {
		p.Add(context.Background(), line)
	}
	return p
}

// BenchmarkChange changes line 3, on which a tenth of the lines depend, and a line on
// which nothing depends.
func BenchmarkChange(b *testing.B) {
	for _, n := range []int{100, 1000} {
		p := long(b, n)
		for _, line := range []struct{ what, name string }{{"x", "3"}, {"alone", "6"}} {
			b.Run(fmt.Sprintf("%s/%d", line.what, n), func(b *testing.B) {
				for i := range b.N {
					text := fmt.Sprintf("change %s to x = %d cm", line.name, 5+i%3)
					if line.what == "alone" {
						text = fmt.Sprintf("change %s to z = %d cm", line.name, 5+i%3)
					}
					if _, got := p.Enter(context.Background(), text); !got.Done {
						b.Fatal(text)
					}
				}
			})
		}
	}
}
