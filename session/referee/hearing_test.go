package referee

import (
	"context"
	"fmt"
	"math"
	"math/big"
	"regexp"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/syntax"
	"steelyard/session"
	"steelyard/session/entry"
	"steelyard/units"
)

// scene is a page with an answer known from how it was built. Its last line is
// judged.
type scene struct {
	lines []string
	judge func(h *hearing) ruling
	// roots and area are what is known of a page that asks for those, for the test
	// that pages are built right; nil for others.
	roots *roots
	area  *area
}

// ruling is what the referee says of a line: what is wrong with it, or else whether
// the line has answered the question.
type ruling struct {
	wrong  string
	solved bool
}

func wrong(format string, args ...any) ruling { return ruling{wrong: fmt.Sprintf(format, args...)} }

var (
	solved = ruling{solved: true}
	silent = ruling{} // nothing claimed, or too little
)

// hearing is a page worked out by the scratchpad, and read by the referee: as it is
// meant, and as rough as a program of 53 bits may be.
type hearing struct {
	last         *entry.Entry
	meant, rough *reading
}

// hear enters a page.
func hear(lines []string) *hearing {
	h := &hearing{meant: newReading(0), rough: newReading(bits)}
	pad := session.New()
	for i, line := range lines {
		h.last = pad.Enter(context.Background(), line)
		if i < len(lines)-1 {
			s := read(line)
			h.meant.learn(s)
			h.rough.learn(s)
		}
	}
	return h
}

// read is a line as the referee reads it, whatever the scratchpad makes of it.
func read(line string) syntax.Stmt {
	s, _ := syntax.Parse(line)
	return s
}

func (h *hearing) found(id finding.ID) *finding.Finding {
	for i := range h.last.Findings {
		if h.last.Findings[i].ID == id {
			return &h.last.Findings[i]
		}
	}
	return nil
}

// said is all that the line says, for a message.
func (h *hearing) said() string {
	var parts []string
	for _, v := range h.last.Values() {
		parts = append(parts, v.Name+" = "+v.Shown(units.Screen))
	}
	switch o := h.last.Outcome.(type) {
	case entry.Lines:
		parts = append(parts, entry.Texts(o)...)
	case *entry.Verdict:
		parts = append(parts, fmt.Sprintf("holds: %t", o.Holds))
	case *entry.Graph:
		parts = append(parts, entry.Texts(o.Shapes)...)
	}
	for _, f := range h.last.Findings {
		if f.ID != finding.GivenAgain && f.ID != finding.StandardGravity {
			parts = append(parts, "["+string(f.ID)+"] "+f.Message)
		}
	}
	return strings.Join(parts, " | ")
}

// printed is a quantity as it is printed: what it says, and half a unit of its last
// figure, both in SI units.
type printed struct {
	is   between
	half float64
}

// numberText is a number in a message, perhaps with what follows it as its unit.
var numberText = regexp.MustCompile(`(^|[ (=±:])(-?[0-9]+(?:\.[0-9]+)?(?:×10[⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+|e-?[0-9]+)?)(°| ?%| [^ ,;]+)?`)

// quantities are those that a message names. A unit must be known.
func (r *reading) quantities(message string) []printed {
	var out []printed
	for _, m := range numberText.FindAllStringSubmatch(message, -1) {
		unit := strings.TrimRight(strings.TrimSpace(m[3]), ".:")
		if p, ok := r.printed(m[2] + " " + unit); ok && unit != "" {
			out = append(out, p)
		} else if p, ok := r.printed(m[2]); ok {
			out = append(out, p)
		}
	}
	return out
}

// printed reads a number with its unit, as it stands on the screen or in a file.
// Six figures are printed; zeros at the end are dropped.
func (r *reading) printed(text string) (printed, bool) {
	x, bad := syntax.ParseExpr(strings.TrimSpace(text))
	if len(bad) > 0 {
		return printed{}, false
	}
	unit := whole(1)
	var d units.Decimal
	switch q := x.(type) {
	case *syntax.Quantity:
		u, ok := r.unit(q.Unit.Text)
		if !ok {
			return printed{}, false
		}
		d, unit = q.Value, u
	case *syntax.Number:
		d = q.Value
	case *syntax.Unary:
		n, ok := q.X.(*syntax.Number)
		if !ok || q.Op != syntax.Sub {
			return printed{}, false
		}
		d = n.Value.Neg()
	default:
		return printed{}, false
	}
	step := 0.0
	if f := math.Abs(d.Float()); f != 0 {
		step = math.Pow(10, math.Floor(math.Log10(f)+1e-12)-5)
	}
	return printed{exactly(d.Rat()).mul(unit), step / 2 * 1.0001 * unit.size()}, true
}

// apart is the greatest distance that two numbers may have.
func apart(a, b between) float64 { return a.sub(b).size() }

// fits tells whether a value, and what is printed of it, is the one meant: within
// what 53 bits can do (rough), and with 0 for nothing but rounding.
func (h *hearing) fits(v entry.Value, meant, rough between) ruling {
	if meant.isZero() {
		if v.SI != 0 {
			return wrong("%s is 0", v.Shown(units.Screen))
		}
		return solved
	}
	at := new(big.Float).SetFloat64(v.SI)
	room := 4 * rough.width()
	switch {
	case v.SI == 0 && rough.holdsZero():
		return solved
	case !rough.wider(room).holds(at):
		return wrong("%s is %s", v.Shown(units.Screen), meant.text())
	}
	p, ok := h.meant.printed(v.Shown(units.File))
	if !ok {
		return wrong("%s can't be read back", v.Shown(units.File))
	}
	if apart(p.is, meant) > p.half+room {
		return wrong("%s is printed for %s", v.Shown(units.File), meant.text())
	}
	return solved
}
