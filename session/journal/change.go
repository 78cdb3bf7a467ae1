package journal

import (
	"maps"
	"slices"
	"strconv"
	"strings"

	"steelyard/session"
)

// A change names statements by the numbers of their entries, which they keep, and not
// by their places: where an entry is lost, no other statement is changed in its stead.
// It is one entry, so that of a change half done nothing is kept.
//
//	  3 is
//	    k = 250 N/m
//	  without 5
//	  before 6
//	    W = 1/2*m*v^2
//	change 9 6d0a5a5e
//
// "at the end" puts a statement below all others. Those put in have the last numbers
// up to that of the entry.
const (
	isWord      = " is"
	withoutWord = "without "
	beforeWord  = "before "
	atTheEnd    = "at the end"
)

// Change writes that lines have changed, and returns when that is on the disk.
func (j *Journal) Change(ed session.Edit) *Problem {
	if j == nil {
		return nil
	}
	if len(ed.Texts)+ed.Drop == 0 && len(ed.Put) < 2 && ed.At == len(j.numbers)+1 {
		return j.Accept(ed.Put...)
	}
	var b strings.Builder
	for _, line := range slices.Sorted(maps.Keys(ed.Texts)) {
		b.WriteString(strconv.Itoa(j.numbers[line-1]) + isWord + indented(ed.Texts[line]))
	}
	first := max(ed.At-1, 0) // where nothing is put in or taken out, At is 0
	where, end := atTheEnd, first+ed.Drop
	if end < len(j.numbers) {
		where = beforeWord + strconv.Itoa(j.numbers[end])
	}
	for line := ed.At; line < ed.At+ed.Drop; line++ {
		b.WriteString(withoutWord + strconv.Itoa(j.numbers[line-1]) + "\n")
	}
	var put []int
	for i, text := range ed.Put {
		b.WriteString(where + indented(text))
		put = append(put, j.last+1+i)
	}
	j.numbers = slices.Replace(j.numbers, first, end, put...)
	j.last += max(len(put)-1, 0)
	j.add(change, strings.TrimSuffix(b.String(), "\n"))
	return j.flush()
}

// indented is a statement below the line that says what is done with it.
func indented(text string) string {
	return "\n" + indent + strings.ReplaceAll(text, "\n", "\n"+indent) + "\n"
}

// change carries a change out.
func (c *contents) change(number int, text string) {
	var does []string // each with its statement
	put := 0
	for line := range strings.SplitSeq(text, "\n") {
		if strings.HasPrefix(line, indent) && len(does) > 0 {
			does[len(does)-1] += "\n" + line[len(indent):]
			continue
		}
		does = append(does, line)
		if line == atTheEnd || strings.HasPrefix(line, beforeWord) {
			put++
		}
	}
	for _, do := range does {
		what, statement, _ := strings.Cut(do, "\n")
		if name, without := strings.CutPrefix(what, withoutWord); without {
			if i := c.at(name); i < len(c.numbers) {
				c.statements, c.numbers = slices.Delete(c.statements, i, i+1), slices.Delete(c.numbers, i, i+1)
			}
			continue
		}
		if name, is := strings.CutSuffix(what, isWord); is {
			if i := c.at(name); i < len(c.numbers) {
				c.statements[i] = statement
			} else { // what it was is lost, and what it is need not be
				n, _ := strconv.Atoi(name)
				c.put(i, statement, n)
			}
			continue
		}
		if what != atTheEnd && !strings.HasPrefix(what, beforeWord) {
			continue
		}
		put--
		c.put(c.at(strings.TrimPrefix(what, beforeWord)), statement, number-put)
	}
}

// at is the place of the statement with a number; that below all others, if there is
// none.
func (c *contents) at(number string) int {
	n, err := strconv.Atoi(number)
	if i := slices.Index(c.numbers, n); i >= 0 && err == nil {
		return i
	}
	return len(c.numbers)
}

func (c *contents) put(at int, statement string, number int) {
	c.statements = slices.Insert(c.statements, at, statement)
	c.numbers = slices.Insert(c.numbers, at, number)
}
