// Package lab works out the statements of the laboratory: readings, and what fits them.
// It opens no file itself.
package lab

import (
	"errors"
	"hash/maphash"
	"io/fs"
	"math"
	"slices"
	"strconv"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/eval"
	"steelyard/units"
	"steelyard/units/writing"
)

// table is a table of readings while it is worked out.
//
// Nothing is given a name before the whole table is known to be good: a page has all of its
// columns, or none.
type table struct {
	*eval.Line
	s *syntax.Data
	*readings
	in []*units.Unit // of the columns
	// off is the column of standard uncertainties for each column, below 0 for none.
	off []int
}

// Data gives the columns of a table of readings their names. The columns of one table
// are paired row by row.
//
// The steps are in the order in which a reader would find what is wrong: the file, the heads,
// the uncertainties, the numbers, and at last the conditions, which need all of them.
func Data(l *eval.Line, s *syntax.Data) {
	if t := (&table{Line: l, s: s}); !t.worked() {
		l.Fail(&plan.Def{Name: plan.Readings}, nil)
	}
}

// worked works the table out, and tells whether its columns have their names.
func (t *table) worked() bool {
	l, s := t.Line, t.s
	if !t.read() || !t.units() || !t.uncertainties() || !t.held() {
		return false
	}
	all, left := t.elements(), 0
	if len(s.Where) > 0 {
		keep, ok := t.kept(all)
		if !ok {
			return false
		}
		if left = t.only(all, keep); len(t.cols[0]) == 0 {
			l.Find(finding.New(finding.BadData, s.Where[0].Left.Span(), "No row of the table meets the conditions.", "Check what comes after where."))
			return false
		}
	}
	t.define(all, true)
	t.tells(len(t.cols[0]), left)
	return true
}

// read reads the table, from its file or from the lines of the statement.
//
// The lines below the word and the file come to the same readings, so that nothing after this
// knows where they were written.
func (t *table) read() bool {
	s := t.s
	if s.File == "" {
		t.readings = &readings{heads: s.Heads, cols: make([][]reading, len(s.Heads))}
		for _, row := range s.Rows {
			for i, d := range row {
				t.cols[i] = append(t.cols[i], reading{d.Float(), int(d.LastPlace)})
			}
		}
		return true
	}
	if t.Files == nil {
		t.Find(finding.New(finding.File, s.FileAt, "There is no folder here to read "+s.File+" from.", "Write the readings as an indented table under `data`."))
		return false
	}
	if s.Sheet != "" && !strings.HasSuffix(strings.ToLower(s.File), ".xlsx") {
		t.Find(finding.New(finding.File, s.FileAt, "Only a spreadsheet file (.xlsx) has sheets.", "Leave `sheet "+s.Sheet+"` out."))
		return false
	}
	content, err := t.Files(s.File, s.Sheet)
	if err != nil {
		why, hint := reason(err)
		t.Find(finding.New(finding.File, s.FileAt, s.File+" can't be read: "+why+".", hint))
		return false
	}
	var wrong *finding.Finding
	if t.readings, wrong = t.parsed(content); wrong != nil {
		wrong.At, wrong.Message = s.FileAt, s.File+": "+wrong.Message
		t.Find(*wrong)
		return false
	}
	return true
}

// seed is that of the digests of files, for as long as the program runs.
var seed = maphash.MakeSeed()

// kept is what was read from a file, with the size and the digest of that.
//
// The content itself is not kept: a page that reads ten files would hold each of them twice.
type kept struct {
	size   int
	digest uint64
	readings
}

// parsed reads the content of the file, unless it is that which was read last.
//
// A page is worked out again with each line that is changed in it, and reading a table is most
// of what that costs. The file itself is read each time, as someone may have saved it anew.
func (t *table) parsed(content []byte) (*readings, *finding.Finding) {
	digest, name := maphash.Bytes(seed, content), t.s.File+"\x00"+t.s.Sheet
	if last, ok := t.Memo[name].(*kept); ok && last.size == len(content) && last.digest == digest {
		return last.copied(), nil
	}
	got, wrong := readCSV(content)
	if wrong != nil {
		return nil, wrong
	}
	if t.Memo == nil {
		t.Memo = map[string]any{}
	}
	t.Memo[name] = &kept{len(content), digest, *got.copied()}
	return got, nil
}

// copied is a table of which rows may be left out.
//
// The conditions of a line drop rows in place; what is remembered of the file must keep them.
func (r *readings) copied() *readings {
	out := *r
	out.heads, out.cols = slices.Clone(r.heads), make([][]reading, len(r.cols))
	for i, col := range r.cols {
		out.cols[i] = slices.Clone(col)
	}
	return &out
}

// reason says in plain words why a file can't be read, and what to do.
//
// What the system says would name folders that the reader has never seen. What is told as it
// is comes from the reader of spreadsheets, which speaks of sheets and cells.
func reason(err error) (why, hint string) {
	var path *fs.PathError
	hint = "A worksheet can only read files in its own folder."
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return "there is no such file in the worksheet's folder", hint
	case errors.Is(err, fs.ErrPermission):
		return "you have no permission for it", hint
	case errors.As(err, &path):
		return "it isn't in the worksheet's folder, or isn't a file", hint
	}
	return err.Error(), "Write its name and the sheet's as in `data swing.xlsx sheet \"Run 2\"`; or save the sheet as comma-separated values."
}

// units reads those of the heads; false where one can't be read, or two heads have one
// name.
//
// A head from a file has no place in the line; what is wrong with it points to the file's
// name.
func (t *table) units() bool {
	seen := map[string]bool{}
	for i := range t.heads {
		h := &t.heads[i]
		if t.s.File != "" {
			h.NameAt, h.Unit.At = t.s.FileAt, t.s.FileAt
		}
		if seen[h.Key()] {
			t.Find(finding.New(finding.BadData, h.NameAt, "Two columns are headed "+h.Key()+".", "Give one of them another name."))
			return false
		}
		seen[h.Key()] = true
		u := units.One
		if h.Unit.Present() {
			var ok bool
			if u, ok = t.ReadUnit(h.Unit); !ok {
				return false
			}
		}
		t.in = append(t.in, u)
		if !h.Uncertain && !t.MayDefine(h.Name, h.NameAt, plan.Quantity) {
			return false
		}
	}
	return true
}

// uncertainties finds the columns of standard uncertainties, and what they are of.
//
// u(T) is of T, whatever unit each is in, if both are of one kind: 0.2 °C is a size of 0.2 K,
// and never a temperature.
func (t *table) uncertainties() bool {
	t.off = make([]int, len(t.heads))
	for i := range t.off {
		t.off[i] = -1
	}
	for j, h := range t.heads {
		if !h.Uncertain {
			continue
		}
		of := -1
		for i, other := range t.heads {
			if !other.Uncertain && other.Name == h.Name {
				of = i
			}
		}
		switch {
		case of < 0:
			t.Find(finding.New(finding.BadData, h.NameAt, h.Key()+" needs a column "+h.Name+", and there is none.", "Put "+h.Name+" and its unit at the head of its readings."))
			return false
		case t.in[of].Dim() != t.in[j].Dim():
			t.Find(finding.New(finding.BadData, h.NameAt, h.Key()+" is in "+t.in[j].Screen()+", and "+h.Name+" in "+t.in[of].Screen()+".", "An uncertainty has the unit of its readings, or one of the same kind."))
			return false
		}
		for k, n := range t.cols[j] {
			if n.v < 0 {
				t.Find(finding.New(finding.BadData, h.NameAt, h.Key()+" is negative in row "+strconv.Itoa(k+1)+".", "An uncertainty is 0 or more."))
				return false
			}
		}
		t.off[of] = j
	}
	return true
}

// size is how much one of a unit is in the SI, as a difference.
//
// Of °C it is one kelvin. A difference has no zero that could shift it.
func size(u *units.Unit) float64 { return u.ToSIFloat(1) - u.ToSIFloat(0) }

// held finds readings that can't be held in coherent SI units; false where there is one.
//
// A number of a file may be one that no unit leaves within range, as 1e306 in km.
func (t *table) held() bool {
	for i, col := range t.cols {
		of, one := t.in[i].ToSIFloat, size(t.in[i])
		if t.heads[i].Uncertain {
			of = func(v float64) float64 { return float64(v * one) }
		}
		for k, n := range col {
			if !ops.Held(of(n.v)) {
				t.Find(finding.New(finding.BadData, t.heads[i].NameAt, "The number under "+t.heads[i].Key()+" in row "+strconv.Itoa(k+1)+" is too large or too small: numbers here go from 10^-308 to 10^308.", "Check its exponent."))
				return false
			}
		}
	}
	return true
}

// elements are the readings as instructions, in coherent SI units: with their
// uncertainties, or else measured to their last figure.
//
// A reading of 0.450 is known to its last place, and what is worked out from it is shown with
// as many figures. With an uncertainty of its own it is that which counts.
func (t *table) elements() [][]run.Instr {
	out := make([][]run.Instr, len(t.cols))
	for i, col := range t.cols {
		if t.heads[i].Uncertain {
			continue
		}
		out[i] = make([]run.Instr, len(col))
		one := size(t.in[i])
		for k, n := range col {
			place := math.Pow10(n.last) * one
			if n.v == 0 && n.last >= 0 {
				place = 0 // exact, as in an expression
			}
			out[i][k] = run.Written(t.in[i].ToSIFloat(n.v), place, 0)
			if j := t.off[i]; j >= 0 && t.cols[j][k].v > 0 {
				out[i][k] = run.Uncertain(out[i][k].K, t.cols[j][k].v*size(t.in[j]), units.Normal)
			}
		}
	}
	return out
}

// define gives the columns their names; for good, or on trial.
//
// On trial, nothing is told and no older name is lost: that is for the conditions, which may
// leave no row.
func (t *table) define(all [][]run.Instr, good bool) {
	first := run.NoSlot
	for i, h := range t.heads {
		if h.Uncertain {
			continue
		}
		d := &plan.Def{Name: h.Name, Kind: plan.Quantity, Slot: t.Planner.Readings(all[i], t.in[i], first), Unit: t.in[i], Given: true}
		if first == run.NoSlot {
			first = d.Slot
		}
		t.CatchUp()
		if good {
			t.GivenAgain(h.Name, h.NameAt, false)
			if v, ok := t.NewValue(h.Name, &syntax.Name{Name: h.Name}, d.Slot, t.in[i]); ok {
				v.List.Figures = make([]units.Figures, len(all[i]))
				for k := range t.cols[i] {
					v.List.Figures[k] = units.Figures{N: t.cols[i][k].figures(), Keep: true}
				}
				if j := t.off[i]; j >= 0 {
					v.UFigures = int32(t.written(j))
				}
				t.Entry.Give(v).Records = t.s.File != ""
			}
		}
		t.Settle(d)
	}
}

// written is with how many figures the uncertainties of a column are shown: those that
// were written, as of other givens.
func (t *table) written(column int) int {
	most := 1
	for _, n := range t.cols[column] {
		if n.v > 0 {
			most = max(most, n.figures())
		}
	}
	return min(most, eval.UsualOff)
}

// kept tells which rows are as the conditions say.
//
// The columns are defined for a moment, so that a condition is read like any comparison of the
// page; then the program is cut back to where it was, and the rows that are kept are defined
// for good. Where both sides are lists they are compared row by row.
func (t *table) kept(all [][]run.Instr) ([]bool, bool) {
	m, unsure := t.Planner.Mark(), t.Planner.Unsure
	defer func() {
		t.Planner.Cut(m)
		t.Planner.Unsure = unsure
		t.State.Truncate(t.Planner.Size())
	}()
	t.define(all, false)
	keep := make([]bool, len(t.cols[0]))
	for i := range keep {
		keep[i] = true
	}
	for _, c := range t.s.Where {
		left, right := t.Eval(c.Left, eval.Want{Lists: true}), t.Eval(c.Right, eval.Want{Lists: true})
		if !left.OK || !right.OK {
			return nil, false
		}
		if fs := t.Planner.Meet(c.Left, c.Right, &left.Compiled, &right.Compiled, t.Entry.Text); len(fs) > 0 {
			t.Find(fs...)
			return nil, false
		}
		a, b := t.State.Elements(left.Slot), t.State.Elements(right.Slot)
		for _, list := range [][]float64{a, b} {
			if len(list) > 1 && len(list) != len(keep) {
				t.Find(plan.UnequalLists(c.Left.Span().Join(c.Right.Span()), "The table", len(keep), "what it is compared with", len(list)))
				return nil, false
			}
		}
		for i := range keep {
			keep[i] = keep[i] && c.Op.Holds(a[min(i, len(a)-1)], b[min(i, len(b)-1)], 0, 0)
		}
	}
	return keep, true
}

// only drops the rows that are not kept, and tells how many.
//
// A row goes from all columns at once, as what is in one row belongs together.
func (t *table) only(all [][]run.Instr, keep []bool) (left int) {
	n := 0
	for k, is := range keep {
		if !is {
			continue
		}
		for i := range t.cols {
			t.cols[i][n] = t.cols[i][k]
			if all[i] != nil {
				all[i][n] = all[i][k]
			}
		}
		n++
	}
	for i := range t.cols {
		t.cols[i] = t.cols[i][:n]
		if all[i] != nil {
			all[i] = all[i][:n]
		}
	}
	return len(keep) - n
}

// tells says what the table holds, and what of it is left out.
//
// How many rows there are is what a reader can check against the sheet; rows that are missing
// must never go unseen.
func (t *table) tells(rows, left int) {
	r := t.Entry.Result()
	if r == nil {
		return
	}
	var cols []entry.Said
	for i, h := range t.heads {
		said := entry.Math(&syntax.Name{Name: h.Name})
		if h.Uncertain {
			said = entry.Math(&syntax.Call{Func: "u", Args: []syntax.Arg{{X: &syntax.Name{Name: h.Name}}}})
		}
		if t.in[i] != units.One {
			said = said.And(" in " + t.in[i].Screen())
		}
		cols = append(cols, said)
	}
	r.Notes = []entry.Said{entry.Say(writing.Count(rows, "row")+": …", entry.Listed(cols))}
	if left > 0 {
		r.Notes = append(r.Notes, entry.Words(writing.Count(left, "row")+" left out by the conditions"))
	}
	if t.blank > 0 {
		r.Notes = append(r.Notes, entry.Words(writing.Count(t.blank, "row")+" without any value"))
	}
}
