package session

import (
	"context"
	"strconv"

	"steelyard/lang/finding"
	"steelyard/lang/limit"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/eval"
)

// ended makes of a line whose budget has ended one that has no value, and says
// where that was. Whatever came of it so far claims more than is known: a search
// that was cut short has not found everything, and a curve has holes that are not
// its own.
func (p *Pad) ended(l *eval.Line, m mark) {
	planner := p.page.Planner
	planner.Cut(m.plan)
	p.page.State.Truncate(planner.Size())
	p.page.Set = m.set
	e := l.Entry
	e.By, e.Outcome = p, nil
	e.Findings = []finding.Finding{endedAt(l, l.State.Budget.Ended())}
	if e.Stmt == nil {
		unread(l)
		return
	}
	for _, name := range e.Stmt.Defines() {
		l.Fail(&plan.Def{Name: name.Name, Slot: run.NoSlot}, nil)
	}
	if _, ok := e.Stmt.(*syntax.Value); ok {
		l.Fail(eval.Unnamed(), nil)
	}
}

// endedAt says why a line was ended, and at what.
func endedAt(l *eval.Line, why limit.Ending) finding.Finding {
	doing, at := l.Busy()
	if doing == "" {
		at = syntax.Span{To: len(l.Entry.Text)}
	} else {
		doing = " while " + doing
	}
	if why == limit.Stopped {
		if doing == "" {
			doing = " before the end"
		}
		return finding.New(finding.Stopped, at, "Stopped"+doing+"; this line has no value.", "")
	}
	return finding.New(finding.TooLong, at, "This line takes more than "+strconv.Itoa(limit.Steps/1_000_000)+" million steps, so it was stopped"+doing+".",
		"Split it into several lines, or use a shorter range.")
}

// within gives what is worked out a budget of steps, and returns what takes it away
// again. What is asked for while a line is worked out spends that line's.
func (p *Pad) within(ctx context.Context, steps int64) (done func()) {
	if p.page.State.Budget != nil {
		return func() {}
	}
	p.budget = *limit.NewBudget(ctx, steps)
	p.page.State.Budget, p.page.Planner.Budget = &p.budget, &p.budget
	return func() { p.page.State.Budget, p.page.Planner.Budget = nil, nil }
}
