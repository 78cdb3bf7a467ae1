package main

import (
	"fmt"
	"math/rand/v2"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"steelyard/session/journal"
)

// onPad is what stands on a scratchpad, as a list in memory.
type onPad struct {
	statements []string
	title      string
	saved      bool
}

// act types one line on the scratchpad. It returns what then stands on it, and
// what the program shows once it has kept the line.
func (p onPad) act(r *rand.Rand, round, step int) (line, shown string, then onPad) {
	then = onPad{slices.Clone(p.statements), p.title, false}
	switch n := r.IntN(10); {
	case n < 6 || len(p.statements) == 0:
		line = fmt.Sprintf("v_%d_%d = %d m", round, step, n)
		if n == 1 {
			line = fmt.Sprintf("worksheet = %d m", round)
		}
		then.statements = append(then.statements, line)
		return line, fmt.Sprintf("%d.  ", len(then.statements)+1), then
	case n < 8:
		then.statements = then.statements[:len(then.statements)-1]
		return "undo", "taken back", then
	case n < 9:
		then.title = fmt.Sprintf("Crates %d %d", round, step)
		return "worksheet 1 " + then.title, "title: " + then.title, then
	default:
		then.saved = true
		if then.title == "" {
			then.title = "Sheet"
		}
		return "save sheet anyway", "saved to", then
	}
}

// TestKilledAnywhere kills the scratchpad at random moments, brings back what is
// kept and goes on. Nothing that was shown as accepted is lost, and nothing that
// was taken back comes back.
func TestKilledAnywhere(t *testing.T) {
	state := t.TempDir()
	dir := filepath.Join(state, "steelyard")
	now := onPad{}
	for round := range trials(t, 20, 0.25) {
		r := rand.New(rand.NewPCG(2, uint64(round)))
		c := openTerminal(t, state)
		c.expect("  1.  ")
		if len(now.statements) > 0 {
			c.line("recover anyway", fmt.Sprintf("brought back: %s", counted(len(now.statements), "statement")))
			c.expect(fmt.Sprintf("%d.  ", len(now.statements)+1))
		}
		last := now
		for step := range r.IntN(5) {
			line, shown, then := now.act(r, round, step)
			now, last = then, then
			c.line(line, shown)
			if line != now.lastStatement() {
				c.expect(".  ")
			}
		}
		line, shown, then := now.act(r, round, 9)
		c.send(line + "\r")
		if c.answers(shown, time.Duration(r.IntN(4000))*time.Microsecond) {
			last = then
		}
		c.crash()
		if c.answers(shown, time.Millisecond) {
			last = then
		}
		got := kept(dir)
		if !got.is(last) && !got.is(then) {
			t.Fatalf("round %d: kept is %+v, want %+v or %+v", round, got, last, then)
		}
		now = got
	}
}

func (p onPad) lastStatement() string {
	if len(p.statements) == 0 {
		return ""
	}
	return p.statements[len(p.statements)-1]
}

// kept is what the next start will offer.
func kept(dir string) onPad {
	found := journal.Abandoned(dir)
	if len(found) == 0 {
		return onPad{}
	}
	last := found[len(found)-1]
	return onPad{statements: last.Statements, title: last.Title}
}

// is tells whether what is kept is what was on a scratchpad: nothing, where it was
// saved or empty.
func (p onPad) is(want onPad) bool {
	if want.saved || len(want.statements) == 0 {
		return len(p.statements) == 0
	}
	return slices.Equal(p.statements, want.statements) && p.title == want.title
}
