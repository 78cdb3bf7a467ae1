package live

import (
	"regexp"
	"strconv"
	"strings"
	"sync"

	"steelyard/lang/syntax"
	"steelyard/session"
	"steelyard/session/entry"
)

// renumbered are the texts of the lines that name the number of a line which an edit
// moves, as v@12 does. What names a line that is taken out names its own line then,
// which gives no such value.
func (p *Page) renumbered(ed session.Edit) map[int]string {
	place := map[int]int{}
	for line := ed.At + ed.Drop; line < p.Next(); line++ {
		place[line] = line + len(ed.Put) - ed.Drop
	}
	texts := map[int]string{}
	for _, e := range p.Entries() {
		if e.Line >= ed.At && e.Line < ed.At+ed.Drop {
			continue
		}
		for line := ed.At; line < ed.At+ed.Drop; line++ {
			place[line] = e.Line
			if to, moves := place[e.Line]; moves {
				place[line] = to
			}
		}
		if text := RenumberEntry(e, place); text != e.Text {
			texts[e.Line] = text
		}
	}
	return texts
}

// earlier finds a name at a line, v@12.
var earlier = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`([\pL\pN_'′])@([0-9]{1,9})`) })

// RenumberEntry writes the lines that a statement names as those of the other
// numbering.
func RenumberEntry(e *entry.Entry, place map[int]int) string {
	switch e.Stmt.(type) {
	case *syntax.Note, *syntax.Remark, *syntax.Part:
		return e.Text
	}
	return Renumber(e.Text, place)
}

// Renumber changes the line of every name at a line, v@12, by a table; a line
// that the table lacks stays.
func Renumber(text string, place map[int]int) string {
	if !strings.Contains(text, "@") {
		return text
	}
	return earlier().ReplaceAllStringFunc(text, func(found string) string {
		head, number, _ := strings.Cut(found, "@")
		n, err := strconv.Atoi(number)
		if to, ok := place[n]; ok && err == nil {
			return head + "@" + strconv.Itoa(to)
		}
		return found
	})
}
