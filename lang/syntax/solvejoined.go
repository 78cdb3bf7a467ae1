package syntax

import "steelyard/lang/finding"

// joined says how several equations and several unknowns are joined, where a
// solve has a comma between equations or the word and between unknowns.
//
// For solve a = b, c = d for a the line with and is offered, and for … for a and b
// the one with a comma. Commas within brackets part arguments and are left alone;
// behind where and with, and joins conditions again. The offer is the rest of the
// line from the first sign that changes.
func (r *reader) joined(tokens []token) *fault {
	line, from, to := "", r.from, r.from
	depth, asked := 0, false
	for i := range tokens {
		t := &tokens[i]
		sign := ""
		switch {
		case t.is("("):
			depth++
		case t.is(")"):
			depth--
		case t.is("for"):
			asked = true
		case t.is("where"), t.is("with"):
			asked = false
		case depth == 0 && i > 0 && t.is(",") && !asked && equationFollows(tokens[i+1:]):
			sign = " and"
		case depth == 0 && i > 0 && t.is("and") && asked:
			sign = ","
		}
		if sign == "" {
			continue
		}
		if line == "" {
			from = tokens[i-1].to
		}
		line += r.text[to:tokens[i-1].to] + sign
		to = t.to
	}
	if line == "" {
		return nil
	}
	line += r.text[to:r.to]
	return &fault{finding.New(finding.NotWritten, Span{From: from, To: r.to}, "Put `and` between equations, and commas between unknowns.",
		"Write `"+line+"`.", line[from-r.from:])}
}

// equationFollows tells whether tokens hold an equals sign before the unknowns.
//
// In solve f = 3 N, for x there is none behind the comma, so that it is a slip of
// another kind.
func equationFollows(tokens []token) bool {
	for i := range tokens {
		switch {
		case tokens[i].is("="):
			return true
		case tokens[i].is("for"):
			return false
		}
	}
	return false
}
