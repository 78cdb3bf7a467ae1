package session

import (
	"reflect"

	"steelyard/lang/plan"
	"steelyard/lang/syntax"
	"steelyard/session/advise"
	"steelyard/session/ask"
	"steelyard/session/check"
	"steelyard/session/curve"
	"steelyard/session/entry"
	"steelyard/session/eval"
	"steelyard/session/given"
	"steelyard/session/lab"
	"steelyard/session/solve"
	"steelyard/session/vary"
	"steelyard/session/work"
	"steelyard/units"
)

// statement is how one kind of statement is worked out, and what custom says of
// what came out.
type statement struct {
	work, advise func(*eval.Line, syntax.Stmt)
}

// statements is the one table from the kinds of statement to their rooms; a test
// holds it against the words of the language.
var statements = table(
	of(define).with(advise.Define),
	of(value).with(advise.Value),
	of(given.Function).with(advise.Function),
	of(given.Let),
	of(given.Unit),
	of(given.Formula),
	of(given.Constants),
	of(check.Check).with(advise.Check),
	of(check.Compare),
	of(check.Report).with(advise.Report),
	of(solve.Solve).with(advise.Solve),
	of(lab.Data),
	of(lab.Fit),
	of(lab.Straighten),
	of(lab.Plot),
	of(lab.Columns),
	of(vary.Scaling),
	of(curve.Graph).with(advise.Graph),
	of(curve.Bars),
	of(curve.Arrows),
	of(work.Steps),
	of(work.Budget),
	of(func(l *eval.Line, _ *syntax.Part) { l.Planner.BeginPart() }).with(advise.Part),
	of(func(l *eval.Line, s *syntax.FiguresSetting) {
		l.Set.Figures, l.Set.ByGivens = units.Figures{N: s.Figures, Keep: s.Figures > 0}, s.Figures == 0
	}),
	of(func(l *eval.Line, _ *syntax.ExactSetting) { l.Set.Exact = true }),
	of(func(l *eval.Line, s *syntax.SpreadSetting) {
		if l.Set.Added = l.Set.Added || !s.Up; s.Up {
			l.Set.Rounding |= units.OffUp
		}
	}),
	of(func(l *eval.Line, s *syntax.RoundSetting) { l.Set.Rounding = s.Rule() | l.Set.Rounding&units.OffUp }),
	of(func(*eval.Line, *syntax.Note) {}).with(advise.Note),
	of(func(*eval.Line, *syntax.Remark) {}),
)

// define works out NAME = EXPR [in UNIT].
func define(l *eval.Line, s *syntax.Define) {
	if d, ok := given.Named(l, s); ok && !derived(l, d, s.X, s.In) {
		given.Define(l, d, s)
	}
}

// value works out EXPR [in UNIT], a result without a name.
func value(l *eval.Line, s *syntax.Value) {
	if d := eval.Unnamed(); !derived(l, d, s.X, s.In) {
		given.Value(l, d, s)
	}
}

// derived works a result out that has a room of its own, and tells whether it has
// one.
func derived(l *eval.Line, d *plan.Def, x syntax.Expr, in syntax.UnitText) bool {
	switch x := x.(type) {
	case *syntax.With:
		vary.With(l, d, x, in)
	case *syntax.SlopeOf, *syntax.AreaUnder:
		curve.ReadOff(l, d, x, in)
	default:
		return false
	}
	return true
}

// row is a statement of the table with its type.
type row[S syntax.Stmt] struct{ statement }

// of makes a row of the room's function for a kind of statement.
func of[S syntax.Stmt](work func(*eval.Line, S)) row[S] {
	return row[S]{statement{work: func(l *eval.Line, s syntax.Stmt) { work(l, s.(S)) }}}
}

// with adds the cautions of that kind of statement.
func (r row[S]) with(advise func(*eval.Line, S)) row[S] {
	r.advise = func(l *eval.Line, s syntax.Stmt) { advise(l, s.(S)) }
	return r
}

func (r row[S]) kind() (reflect.Type, statement) { return reflect.TypeFor[S](), r.statement }

// table finds the rows by the type of their statement.
func table(rows ...interface {
	kind() (reflect.Type, statement)
}) map[reflect.Type]statement {
	out := make(map[reflect.Type]statement, len(rows))
	for _, r := range rows {
		kind, s := r.kind()
		out[kind] = s
	}
	return out
}

// workOut works a statement out in its room.
func workOut(l *eval.Line, s syntax.Stmt) {
	row := statements[reflect.TypeOf(s)]
	if row.work != nil {
		row.work(l, s)
	}
	if row.advise != nil {
		row.advise(l, s)
	}
	advise.OfParts(l, s)
}

// answer answers a command that is no line of the worksheet.
func (p *Pad) answer(e *entry.Entry, cmd *syntax.Command) {
	switch cmd.Word {
	case "names":
		ask.AllNames(p.page, e)
	case "describe":
		ask.Describe(p.page, e, cmd)
	case "title", "worksheet":
		p.entitle(e, cmd)
	}
}
