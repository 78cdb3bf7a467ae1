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
		fmt.Fprintln(&b, e.Line, e.Text, e.Shown(), e.Findings)
	}
	return b.String()
}

// TestSheet makes a page another one: what is alike at both ends is kept.
func TestSheet(t *testing.T) {
	p := typed(t, "m = 3 kg", "v = 2 m/s", "K = 1/2*m*v^2", "a = 2 m/s^2", "F = m*a")
	kept := p.Entries()[4]
	c, ok := p.Sheet(context.Background(), []string{"m = 3 kg", "v = 4 m/s", "K = 1/2*m*v^2", "a = 2 m/s^2", "F = m*a"})
	if !ok || len(c.Moved) != 2 || c.Moved[1].Was != "6 J" || c.Moved[1].Entry.Shown() != "24 J" || p.Entries()[4] != kept {
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

// TestRenameInTitle changes a name in the title too, in one step.
func TestRenameInTitle(t *testing.T) {
	ctx := context.Background()
	p := typed(t, "k = 2 N/m", "title Springs of {k} and {c}")
	if _, got := p.Enter(ctx, "rename k to k_s"); got.Change.Title == nil || p.Title() != "Springs of {k_s} and {c}" {
		t.Errorf("%q, %+v", p.Title(), got)
	}
	if p.Undo(ctx); p.Title() != "Springs of {k} and {c}" || p.texts()[0] != "k = 2 N/m" {
		t.Errorf("%q, %q", p.Title(), p.texts())
	}
	if p.Redo(ctx); p.Title() != "Springs of {k_s} and {c}" || p.texts()[0] != "k_s = 2 N/m" {
		t.Errorf("%q, %q", p.Title(), p.texts())
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

// TestRename changes names on pages, and finds every line to come to what it came to.
func TestRename(t *testing.T) {
	for _, c := range []struct{ page, rename, want string }{
		{"k = 2 N/m;F = k*(3 m);F with k = 2*k;note It is {k}.;F/k@1", "k to k_s", "k_s = 2 N/m;F = k_s*(3 m);F with k_s = 2*k_s;note It is {k_s}.;F/k_s@1"},
		{"omega = 2 rad/s;a = ω^2*(3 m)", "ω to omega_0", "omega_0 = 2 rad/s;a = omega_0^2*(3 m)"},
		{"x = 2 m;f(x) = 3*x;y = f(x);graph x^2 against x from 0 m to 2 m", "x to d", "d = 2 m;f(x) = 3*x;y = f(d);graph x^2 against x from 0 m to 2 m"},
		{"x = 2 m;y = 3*x;part b: More;x = 4 m;z = 3*x + x@1", "x@1 to x_a", "x_a = 2 m;y = 3*x_a;part b: More;x = 4 m;z = 3*x + x_a@1"},
		{"f(x) = 3*x;y = f(2 m);slope of f(x) at x = 2 m", "f to h", "h(x) = 3*x;y = h(2 m);slope of h(x) at x = 2 m"},
		{"solve 3 N = q*(2 m) for q;2*q;steps q", "q to w", "solve 3 N = w*(2 m) for w;2*w;steps w"},
		{"q = 2.0 ± 0.1 m;A = q^2;budget A", "A to B", "q = 2.0 ± 0.1 m;B = q^2;budget B"},
		{"T = 2 s;L = 3 m;v = L/T;scaling v against T", "T to T_1", "T_1 = 2 s;L = 3 m;v = L/T_1;scaling v against T_1"},
		{"k = 2 N/m;spring_energy(k=k, x=2 m)", "k to c", "c = 2 N/m;spring_energy(k=c, x=2 m)"},
		{"v(t) = 2 m/s + (3 m/s^2)*t;bars at \"a\": (1 kg)*v(1 s)^2", "v to w", "w(t) = 2 m/s + (3 m/s^2)*t;bars at \"a\": (1 kg)*w(1 s)^2"},
		{"constants G;2*G", "G to H", ""},
		{"k = 2 N/m;U = 3 J;solve spring_energy for x", "k to c", ""},
		{"k = 2 N/m;c = 3 N/m", "k to c", ""},
		{"k = 2 N/m;area under k*x against x from 0 m to 2 m", "k to x", ""},
		{"s = 2 m;4 s", "s to in", ""},
	} {
		p := typed(t, strings.Split(c.page, ";")...)
		was := p.texts()
		e, got := p.Enter(context.Background(), "rename "+c.rename)
		if c.want == "" {
			if got.Done || len(e.Findings) == 0 || !slices.Equal(p.texts(), was) {
				t.Errorf("%s: rename %s is done: %q", c.page, c.rename, p.texts())
			}
			continue
		}
		if have := strings.Join(p.texts(), ";"); have != c.want {
			t.Errorf("rename %s makes\n%s\nwant\n%s\n%v", c.rename, have, c.want, e.Findings)
		}
		if p.Undo(context.Background()); !slices.Equal(p.texts(), was) {
			t.Errorf("%q is not taken back", c.rename)
		}
	}
}

// TestFailed keeps lines that could not be worked out at the places where they were typed,
// wherever those go.
func TestFailed(t *testing.T) {
	p := typed(t, "m = 2 kg", "v = 3 m/s", "K = m*v^2/2")
	for _, text := range []string{
		"K + 3 s", "insert before 2 m + 1 s", "insert before 2 m + 2 s", "change 2 to v = 3 m + 4 s",
		"insert before 1 note A crate.", "insert before 1 5 m + 6 s", "remove 3",
	} {
		p.Enter(context.Background(), text)
	}
	at := &Draft{Line: 3, Insert: true}
	if _, got := p.Write(context.Background(), "m + 7 s", at); got.Done || got.Draft == nil {
		t.Error("the place does not wait for another line")
	}
	want := []Failed{{0, "5 m + 6 s"}, {2, "m + 1 s"}, {2, "m + 2 s"}, {2, "m + 7 s"}, {3, "K + 3 s"}}
	if !slices.Equal(p.Failed(), want) {
		t.Errorf("%v, want %v", p.Failed(), want)
	}
}

// TestPreview tries lines at every place of a page: what is told is what comes of the line
// there, and the page stays as it was.
func TestPreview(t *testing.T) {
	ctx := context.Background()
	p := typed(t, "m = 2 kg", "x = 3 cm", "part b: More", "m = 5 g", "f(s) = m*s", "solve 3 N = k*x for k", "results to 3 figures", "4 N", "y = m*g")
	was := state(p)
	for line := 1; line <= p.Next(); line++ {
		for _, text := range []string{"m*x", "z = k*x", "that*2", "m = 3 kg", "f(2 m)", "m@4", "x + 3 s", "10 m/3", "mm", "y/g"} {
			tried := p.Preview(line, text)
			if state(p) != was {
				t.Fatalf("line %d, %s: the page is another", line, text)
			}
			got := fmt.Sprint(tried.Shown(), tried.Failed())
			lines := slices.Insert(p.texts()[:line-1:line-1], line-1, text)
			cut := New()
			for _, l := range lines {
				cut.Add(ctx, l)
			}
			e := cut.Entries()[line-1]
			if want := fmt.Sprint(e.Shown(), e.Failed()); got != want {
				t.Errorf("line %d, %s: %s, want %s", line, text, got, want)
			}
		}
	}
	p = typed(t, "m = 2 kg", "1 lap = 400 m")
	if e := p.Preview(2, "3 lap"); e != nil {
		t.Error("a unit is known above its line")
	}
}

// TestCommandsOffered enters commands that fail, or words that are nearly one: what is offered is
// a command that is carried out.
func TestCommandsOffered(t *testing.T) {
	for _, c := range []struct{ typed, offer string }{
		{"changed 1 to m = 3 kg", "change 1 to m = 3 kg"},
		{"changed 1 to m = x", ""},
		{"chnge 1 toto v = 4 m/s", ""},
		{"renam m to q", "rename m to q"},
		{"renam x to q", ""},
		{"rename m v", ""},
		{"rename m q", "rename m to q"},
		{"change m to 3 kg", "change 1 to m = 3 kg"},
		{"change m to x", ""},
		{"remove m", "remove 1"},
		{"insert after 1 w = 3 m", "insert before 2 w = 3 m"},
		{"insert after 1 w = x", ""},
	} {
		for _, p := range []*Page{New(), Lines()} {
			ctx := context.Background()
			for _, line := range []string{"m = 2 kg", "v = 3 m/s"} {
				p.Enter(ctx, line)
			}
			before := p.texts()
			e, _ := p.Enter(ctx, c.typed)
			var offered string
			for i := range e.Findings {
				for _, offer := range e.Findings[i].Offers() {
					offered += offer
				}
			}
			if offered != c.offer || e.Text != c.typed {
				t.Errorf("%s (kept as %s): offers %q, want %q", c.typed, e.Text, offered, c.offer)
			}
			if now := p.texts(); !slices.Equal(now[:len(before)], before) {
				t.Errorf("%s: the page is %q", c.typed, now)
			}
		}
	}
}
