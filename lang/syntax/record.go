package syntax

import (
	"strings"

	"steelyard/lang/finding"
	"steelyard/units"
)

// Record is the result of a statement as a worksheet has it on the line below:
// `= 0.4624 J`, or `= T = 26.1 N` where a statement has several results.
type Record struct {
	Name   string // empty for a statement's only result
	NameAt Span
	Value  units.Decimal
	At     Span // of the value with its unit
	Unit   UnitText
}

// ParseRecord reads a line that begins with an equals sign. Spans are byte
// offsets in text.
func ParseRecord(text string) (Record, []finding.Finding) {
	r, bad := readRecord(text)
	if bad != nil {
		return Record{}, []finding.Finding{bad.Finding}
	}
	return r, nil
}

func readRecord(text string) (Record, *fault) {
	var r Record
	if bad := guard(text); bad != nil {
		return r, bad
	}
	from, to := trimBlanks(text, 0, len(text))
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
