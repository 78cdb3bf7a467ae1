package session

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"steelyard/units"
)

// hand is a way in which people type a formula.
type hand struct {
	name  string
	write func(line string) string
}

var (
	signs    = regexp.MustCompile(` ?([*/]) ?`)
	blanks   = regexp.MustCompile(` +`)
	twoNames = regexp.MustCompile(`(\pL[\pL\d_']*(?:\^\d)?)\*(\pL)`)
	twoGlued = regexp.MustCompile(`(^|[^\pL\d_'])(\pL(?:\^\d)?) (\pL)([^\pL\d_'(]|$)`)
	products = regexp.MustCompile(`([\pL\d)])\*([\pL(√])`)
	under    = regexp.MustCompile(`/\(([^()+\-/]*)\)`)
)

// hands are four of them: close together, with blanks round each sign, as print has
// it, without signs and brackets that a reader does without, and with care.
var hands = []hand{
	{"tight", func(line string) string { return blanks.ReplaceAllString(line, "") }},
	{"spaced", func(line string) string { return signs.ReplaceAllString(line, " $1 ") }},
	{"printed", printed},
	{"careful", func(line string) string { return line }},
}

// printed writes a formula as print does.
func printed(line string) string {
	line = strings.NewReplacer("sqrt(", "√(", "*pi", "*π", "pi*", "π*", "/pi", "/π", "pi^", "π^", "theta", "θ").Replace(line)
	line = under.ReplaceAllString(line, "/$1")
	for range 8 {
		line = twoNames.ReplaceAllString(line, "$1 $2")
		line = products.ReplaceAllString(line, "$1$2")
		line = twoGlued.ReplaceAllString(line, "$1$2$3$4")
	}
	return line
}

// handwritten is a formula of the textbooks as one hand types it.
type handwritten struct {
	meant
	id, hand string
}

// textbookLines are the formulas of the textbooks in all hands.
func textbookLines(t testing.TB) (out []handwritten) {
	t.Helper()
	rows := readTable(t, "testdata/textbook.csv")
	column := map[string]int{}
	for i, name := range rows[0] {
		column[name] = i
	}
	for _, row := range rows[1:] {
		value, err := strconv.ParseFloat(row[column["computed_value"]], 64)
		if err != nil {
			continue
		}
		unit := row[column["published_unit"]]
		if u, bad := units.NewTable().Parse(unit, units.AloneInPlace); bad == nil {
			value = u.ToSIFloat(value)
		}
		givens := strings.NewReplacer("*", " ", "=", " = ", "75 y", "75 yr").Replace(row[column["givens"]])
		if topic := row[column["topic"]]; topic == "sigfigs_rounding" || topic == "uncertainty" {
			continue
		}
		steps := strings.Split(row[column["equation"]], "; ")
		last := steps[len(steps)-1]
		if strings.Contains(givens, " hp") {
			value *= 746 / 745.69987158227022 // the source rounds the horsepower
		}
		scope := strings.Join(append([]string{givens}, steps[:len(steps)-1]...), "; ")
		for _, h := range hands {
			out = append(out, handwritten{meant{scope: scope, line: h.write(last), value: value, unit: unit}, row[0], h.name})
		}
	}
	return out
}

// TestHands types each formula of the textbooks in four hands: each comes out right,
// or is refused and the right reading offered.
func TestHands(t *testing.T) {
	count := map[string]map[string]int{}
	for _, m := range textbookLines(t) {
		v := m.verdict()
		if count[m.hand] == nil {
			count[m.hand] = map[string]int{}
		}
		count[m.hand][v]++
		if v == "silent" || v == "wrong offer" {
			t.Errorf("%s: %s: %s: %s | %s: %+v", m.id, m.hand, v, m.scope, m.line, m.enter(m.line).Findings)
		}
	}
	for _, h := range hands {
		t.Logf("%s: %v", h.name, count[h.name])
	}
}
