package curve

import (
	"math"
	"strconv"
	"strings"

	"steelyard/session/graph"
)

// maxZeros is how many zeros are named.
const maxZeros = 5

// facts says of a curve without a name what can be said.
func (p *plot) facts(c *curve, named string, sampled graph.Curve) string {
	t := teller{p, c, p.from, p.to}
	f := graph.Look(c.eval, sampled, p.from, p.to)
	for _, y := range []*float64{&f.Greatest.Y, &f.Least.Y} {
		if math.Abs(*y) < 1e-12*(sampled.Hi-sampled.Lo) {
			*y = 0
		}
	}
	for _, at := range []*float64{&f.Greatest.X, &f.Least.X} {
		if math.Abs(*at) < 1e-9*(p.to-p.from) {
			*at = 0
		}
	}
	var parts []string
	ends := f.HasFrom && f.HasTo
	switch {
	case f.Rises && ends:
		parts = append(parts, "rises from "+t.y(f.AtFrom.Y)+" at "+t.x(p.from)+" to "+t.y(f.AtTo.Y)+" at "+t.x(p.to))
	case f.Falls && ends:
		parts = append(parts, "falls from "+t.y(f.AtFrom.Y)+" at "+t.x(p.from)+" to "+t.y(f.AtTo.Y)+" at "+t.x(p.to))
	case sampled.Cut:
		where := t.gaps(sampled)
		if where == "" && !f.HasFrom {
			where = "at " + t.x(p.from)
		} else if where == "" {
			where = "at " + t.x(p.to)
		}
		parts = append(parts, "runs off "+where)
	default:
		parts = append(parts, "is greatest, "+t.y(f.Greatest.Y)+", at "+t.x(f.Greatest.X)+" and least, "+t.y(f.Least.Y)+", at "+t.x(f.Least.X))
		if len(sampled.Runs) > 1 || !ends {
			parts = append(parts, t.gaps(sampled))
		}
	}
	parts = append(parts, t.zeros(f)...)
	switch {
	case f.Even:
		parts = append(parts, "the same on both sides of "+t.x(0))
	case f.Odd:
		parts = append(parts, "the same with the other sign on both sides of "+t.x(0))
	}
	var said []string
	for _, s := range parts {
		if s != "" {
			said = append(said, s)
		}
	}
	return named + " " + strings.Join(said, "; ") + " (judged from samples)."
}

func (t teller) zeros(f graph.Facts) []string {
	var said []string
	if n := len(f.Flat); n > maxZeros {
		said = append(said, "0 along "+strconv.Itoa(n)+" stretches")
	} else {
		for _, s := range f.Flat {
			said = append(said, "0 from "+t.x(t.tidy(s.From))+" to "+t.x(t.tidy(s.To)))
		}
	}
	if n := len(f.Zeros); n > maxZeros {
		return append(said, "zero in "+strconv.Itoa(n)+" places")
	}
	var at []string
	for _, x := range f.Zeros {
		at = append(at, t.xValue(t.tidy(x)))
	}
	if at == nil {
		return said
	}
	return append(said, "zero at "+t.p.s.Against.Name+" = "+strings.Join(at, ", "))
}

// tidy is a place on the axis, 0 where it is but for rounding.
func (t teller) tidy(x float64) float64 {
	if math.Abs(x) < 1e-12*(t.to-t.from) {
		return 0
	}
	return x
}

// gaps says where a curve breaks off.
func (t teller) gaps(c graph.Curve) string {
	var at []string
	edge := 1e-6 * (t.to - t.from)
	if first := c.Runs[0][0].X; first > t.from+edge {
		at = append(at, "below "+t.x(first))
	}
	for i := 1; i < len(c.Runs); i++ {
		end, begin := c.Runs[i-1][len(c.Runs[i-1])-1].X, c.Runs[i][0].X
		if begin-end < 0.02*(t.to-t.from) {
			mid := c.Breaks[i-1]
			if math.Abs(mid) < 1e-9*(t.to-t.from) {
				mid = 0
			}
			at = append(at, "at "+t.x(mid))
		} else {
			at = append(at, "from "+t.x(end)+" to "+t.xValue(begin))
		}
	}
	last := c.Runs[len(c.Runs)-1]
	if end := last[len(last)-1].X; end < t.to-edge {
		at = append(at, "above "+t.x(end))
	}
	if len(at) > maxZeros {
		at = append(at[:maxZeros], "and further places")
	}
	if at == nil {
		return ""
	}
	if c.Cut {
		return strings.Join(at, ", ")
	}
	return "with a break " + strings.Join(at, ", ")
}
