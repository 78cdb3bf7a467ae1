package syntax

import "steelyard/lang/ops"

// bars finds what may be under a fraction bar: right of a stroke, a product
// without signs. For each the ways to put brackets, the likeliest first.
//
// By the rules all of a product without signs is under the stroke that it follows, as in
// 1/4πε0. Print means so as a rule, but not where numbers alone stand above and next to the
// stroke: 1/2 m v² is half of it. Behind 2π, and before a bracket or a blank, the bar may end
// earlier.
func (ps pieces) bars() [][][]bracketing {
	var out [][][]bracketing
	for i := range ps {
		if !ps[i].over() || i == 0 || i+1 >= len(ps) {
			continue
		}
		ends := ps.factors(i + 1)
		from, _ := ps.term(i - 1)
		if len(ends) < 2 {
			if ways := ps.numberOver(from, i, ends[0]); ways != nil {
				out = append(out, ways)
			}
			continue
		}
		if ps.overTwoPi(from, i, ends) {
			continue
		}
		all := []bracketing{{i + 1, ends[len(ends)-1]}}
		first := []bracketing{{from, ends[0]}}
		ways := [][]bracketing{all, first}
		if ps[from:ends[0]].numbers() || ps.halves(i, ends[0]) {
			ways = [][]bracketing{first, all}
		}
		if ps[i+1].kind == numToken && ps[i+2].kind == piToken && len(ends) > 2 && ps.reachesPi(ends[1]) && (ps[i+2].gap == "" || ps[i+1].text == "2") {
			two := []bracketing{{from, ends[1]}, {i + 1, ends[1]}}
			if ps[i+1].text == "2" && (ps[i+2].gap == "" || ps[ends[1]].sign("√")) { // 1/(2π) is likelier than (1/2)π
				ways = [][]bracketing{two, ways[0], ways[1]}
			} else {
				ways = append(ways, two)
			}
		}
		if k := ps.blankAfter(ends); k > 0 && len(ways) < 3 {
			ways = append([][]bracketing{{{from, ends[k]}, {i + 1, ends[k]}}}, ways...) // 1/4πε0 q/r^2
		}
		if k := ps.bracketAfter(ends); k > 0 && len(ways) < 3 {
			ways = append(ways, []bracketing{{from, ends[k]}, {i + 1, ends[k]}}) // k/2f(X^2 - x^2)
		}
		if ps[from].sign("√") {
			ways = append(ways, []bracketing{{from + 1, ends[0]}}) // √k/m(A² - x²)
		}
		out = append(out, ways)
	}
	return out
}

// halves tells whether a number alone is directly under a stroke, and a function behind a blank:
// L/2 cos(θ) is more often half of L times the cosine.
func (ps pieces) halves(i, end int) bool {
	return end == i+2 && ps[i+1].kind == numToken && ps[end].gap != "" && ps[end].call && ops.IsFunction(ps[end].text)
}

// blankAfter is the place of the last factor, of two or more without a blank between
// them, before one that a blank sets apart; 0 if there is none.
func (ps pieces) blankAfter(ends []int) int {
	for k := 0; k+1 < len(ends); k++ {
		if ps[ends[k]].gap != "" {
			return k
		}
	}
	return 0
}

// bracketAfter is the place of the last factor, of two or more, that stand before
// one in brackets or a root; 0 if there is none.
func (ps pieces) bracketAfter(ends []int) int {
	for k := 1; k+1 < len(ends); k++ {
		if ps[ends[k]].sign("(") || ps[ends[k]].sign("√") {
			return k
		}
	}
	return 0
}

// overTwoPi tells whether a quotient ends with X/2π, X a name or 1: it is X/(2π).
//
// Frequency is ω/2π in every book.
func (ps pieces) overTwoPi(from, i int, ends []int) bool {
	return len(ends) == 2 && ps[i+1].kind == numToken && ps[i+2].kind == piToken && i-from == 1 &&
		(ps[from].kind == nameToken || ps[from].text == "1")
}

// reachesPi tells whether number and π may be all that is under the bar: a root,
// a bracket or a blank follows. 4/3 π r³ has a blank before π, too, and is a sphere.
func (ps pieces) reachesPi(next int) bool {
	p := &ps[next]
	return p.sign("√") || p.sign("(") || p.gap != "" || p.kind == nameToken && p.call
}

// numberOver finds 1/2 kg: a written number over one with a unit.
func (ps pieces) numberOver(from, i, end int) [][]bracketing {
	if end != i+3 || ps[i+1].kind != numToken || ps[i+2].kind != unitToken || !ps[i+2].open || !ps[from:i].numbers() {
		return nil
	}
	return [][]bracketing{{{from, i + 2}}, {{i + 1, end}}}
}

// roots finds how far a root without brackets may reach.
//
// √k/m is the root of the quotient as often as not: handwriting has a bar over it.
func (ps pieces) roots() [][][]bracketing {
	var out [][][]bracketing
	for i := range ps {
		if !ps[i].sign("√") || i+1 >= len(ps) || ps[i+1].sign("(") {
			continue
		}
		first := ps.operand(i + 1)
		next := ps.nextFactor(first)
		squared := powerStart(ps, first-1) > i+1
		if next == first && (!squared || ps.sumEnd(first) == first) || ps[i+1:next].numbers() && ps[next-1].kind != piToken {
			continue
		}
		last := next
		for to := ps.nextFactor(last); to > last; to = ps.nextFactor(last) {
			last = to
		}
		ways := [][]bracketing{{{i, first}}, {{i + 1, next}}}
		if squared {
			ways = ways[1:] // the root of a square, of which a sum may go on
		}
		if last > next {
			ways = append(ways, []bracketing{{i + 1, last}})
		}
		if end := ps.sumEnd(last); end > last {
			ways = append(ways, []bracketing{{i + 1, end}}) // √u² + 2gh
			if next > first && ps[first].over() {
				ways = append(ways, []bracketing{{i + 1, end}, {first + 1, end}}) // √m/k1 + k2
			}
		}
		out = append(out, ways)
	}
	return out
}

// sumEnd is where the terms end that go on a sum at i, within its brackets; i if none does.
func (ps pieces) sumEnd(i int) int {
	for i < len(ps) && ps[i].plusOrMinus() && i+1 < len(ps) {
		_, i = ps.term(i + 1)
	}
	return i
}

// nextFactor returns where the factor ends that goes on a product at i, by a
// stroke or without a sign; i if none does.
func (ps pieces) nextFactor(i int) int {
	switch {
	case i < len(ps) && ps.implied(i):
		return ps.operand(i)
	case i+1 < len(ps) && (ps[i].over() || ps[i].times()) && ps[i+1].begins():
		return ps.operand(i + 1)
	}
	return i
}
