package syntax

import (
	"slices"
	"strings"

	"steelyard/lang/finding"
	"steelyard/units/writing"
)

// The exponential function is exp(x) here; print writes e^x, where e is a name like
// any other.

// exponentials writes powers of e as calls of exp, where e is no name of the page,
// and what runs together with it is: V0e^(-t/τ) is V0*exp(-t/τ).
//
// A page with constants e has e as the elementary charge, and e^2 is its square
// there.
func (o *opener) exponentials(ps pieces) pieces {
	if o.in.Known("e") {
		return ps
	}
	for i := range ps {
		if ps[i].kind == unitToken && strings.HasPrefix(ps[i].text, "e^") { // 3e^(-2)
			if power, bad := scan(ps[i].text, 0, len(ps[i].text), ""); bad == nil {
				ps = slices.Replace(slices.Clone(ps), i, i+1, power...)
			}
		}
		if unit, ok := strings.CutSuffix(ps[i].text, " e"); ok && ps[i].kind == unitToken && i+1 < len(ps) && ps[i+1].sign("^") { // 5 V e^(-t/τ)
			e := token{kind: nameToken, from: ps[i].to - 1, to: ps[i].to, text: "e", gap: " "}
			ps = slices.Insert(slices.Clone(ps), i+1, e)
			ps[i].text, ps[i].to = strings.TrimRight(unit, " "), ps[i].from+len(strings.TrimRight(unit, " "))
		}
	}
	var out pieces
	at := 0 // up to where the pieces are in out
	for i := range ps {
		before, ok := strings.CutSuffix(ps[i].text, "e")
		if !ok || i < at || ps[i].kind != nameToken || ps[i].call || o.in.Known(Canonical(ps[i].text)) {
			continue
		}
		exponent, end := ps.exponent(i + 1)
		if exponent == nil {
			continue
		}
		var names pieces
		if before != "" {
			if names, ok = o.names(before); !ok || exponent[0].kind == numToken && !ps[end-1].sign(")") {
				continue // m, and me^2
			}
			names[0].gap = ps[i].gap
		}
		out = append(append(out, ps[at:i]...), names...)
		call := token{kind: nameToken, text: "exp", call: true}
		if before == "" {
			call.gap = ps[i].gap
		}
		out = append(append(out, call, token{kind: signToken, text: "("}), exponent...)
		out = append(out, token{kind: signToken, text: ")"})
		at = end
		o.Exponential, o.others = true, true
	}
	if at == 0 {
		return ps
	}
	return append(out, ps[at:]...)
}

// exponent is the one that is written at i, and where it ends: in brackets, raised,
// or one number or name that no product goes on with. It is nil where there is none.
//
// What is behind it must end there: in e^x*t print may have the t raised as well, and the
// language would have it below.
//
// e^-t/τ is (e^-t)/τ by the order of operations, and e^(-t/τ) to most who type it, so that it is
// not read, and exp is named.
func (ps pieces) exponent(i int) (pieces, int) {
	switch {
	case i >= len(ps):
		return nil, i
	case ps[i].kind == superToken:
		text := writing.OnTheLine(ps[i].text)
		number := strings.TrimLeft(text, "+-")
		if number == "" || strings.Trim(number, "0123456789") != "" {
			return nil, i
		}
		out := pieces{{kind: numToken, text: number}}
		if number != text {
			out = append(pieces{{kind: signToken, text: "-"}}, out...)
		}
		return out, i + 1
	case !ps[i].sign("^") || i+1 == len(ps):
		return nil, i
	case ps[i+1].sign("("):
		end := ps.closing(i + 1)
		if end <= i+2 || end >= len(ps) || !ps[end].sign(")") { // nothing is in it, or it is not closed
			return nil, i
		}
		return ps[i+2 : end], end + 1
	}
	end := i + 1
	if ps[end].plusOrMinus() {
		end++
	}
	if end == len(ps) || ps[end].kind != numToken && ps[end].kind != nameToken || ps[end].call {
		return nil, i
	}
	end++
	if end < len(ps) && (ps[end].times() || ps[end].over() || ps[end].sign("^") || ps[end].kind == unitToken || ps[end].kind == superToken || ps.implied(end)) {
		return nil, i
	}
	return ps[i+1 : end], end
}

// exponential finds V0 e^(-t/τ) where e is no name.
//
// The offer has the product with its sign: V0*exp(-t/τ).
func (p among) exponential() *fault {
	e := &p.tokens[p.i]
	if e.kind != nameToken || e.text != "e" || p.known != nil && p.known("e") {
		return nil
	}
	ps := piecesOf(p.text, [][]token{p.tokens})
	exponent, end := ps.exponent(p.i + 1)
	if exponent == nil {
		return nil
	}
	argument, _ := exponent.text(nil)
	from := operandStart(p.tokens, p.i-1)
	return &fault{finding.New(finding.NotWritten, Span{From: from, To: p.tokens[end-1].to}, "A power of e is the exponential function.",
		"Write exp(x) for it.", p.text[from:p.tokens[p.i-1].to]+"*exp("+strings.TrimSpace(argument)+")")}
}
