package syntax

import (
	"slices"
	"strings"

	"steelyard/lang/ops"
)

// OpenEquation is OpenIn for a line that is an equation and no statement: it may be
// meant to be solved for a symbol that has no value, or else to be checked. Product
// tells that the word on its left is a product of names of the page: pV = n*R*T.
//
// m*g*h = 1/2*m*v^2 gives nothing a name. With a symbol that has no value in it, it is most
// likely to be solved for that, and shown in its unit; without, it claims something that can
// be checked.
func OpenEquation(text string, product bool, in Scope) (out Open) {
	r, tokens, bad := statementTokens(text)
	if bad != nil || r.word != nil || len(r.body) > 0 || len(tokens) < 3 || tokens[0].is("=") {
		return out
	}
	several := countOf(tokens, "and") + 1
	given := tokens[1].is("=") && tokens[0].kind != numToken // 0 = v^2 + 2*a*s gives no name a value
	if given != product && several == 1 || tokens[0].kind == nameToken && tokens[1].kind == numToken || tokens[1].kind == lineToken {
		return out
	}
	if _, function := functionHead(tokens); !product && (function && !ops.IsFunction(tokens[0].text) || r.equation(tokens) == nil || ofLine(tokens)) {
		return out
	}
	sides, clauses := posed(text, tokens)
	if sides != nil {
		text = text[:sides[len(sides)-1].to]
	} else if sides = tokens; product {
		return out
	}
	of := sides
	if _, ok := namesIn(tokens[0].text, in.Known); product && ok {
		of = sides[1:] // mu is m*u here, and no μ
	}
	with := inner{Scope: in, names: replacedIn(tokens[len(sides):])}
	unknown, apart := lackingAmong(of, with)
	out.Apart = apart
	line := text[sides[0].from:sides[len(sides)-1].to]
	if all := slices.Clone(unknown); several > 1 { // m1a is m1*a, where a is one of the unknowns
		unknown = slices.DeleteFunc(unknown, func(name string) bool {
			_, ok := namesIn(name, func(part string) bool {
				return in.Known(part) || isSymbol(part) && part != name && slices.Contains(all, part)
			})
			return ok
		})
	}
	var lines []string
	switch {
	case strings.HasPrefix(clauses, " for "):
		lines = []string{"solve " + line + clauses}
	case several > 1 && len(unknown) == several:
		lines = []string{"solve " + line + " for " + strings.Join(unknown, ", ") + clauses}
	case several > 1:
		out.Several, out.Lacking = true, unknown
		return out
	case len(unknown) > 0 && len(unknown) <= mostUnknown:
		for _, name := range unknown {
			lines = append(lines, "solve "+line+" for "+name+clauses)
		}
	default:
		lines = []string{"check " + line}
		for i := 1; i < len(sides); i++ { // 25 T = 68.2 s, 440 Hz = v/4L
			lone, under := i == 1 && sides[2].is("="), i > 1 && sides[i-2].over() && sides[i-1].to == sides[i].from
			if t := &sides[i]; t.kind == unitToken && isSymbol(t.text) && (lone || under) {
				lines = append(lines, "solve "+line+" for "+t.text+clauses)
			}
		}
	}
	out.Several, out.Posed = several > 1, clauses != "" && !strings.HasPrefix(clauses, " in ")
	for _, line := range lines {
		open := OpenIn(line, nil, in)
		if len(open.Readings) == 0 { // max(2*y - 3 m) = 1 m, in which nothing is open
			open.Readings = []Reading{{Text: line}}
		}
		out.Readings = append(out.Readings, open.Readings...)
	}
	out.Equation = true
	for i := range sides { // mu may be m*u
		t := &sides[i]
		if t.kind != nameToken || Canonical(t.text) == t.text || in.Known(Canonical(t.text)) {
			continue
		}
		if parts, lacking, ok := Apart(t.text, in.Known, isSymbol); ok && len(parts) == 2 && len(lacking) < len(parts) {
			out.Readings = append(out.Readings, OpenEquation(text[:t.from]+parts[0]+"*"+parts[1]+text[t.to:]+clauses, product, in).Readings...)
		}
	}
	if name := halfIndex(sides); name != "" && !product {
		out.Readings = append([]Reading{{Text: name + text[sides[2].to:]}}, out.Readings...)
	}
	return out
}

// GluedCall is a word that is a function directly before its argument, with its
// brackets: sin(θ1) of sinθ1. The argument is a Greek letter, which may have no value,
// or a name of an angle; a word such as cost may be a name.
func GluedCall(word string, in Scope) (call string, ok bool) {
	function, argument := gluedFunction(word, in)
	if argument == "" {
		return "", false
	}
	return function + "(" + argument + ")", true
}

// gluedFunction takes such a word apart, which has no number inside; the argument is
// empty for other words.
func gluedFunction(word string, in Scope) (function, argument string) {
	for n := 2; n <= 3 && n < len(word); n++ {
		if !bareFunction(word[:n]) {
			continue
		}
		if letter := firstRune(word[n:]); letter >= 'α' && letter <= 'ω' || in.Angle(word[n:]) {
			return word[:n], word[n:]
		}
	}
	return "", ""
}

// halfIndex is a name for t1/2 or t_1/2 on the left of an equation, as books write the
// half-life.
//
// By the rules t1/2 is half of t1, which can't be given a value either.
//
// A line that gives t1/2 a value means the half-life, and no one solves half of a time.
func halfIndex(tokens []token) string {
	head, ok := strings.CutSuffix(tokens[0].text, "1")
	if !ok || tokens[0].kind != nameToken || !tokens[1].is("/") || !tokens[2].is("2") || len(tokens) < 4 || !tokens[3].is("=") {
		return ""
	}
	return strings.TrimSuffix(head, "_") + "_half"
}

// posed takes a line of equations apart into what is equal, and the clauses of a solve behind
// it: the unit that it is asked in, for what, with which values. The sides are nil where the
// line has other words of the language.
func posed(text string, tokens []token) (sides []token, clauses string) {
	for i := range tokens {
		switch t := &tokens[i]; {
		case t.kind != wordToken || t.is("=") || t.is("and") && i > 2 && i+1 < len(tokens):
		case i > 2 && (t.is("in") || t.is("for") || t.is("with") || t.is("where")):
			end := i
			for t.is("for") && end > 3 && (tokens[end-1].is("solve") || tokens[end-1].is(",")) { // , solve for v
				end--
			}
			return tokens[:end], " " + strings.TrimSpace(text[t.from:tokens[len(tokens)-1].to])
		default:
			return nil, ""
		}
	}
	return tokens, ""
}

// NamesBehind are the words behind the equals sign of a line that are names by their place.
func NamesBehind(text string) (names []string) {
	_, tokens, _ := statementTokens(text)
	for i := slices.IndexFunc(tokens, func(t token) bool { return t.is("=") }); i >= 0 && i < len(tokens); i++ {
		if tokens[i].kind == nameToken {
			names = append(names, tokens[i].text)
		}
	}
	return names
}

// countOf counts how often a word is among tokens.
func countOf(tokens []token, word string) (n int) {
	for i := range tokens {
		if tokens[i].is(word) {
			n++
		}
	}
	return n
}

// lackingAmong finds what has no value among the names of a line, and in the words
// directly behind its numbers that hold a name: v of ½mv². Apart tells whether a word
// holds a name.
//
// What one word lacks is a symbol in the others too: mv is m*v below GMm.
func lackingAmong(tokens []token, in Scope) (lacking []string, apart bool) {
	words, known := wordsAmong(tokens, in), in.Known
	for range 2 {
		for _, word := range words {
			found, holds := lackingInWord(word, known)
			lacking, apart = addNew(lacking, found...), apart || holds
		}
		before := lacking
		known = func(name string) bool { return in.Known(name) || isSymbol(name) && slices.Contains(before, name) }
	}
	return lacking, apart
}

// wordsAmong are the words of a line that may lack a value, each once; behind a number
// those alone that hold a name.
func wordsAmong(tokens []token, in Scope) (out []string) {
	for i := range tokens {
		t := &tokens[i]
		words, joined := []string{t.text}, false
		switch {
		case t.kind == unitToken && (tokens[i-1].to == t.from || !in.IsUnit(t.text)): // 2 a2 x, with a2 given
			fs, _ := unitFactors(t.text)
			words = wordsOf(fs)
			joined = (IsCoefficient(tokens[i-1].text) || !in.IsUnit(t.text)) && slices.ContainsFunc(words, func(word string) bool { _, names := namesIn(word, in.Known); return names || in.Known(word) }) || // ½m v², 2μg s
				!in.IsUnit(t.text) && !slices.ContainsFunc(words, func(word string) bool { return !isSymbol(word) }) // ½v²
		case t.kind == nameToken && t.text == "e" && i+1 < len(tokens) && tokens[i+1].sign("^"): // a power of e is no unknown
			continue
		case t.kind != nameToken, ops.IsFunction(t.text) && (t.call || !isSymbol(t.text)), t.call && in.Function(Canonical(t.text)): // u is a name
			continue
		}
		factor := t.kind == nameToken && (!t.call || isSum(tokens[i+1:])) // I(R + r) is a product
		for _, word := range words {
			word = Canonical(word)
			if _, argument := gluedFunction(word, in); argument != "" {
				word = argument // the θ of sinθ
			}
			_, holds := lackingInWord(word, in.Known)
			if (factor || holds || joined) && !slices.Contains(out, word) {
				out = append(out, word)
			}
		}
	}
	return out
}

// isSum tells whether tokens begin with a bracket that holds a sum of more than one name.
func isSum(tokens []token) bool {
	depth, sum := 0, false
	for i := range tokens {
		switch t := &tokens[i]; {
		case t.is("("):
			depth++
		case t.is(")"):
			depth--
		case t.is("+"), t.is("-"):
			sum = sum || depth == 1
		}
		if depth == 0 {
			break
		}
	}
	return sum
}

// lackingInWord finds what may have no value in a word: where it comes apart into names and
// symbols, the symbols, and itself if it may well be a name, as vf may, but neither nRT nor
// F1x1; else itself. What makes sense is weighed later.
//
// A subscript belongs to the last letter, mv_max to v, unless what is before it is a word:
// mass_total.
//
// vf is a name and could be v*f: both count, and what is weighed later decides. nRT has three
// letters and no vowel to speak it by: it is a product.
func lackingInWord(word string, known func(string) bool) (lacking []string, apart bool) {
	parts, each, ok := Apart(word, known, func(part string) bool {
		letter, sub, some := strings.Cut(part, "_")
		return isSymbol(letter) && (!some || strings.HasSuffix(word, "_"+sub) && !IsSpoken(word[:strings.LastIndex(word, "_")]))
	})
	switch {
	case !ok, len(parts) > 0 && len(each) == len(parts) && !Numbered(word):
		return []string{word}, false
	case len(each) == 0, len(parts) > 2 && !IsSpoken(word), Numbered(word): // nRT is no name
		return each, len(parts) > 1
	}
	return append(each, word), true
}

// Numbered tells whether a word is letters with a number behind each, as F1x1 is.
func Numbered(word string) bool {
	parts, ok := namesIn(word, func(part string) bool { return isSymbol(part) && isDigit(rune(part[len(part)-1])) })
	return ok && len(parts) > 1
}

// mostUnknown is the most symbols that an equation may be meant to be solved for.
const mostUnknown = 6

// stretches are the tokens of the parts of a statement that hold expressions: its
// first line and those of a function's body.
//
// The lines of a formula are its own: its symbols have their units below it, and nothing in it
// is of the page.
func stretches(text string, stmt Stmt) (*reader, [][]token, *fault) {
	r, tokens, bad := statementTokens(text)
	spans := r.body
	if _, formula := stmt.(*FormulaDef); formula {
		spans = nil
	}
	var out [][]token
	if len(tokens) > 0 {
		out = append(out, tokens)
	}
	for _, at := range spans {
		if bad != nil {
			break
		}
		if tokens, bad = scan(text, at.From, at.To, ""); len(tokens) > 0 {
			out = append(out, tokens)
		}
	}
	return r, out, bad
}

// statementTokens reads the tokens of a statement that is not prose.
//
// The words about the audience, on handout, are blanked out and keep their width.
func statementTokens(text string) (*reader, []token, *fault) {
	if bad := guard(text); bad != nil {
		return &reader{}, nil, bad
	}
	text = unaddressed(text)
	r := &reader{text: text}
	r.split()
	head := ""
	if w := leadingStatement(text[r.from:r.to]); w != nil && w.read != nil {
		head, r.word = w.Word, w
		if w.prose || !w.Ready {
			return r, nil, nil
		}
	}
	tokens, bad := scan(text, r.from, r.to, head)
	if bad == nil && r.word != nil {
		r.word.keep(tokens)
	}
	return r, tokens, bad
}
