package textbook

import (
	"context"
	"regexp"
	"strings"
	"testing"

	"steelyard/lang/syntax"
	"steelyard/session"
	"steelyard/session/entry"
	"steelyard/units"
)

// published is the check of a published value at the end of a problem.
var published = regexp.MustCompile(`(?m)^check (.+) = (-?[0-9.]+(?:e[+-]?[0-9]+)?)((?:°| [^\n=]*)?)$`)

// exactRows round a number that is a given itself, or stands for another accuracy.
var exactRows = map[string]bool{"SIG-001": true, "SIG-002": true, "SIG-005": true, "SIG-007": true}

// TestFigures compares how many figures the givens of a problem support with how many its
// source prints. Of the problems about figures all agree; of the others most. Where they do not, a
// source prints three figures of givens with two (g = 9.8 m/s² above all), or takes a
// whole number such as 2 min or 4 N/cm for exact.
func TestFigures(t *testing.T) {
	words := strings.Fields("no one two three four five six seven eight nine")
	same, all := 0, 0
	for _, p := range problems(t) {
		found := published.FindAllStringSubmatch(p.text, -1)
		if len(found) == 0 {
			continue
		}
		last := found[len(found)-1]
		rec, fs := syntax.ParseRecord("= " + last[2])
		if len(fs) > 0 {
			t.Fatal(p.id, last)
		}
		says := described(p.text, last[1])
		all++
		if strings.HasPrefix(says, words[rec.Value.Figures]+" figure") {
			same++
		} else if strings.HasPrefix(p.id, "SIG") && !exactRows[p.id] {
			t.Errorf("%s: published %s%s: %s", p.id, last[2], last[3], says)
		}
	}
	if same < 205 {
		t.Errorf("%d of %d problems agree", same, all)
	}
}

// described is what a problem's page says of the figures of an expression.
func described(text, of string) string {
	pad := session.New()
	pad.Filed()
	for _, line := range strings.Split(strings.ReplaceAll(text, "\n ", "\x00 "), "\n") {
		pad.Enter(context.Background(), strings.ReplaceAll(line, "\x00", "\n"))
	}
	pad.Enter(context.Background(), "answer = "+of)
	lines, _ := pad.Enter(context.Background(), "describe answer").Outcome.(entry.Lines)
	for _, l := range entry.Texts(lines) {
		if strings.Contains(l, "figure") || strings.Contains(l, "exact:") {
			return strings.TrimSpace(l)
		}
	}
	return ""
}

// TestCountedFigures counts the figures of written numbers as the answers of exercises do: rows
// SIG-013 to SIG-018 of OpenStax College Physics 2e and University Physics, section 1.3 and 1.6.
// The point of the last makes figures of its zeros, which no longer may only hold a place.
func TestCountedFigures(t *testing.T) {
	for number, want := range map[string]string{"0.0009": "one figure", "15450.0": "six figures", "87.990": "five figures", "30.42": "four figures", "99": "two figures", "100.": "three figures"} {
		if says := described("x = "+number+" m", "2*x"); !strings.HasPrefix(says, want) || strings.Contains(says, "hold a place") {
			t.Errorf("%s m: %s, want %s", number, says, want)
		}
	}
}

// TestUncertaintiesRoundedUp has row SIG-006, 10.47 mΩ, and what JCGM 100:2008, 7.2.6, says of
// 28.05 kHz; both without the setting, too.
func TestUncertaintiesRoundedUp(t *testing.T) {
	for given, want := range map[string][2]string{"150.00 ± 10.47 mΩ": {"150 ± 10 mΩ", "150 ± 11 mΩ"}, "400.00 ± 28.05 kHz": {"400 ± 28 kHz", "400 ± 28 kHz"},
		"5.0 ± 0.0991 m": {"5.000 ± 0.099 m", "5.00 ± 0.10 m"}} {
		_, unit, _ := strings.Cut(given, " ± ")
		for i, setting := range []string{"results to 6 figures", "results with uncertainties rounded up"} {
			p := newPage(t, setting, "x = "+given)
			if got := p.enter("1*x in " + unit[strings.Index(unit, " ")+1:]).Values()[0].Shown(units.Screen); got != want[i] {
				t.Errorf("%s, %s: %s, want %s", given, setting, got, want[i])
			}
		}
	}
}

// TestUncertaintyOfPercents has the absolute uncertainties that a percentage makes: UNC-004, 3 %
// of 65 kg, printed as 2 kg, and UNC-007, 2 of 120 mmHg taken to 80 mmHg, printed as 1 mmHg.
func TestUncertaintyOfPercents(t *testing.T) {
	for lines, want := range map[string]float64{"m = 65 kg ± 3 %|u(m) in kg": 1.95, "p = 120 ± 2 mmHg|q = 80 mmHg*p/(120 mmHg)|u(q) in mmHg": 4.0 / 3} {
		pad := session.New()
		var e *entry.Entry
		for _, line := range strings.Split(lines, "|") {
			e = pad.Enter(context.Background(), line)
		}
		if v := e.Values(); len(v) != 1 || digits(v[0].InUnit, want) < 9 {
			t.Errorf("%s: %v %v, want %v", lines, v, e.Findings, want)
		}
	}
}
