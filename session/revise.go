package session

import (
	"context"
	"slices"
	"strings"

	"steelyard/lang/plan"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/eval"
)

// Edit is a change of lines above: other texts for some, and one run of lines taken
// out and others put in its place.
type Edit struct {
	// Texts are new texts of lines that stay, by their numbers.
	Texts map[int]string
	// At is the number of the first line that is taken out, or before which others
	// are put; Drop is how many are taken out.
	At, Drop int
	Put      []string
}

// Anew is a line that was worked out again. Was is nil for one put in, and Now for one
// taken out.
type Anew struct{ Was, Now *entry.Entry }

// Revise changes lines of a pad that is Revised, and works out again those that depend on what has changed: all
// others stay as they are, but for their numbers. Lines are put in or taken out only
// where their numbers are 1, 2, 3 …; every text is a statement that is stored. The
// lines that were worked out or taken out are told in order, each when it is: a page
// is not held twice.
func (p *Pad) Revise(ctx context.Context, ed Edit, tell func(Anew)) {
	r := p.revision(&ed)
	r.tell = tell
	put := false
	for i, e := range r.old {
		if e.Line == ed.At {
			r.put(ctx)
			put = true
		}
		text, changed := ed.Texts[e.Line]
		switch {
		case e.Line >= ed.At && e.Line < ed.At+ed.Drop:
			r.drop(e)
		case changed:
			r.reenter(ctx, i, text)
		case r.stays(i):
			r.keep(i)
		default:
			r.reenter(ctx, i, e.Text)
		}
		r.old[i], r.befores[i] = nil, mark{}
	}
	if !put {
		r.put(ctx)
	}
}

// revision is a pad of which the lines from the first that changes on have been taken
// away, to be put back one by one.
type revision struct {
	*Pad
	ed      *Edit
	old     []*entry.Entry
	befores []mark      // before each of the old lines, and after the last
	defs    []*plan.Def // of the old lines
	// lifted tells that the program of the old lines is still there, so that they
	// can be kept.
	lifted  bool
	changed bool // there is a line above that has changed
	renamed bool // other names are given above, or names of another kind
	by      int  // by how much the number of the next old line changes
	dirty   map[string]bool
	tell    func(Anew)
}

// most is how many instructions per line are left in the program where lines have
// changed, before all is planned anew.
const most = 100

func (p *Pad) revision(ed *Edit) *revision {
	entries := p.page.Entries
	first := slices.IndexFunc(entries, func(e *entry.Entry) bool {
		_, changed := ed.Texts[e.Line]
		return changed || e.Line >= ed.At && ed.Drop+len(ed.Put) > 0
	})
	r := &revision{Pad: p, ed: ed, dirty: map[string]bool{}}
	if first < 0 {
		return r
	}
	planner := p.page.Planner
	r.lifted = ed.Drop < len(entries)-first
	if int(planner.Size()) > most*(10+len(entries)) {
		first, r.lifted = 0, false
	}
	m := p.marks[first].plan
	r.old, r.defs = slices.Clone(entries[first:]), slices.Clone(planner.Since(m))
	r.befores = append(slices.Clone(p.marks[first:]), p.mark())
	if r.lifted = r.lifted && !planner.Told(m); !r.lifted {
		p.cut(first, r.befores[0])
		p.marks = p.marks[:first]
		return r
	}
	planner.Lift(m, ed.At+ed.Drop, len(ed.Put)-ed.Drop)
	p.page.Set, p.page.Entries, p.marks = r.befores[0].set, entries[:first:first], p.marks[:first]
	return r
}

// put enters lines that were not there.
func (r *revision) put(ctx context.Context) {
	for _, text := range r.ed.Put {
		r.renamed = true
		r.work(nil, func() *entry.Entry { return r.EnterAt(ctx, r.Next(), text) })
		r.by++
	}
}

// drop leaves a line out.
func (r *revision) drop(e *entry.Entry) {
	r.by--
	r.gone(r.take(e))
	r.renamed = true
	r.tell(Anew{Was: e})
}

// reenter works an old line out again. It is not read again where it would be read as it
// was: its text is the same, and so are the names that are known.
func (r *revision) reenter(ctx context.Context, i int, text string) {
	e, m := r.old[i], r.befores[i]
	was := r.take(e)
	r.gone(was)
	read, asked := syntax.Stmt(nil), &plan.Asked{}
	if m.read && r.lifted && !r.renamed && text == e.Text {
		read, asked = e.Stmt, m.asked
	}
	now := r.work(e, func() *entry.Entry { return r.enterRead(ctx, e.Line+r.by, text, read, asked) })
	r.renamed = r.renamed || !slices.EqualFunc(was, now, func(a, b *plan.Def) bool {
		return a.Name == b.Name && a.Kind == b.Kind && a.Failed() == b.Failed()
	})
}

// work works a line out, and returns what it defines. One that tells what a unit is, or
// of what dimension a 0 above it is, may change any line below.
func (r *revision) work(was *entry.Entry, enter func() *entry.Entry) []*plan.Def {
	m := r.page.Planner.Mark()
	now := enter()
	defs := r.page.Planner.Since(m)
	r.gone(defs)
	r.lifted = r.lifted && !r.page.Planner.Told(m)
	r.tell(Anew{was, now})
	return defs
}

// gone notes that names mean something else from here on.
func (r *revision) gone(defs []*plan.Def) {
	for _, d := range defs {
		r.dirty[d.Name] = true
	}
	r.changed = true
}

// take takes the definitions of the next old line.
func (r *revision) take(e *entry.Entry) []*plan.Def {
	n := 0
	for n < len(r.defs) && r.defs[n].Line == e.Line {
		n++
	}
	defs := r.defs[:n]
	r.defs = r.defs[n:]
	return defs
}

// stays tells whether an old line would come to the same here.
func (r *revision) stays(i int) bool {
	e, m := r.old[i], r.befores[i]
	return r.lifted && m.asked != nil && m.plan.Part() == r.page.Planner.Part() && m.set.Same(r.page.Set) &&
		!(m.asked.All && r.changed) && !slices.ContainsFunc(m.asked.Names, func(name string) bool { return r.dirty[name] }) &&
		kept(e) && (r.by == 0 || placeless(e))
}

// keep puts an old line back as it was.
func (r *revision) keep(i int) {
	e, by, planner := r.old[i], r.by, r.page.Planner
	m := r.mark()
	m.asked = r.befores[i].asked
	planner.Begin(e.Line + by)
	that := r.befores[i+1].plan.That()
	for _, d := range r.take(e) {
		planner.Define(d)
	}
	if that != r.befores[i].plan.That() {
		that.Line = e.Line + by
		planner.SetThat(that)
	}
	r.page.Set = r.befores[i+1].set
	if by != 0 {
		moved := *e
		moved.Line += by
		moved.Uses = slices.Clone(e.Uses)
		for j, line := range moved.Uses {
			if line >= r.ed.At {
				moved.Uses[j] += by
			}
		}
		e = &moved
	}
	r.page.Entries = append(r.page.Entries, e)
	r.marks = append(r.marks, m)
}

// kept tells whether a line of this kind leaves nothing behind but what its names and
// the word that mean, and how results are printed.
func kept(e *entry.Entry) bool {
	switch e.Stmt.(type) {
	case *syntax.Define, *syntax.Value, *syntax.Solve, *syntax.FuncDef, *syntax.FormulaDef, *syntax.Let,
		*syntax.CheckStmt, *syntax.Report, *syntax.Graph, *syntax.Bars, *syntax.Arrows, *syntax.Scaling, *syntax.Note, *syntax.Remark:
		return true
	}
	return false
}

// placeless tells whether nothing of a line names the number of another.
func placeless(e *entry.Entry) bool {
	if len(e.Findings) > 0 || strings.Contains(e.Text, "@") {
		return false
	}
	if r := e.Result(); r != nil && len(r.Notes) > 0 {
		return false
	}
	by, ok := e.By.(*eval.Solved)
	if parts, vectors := e.By.(*eval.ByComponents); vectors && !ok {
		by, _ = parts.Of.By.(*eval.Solved)
	}
	for i := 0; by != nil && i < len(by.Roots); i++ {
		for n := range syntax.Each[*syntax.Name](by.Roots[i].X) {
			if n.Line != 0 {
				return false
			}
		}
	}
	return true
}
