package run

import (
	"math"

	"steelyard/lang/ops"
)

const (
	// mostParts is how many periods of one wave at most make a whole number of another's,
	// where both come again together.
	mostParts = 60
	// manyPeriods is how many periods a range has from which on one is worked out for all.
	manyPeriods = 64
)

// course is how a slot goes with the first argument of a function: not at all, along a
// line of some slope, or as waves of such lines, of which the greatest common step is
// the slope.
//
// A graph of 0 s to 1 h of a swing of 2 s has 1,800 periods. What is true of one, its
// greatest value and its zeros, is true of all, so that one alone is looked at closely.
type course struct {
	kind  courseKind
	v     float64 // of what does not vary
	slope float64
}

type courseKind uint8

const (
	anyCourse courseKind = iota
	stillCourse
	lineCourse
	waveCourse
)

// period is after which distance a function is the same again, whatever the first of its
// arguments, which must stand in sines, cosines and tangents of lines alone.
//
// A tangent comes again after half of that: a whole number of its periods is one as well.
func (w *floatWalker) period(fn int, rest []float64) (float64, bool) {
	given := []course{{kind: lineCourse, slope: 1}}
	for _, v := range rest {
		given = append(given, course{kind: stillCourse, v: v})
	}
	out := w.course(fn, given, 0)
	period := 2 * math.Pi / math.Abs(out.slope)
	return period, out.kind == waveCourse && period > 0 && period < math.Inf(1)
}

// course is that of the result of a function whose arguments have some.
//
// Only operations on one number are followed: a list, an area or a root is of any course.
func (w *floatWalker) course(fn int, given []course, depth int) course {
	f := w.p.Funcs[fn]
	if depth > mostDepth || f.Code.firsts != nil {
		return course{}
	}
	all := make([]course, len(f.Code.Instrs))
	for i := range f.Code.Instrs {
		in := &f.Code.Instrs[i]
		switch in.Op {
		case ops.Const:
			all[i] = course{kind: stillCourse, v: in.K}
		case ops.Load:
			if w.st.causes[in.A] == 0 {
				all[i] = course{kind: stillCourse, v: w.st.At(in.A)}
			}
		case ops.Param:
			if int(in.A) < len(given) {
				all[i] = given[in.A]
			}
		case ops.Call:
			var args []course
			for _, s := range f.Code.list(in) {
				args = append(args, all[s])
			}
			if int(in.A) < len(w.p.Funcs) {
				all[i] = w.course(int(in.A), args, depth+1)
			}
		default:
			if !in.Op.List() {
				all[i] = in.course(all)
			}
		}
	}
	return all[f.Result]
}

// course is what an operation makes of its operands.
//
// What waves alone go into is the same again where they are, whatever is made of them:
// sin(x)^2, 1/(2 + cos(x)). A line stays one under few operations; x in itself, as in
// x + sin(x), never comes again.
func (in *Instr) course(all []course) course {
	var of [3]course
	n := in.Op.Operands()
	out := course{kind: stillCourse}
	operands := [3]Slot{in.A, in.B, in.C}
	for i, s := range operands[:n] {
		of[i] = all[s]
		out = out.beside(of[i])
	}
	a, b := of[0], of[1]
	switch {
	case out.kind == stillCourse && n == 3:
		return course{}
	case out.kind == stillCourse:
		out.v = in.Op.Value(a.v, b.v, in.K)
		return out
	case out.kind == waveCourse:
		return out
	}
	// A line is left.
	switch in.Op {
	case ops.Sin, ops.Cos, ops.Tan:
		if a.kind == lineCourse && a.slope != 0 {
			return course{kind: waveCourse, slope: a.slope}
		}
	case ops.Copy:
		return a
	case ops.Neg:
		return a.times(-1)
	case ops.Add:
		return a.plus(b)
	case ops.Sub:
		return a.plus(b.times(-1))
	case ops.Mul:
		if a.kind == stillCourse {
			return b.times(a.v)
		} else if b.kind == stillCourse {
			return a.times(b.v)
		}
	case ops.Div:
		if b.kind == stillCourse {
			return a.times(1 / b.v)
		}
	}
	return course{}
}

// beside is the course of what depends on two: waves come again together where their
// steps have a common one.
func (c course) beside(o course) course {
	switch {
	case c.kind == anyCourse || o.kind == anyCourse, c.kind == lineCourse && o.kind == waveCourse, c.kind == waveCourse && o.kind == lineCourse:
		return course{}
	case o.kind == stillCourse:
		return c
	case c.kind == stillCourse:
		return o
	case c.kind == lineCourse:
		return course{kind: lineCourse, slope: 1}
	}
	small, large := math.Abs(c.slope), math.Abs(o.slope)
	if small > large {
		small, large = large, small
	}
	// Two waves come again together where a whole number of periods of the one is a whole
	// number of the other's, but for rounding: 3 and 5 have the common step 1.
	for parts := 1.0; parts <= mostParts; parts++ {
		n := math.Round(large / small * parts)
		if math.Abs(large*parts-n*small) <= 4*exact*large*parts {
			return course{kind: waveCourse, slope: small / parts}
		}
	}
	return course{}
}

// plus is the sum of two lines, or of a line and a number.
//
// A number is a line of slope 0.
func (c course) plus(o course) course {
	return course{kind: lineCourse, slope: c.slope + o.slope}
}

// times is a multiple of a line.
func (c course) times(by float64) course {
	c.v, c.slope = c.v*by, c.slope*by
	return c
}
