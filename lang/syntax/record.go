package syntax

import (
	"strconv"
	"strings"

	"steelyard/lang/finding"
	"steelyard/units"
)

// Record is the result of a statement as a worksheet has it on the line below:
// `= 0.4624 J`, or `= T = 26.1 N` where a statement has several results.
//
// For = T = 26.1 N the name is T, the value 26.1 and the unit N. Figures are those
// that were shown, so a comparison knows how exact the record is.
type Record struct {
	Name   string // empty for a statement's only result
	NameAt Span
	Value  units.Decimal
	At     Span // of the value with its unit
	Unit   UnitText
	// List has the numbers of a list or a vector, of which Value is the first; of many, Count says
	// how many there are, Value is their mean, and Digest tells their values.
	List   []units.Decimal
	Vector bool // they are the components of a vector
	Axes   int  // or of vectors with so many components each, one after the other
	Count  int
	Digest string
}

// ParseRecord reads a line that begins with an equals sign. Spans are byte
// offsets in text.
//
// A record is no statement: it is compared with what the statement above comes to now, by
// whoever replays the page. It is read by the scanner of all lines, so that its number and unit
// mean what they would mean there.
func ParseRecord(text string) (Record, []finding.Finding) {
	r, bad := readRecord(text)
	if bad != nil {
		return Record{}, []finding.Finding{bad.Finding}
	}
	return r, nil
}

// withoutClause is a record without what the screen says of the value behind it: = 6 J, an energy.
func withoutClause(text string) string {
	behind := strings.LastIndexAny(text, "])") + 1
	value, says, ok := strings.Cut(text[behind:], ", ")
	if ok && startsName(firstRune(says)) && !strings.Contains(says, "=") {
		return text[:behind] + value
	}
	return text
}

// A record is one number with its unit, a list, or how many values there are with
// their mean; anything that would have to be worked out is refused, = 2*3 J.
func readRecord(text string) (Record, *fault) {
	var r Record
	if bad := guard(text); bad != nil {
		return r, bad
	}
	from, to := trimBlanks(text, 0, len(text))
	if rest, ok := r.many(text[from:to]); ok {
		text, from, to = rest, 0, len(rest)
	}
	to = from + len(withoutClause(text[from:to]))
	tokens, bad := scan(text, from, to, "")
	if bad != nil {
		return r, bad
	}
	wrong := &fault{finding.New(finding.Unreadable, Span{From: from, To: to}, "A recorded result is one number with its unit.",
		"Write it like `= 0.4624 J`, or record it again.")}
	if len(tokens) < 2 || !tokens[0].is("=") {
		return r, wrong
	}
	tokens = tokens[1:]
	if len(tokens) > 2 && tokens[0].kind == nameToken && tokens[1].is("=") {
		r.Name, r.NameAt = Canonical(tokens[0].text), tokens[0].span()
		tokens = tokens[2:]
	}
	r.At = Span{From: tokens[0].from, To: to}
	if tokens[0].is("[") || tokens[0].is("(") {
		return r, r.list(text[tokens[0].from:to], wrong)
	}
	sign, signed := sumOp(&tokens[0])
	if signed && len(tokens) > 1 {
		tokens = tokens[1:]
	}
	if tokens[0].kind != numToken || len(tokens) > 2 || strings.ContainsAny(tokens[0].text, "½¼¾⅓") {
		return r, wrong
	}
	if r.Value, bad = decimal(tokens[0].text, tokens[0].span(), signed && sign == Sub); bad != nil {
		return r, bad
	}
	if len(tokens) == 2 {
		if tokens[1].kind != unitToken {
			return r, wrong
		}
		r.Unit = UnitText{Text: foldUnit(tokens[1].text), At: tokens[1].span()}
	}
	return r, nil
}

// many takes from a record of many values how many there are and what tells them from
// others, and returns it with their mean alone: = 40 values of mean 1.2 s, digest 5a1f.
//
// A list of a thousand values would make a worksheet that nobody can read; a digest of them
// tells a change all the same.
func (r *Record) many(text string) (string, bool) {
	head, rest, ok := strings.Cut(text, " values of mean ")
	mean, digest, both := strings.Cut(rest, ", digest ")
	at := strings.LastIndexByte(head, '=') + 1
	n, err := strconv.Atoi(strings.TrimSpace(head[at:]))
	if !ok || !both || err != nil || digest == "" || strings.Trim(digest, "0123456789abcdef") != "" {
		return text, false
	}
	r.Count, r.Digest = n, digest
	return head[:at] + " " + mean, true
}

// list reads a record in brackets.
func (r *Record) list(text string, wrong *fault) *fault {
	head, tail, _ := strings.Cut(text, "]")
	vectors := strings.Count(head, "(")
	one := text[0] == '[' && (vectors == 1 || vectors == 0 && !strings.Contains(head, ",")) // a table of one row has lists of one value
	if one {
		text = head + ", " + head[1:] + "]" + tail
	}
	x, bad := ParseExpr(text)
	list, ok := x.(*List)
	if len(bad) > 0 || !ok || !r.numbers(list) {
		return wrong
	}
	if one {
		r.List = r.List[:len(r.List)/2]
	}
	r.Value, r.Unit, r.Vector = r.List[0], list.Unit, list.Vector
	return nil
}

// numbers adds the numbers of a list, and of the vectors in it, to a record.
func (r *Record) numbers(list *List) bool {
	for _, e := range list.Elems {
		switch n := e.(type) {
		case *Number:
			r.List = append(r.List, n.Value)
		case *Quantity:
			r.List = append(r.List, n.Value)
		case *List:
			if r.Axes = len(n.Elems); list.Vector || !n.Vector || !r.numbers(n) || len(r.List)%r.Axes != 0 {
				return false
			}
		default:
			return false
		}
	}
	return true
}
