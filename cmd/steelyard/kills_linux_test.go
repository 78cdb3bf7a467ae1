package main

import (
	"fmt"
	"math/rand/v2"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"steelyard/session/journal"
	"steelyard/units/writing"
)

// onPad is what stands on a scratchpad, as a list in memory.
type onPad struct {
	statements []string
	title      string
	saved      bool
	entitled   bool   // the last change was that of the title
	before     *onPad // the last change, which undo takes back
	after      *onPad // what redo makes of it
}

// act types one line on the scratchpad. It returns what then stands on it, and
// what the program shows once it has kept the line.
func (p onPad) act(r *rand.Rand, round, step int) (line, shown string, then onPad) {
	then = onPad{statements: slices.Clone(p.statements), title: p.title, before: &p}
	n, lines := r.IntN(20), len(p.statements)
	text := fmt.Sprintf("v_%d_%d = %d m", round, step, n)
	at := 1 + r.IntN(max(lines, 1))
	switch name, given := p.given(at); {
	case n < 6 || lines == 0:
		switch {
		case n == 1:
			text = fmt.Sprintf("worksheet = %d m", round)
		case n < 4 && given:
			text = fmt.Sprintf("u_%d_%d = 2*%s", round, step, name)
		}
		then.statements = append(then.statements, text)
		return text, fmt.Sprintf("%d.  ", lines+2), then
	case n < 8:
		then.statements[at-1] = text
		return fmt.Sprintf("change %d to %s", at, text), fmt.Sprintf("%d.  %s", at, text), then
	case n < 9:
		then.statements = slices.Insert(then.statements, at-1, text)
		return fmt.Sprintf("insert before %d %s", at, text), fmt.Sprintf("%d.  %s", at, text), then
	case n < 10:
		then.statements = slices.Delete(then.statements, at-1, at)
		return fmt.Sprintf("remove %d", at), "removed", then
	case n < 13 && given:
		now := fmt.Sprintf("r_%d_%d", round, step)
		word := regexp.MustCompile(`\b` + name + `\b`)
		for i, s := range then.statements {
			then.statements[i] = word.ReplaceAllString(s, now)
		}
		return fmt.Sprintf("rename %s to %s", name, now), fmt.Sprintf("%s is %s in line", name, now), then
	case n < 15 && p.before != nil:
		then = *p.before
		if then.saved = false; !p.entitled {
			then.title = p.title
		}
		then.after = &p
		return "undo", "undone", then
	case n < 17 && p.after != nil:
		then = *p.after
		if then.saved = false; !then.entitled {
			then.title = p.title
		}
		return "redo", "redone", then
	case n < 18:
		then.title, then.entitled = fmt.Sprintf("Crates %d %d", round, step), true
		return "worksheet 1 " + then.title, "title: " + then.title, then
	default:
		then.saved, then.before, then.after, then.entitled = true, p.before, p.after, p.entitled
		if then.title == "" {
			then.title = "Sheet"
		}
		return "save sheet anyway", "saved to", then
	}
}

// given is the name that a line gives a value of its own, if it does.
func (p onPad) given(line int) (name string, is bool) {
	if line > len(p.statements) {
		return "", false
	}
	name, value, _ := strings.Cut(p.statements[line-1], " = ")
	return name, name != "worksheet" && !strings.Contains(value, "*")
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
			c.line("recover anyway", fmt.Sprintf("brought back: %s", writing.Count(len(now.statements), "statement")))
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
	p := onPad{title: last.Title} // brought back, line by line
	for _, text := range last.Statements {
		before := p
		p = onPad{statements: append(slices.Clone(p.statements), text), title: last.Title, before: &before}
	}
	return p
}

// is tells whether what is kept is what was on a scratchpad: nothing, where it was
// saved or empty.
func (p onPad) is(want onPad) bool {
	if want.saved || len(want.statements) == 0 {
		return len(p.statements) == 0
	}
	return slices.Equal(p.statements, want.statements) && p.title == want.title
}
