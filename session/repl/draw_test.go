package repl

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/mattn/go-runewidth"
)

// glass is a screen as a terminal shows it: the sequences that a painter writes, and no
// others (ECMA-48; the last column holds the cursor back until the next character).
type glass struct {
	t             *testing.T
	columns, rows int
	cells         [][]string
	y, x          int
	bytes         int

	slanted string // what was written in italics
	italics bool
}

func newGlass(t *testing.T, columns, rows int) *glass {
	g := &glass{t: t, columns: columns, rows: rows}
	for range rows {
		g.cells = append(g.cells, make([]string, columns))
	}
	return g
}

func (g *glass) down() {
	if g.y++; g.y == g.rows {
		g.y--
		g.cells = append(g.cells[1:], make([]string, g.columns))
	}
}

// Write shows bytes.
func (g *glass) Write(p []byte) (int, error) {
	g.bytes += len(p)

	for s := string(p); s != ""; {
		if rest, ok := strings.CutPrefix(s, "\x1b["); ok {
			n := 0
			for rest[n] < '@' {
				n++
			}
			g.control(rest[:n], rest[n])
			s = rest[n+1:]
			continue
		}
		r := []rune(s)[0]
		s = s[len(string(r)):]
		g.show(r)
	}
	return len(p), nil
}

func (g *glass) show(r rune) {
	w := runewidth.RuneWidth(r)
	switch {
	case r == '\r':
		g.x = 0
	case r == '\n': // as the terminal's own mode has it
		g.x = 0
		g.down()
	case r == '\b':
		if g.x == 0 || g.x == g.columns {
			g.t.Fatal("a step back at the edge")
		}
		g.x--
	case w == 0:
		g.cells[g.y][max(g.x-1, 0)] += string(r)
	default:
		if g.x+w > g.columns {
			g.x = 0
			g.down()
		}
		g.cells[g.y][g.x] = string(r)
		for i := 1; i < w; i++ {
			g.cells[g.y][g.x+i] = ""
		}
		g.x += w
		if g.italics {
			g.slanted += string(r)
		}
	}
}

func (g *glass) control(args string, final byte) {
	n := 1
	fmt.Sscan(args, &n)
	switch final {
	case 'A':
		if g.y -= n; g.y < 0 || g.x == g.columns {
			g.t.Fatal("up from where that is not sure")
		}
	case 'C':
		g.x += n
	case 'D':
		g.x -= n
	case 'J', 'K':
		if g.x == g.columns {
			g.t.Fatal("erased from behind the edge")
		}
		clear(g.cells[g.y][g.x:])
		for y := g.y + 1; final == 'J' && y < g.rows; y++ {
			clear(g.cells[y])
		}
	case 'm':
		g.italics = args == "3" || args != "23" && g.italics
	default:
		g.t.Fatalf("unknown sequence %q", args+string(final))
	}
	if g.x < 0 || g.x >= g.columns && final != 'm' {
		g.t.Fatalf("the cursor is in column %d", g.x)
	}
}

// shows is the screen as text, without blank rows below.
func (g *glass) shows() string {
	var rows []string
	for _, cells := range g.cells {
		row := ""
		for x := 0; x < len(cells); x++ {
			c := cells[x]
			if c == "" {
				c = " "
			}
			row += c
			x += max(runewidth.StringWidth(c)-1, 0)
		}
		rows = append(rows, strings.TrimRight(row, " "))
	}
	for len(rows) > 0 && rows[len(rows)-1] == "" {
		rows = rows[:len(rows)-1]
	}
	return strings.Join(rows, "\n")
}

// TestDrawn draws random lines one after the other, each in the place of the one before:
// the screen always shows what it would if the last alone had been drawn.
func TestDrawn(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 7))
	alphabet := []rune("abcω√²   質量é\u0301\n")
	for round := range 100 {
		columns, rows := 8+r.IntN(30), 4+r.IntN(6)
		g := newGlass(t, columns, rows)
		p := &painter{to: g}
		for range r.IntN(rows + 2) {
			fmt.Fprint(g, "above\n")
		}
		var text []rune
		for step := range 40 {
			switch at := r.IntN(len(text) + 1); r.IntN(6) {
			case 0:
				text = slices.Delete(text, at, min(len(text), at+r.IntN(20)))
			default:
				more := make([]rune, r.IntN(9))
				for i := range more {
					more[i] = alphabet[r.IntN(len(alphabet))]
				}
				text = slices.Insert(text, at, more...)
			}
			f := &frame{prompt: "  1.  ", more: "    … ", text: string(text)}
			f.at = len(string(text[:r.IntN(len(text)+1)]))
			if r.IntN(2) == 0 {
				f.below, f.dim = []string{"under it " + string(alphabet[r.IntN(9)])}, true
			}
			if r.IntN(3) == 0 {
				f.slants = []Span{{0, r.IntN(len(f.text) + 1)}}
			}
			p.draw(f, columns, rows)
			alone := newGlass(t, columns, rows)
			(&painter{to: alone}).draw(f, columns, rows)
			got, want := g.shows(), alone.shows()
			if !strings.HasSuffix("\n"+got, "\n"+want) || g.x != alone.x {
				t.Fatalf("round %d, step %d: the screen shows\n%s\ncolumn %d, and should show\n%s\ncolumn %d", round, step, got, g.x, want, alone.x)
			}
		}
	}
}

// TestFewBytes types a line: what is written is little more than what is typed.
func TestFewBytes(t *testing.T) {
	g := newGlass(t, 80, 24)
	p := &painter{to: g}
	text := "k = 2*W/x^2 in N/m"
	for at := range len(text) + 1 {
		p.draw(&frame{prompt: "  1.  ", text: text[:at], at: at, slants: []Span{{0, 1}, {6, 7}, {8, 9}}, below: []string{"N/m"}}, 80, 24)
	}
	if g.slanted != "kWx" || g.bytes > 6*len(text) {
		t.Errorf("%q in italics; %d bytes for %d characters", g.slanted, g.bytes, len(text))
	}
}
