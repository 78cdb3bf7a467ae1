package syntax

import "slices"

// InPlace is a reading as it is put into a line in the place of a part, so that what is
// below a slash, under a root or raised there stays so: a product gets a bracket, round
// the power behind the part too. At is all that it takes the place of.
//
// A reading is offered for a part of a line, and goes there as text: k of 1/k becomes a*b, and
// 1/a*b would be something else.
func InPlace(text string, part Span, reading string) (at Span, put string) {
	_, tokens, bad := statementTokens(text)
	i := slices.IndexFunc(tokens, func(t token) bool { return t.from == part.From })
	if bad != nil || i < 1 {
		return part, reading
	}
	op, product := productOp(&tokens[i-1])
	root := tokens[i-1].is("√") && !tokens[i].is("(") // √(k/m)*x is a root of k/m
	if !(product && op == Div) && !root && !tokens[i-1].is("^") {
		return part, reading
	}
	for i < len(tokens) && tokens[i].to <= part.To {
		i++
	}
	at = part
	if end := piecesOf(text, [][]token{tokens}).power(i); end > i && tokens[i].from == part.To {
		at.To = tokens[end-1].to
		reading += text[part.To:at.To]
	}
	x, wrong := ParseExpr(reading)
	if b, ok := x.(*Binary); ok && len(wrong) == 0 && (b.Op == Mul || b.Op == Div) {
		reading = "(" + reading + ")"
	}
	return at, reading
}
