package entry

import (
	"strings"

	"steelyard/lang/syntax"
	"steelyard/lang/typeset"
	"steelyard/units"
	"steelyard/units/each"
)

// Said is a sentence of the program, or a piece of one, with what it speaks of in its
// place. A view sets the parts by what they are: it need not guess which letters of a text
// are a name and which signs a unit.
type Said []Part

// Part is one part of what is said. One of its fields is set.
type Part struct {
	Words   string
	Written string      // words of the page's writer, in which names and units may stand
	X       syntax.Expr // a name or a formula
	Value   *Value      // a number with its unit
}

// Say puts things into a sentence: each … of the text is the next of them.
func Say(text string, of ...Said) Said {
	if text == "" {
		return nil
	}
	parts := 1 + len(of)
	for _, one := range of {
		parts += len(one)
	}
	out := make(Said, 0, parts)
	for i, more := 0, true; more; i++ {
		var words string
		if words, text, more = strings.Cut(text, "…"); words != "" {
			out = append(out, Part{Words: words})
		}
		if i < len(of) {
			out = append(out, of[i]...)
		}
	}
	return out
}

// And is what is said with more behind it. It leaves what it goes on from as it was.
func (s Said) And(text string, of ...Said) Said {
	return append(s[:len(s):len(s)], Say(text, of...)...)
}

// Words is a text in which nothing is looked for, whatever its signs: a label, say, that
// someone made up.
func Words(text string) Said { return Said{{Words: text}} }

// Written is what the writer of a page says: a meaning, or a note.
func Written(text string) Said { return Said{{Written: text}} }

// Math is an expression within a sentence, Name a name, and Said of a value a number
// with its unit.
func Math(x syntax.Expr) Said { return Said{{X: x}} }
func Name(name string) Said   { return Math(&syntax.Name{Name: name}) }
func (v Value) Said() Said    { return Said{{Value: &v}} }

// Same tells whether two look alike on a screen.
func (s Said) Same(t Said) bool { return s.String() == t.String() }

// Listed lists things as a sentence does: a, b and c.
func Listed(all []Said) Said {
	if n := len(all) - 1; n > 0 {
		return Say("… and …", Joined(all[:n], ", "), all[n])
	}
	return Joined(all, "")
}

// Joined puts a text between things.
func Joined(all []Said, between string) Said {
	var out Said
	for i, s := range all {
		if i > 0 {
			out = append(out, Part{Words: between})
		}
		out = append(out, s...)
	}
	return out
}

// Maths are expressions, each for a place of a sentence.
func Maths(all ...syntax.Expr) []Said { return each.Of(all, Math) }

// Names are names, each for a place of a sentence.
func Names(all []string) []Said { return each.Of(all, Name) }

// Rows are sentences without anything but words in them.
func Rows(texts ...string) Lines { return each.Of(texts, Words) }

// String is what is said as a screen shows it.
func (s Said) String() string {
	var b strings.Builder
	for i := range s {
		switch p := &s[i]; {
		case p.Value != nil:
			b.WriteString(p.Value.Shown(units.Screen))
		case p.X != nil:
			b.WriteString(typeset.Text(p.X))
		default:
			b.WriteString(p.Words + p.Written)
		}
	}
	return b.String()
}

// Texts are sentences as a screen shows them; nil for none.
func Texts(all []Said) []string {
	if len(all) == 0 {
		return nil
	}
	return each.Of(all, Said.String)
}
