package syntax

import (
	"slices"
	"strings"
	"unicode/utf8"
)

// Behind are the words of a line that are read as units directly behind a number, though
// letters of them are names of the page: ½kA2 where A is given.
type Behind struct {
	Words []BehindWord
	// Product is the line with these words as products, Unit with a blank or brackets.
	Product, Unit, Bracket string
	// Lacking are the symbols in the product that have no value.
	Lacking []string

	at int // up to where the lines are written
}

// BehindWord is one such word.
type BehindWord struct {
	At       Span   // of its number and it
	Text     string // without a power
	Unit     string // as typed
	Fraction bool   // its number is a fraction or in brackets: ½, (3/2)
	Formula  bool   // its number is one that formulas have
	Whole    bool   // it is one name, of several letters
	All      bool   // each of its letters is a name
	Some     bool   // one of its letters at least is a name
}

// BehindIn finds the words in expressions of a statement. One letter alone counts with a
// digit for its power, 4.9t2, or as a part of a product behind a fraction, (½C)*V. Of several
// letters one is a name; behind a fraction, ½kA², none need be, for that is how formulas begin.
//
// By the rules the letters of ½kA2 are a unit, as those behind any number. They may be k and
// A, and the 2 a power. Whoever asks gets the line in both ways, and in brackets
// what no rule can take for the other.
func BehindIn(text string, stmt Stmt, xs []Expr, in Scope) (Behind, bool) {
	var out Behind
	o := opener{in: within(stmt, in)}
	for _, x := range xs {
		if anyLettered(x, text) {
			o.behindIn(&out, text, x)
		}
	}
	for _, line := range [...]*string{&out.Product, &out.Unit, &out.Bracket} {
		*line += text[out.at:]
	}
	return out, len(out.Words) > 0
}

func (o *opener) behindIn(out *Behind, text string, x Expr) {
	above := map[Expr]Expr{}
	for x := range Nodes(x) {
		for i := 0; x.part(i) != nil; i++ {
			above[x.part(i)] = x
		}
		of, ok := letteredUnit(x, text)
		at := x.Span()
		if !ok || of.At.From < out.at || text[of.At.From-1] == ' ' {
			continue
		}
		number, unit := text[at.From:of.At.From], text[of.At.From:of.At.To]
		parts, some, power, ok := o.behind(unit)
		w := BehindWord{Some: some, At: at, Unit: unit, Text: unit[:len(unit)-len(strings.TrimPrefix(power, "^"))], Fraction: EndsWithFraction(number), Formula: coefficient(number), All: true}
		if !ok || !some && !(w.Fraction && len(parts) > 1) || len(parts) == 1 && utf8.RuneCountInString(parts[0]) == 1 && power == "" && !(w.Fraction && above[x] != nil) {
			continue
		}
		w.Whole = len(parts) == 1 && len(parts[0]) > 1 && parts[0] == Canonical(unit)
		for _, part := range parts {
			if !o.in.Known(part) {
				w.All = false
				out.Lacking = append(out.Lacking, part)
			}
		}
		before := text[out.at:at.From]
		open, shut := bracketsIn(above[x], x)
		out.Product += before + open + number + "*" + strings.Join(parts, "*") + power + shut
		out.Unit += before + number + " " + w.Text + power
		out.Bracket += before + "(" + number + " " + w.Text + power + ")"
		out.at = of.At.To
		out.Words = append(out.Words, w)
	}
}

// EndsWithFraction tells whether the number that a text ends with is a fraction or in
// brackets, as formulas have it and givens have not.
func EndsWithFraction(text string) bool { return strings.ContainsRune(")½⅓⅔¼¾", lastRune(text)) }

// behind takes the one word of a unit apart into names and letters; digits behind them are
// a power. No product has a letter twice: mm. Some tells whether one is a name of the page,
// other than g alone, which every page has.
//
// A name of the page costs less than a letter without a value, so that as many letters as
// can be are names.
func (o *opener) behind(unit string) (parts []string, some bool, power string, ok bool) {
	fs, ok := unitFactors(unit)
	if !ok || len(fs) != 1 || fs[0].within != nil {
		return nil, false, "", false
	}
	cost := func(part string) int {
		switch {
		case o.in.Known(part):
			return 1
		case utf8.RuneCountInString(part) == 1 && part[0] > '9':
			return 2
		}
		return 0
	}
	word, power := fs[0].word, fs[0].power
	apart := func(word string) ([]string, bool) {
		if whole := Canonical(word); o.in.Known(whole) {
			return []string{whole}, true
		}
		return Apart(word, cost)
	}
	parts, ok = apart(word)
	if letters := strings.TrimRight(word, "0123456789"); !ok && power == "" && letters != word {
		power = "^" + word[len(letters):]
		parts, ok = apart(letters)
	}
	given := func(part string) bool { return part != "g" && o.in.Known(part) }
	return parts, slices.ContainsFunc(parts, given), power, ok && !HasTwice(parts)
}
