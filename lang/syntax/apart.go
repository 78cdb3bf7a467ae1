package syntax

import (
	"slices"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/ops"
)

// Glued is a part of a line in which names run together: mgh, ½mv², ω²r, mgsinθ.
type Glued struct {
	At    Span
	Parts []string // the names, in their order
	Means string   // the product with its signs
}

// ReadApart reads a statement in which each word that is no name of the page, and no unit
// where it is, means the product of the names that it comes apart into. It binds as other
// products without a sign do: looser than ^ and tighter than /. Nothing is read where a
// word comes apart in several ways, or none does at all.
func (rd *Reader) ReadApart(text string, in Scope) (Stmt, []finding.Finding, []Glued) {
	a := &apart{in: inner{Scope: in}, text: text}
	s, notes := rd.read(text, reader{splits: a, silent: true})
	if s == nil || a.several {
		return nil, nil, nil
	}
	return s, notes, a.glued
}

// apart takes words of a line apart.
type apart struct {
	in      inner
	text    string
	glued   []Glued
	several bool // a word comes apart in several ways
}

// tokens are those of a line, with those of its words that come apart in their place.
func (a *apart) tokens(tokens []token) []token {
	a.in.names = boundIn(tokens)
	a.several = slices.ContainsFunc(tokens, func(t token) bool { return t.kind == wordToken && t.text == "with" })
	out := make([]token, 0, len(tokens)+8)
	for i := range tokens {
		t := &tokens[i]
		head := i == 0 && (len(tokens) > 1 && tokens[1].is("=") || t.call)
		switch {
		case t.kind == unitToken && i > 0 && tokens[i-1].kind != wordToken && tokens[i-1].to == t.from && a.isProduct(t.text):
			within, _ := scan(a.text, t.from, t.to, "")
			for k := range within {
				within[k].glued = within[k].kind == nameToken
				next := &token{kind: wordToken}
				if k+1 < len(within) {
					next = &within[k+1]
				} else if i+1 < len(tokens) {
					next = &tokens[i+1]
				}
				out = a.add(out, within[k], next)
			}
		case head:
			out = append(out, *t)
		default:
			next := &token{kind: wordToken}
			if i+1 < len(tokens) {
				next = &tokens[i+1]
			}
			out = a.add(out, *t, next)
		}
	}
	a.note(out)
	return out
}

// isProduct tells whether what is in the place of a unit, directly behind a number, is
// none, and made of names. A unit that is hardly ever met is none: the as of 2as. What
// begins with another unit is asked about, as 2N/n is; so is what a blank sets off.
func (a *apart) isProduct(unit string) bool {
	fs, ok := unitFactors(unit)
	if !ok || a.in.IsUnit(fs[0].word) && (a.in.Known(Canonical(fs[0].word)) || a.in.Everyday(fs[0].word)) {
		return false
	}
	for _, f := range fs {
		if f.within != nil || !a.in.Known(Canonical(f.word)) && a.cut(f.word, Span{To: len(f.word)}, &token{kind: wordToken}) == nil {
			return false
		}
	}
	return true
}

// add adds a token, or those that it comes apart into; next is the one behind it.
func (a *apart) add(out []token, t token, next *token) []token {
	if n := len(out); n > 0 && !t.call && (t.kind == nameToken || t.kind == wordToken && t.text == "at") {
		t.glued = t.glued || out[n-1].kind == numToken && out[n-1].to == t.from // ½at², 2as
		if t.glued || !out[n-1].ends() {
			t.kind = nameToken // the word of the language has no place here
		}
	}
	if t.kind != nameToken || t.call {
		return append(out, t)
	}
	parts := []token{t}
	if !a.in.Known(Canonical(t.text)) && !ops.IsFunction(t.text) {
		if cut := a.cut(t.text, t.span(), next); cut != nil {
			parts = cut
		}
	}
	parts[0].glued = t.glued
	if n := len(out); n > 0 && out[n-1].to == t.from && powerStart(out, n-1) > 0 && baseOf(out, n-1).kind == nameToken {
		parts[0].glued = a.in.Known(Canonical(parts[0].text)) // ω²r
	}
	return append(out, parts...)
}

// note keeps what the factors mean that run together in a line.
func (a *apart) note(tokens []token) {
	for i := 0; i < len(tokens); i++ {
		if tokens[i].kind != nameToken {
			continue
		}
		glued, end := tokens[i].glued, i+1
		for end < len(tokens) && (tokens[end].glued || tokens[end].kind == superToken || tokens[end].sign("^") || tokens[end-1].sign("^") ||
			tokens[end].from == tokens[end].to || tokens[end-1].from == tokens[end-1].to && tokens[end].kind == nameToken) {
			glued = glued || tokens[end].glued
			end++
		}
		if !glued {
			continue
		}
		from := i
		if end == i+1 {
			if i == 0 || !tokens[i-1].ends() {
				continue
			}
			from-- // 2m
		}
		g, run := Glued{At: tokens[from].span().Join(tokens[end-1].span())}, pieces(slices.Clone(tokens[from:end]))
		for k := range run {
			if run[k].kind == nameToken && !run[k].call {
				g.Parts = append(g.Parts, Canonical(run[k].text))
			}
		}
		if len(g.Parts) == 0 {
			continue
		}
		g.Means, _ = run.text(nil)
		a.glued = append(a.glued, g)
		i = end - 1
	}
}

// cut takes a word apart into names, or into names and a function with its argument, if
// what is behind it ends that; nil for another word.
func (a *apart) cut(word string, at Span, next *token) []token {
	if out := a.names(word, at.From); out != nil {
		return out
	}
	for cut := range word {
		for n := 2; n <= 3 && cut+n < len(word); n++ {
			if !bareFunction(word[cut : cut+n]) {
				continue
			}
			rest := strings.TrimLeft(word[cut+n:], "0123456789")
			head, argument := a.nameOrNames(word[:cut], at.From), a.nameOrNames(rest, at.From+len(word)-len(rest))
			if argument == nil || cut > 0 && (head == nil || word[cut-1] == 'a') || !endsArgument(next) {
				return nil
			}
			from, to := at.From+cut, at.From+cut+n
			out := append(head, token{kind: nameToken, text: word[cut : cut+n], from: from, to: to, call: true, glued: cut > 0},
				token{kind: signToken, text: "(", from: to, to: to})
			if number := word[cut+n : len(word)-len(rest)]; number != "" {
				out = append(out, token{kind: numToken, text: number, from: to, to: to + len(number)})
				argument[0].glued = true
			}
			return append(append(out, argument...), token{kind: signToken, text: ")", from: at.From + len(word), to: at.From + len(word)})
		}
	}
	return nil
}

// nameOrNames is names where the word may be one name as well.
func (a *apart) nameOrNames(word string, from int) []token {
	if a.in.Known(Canonical(word)) {
		return []token{{kind: nameToken, text: word, from: from, to: from + len(word)}}
	}
	return a.names(word, from)
}

// names takes a word that begins at a place apart into two names or more; nil where it
// can't be, or in several ways.
func (a *apart) names(word string, from int) []token {
	var at [longestApart + 1]int // where each letter begins, and the word ends
	n := 0
	for i := range word {
		if n == longestApart {
			return nil
		}
		at[n] = i
		n++
	}
	at[n] = len(word)
	var ways, end [longestApart + 1]int // of the letters from each on: how many ways, and where the first name ends
	ways[n] = 1
	for i := n - 1; i >= 0; i-- {
		for j := i + 1; j <= n; j++ {
			if ways[j] > 0 && j-i < n && startsName(firstRune(word[at[i]:])) && a.in.Known(Canonical(word[at[i]:at[j]])) {
				ways[i], end[i] = min(ways[i]+ways[j], 2), j
			}
		}
	}
	if ways[0] != 1 {
		a.several = a.several || ways[0] > 1
		return nil
	}
	var out []token
	for i := 0; i < n; i = end[i] {
		out = append(out, token{kind: nameToken, text: word[at[i]:at[end[i]]], from: from + at[i], to: from + at[end[i]], glued: i > 0})
	}
	return out
}
