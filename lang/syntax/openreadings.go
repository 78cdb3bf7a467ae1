package syntax

import (
	"steelyard/lang/limit"
	"steelyard/lang/ops"
)

// readings writes the readings that all combinations of choices make.
func (o *opener) readings(base pieces, slots []slot) ([]Reading, bool) {
	total := 1
	for _, s := range slots {
		total = min(total*len(s.choices), limit.Readings+1)
	}
	if total > limit.Readings {
		return o.extremes(base, slots), true
	}
	out := make([]Reading, 0, total)
	pick := make([]int, len(slots))
	o.ints, o.written.expected = make([]int, 0, 2*total*len(slots)), total
	o.room = make(pieces, 0, len(base)+2*len(slots))
	for {
		ps, r := o.chosen(base, slots, pick)
		out = o.shaped(out, ps, r)
		if len(out) > limit.Readings {
			return o.extremes(base, slots), true
		}
		k := len(pick) - 1
		for k >= 0 {
			if pick[k]++; pick[k] < len(slots[k].choices) {
				break
			}
			pick[k] = 0
			k--
		}
		if k < 0 {
			return out, false
		}
	}
}

// extremes reads all letters as names, and all as units.
//
// One with as many names as there can be, and one with as many units: a line that is right in
// neither is not saved by one of the hundreds between.
func (o *opener) extremes(base pieces, slots []slot) (out []Reading) {
	for _, last := range [...]bool{false, true} {
		pick := make([]int, len(slots))
		for i := range pick {
			if last {
				pick[i] = len(slots[i].choices) - 1
			}
		}
		ps, r := o.chosen(base, slots, pick)
		r.Text, _ = ps.text(nil)
		out = append(out, r)
	}
	return out
}

// chosen makes the pieces of one combination of choices, which hold until the next
// is made.
func (o *opener) chosen(base pieces, slots []slot, pick []int) (pieces, Reading) {
	out := o.room[:0]
	at := 0
	from := len(o.ints)
	o.ints = append(o.ints, pick...)
	r := Reading{pick: o.ints[from:len(o.ints):len(o.ints)]}
	from = len(o.ints)
	for i, s := range slots {
		c := &s.choices[pick[i]]
		out = append(append(out, base[at:s.from]...), c.pieces...)
		at = s.to
		r.Units += c.units
		r.GoesOn = r.GoesOn || c.goesOn
		if c.names {
			o.ints = append(o.ints, s.letter)
		}
	}
	r.Names = o.ints[from:len(o.ints):len(o.ints)]
	o.room = append(out, base[at:]...)
	return o.room, r
}

// shaped adds the readings of pieces whose letters are settled: what is under
// each bar and root, in degrees and in turns.
func (o *opener) shaped(out []Reading, ps pieces, r Reading) []Reading {
	first := len(out)
	as := func(ps pieces, put []bracketing) Reading {
		r.Text, r.tokens = o.written.write(ps, put)
		r.form[0]++
		if o.headed {
			r.tokens = nil
		}
		return r
	}
	for _, turned := range o.turned(ps) {
		degrees, radians, angles := o.angles(turned)
		open := append(turned.bars(), turned.roots()...)
		if len(open) > 0 {
			o.others = o.others || len(r.Names) == 0
			o.within = true
		}
		for _, put := range combined(open) {
			if !angles {
				out = append(out, as(turned, put))
				continue
			}
			o.others, o.Degrees = true, true
			out = append(out, as(degrees, put), as(radians, put))
			if len(out) > limit.Readings {
				return out
			}
		}
	}
	for i := first; i < len(out); i++ {
		out[i].form[1] = len(out) - first
	}
	return out
}

// asIs is the one way to put no brackets.
var asIs [1][]bracketing

// combined makes all combinations of brackets, each of which puts some.
//
// Each bar and each root is settled by itself, so that n of them in two ways make 2ⁿ.
func combined(open [][][]bracketing) [][]bracketing {
	if len(open) == 0 {
		return asIs[:]
	}
	out := [][]bracketing{nil}
	for _, ways := range open {
		var next [][]bracketing
		for _, have := range out {
			for _, way := range ways {
				next = append(next, append(have[:len(have):len(have)], way...))
			}
		}
		if out = next; len(out) > limit.Readings {
			break
		}
	}
	return out
}

// setOff tells of each open letter whether it is set off, and where the first is
// that fills a bracket. What is joined to it leaves it open but in a bracket: 5 V·C.
//
// m = 3 g and F = (2 N) are set off: who puts a blank before a unit, and nothing behind it,
// means one.
func (o *opener) setOff(ps pieces) (out []bool, bracket Span) {
	for _, open := range o.open {
		i := open.unit
		from := ps.start(i - 1)
		at := from
		for at > 0 && ps[at-1].plusOrMinus() {
			at--
		}
		begins := at == 0 || ps[at-1].bounds() || ps[at-1].sign("(") && !(at > 1 && ps[at-2].call && ops.IsFunction(ps[at-2].text))
		ends := i+1 == len(ps) || ps[i+1].bounds() || ps[i+1].sign(")")
		within := at > 0 && ps[at-1].sign("(")
		off := ps[i].gap != "" && !open.beside && (within || !open.joined) && begins && ends
		if off && within && bracket == (Span{}) {
			bracket = Span{From: ps[from].from, To: ps[i].to}
		}
		out = append(out, off)
	}
	return out, bracket
}
