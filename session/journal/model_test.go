package journal

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"steelyard/session"
)

// memory is a file in memory whose writes may fail: wholly, after some bytes, or
// only when they are flushed.
type memory struct {
	data []byte
	fail func() bool
}

var errFull = errors.New("no room")

func (d *memory) WriteAt(data []byte, at int64) (int, error) {
	n := len(data)
	failed := d.fail()
	if failed {
		n = rand.IntN(n + 1)
	}
	d.data = append(d.data[:min(int(at), len(d.data))], append(data[:n:n], d.data[min(int(at)+n, len(d.data)):]...)...)
	if failed {
		return n, errFull
	}
	return n, nil
}

func (d *memory) Truncate(size int64) error {
	if d.fail() {
		return errFull
	}
	d.data = d.data[:min(int(size), len(d.data))]
	return nil
}

func (d *memory) Sync() error {
	if d.fail() {
		return errFull
	}
	return nil
}

func (d *memory) Close() error { return nil }

// model is what a journal must come to: a list in memory.
type model struct {
	statements []string
	title      string
	saved      bool
}

func (m model) copy() model {
	m.statements = slices.Clone(m.statements)
	return m
}

// says tells whether a journal's bytes come to this.
func (m model) says(c decoder) bool {
	return slices.Equal(m.statements, c.statements) && m.title == c.title && m.saved == c.saved
}

// TestSequences makes random sequences of statements, changes, titles, savings,
// writes that fail and kills, and compares what would be recovered with a list in
// memory: after an entry that was written it is the same, and after failures what
// it was at some moment since the last that was written, never a mixture.
func TestSequences(t *testing.T) {
	for n := range 10_000 {
		if !sequence(t, rand.New(rand.NewPCG(1, uint64(n)))) {
			t.Fatalf("sequence %d", n)
		}
	}
}

// edit is a random change of lines.
func edit(r *rand.Rand, lines int) session.Edit {
	text := func() string { return odd[r.IntN(len(odd))] + fmt.Sprint(r.IntN(5)) }
	ed := session.Edit{At: 1 + r.IntN(lines+1), Texts: map[int]string{}}
	ed.Drop = r.IntN(min(3, lines+2-ed.At))
	for range r.IntN(3) {
		ed.Put = append(ed.Put, text())
	}
	for range r.IntN(3) {
		if line := 1 + r.IntN(lines+1); line < ed.At {
			ed.Texts[line] = text()
		}
	}
	if ed.Drop+len(ed.Put) == 0 && len(ed.Texts) > 0 {
		ed.At = 0
	} else if ed.Drop+len(ed.Put) == 0 {
		ed.Put = []string{text()}
	}
	return ed
}

func sequence(t *testing.T, r *rand.Rand) bool {
	t.Helper()
	often := []float64{0, 0.05, 0.5}[r.IntN(3)]
	d := &memory{fail: func() bool { return r.Float64() < often }}
	j := &Journal{file: d, late: []byte(header + "\n")}
	now := model{}
	since := []model{now} // what was entered since the last entry that was written
	for range 1 + r.IntN(30) {
		var problem *Problem
		if r.IntN(5) == 0 {
			j.Hold()
		}
		switch r.IntN(9) {
		case 0, 1, 2, 3:
			text := odd[r.IntN(len(odd))] + fmt.Sprint(r.IntN(5))
			now.statements, now.saved = append(slices.Clone(now.statements), text), false
			problem = j.Accept(text)
		case 4, 5:
			ed := edit(r, len(now.statements))
			now.statements = slices.Clone(now.statements)
			for line, text := range ed.Texts {
				now.statements[line-1] = text
			}
			now.statements, now.saved = slices.Replace(now.statements, max(ed.At-1, 0), max(ed.At-1, 0)+ed.Drop, ed.Put...), false
			problem = j.Change(ed)
		case 6:
			now.title, now.saved = fmt.Sprint("Crates ", r.IntN(9)), false
			problem = j.Title(now.title)
		case 7:
			held := j.held
			if problem = j.Flush(); held && j.Whole() != (problem == nil) {
				t.Errorf("all is on the disk: %v, though %v", j.Whole(), problem)
			}
		default:
			now.title, now.saved = fmt.Sprint("Sheet ", r.IntN(9)), true
			problem = j.Saved(now.title)
		}
		since = append(since, now.copy())
		c, ok := decode(string(d.data))
		if problem == nil && (j.Whole() || j.held) {
			since = since[len(since)-1:]
		}
		if !ok || c.damaged && problem == nil || !slices.ContainsFunc(since, func(m model) bool { return m.says(c) }) {
			t.Errorf("the journal says %q, titled %q, saved %v; entered was %+v", c.statements, c.title, c.saved, since)
			return false
		}
		if r.IntN(10) == 0 { // killed, and brought back
			now = model{c.statements, c.title, c.saved}
			since = []model{now}
			j = &Journal{file: d, good: int64(c.good), last: c.last, numbers: c.numbers}
			d.data = d.data[:c.good]
			if c.good == 0 {
				j.late = []byte(header + "\n")
			}
		}
	}
	return true
}
