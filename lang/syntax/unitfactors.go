package syntax

import (
	"slices"
	"steelyard/units"
	"strings"
)

// unitFactor is a word of a unit with its power and what joins it to the one
// before; or a whole bracket of words.
//
// Of W/(m^2 K) there are two: W, and with the joint / a bracket in which m has the
// power ^2 and K the joint of a blank. A power is kept as it was typed: ^2 or ².
type unitFactor struct {
	joint  string // "", " ", "·", "/" or "*"
	word   string
	power  string
	within []unitFactor // of a bracket
}

// unitFactors takes the text of a unit apart; false for one of another form.
//
// Text that is empty, begins with a power or holds a number, as 3 or ^2, is no
// unit. Whether its words are units is not asked: it may be names that were read
// so.
func unitFactors(text string) ([]unitFactor, bool) {
	s := units.Scanner{Text: text}
	out, closed := factorsUpTo(&s, units.PartEnd)
	return out, closed && len(out) > 0
}

// A power goes to what is before it, be that a word or a bracket. The end is that of the text,
// or a bracket that shuts.
//
// factorsUpTo reads factors as far as an end.
func factorsUpTo(s *units.Scanner, end units.PartKind) ([]unitFactor, bool) {
	var out []unitFactor
	joint := ""
	for {
		p := s.Next()
		switch p.Kind {
		case end:
			return out, true
		case units.PartBlank:
			if joint == "" && len(out) > 0 {
				joint = " "
			}
		case units.PartSolidus:
			joint = "/"
		case units.PartDot:
			joint = "·"
		case units.PartStar:
			joint = "*"
		case units.PartWord:
			out = append(out, unitFactor{joint: joint, word: s.Text[p.From:p.To]})
			joint = ""
		case units.PartPower:
			if len(out) == 0 {
				return nil, false
			}
			out[len(out)-1].power += s.Text[p.From:p.To]
		case units.PartOpen:
			within, ok := factorsUpTo(s, units.PartClose)
			if !ok || len(within) == 0 {
				return nil, false
			}
			out = append(out, unitFactor{joint: joint, within: within})
			joint = ""
		default:
			return nil, false
		}
	}
}

// unitText writes factors as the text of one unit.
//
// A * becomes a dot: N*m is N·m, which the text of one unit may have. So reading
// the text gives the same factors again, with that one joint changed.
func unitText(fs []unitFactor) string {
	if len(fs) == 1 && fs[0].within == nil && fs[0].power == "" {
		return fs[0].word
	}
	var b strings.Builder
	for i, f := range fs {
		if i > 0 {
			if f.joint == "*" {
				b.WriteString("·")
			} else {
				b.WriteString(f.joint)
			}
		}
		if f.within != nil {
			b.WriteString("(" + unitText(f.within) + ")")
			continue
		}
		b.WriteString(f.word + f.power)
	}
	return b.String()
}

// oneStroke puts all that follows the first stroke of a unit under it: m/s/s is
// m/(s s).
//
// SI Brochure 9, 5.2 has one stroke in a unit at most; a worksheet does as well. Two equal
// words under it become a square. A mix of strokes and products behind the first is left as it
// is, since books read it in both ways.
//
// Some units before and after:
//
//	m/s/s        m/s^2
//	J/kg/K       J/(kg·K)
//	N/m^2/s      N/(m^2·s)
//	J/kg K/s     as it is
//
// m/s/s has two strokes to those who read from the left, and one quotient below: m/(s s), the
// form of the SI Brochure (5.2), which has one stroke at most without brackets.
func oneStroke(fs []unitFactor) []unitFactor {
	first, strokes := -1, 0
	for i, f := range fs {
		if f.joint == "/" {
			if strokes++; first < 0 {
				first = i
			}
		}
	}
	if strokes < 2 {
		return fs
	}
	var under []unitFactor
	for i, f := range fs[first:] {
		if f.joint != "/" {
			return fs // J/kg K/s: of two minds
		}
		more := []unitFactor{f}
		if f.within != nil {
			more = f.within
		}
		for k := range more {
			m := more[k]
			if last := len(under) - 1; last >= 0 && m.power == "" && under[last].power == "" && m.word == under[last].word && m.within == nil {
				under[last].power = "^2"
				continue
			}
			if m.joint = "*"; i+k == 0 {
				m.joint = ""
			}
			under = append(under, m)
		}
	}
	if len(under) == 1 {
		under[0].joint = "/"
		return append(fs[:first:first], under[0])
	}
	return append(fs[:first:first], unitFactor{joint: "/", within: under})
}

// underStroke adds a factor, under the stroke if there is one: W/m²K is W/(m² K), and
// J/kg*K is J/(kg K).
//
// Without a stroke it is one more factor: N and m are N m. With a bracket under
// the stroke it goes into it: J/(kg K) and s are J/(kg K s). The factors that came
// in are not changed, as other readings use them too.
func underStroke(fs []unitFactor, f unitFactor) []unitFactor {
	f.joint = " "
	fs = slices.Clone(fs) // of which under changes the first
	at := slices.IndexFunc(fs, func(f unitFactor) bool { return f.joint == "/" })
	if at < 0 {
		return append(fs, f)
	}
	under := append(slices.Clone(fs[at:]), f)
	if under[0].joint = ""; under[0].within != nil {
		under = append(slices.Clone(under[0].within), under[1:]...)
	}
	return append(fs[:at:at], unitFactor{joint: "/", within: under})
}

// factorsOfNames reads pieces within a bracket as words of a unit: kg*K.
//
// Behind a sign the words of a unit have been taken for names: in 4200 J/(kg*K)
// the unit ends with J. This is how the rest is seen as a unit again. A call, a
// number, a sum or a bracket in it says that it is none.
func factorsOfNames(ps pieces) ([]unitFactor, bool) {
	var out []unitFactor
	joint := ""
	for i := 0; i < len(ps); i++ {
		p := &ps[i]
		switch {
		case p.kind == nameToken && !p.call:
			out = append(out, unitFactor{joint: joint, word: p.text})
			joint = "*"
		case p.kind == superToken && len(out) > 0:
			out[len(out)-1].power = p.text
		case p.sign("^") && i+1 < len(ps) && len(out) > 0 && ps[i+1].kind == numToken:
			out[len(out)-1].power = "^" + ps[i+1].text
			i++
		case p.times():
			joint = "*"
		default:
			return nil, false
		}
	}
	return out, len(out) > 0
}

// wordsOf lists the words of a unit.
//
// Those within brackets are among them, in the order in which they are written: W,
// m, K of W/(m^2 K). A word comes as often as it is there.
func wordsOf(fs []unitFactor) (out []string) {
	for _, f := range fs {
		if f.word != "" {
			out = append(out, f.word)
		}
		out = append(out, wordsOf(f.within)...)
	}
	return out
}

// joined tells whether one of some joints is before a word of a unit, from a place on:
// 3 m g, 5 V·C where C is a name.
//
// What stands beside another by a blank or a dot was hardly meant as a unit of its own.
//
// Each character of joints is one of them; the first word has none. Within a
// bracket all words count.
func joined(fs []unitFactor, from int, joints string) bool {
	for i := from; i < len(fs); i++ {
		if i > 0 && fs[i].joint != "" && strings.Contains(joints, fs[i].joint) || joined(fs[i].within, 0, joints) {
			return true
		}
	}
	return false
}
