package referee

import (
	"math/rand/v2"
	"strings"
	"testing"

	"steelyard/lang/syntax"
)

// TestRootsAreAll looks for changes of sign of the equations that pages are built
// from, on a grid: each must be at a root that the page is built with. That those
// are roots is asked of every page that is judged.
func TestRootsAreAll(t *testing.T) {
	for i := range families {
		f := &families[i]
		for n := range 6 {
			s := f.build(dice{rand.New(rand.NewPCG(uint64(n), 9))})
			if s.roots == nil || s.roots.every {
				continue
			}
			line := s.lines[len(s.lines)-1]
			stmt, bad := syntax.Parse(line)
			solve, ok := stmt.(*syntax.Solve)
			if !ok && f.mending {
				continue
			}
			if !ok {
				t.Fatalf("%s %d: %s: %v", f.name, n, line, bad)
			}
			if len(solve.Where) > 0 {
				continue
			}
			r := newReading(0)
			for _, l := range s.lines[:len(s.lines)-1] {
				r.learn(read(l))
			}
			if x, other := s.roots.other(r, solve); other {
				t.Errorf("%s %d: %s: the sides cross at %s, which is no root of those built", f.name, n, strings.Join(s.lines, "; "), x.text())
			}
		}
	}
}

// other finds a place where the sides cross and there is no root.
func (t roots) other(r *reading, s *syntax.Solve) (between, bool) {
	name := s.Unknowns[0].Name
	if len(s.Unknowns) > 1 {
		name = strings.TrimRight(name, "0123456789")
	}
	f := func(x between) (between, bool) {
		in := r.with(name, x)
		a, ok1 := in.value(s.Equations[0].Left)
		b, ok2 := in.value(s.Equations[0].Right)
		if !ok1 || !ok2 {
			return between{}, false
		}
		return a.sub(b), true
	}
	wide := 4*t.size() + 7
	if t.period != nil {
		wide = 7
	}
	const steps = 60
	at := func(i int) between { return float(wide * (2*float64(i)/steps - 1.0003)) }
	for i := range steps {
		lo, hi := at(i), at(i+1)
		a, ok1 := f(lo)
		b, ok2 := f(hi)
		if !ok1 || !ok2 || a.sign()*b.sign() >= 0 {
			continue
		}
		if x, crosses := crossing(f, lo, hi, a.sign()); crosses && !t.near(x, 1e-6*wide) {
			return x, true
		}
	}
	return between{}, false
}

// near tells whether a root lies within a distance.
func (t roots) near(x between, by float64) bool {
	for _, root := range t.all {
		if t.period != nil {
			root = nextTo(root, x, *t.period)
		}
		if apart(x, root) <= by {
			return true
		}
	}
	return false
}

// crossing halves a piece at whose ends a function has different signs. At a pole
// or a jump it does not come down to 0.
func crossing(f func(between) (between, bool), lo, hi between, sign int) (between, bool) {
	for range 60 {
		mid := hull(lo, hi).middle()
		v, ok := f(mid)
		if !ok {
			return mid, false
		}
		if v.sign() == sign {
			lo = mid
		} else {
			hi = mid
		}
	}
	a, ok1 := f(lo)
	b, ok2 := f(hi)
	return lo, ok1 && ok2 && a.size() < 1e-6 && b.size() < 1e-6
}

// TestAreasAreRight holds the closed form of each area against sums over pieces,
// each of which encloses what is under the curve there.
func TestAreasAreRight(t *testing.T) {
	for i := range families {
		f := &families[i]
		for n := range 8 {
			s := f.build(dice{rand.New(rand.NewPCG(uint64(n), 9))})
			if s.area == nil || s.area.endless {
				continue
			}
			r := newReading(0)
			for _, l := range s.lines[:len(s.lines)-1] {
				r.learn(read(l))
			}
			line := s.lines[len(s.lines)-1]
			stmt, _ := syntax.Parse(line)
			asked, ok := stmt.(*syntax.Value)
			if !ok {
				t.Fatalf("%s %d: %s", f.name, n, line)
			}
			a, ok := asked.X.(*syntax.AreaUnder)
			if !ok {
				t.Fatalf("%s %d: %s", f.name, n, line)
			}
			from, ok1 := r.value(a.From)
			to, ok2 := r.value(a.To)
			if !ok1 || !ok2 {
				t.Fatalf("%s: no range", line)
			}
			sum, ok := enclosed(r, a, from, to, 12, s.area.under.size())
			if ok && !sum.meets(s.area.is) {
				t.Errorf("%s: the area lies from %s to %s, and is said to be %s", line, sum.lo.Text('g', 9), sum.hi.Text('g', 9), s.area.is.text())
			}
		}
	}
}

// enclosed halves a range until each piece says enough.
func enclosed(r *reading, a *syntax.AreaUnder, from, to between, depth int, size float64) (between, bool) {
	over := hull(from, to)
	v, ok := r.with(a.Var.Name, over).value(a.X)
	part := v
	if ok {
		part = v.mul(to.sub(from))
	}
	if ok && part.width() < 1e-5*size || depth == 0 {
		return part, ok
	}
	mid := over.middle()
	left, ok1 := enclosed(r, a, from, mid, depth-1, size)
	right, ok2 := enclosed(r, a, mid, to, depth-1, size)
	if !ok1 || !ok2 {
		return between{}, false
	}
	return left.add(right), true
}
