package draw

import (
	"strings"
	"testing"

	"steelyard/session/entry"
	"steelyard/units"
)

func unit(text string) *units.Unit {
	u, _ := units.NewTable().Parse(text, units.AloneInPlace)
	return u
}

// energy is a bar in joules.
func energy(name string, v float64) entry.Bar {
	return entry.Bar{Of: expr(name), Value: joules(v)}
}

func joules(v float64) entry.Value {
	return entry.Value{Unit: unit("J"), InUnit: v, Figures: units.Figures{N: 3}}
}

func pointer(b entry.Bar) *entry.Bar { return &b }

// A market's spring scale let go with a melon on it, then held still by hand.
func scale() *entry.Bars {
	return &entry.Bars{
		Books: entry.Words("K grows from nothing; U of the weight falls below zero."), Unit: unit("J"),
		Stages: []entry.Stage{
			{Name: `at "let go"`, Bars: []entry.Bar{energy("K", 0), energy("U_s", 0), energy("U_g", 0)}, Sum: joules(0)},
			{Name: `at "midway"`, Bars: []entry.Bar{energy("K", 0.4624), energy("U_s", 0.4624), energy("U_g", -0.925)}, Sum: joules(0)},
			{Name: `at "held"`, Work: pointer(energy("W", -0.4624)), Bars: []entry.Bar{energy("K", 0), energy("U_s", 0.4624), energy("U_g", -0.925)}, Sum: joules(-0.4624)},
		},
	}
}

func shot() *entry.Bars {
	return &entry.Bars{
		Books: entry.Words("U turns into K."), Unit: unit("J"),
		Stages: []entry.Stage{
			{Name: `at "pulled back"`, Bars: []entry.Bar{energy("K", 0), energy("U", 0.925)}, Sum: joules(0.925)},
			{Name: `at "released"`, Bars: []entry.Bar{energy("K", 0.88), energy("U", 0.004)}, Sum: joules(0.884)},
		},
	}
}

var charts = map[string]func() *entry.Bars{"scale": scale, "shot": shot}

func TestBarsGoldens(t *testing.T) {
	for name, make := range charts {
		golden(t, name+".txt", Bars(make()).Text(60, 0, false))
		golden(t, name+".ascii.txt", Bars(make()).Text(60, 0, true))
		golden(t, name+".narrow.txt", Bars(make()).Text(30, 0, false))
		svg := string(Bars(make()).SVG(nil, "b"))
		golden(t, name+".svg", svg)
		wellFormed(t, svg)
		barsApart(t, make())
	}
}

func TestBarsToScale(t *testing.T) {
	b := &entry.Bars{Unit: unit("J"), Stages: []entry.Stage{{Name: "", Bars: []entry.Bar{energy("A", 4), energy("B", 2), energy("C", 0), energy("D", 1e-9)}, Sum: joules(0)}}}
	lines := strings.Split(Bars(b).Text(60, 0, true), "\n")
	var n []int
	for _, line := range lines[:4] {
		n = append(n, strings.Count(line, "#"))
	}
	if n[0] == 0 || n[1] != (n[0]+1)/2 || n[2] != 0 || n[3] != 1 {
		t.Errorf("lengths %v in\n%s", n, strings.Join(lines, "\n"))
	}
}

// barsApart checks the texts of a chart at all widths.
func barsApart(t *testing.T, b *entry.Bars) {
	t.Helper()
	for _, w := range widths {
		s := newChart(b).layout(w)
		apart(t, boxesOf(s), s.width, s.height)
	}
}
