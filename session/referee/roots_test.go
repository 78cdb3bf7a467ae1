package referee

import (
	"regexp"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// roots are the real solutions of one equation for one unknown that the page's
// conditions allow: all of them, in rising order. Where there are infinitely many,
// period is the distance after which they come again, and they are those of one
// period.
type roots struct {
	all    []between
	period *between
	// close is how far a root may be off, as a part of the greatest one, where
	// they touch or nearly do.
	close float64
	// every tells that every value is a solution, so that all is empty.
	every bool
}

// one root, or some.
func are(all ...between) roots { return roots{all: all} }

// of is a page that asks for the roots, with the choice among them.
func (t roots) of(choice string, lines []string) scene {
	return scene{lines: lines, judge: t.judge(choice), roots: &t}
}

// size is the greatest absolute value of a root.
func (t roots) size() float64 {
	most := 0.0
	for _, x := range t.all {
		most = max(most, x.size())
	}
	return most
}

// which finds the root that a number is, or -1. What is 0 must be 0.
func (t roots) which(x between, half float64) int {
	for i, root := range t.all {
		if t.period != nil {
			root = nextTo(root, x, *t.period)
		}
		room := half + 1e-9*root.size() + t.close*t.size()
		switch {
		case root.isZero() && x.size() == 0:
			return i
		case root.isZero() && t.close == 0:
		case apart(x, root) <= room:
			return i
		}
	}
	return -1
}

// nextTo moves a root by whole periods to the one that is nearest to a number.
func nextTo(root, x, period between) between {
	turns, ok := x.sub(root).div(period)
	if !ok {
		return root
	}
	return root.add(period.mul(whole(rounded(turns.middle().lo))))
}

// proved tells whether the page has the roots that it was built with: there both
// sides are equal, to nearly 200 bits.
func (t roots) proved(h *hearing) (string, bool) {
	s, ok := h.last.Stmt.(*syntax.Solve)
	if !ok {
		return "", true // not read; there is nothing to judge
	}
	name := s.Unknowns[0].Name
	if len(s.Unknowns) > 1 {
		name = strings.TrimRight(name, "0123456789")
	}
	for _, root := range t.all {
		in := h.meant.with(name, root)
		left, ok1 := in.value(s.Equations[0].Left)
		right, ok2 := in.value(s.Equations[0].Right)
		if !ok1 || !ok2 {
			return "the sides have no value at the root " + root.text(), false
		}
		if !left.meets(right) || left.sub(right).size() > 1e-22*(1+left.size()) {
			return "the sides differ at the root " + root.text() + " by " + left.sub(right).text(), false
		}
	}
	return "", true
}

// pieceText and nearText are where a search has gone or has settled nothing.
var (
	pieceText = regexp.MustCompile(`(?:from|Between) (.+?) (?:to|and) (.+?)(?:\. There| I couldn't)`)
	nearText  = regexp.MustCompile(`^Near (.+?) I couldn't`)
)

// piece is a range that a message names.
func (h *hearing) piece(message string) (lo, hi printed, ok bool) {
	if m := nearText.FindStringSubmatch(message); m != nil {
		at, ok := h.meant.printed(m[1])
		return at, at, ok
	}
	m := pieceText.FindStringSubmatch(message)
	if m == nil {
		return lo, hi, false
	}
	lo, ok1 := h.meant.printed(m[1])
	hi, ok2 := h.meant.printed(m[2])
	return lo, hi, ok1 && ok2
}

// turns tells whether a message says that the roots come again and again.
func turns(message string) bool {
	return strings.Contains(message, "full turn") || strings.Contains(message, "n·")
}

// byText is the distance by which a message says that roots come again.
var byText = regexp.MustCompile(`n·([0-9][^ ,;.]*(?:\.[0-9]+)?°?(?: rad)?)`)

// families are the roots that a message names, with 0 for what is n times a
// distance alone.
func (h *hearing) families(message string) []printed {
	if taken, rest, ok := strings.Cut(message, "solve the equation: "); ok && strings.Contains(taken, "infinitely") {
		message = rest // without the one that is taken, which is in a family
	}
	all := h.meant.quantities(message)
	for range strings.Count(message, "n·") - strings.Count(message, "+ n·") {
		all = append(all, printed{is: whole(0)})
	}
	return all
}

// comesBy tells whether the distances by which a message says that roots come again
// are the period.
func (t roots) comesBy(h *hearing, message string) bool {
	for _, m := range byText.FindAllStringSubmatch(message, -1) {
		p, ok := h.meant.printed(m[1])
		if !ok || t.period == nil || apart(p.is, *t.period) > p.half {
			return false
		}
	}
	return true
}

// endless tells whether a message says that there is no end of roots.
func endless(message string) bool {
	return strings.Contains(message, "infinitely") || strings.Contains(message, "without end") || strings.Contains(message, "more")
}

// judge hears what is claimed of the roots. Choice is which root was asked for.
func (t roots) judge(choice string) func(h *hearing) ruling {
	return func(h *hearing) ruling {
		if why, ok := t.proved(h); !ok {
			return wrong("the page is built wrong: %s", why)
		}
		if t.every {
			return t.always(h)
		}
		for i := range h.last.Findings {
			f := &h.last.Findings[i]
			switch f.ID {
			case finding.NoSolution:
				if len(t.all) > 0 {
					return wrong("false: %s is a root", t.all[0].text())
				}
				return solved
			case finding.WhichRoot:
				return t.listed(h, f.Message, choice)
			}
		}
		if len(h.last.Values()) == 0 {
			return t.searched(h)
		}
		return t.given(h, choice)
	}
}

// always judges what is said of an equation that every value satisfies.
func (t roots) always(h *hearing) ruling {
	for i := range h.last.Findings {
		if m := h.last.Findings[i].Message; strings.Contains(m, "very value") || strings.Contains(m, "very x") || strings.Contains(m, "Any value") {
			return solved
		}
	}
	if h.found(finding.NoSolution) != nil || h.found(finding.WhichRoot) != nil || len(h.last.Values()) > 0 {
		return wrong("every x satisfies it")
	}
	return silent
}

// listed judges a list of several roots among which one must be chosen.
func (t roots) listed(h *hearing, message, choice string) ruling {
	if choice == "greatest" || choice == "least" {
		if t.period != nil {
			return solved
		}
		return wrong("it asks which root is meant, though the line says so")
	}
	_, list, ok := strings.Cut(message, ": ")
	if !ok {
		list = message
	}
	if !t.comesBy(h, list) {
		return wrong("the roots do not come again by what is said")
	}
	seen := map[int]bool{}
	for _, p := range h.families(list) {
		i := t.which(p.is, p.half)
		switch {
		case i < 0:
			return wrong("%s is no root", p.is.text())
		case seen[i] && t.period == nil:
			return wrong("the root %s is named twice", t.all[i].text())
		}
		seen[i] = true
	}
	switch {
	case len(seen) == 0:
		return silent
	case t.period != nil && (turns(message) || endless(message)):
	case t.period != nil:
		return wrong("the roots come again without end, and it is not said")
	case len(t.all) == 1 && choice != "each":
		return wrong("several roots are claimed, and there is one")
	}
	if more := strings.Contains(list, "more"); len(seen) < len(t.all) && !more {
		return wrong("%d of %d roots are named", len(seen), len(t.all))
	}
	return solved
}

// given judges the values that a line gives its names, and what it says of others.
func (t roots) given(h *hearing, choice string) ruling {
	seen := map[int]bool{}
	values := h.last.Values()
	for k, v := range values {
		i := t.which(float(v.SI), 0)
		if i < 0 {
			return wrong("%s is no root", v.Shown(units.Screen))
		}
		want := i
		switch choice {
		case "greatest":
			want = len(t.all) - 1
		case "least":
			want = 0
		case "each":
			want = k
		}
		if i != want {
			return wrong("%s is not the root asked for, %s", v.Shown(units.Screen), t.all[want].text())
		}
		if p, ok := h.meant.printed(v.Shown(units.File)); !ok || t.which(p.is, p.half) < 0 {
			return wrong("%s is printed for %s", v.Shown(units.File), t.all[i].text())
		}
		seen[i] = true
	}
	again := false
	for i := range h.last.Findings {
		f := &h.last.Findings[i]
		switch f.ID {
		case finding.OtherRoot:
			again = again || turns(f.Message)
			// Where it is said by what they come again, the value itself is listed too.
			listed := strings.Contains(f.Message, "n·")
			if listed {
				seen = map[int]bool{}
			}
			if !t.comesBy(h, f.Message) {
				return wrong("the roots do not come again by what is said, but by %s", t.period.text())
			}
			for _, p := range h.families(f.Message) {
				i := t.which(p.is, p.half)
				if i < 0 && (listed || !turns(f.Message)) {
					return wrong("%s is no other root", p.is.text())
				}
				if seen[i] && (t.period == nil || listed || apart(p.is, float(values[0].SI)) <= 2*p.half) {
					return wrong("the root %s is named twice", t.all[i].text())
				}
				seen[i] = true
			}
		case finding.NotSettled:
			if lo, hi, ok := h.piece(f.Message); ok {
				t.open(lo, hi, seen)
			}
		case finding.Searched:
			if lo, hi, ok := h.piece(f.Message); ok && choice == "" {
				t.outside(lo, hi, seen)
			}
		}
	}
	switch {
	case choice != "":
	case t.period != nil && !again:
		return wrong("the roots come again without end, and it is not said")
	case t.missing(seen) >= 0:
		return wrong("the root %s is left out", t.all[t.missing(seen)].text())
	}
	return solved
}

// searched judges a search that has found nothing: a root in its range must lie in
// a piece that is said not to be settled.
func (t roots) searched(h *hearing) ruling {
	f := h.found(finding.Searched)
	if f == nil || !strings.Contains(f.Message, "no other solution") {
		return silent
	}
	from, to, ok := h.piece(f.Message)
	if !ok {
		return silent
	}
	if t.period != nil {
		t = t.inRange(from.is.sub(*t.period), from.is.add(t.period.mul(whole(8))))
	}
	seen := map[int]bool{}
	t.outside(from, to, seen)
	for i := range h.last.Findings {
		if f := &h.last.Findings[i]; f.ID == finding.NotSettled {
			if lo, hi, ok := h.piece(f.Message); ok {
				t.open(lo, hi, seen)
			}
		}
	}
	if i := t.missing(seen); i >= 0 {
		return wrong("false: what is proved to hold no root holds %s", t.all[i].text())
	}
	return silent
}

// open counts the roots in a piece that is not settled as named.
func (t roots) open(lo, hi printed, seen map[int]bool) {
	for i, root := range t.all {
		if root.hi.Cmp(lo.is.wider(2*lo.half).lo) >= 0 && root.lo.Cmp(hi.is.wider(2*hi.half).hi) <= 0 {
			seen[i] = true
		}
	}
}

// outside counts the roots beyond the range of a search as named.
func (t roots) outside(lo, hi printed, seen map[int]bool) {
	for i, root := range t.all {
		if root.hi.Cmp(lo.is.lo) < 0 || root.lo.Cmp(hi.is.hi) > 0 {
			seen[i] = true
		}
	}
}

// missing is a root that is not named, or -1.
func (t roots) missing(seen map[int]bool) int {
	for i := range t.all {
		if !seen[i] {
			return i
		}
	}
	return -1
}
