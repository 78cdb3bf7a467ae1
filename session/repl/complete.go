package repl

import (
	"fmt"
	"slices"
	"strings"

	"github.com/mattn/go-runewidth"

	"steelyard/units/writing"
)

// tab is a choice of words that may stand at the cursor.
type tab struct {
	from  int // in characters
	words []string
	at    int    // which one stands there; -1 for none yet
	text  string // the line with it
}

// complete puts in what can only follow, or shows what may; then it goes through that.
func (ed *editor) complete() { ed.completes(1) }

// completeBack goes through it the other way.
func (ed *editor) completeBack() { ed.completes(-1) }

func (ed *editor) completes(by int) {
	if t := ed.tab; t != nil && t.text == ed.buf.String() {
		if t.at < 0 && by < 0 {
			t.at = 0
		}
		t.at = (t.at + by + len(t.words)) % len(t.words)
		ed.buf.put(t.from, ed.buf.Pos(), t.words[t.at])
		t.text = ed.buf.String()
		return
	}
	ed.tab = nil
	before := ed.buf.before()
	from, words := ed.pad.Complete(ed.buf.String(), len(before))
	if from < 0 || from > len(before) {
		return
	}
	words = slices.DeleteFunc(slices.Clone(words), func(w string) bool {
		return w == "" || w == before[from:] || strings.ContainsFunc(w, writing.Escaped)
	})
	start, typed := len([]rune(before[:from])), before[from:]
	switch common := commonStart(words); {
	case len(words) == 0:
	case len(words) == 1 || len(common) > len(typed) && strings.HasPrefix(common, typed):
		ed.buf.put(start, ed.buf.Pos(), common)
	default:
		ed.tab = &tab{from: start, words: words, at: -1, text: ed.buf.String()}
	}
}

// commonStart is what all words begin with.
func commonStart(words []string) string {
	if len(words) == 0 {
		return ""
	}
	common := []rune(words[0])
	for _, w := range words[1:] {
		n := 0
		for _, r := range w {
			if n == len(common) || common[n] != r {
				break
			}
			n++
		}
		common = common[:n]
	}
	return string(common)
}

// rowsOfWords is how many rows of words are shown at the most: more is not looked through.
const rowsOfWords = 8

// rows are the words in columns, in as many rows as there is room for.
func (t *tab) rows(columns, most int) []string {
	down := min(max(most, 1), rowsOfWords)
	across, wide := columns/2, 0
	for ; across > 0; across-- { // as many columns as those words need that are shown
		wide = 0
		for _, w := range t.words[:min(across*down, len(t.words))] {
			wide = max(wide, runewidth.StringWidth(w)+2)
		}
		if across*wide < columns || across == 1 {
			break
		}
	}
	down = min((len(t.words)+across-1)/across, down)
	shown := t.words
	if room := across * down; room < len(shown) {
		shown = slices.Clone(shown[:room])
		shown[room-1] = fmt.Sprintf("… %d more", len(t.words)-room+1)
	}
	out := make([]string, 0, down)
	for cells := range slices.Chunk(shown, across) {
		var b strings.Builder
		for _, w := range cells {
			b.WriteString(runewidth.FillRight(w, wide))
		}
		out = append(out, strings.TrimRight(b.String(), " "))
	}
	return out
}
