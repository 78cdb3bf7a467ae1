package plan

import (
	"math"
	"slices"

	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// DefKind is what a name stands for.
type DefKind uint8

// The kinds of definitions.
const (
	Quantity DefKind = iota // a given, a result or a constant
	Symbol                  // a unit and no value yet
	Function                // a function of the worksheet
	Formula                 // a formula of the worksheet
)

// Def is one line's definition of a name. A name given twice has two.
type Def struct {
	Name string
	Kind DefKind
	// Given marks a name that is given by written numbers alone.
	Given bool
	// Slot holds its value; NoSlot if the line failed.
	Slot run.Slot
	// Line is the line that defines it, 0 for standard gravity.
	Line int
	// Part counts the parts of the question; a name may be given once in each.
	Part int32
	seq  int32 // how many names are above
	// Exponent is the given's value where that is a pure rational number: lost where no unit can
	// have it, as 1.67.
	Exponent *units.Exp
	// Unit is the unit of its line, in which the name is shown.
	Unit *units.Unit
	// Of is the function or formula.
	Func    *syntax.FuncDef
	Formula *syntax.FormulaDef
	// Root is the failed definition that this one could not be worked out
	// without; itself if the fault lies here; nil if it has a value.
	Root *Def
	// Vector is the vector of which this is the component along an axis, or nil.
	Vector *Def
	// parts are the components of a vector, nil until the name is defined.
	parts *[len(syntax.Axes)]*Def

	above   *Def // that the name had before
	planned *plannedFunc
}

// Readings is what a table of readings defines that failed: as no name can be spelt so, it
// may be any name that no line gives.
const Readings = "the readings"

// Failed tells whether the line that defines the name has no value.
func (d *Def) Failed() bool { return d.Root != nil }

// plannedFunc is a function planned for one set of arguments.
type plannedFunc struct {
	args  []run.Static
	index int          // in Program.Funcs
	above *plannedFunc // that was planned before
	even  bool         // halves were rounded to even
	means bool         // it takes the mean of a list that it is given
}

// Names holds what every name means, line by line. Looking a name up gives the
// nearest definition above, or, where lines are tried out, the nearest that has
// not failed.
//
// It forgets nothing while lines are added: `k@3` may ask for a definition that others
// hide, and a function sees what was above its own line.
type Names struct {
	// Nearest makes a failed definition hide those above it, as in a file: its
	// lines stand as they are written. In a scratchpad a failed line is an
	// attempt, and takes nothing away.
	Nearest bool

	last map[string]*Def // of each name
	all  []*Def

	asked   *Asked
	lengths lengths
}

// count is how many definitions there are.
func (n *Names) count() int32 { return int32(len(n.all)) }

// add records a definition after all others, once.
func (n *Names) add(d *Def) {
	if n.last == nil {
		n.last = make(map[string]*Def)
	}
	above := n.last[d.Name]
	if above == d {
		return
	}
	d.seq, d.above = n.count(), above
	n.all = append(n.all, d)
	n.last[d.Name] = d
}

// Asked are the names that lines have asked for: what those lines may depend on.
type Asked struct {
	Names []string
	// All tells that every name was gone through, as for one that is misspelt.
	All bool
}

// mostAsked is how many names are noted one by one.
const mostAsked = 64

// note adds a name.
func (a *Asked) note(name string) {
	switch {
	case a == nil || a.All || slices.Contains(a.Names, name):
	case len(a.Names) == mostAsked:
		a.every()
	default:
		a.Names = append(a.Names, name)
	}
}

func (a *Asked) every() {
	if a != nil {
		a.Names, a.All = nil, true
	}
}

// Ask notes from here on which names are asked for; nil ends it.
func (n *Names) Ask(a *Asked) { n.asked = a }

// before returns the last definition of a name among the first limit ones.
func (n *Names) before(name string, limit int32) (*Def, bool) {
	d := n.lastOf(name, limit, math.MaxInt)
	return d, d != nil
}

// Above returns the definition that a name has for a line, or nil: the last one
// of a line above it.
func (n *Names) Above(name string, line int) *Def { return n.lastOf(name, math.MaxInt32, line) }

// lastOf returns the last definition of a name among the first limit ones that is above a
// line, or nil. Where lines are tried out, one that failed counts only where none before
// it has a value.
func (n *Names) lastOf(name string, limit int32, line int) *Def {
	n.asked.note(name)
	var failed *Def
	for d := n.last[name]; d != nil; d = d.above {
		switch {
		case d.seq >= limit || d.Line >= line:
		case d.Vector != nil && n.lastOf(d.Vector.Name, limit, line) != d.Vector: // v is another by now
		case n.Nearest, !d.Failed():
			return d
		case failed == nil:
			failed = d
		}
	}
	return failed
}

// at returns the definition of a name by the given line, among the first limit.
func (n *Names) at(name string, line int, limit int32) (*Def, bool) {
	n.asked.note(name)
	for d := n.last[name]; d != nil; d = d.above {
		if d.Line == line && d.seq < limit {
			return d, true
		}
	}
	return nil, false
}

// each lists the definitions of a name in the order of the lines.
func (n *Names) each(name string) []*Def {
	var out []*Def
	for d := n.last[name]; d != nil; d = d.above {
		out = append(out, d)
	}
	slices.Reverse(out)
	return out
}

// cut takes back all definitions but the first keep.
func (n *Names) cut(keep int) {
	for i := len(n.all) - 1; i >= keep; i-- {
		if d := n.all[i]; d.above == nil {
			delete(n.last, d.Name)
		} else {
			n.last[d.Name] = d.above
		}
	}
	n.all = n.all[:keep]
}

// Forget takes the last definition back, if it is of that name and has failed.
func (n *Names) Forget(name string) {
	if last := len(n.all) - 1; last >= 0 && n.all[last].Name == name && n.all[last].Failed() {
		n.cut(last)
	}
}

// All returns every definition in the order of the lines.
func (n *Names) All() []*Def {
	n.asked.every()
	return n.all
}

// Lookup returns the definition that a name has after the last line.
func (n *Names) Lookup(name string) (*Def, bool) { return n.before(name, n.count()) }
