package referee

import (
	"math"
	"math/big"
	"regexp"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/units"
)

// area judges the integral of a curve, known in closed form, beside the area of
// what lies above and below the axis together.
type area struct {
	is, under between
	// endless tells that there is no area: the curve runs off too fast.
	endless bool
	// unsure tells that the ends of a step are nearer to each other than numbers of 53
	// bits tell apart, so that the area may well be not settled.
	unsure bool
}

// of is a page that asks for the area.
func (a area) of(lines []string) scene { return scene{lines: lines, judge: a.judge, area: &a} }

// areaPart is how far an area may be off, as a part of the area under |f|.
const areaPart = 1e-9

func (a area) judge(h *hearing) ruling {
	v := h.last.Values()
	if len(v) == 0 {
		if a.endless || a.unsure && h.found(finding.NotSettled) != nil {
			return solved
		}
		if h.found(finding.NoRealValue) != nil || h.found(finding.DivisionByZero) != nil {
			return wrong("false: the curve has an area, %s", a.is.text())
		}
		return silent
	}
	if a.endless {
		return wrong("%s, and there is no area", v[0].Shown(units.Screen))
	}
	if a.is.isZero() && v[0].SI != 0 {
		return wrong("%s is 0", v[0].Shown(units.Screen))
	}
	if off := apart(float(v[0].SI), a.is); off > areaPart*a.under.size() {
		return wrong("%s is %s, off by %.2g of the area under |f|", v[0].Shown(units.Screen), a.is.text(), off/a.under.size())
	}
	return solved
}

// slope judges a derivative, or that there is none.
type slope struct {
	is   between
	none bool // a corner, a jump or a vertical tangent
}

func (s slope) judge(h *hearing) ruling {
	v := h.last.Values()
	switch {
	case len(v) > 0 && s.none:
		return wrong("%s, and there is no slope", v[0].Shown(units.Screen))
	case len(v) > 0 && s.is.isZero() && v[0].SI != 0:
		return wrong("%s is 0", v[0].Shown(units.Screen))
	case len(v) > 0:
		if off := apart(float(v[0].SI), s.is); off > 1e-9*s.is.size() {
			return wrong("%s is %s", v[0].Shown(units.Screen), s.is.text())
		}
		return solved
	case h.found(finding.NoSlope) != nil:
		if s.none {
			return solved
		}
		return wrong("false: the slope is %s", s.is.text())
	}
	if s.none {
		return ruling{solved: h.last.Failed()}
	}
	return silent
}

// look judges what the words under a graph say of its zeros and extremes.
type look struct {
	// zeros are all places at which the curve is 0, touching ones too; flat tells
	// that it is 0 along whole stretches, so that they are not listed here.
	zeros []between
	flat  bool
	// greatest and least are the values over the range; nil where a pole keeps the
	// curve from having one.
	greatest, least *between
	tall            float64 // the height of the curve
	breaks          bool    // a pole keeps the curve from being drawn throughout
	from, to        float64
}

var (
	greatestText = regexp.MustCompile(`greatest,? ([^,;]+?),? at `)
	leastText    = regexp.MustCompile(`least,? ([^,;]+?),? at `)
	zeroText     = regexp.MustCompile(`zero at [^=]+ = ((?:[^;(]+?, )*[^;(]+?)(?:;|\(|\.$|\. |$)`)
	placesText   = regexp.MustCompile(`zero (?:in|at) ([0-9]+) places`)
	plusMinus    = regexp.MustCompile(`±`)
)

func (l look) judge(h *hearing) ruling {
	g, ok := h.last.Outcome.(*entry.Graph)
	if !ok || len(g.Shapes) == 0 {
		return silent
	}
	text := g.Shapes[0].String()
	if why := l.drawn(h, g); why != "" {
		return wrong("%s", why)
	}
	for _, end := range []struct {
		text *regexp.Regexp
		is   *between
		name string
	}{{greatestText, l.greatest, "greatest"}, {leastText, l.least, "least"}} {
		m := end.text.FindStringSubmatch(text)
		if m == nil {
			continue
		}
		p, ok := h.meant.printed(m[1])
		switch {
		case !ok:
		case end.is != nil && end.is.isZero() && p.is.size() != 0 && p.is.size() < 1e-9*l.tall:
			return wrong("the %s value is 0", end.name)
		case end.is == nil:
			return wrong("a %s value is named, and a pole is in the range", end.name)
		case apart(p.is, *end.is) > p.half*1000+1e-6*l.tall: // three figures
			return wrong("the %s value is %s", end.name, end.is.text())
		}
	}
	return l.zero(h, text)
}

func (l look) zero(h *hearing, text string) ruling {
	if m := placesText.FindStringSubmatch(text); m != nil {
		if l.flat || !sameCount(m[1], len(l.zeros)) {
			return wrong("it is zero in %d places", len(l.zeros))
		}
		return solved
	}
	m := zeroText.FindStringSubmatch(text)
	if m == nil {
		// A known shape need not name its zeros; that it touches 0 where it is least
		// or greatest has been said.
		if sampled := strings.Contains(text, "samples"); len(l.zeros) > 0 && !l.flat && sampled {
			return wrong("the zero at %s is not named", l.zeros[0].text())
		}
		return solved
	}
	list := plusMinus.ReplaceAllString(m[1], "")
	all := h.meant.quantities(list)
	if list != m[1] {
		for _, p := range all {
			all = append(all, printed{p.is.neg(), p.half})
		}
	}
	seen := map[int]bool{}
	for _, p := range all {
		i := l.at(p)
		switch {
		case l.flat:
		case i < 0:
			return wrong("%s is no zero", p.is.text())
		case seen[i]:
			return wrong("the zero at %s is named twice", l.zeros[i].text())
		}
		seen[i] = true
	}
	if len(seen) < len(l.zeros) && !l.flat {
		return wrong("%d of %d zeros are named", len(seen), len(l.zeros))
	}
	return solved
}

// at finds the zero that a number is, or -1.
func (l look) at(p printed) int {
	found, nearest := -1, math.Inf(1)
	for i, z := range l.zeros {
		room := math.Max(p.half*1000, 1e-6*(l.to-l.from))
		if z.size() > 0 && p.is.size() == 0 {
			room = 1e-9 * (l.to - l.from)
		}
		if off := apart(p.is, z); off <= room && off < nearest {
			found, nearest = i, off
		}
	}
	return found
}

func sameCount(text string, n int) bool {
	var got big.Int
	_, ok := got.SetString(text, 10)
	return ok && got.Cmp(big.NewInt(int64(n))) == 0
}

// drawn compares points of the curve with the curve, and asks that it is drawn over
// the whole range.
func (l look) drawn(h *hearing, g *entry.Graph) string {
	s, ok := h.last.Stmt.(*syntax.Graph)
	if !ok || len(g.Curves) == 0 {
		return ""
	}
	runs := g.Curves[0].Runs
	if len(runs) == 0 {
		return "nothing is drawn"
	}
	end := runs[len(runs)-1]
	if !l.breaks && (len(runs) > 1 || runs[0][0].X > l.from+1e-9*(l.to-l.from) || end[len(end)-1].X < l.to-1e-9*(l.to-l.from)) {
		return "it is drawn in part of the range alone"
	}
	for _, run := range runs {
		for i := 0; i < len(run); i += 1 + len(run)/7 {
			at := float(run[i].X)
			is, has := h.meant.with(s.Against.Name, at).value(s.Curves[0].X)
			rough, safe := h.rough.with(s.Against.Name, at).value(s.Curves[0].X)
			switch {
			case !has && !safe:
				return "it is drawn where it has no value, at " + at.text()
			case has && safe && apart(float(run[i].Y), is) > 4*rough.width()+1e-9*is.size() && !is.beyond():
				return "it is " + is.text() + " at " + at.text()
			}
		}
	}
	return ""
}
