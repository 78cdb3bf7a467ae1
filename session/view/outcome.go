package view

import (
	"strconv"
	"strings"

	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/rows"
	"steelyard/units"
)

// Result prints the values that the statement shows.
func (p *page) Result(r *entry.Result) {
	if r.Shows {
		_, constants := p.e.Stmt.(*syntax.Constants)
		for i := range r.Values {
			v := &r.Values[i]
			text := "= " + v.Shown(units.Screen)
			if p.e.NamesValues() {
				text = v.Name + " " + text
			}
			clause := ""
			switch {
			case v.IsVector() && v.Magnitude().SI == 0, v.Form != syntax.UsualForm && v.Quantity == "":
			case v.Form != syntax.UsualForm && !v.Named:
				clause = ", " + article(v)
			case v.IsVector() && (v.Quantity == "" || v.Named):
				clause = ", " + v.Polar().String()
			case v.Quantity == "" || v.Named:
			case v.IsVector():
				clause = ", " + article(v) + ": " + v.Polar().String()
			case v.List != nil:
				clause = ", each " + article(v)
			case constants:
				clause = ", " + v.Quantity // a constant of nature has a name of its own
			default:
				clause = ", " + article(v)
			}
			p.hung(p.margin+equalsAt(p.e), text, clause)
		}
	}
	p.Lines(r.Notes)
}

// Verdict says that a check holds, with both sides; one that fails is a finding.
func (p *page) Verdict(c *entry.Verdict) {
	if !c.Holds {
		return
	}
	p.told("holds: " + c.Sides().String())
}

// Lines prints the rows of an answer.
func (p *page) Lines(rows entry.Lines) {
	for _, row := range rows {
		p.told(row.String())
	}
}

// Workings prints a working under its head, that of every line under its number.
func (p *page) Workings(w *entry.Workings) {
	p.told("Working")
	for _, one := range w.Of {
		if w.Every {
			p.told("line " + strconv.Itoa(one.Line))
		}
		for _, row := range workingRows(one.Lines, p.o.Width-p.margin-4) {
			p.told("  " + row)
		}
	}
}

// article puts an article before the name of a quantity.
func article(v *entry.Value) string {
	k, ok := units.KindOf(v.Dim, v.Tag)
	if !ok || k.Name != v.Quantity {
		k = units.Kind{Name: v.Quantity, Article: "a"}
		if strings.ContainsRune("aeiou", rune(v.Quantity[0])) {
			k.Article = "an"
		}
		if named := units.FindKind(v.Quantity); len(named) > 0 && named[0].Name == v.Quantity {
			k = named[0]
		}
	}
	return k.Articled()
}

// equalsAt is the number of cells before the = of a result: that of a statement
// that begins NAME =, else two.
func equalsAt(e *entry.Entry) int {
	if e.Named() {
		if i := strings.IndexByte(e.Text, '='); i >= 0 {
			return rows.Width(clean(e.Text[:i]))
		}
	}
	return 2
}
