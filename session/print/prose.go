package print

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"steelyard/lang/finding"
	"steelyard/lang/syntax"
	"steelyard/lang/typeset"
	"steelyard/session/entry"
	"steelyard/units"
	"steelyard/units/writing"
)

// piece is a piece of prose: words, mathematics among them, or what is to be typed as it
// is. One of its fields is set.
type piece struct {
	words string
	set   typeset.Box
	code  string
}

// say sets what the program says, part by part. Only what a person wrote is looked
// through for names.
func (s *setter) say(said entry.Said) []piece {
	out := make([]piece, 0, len(said))
	for i := range said {
		switch p := &said[i]; {
		case p.Value != nil:
			out = append(out, piece{words: together(p.Value.Shown(units.Drawn))})
		case p.X != nil:
			out = append(out, piece{set: typeset.Expr(s.lettered(p.X))})
		case p.Written != "":
			out = append(out, s.prose(p.Written)...)
		default:
			out = append(out, piece{words: strings.ReplaceAll(clean(p.Words), "\n", " ")})
		}
	}
	return out
}

// lettered is an expression; a name alone that is a vector's has its arrow.
func (s *setter) lettered(x syntax.Expr) syntax.Expr {
	if n, ok := x.(*syntax.Name); ok && s != nil && s.vectors[n.Name] && !n.Vector {
		return &syntax.Name{Name: n.Name, Vector: true}
	}
	return x
}

// read reads an expression in prose; nil for what is none.
func (s *setter) read(text string) syntax.Expr {
	x, findings := syntax.ParseExpr(text)
	if x == nil || len(findings) > 0 {
		return nil
	}
	for n := range syntax.Each[*syntax.Name](x) {
		n.Vector = s.vectors[n.Name]
	}
	return x
}

// together keeps a number and its unit on one line.
func together(text string) string { return strings.ReplaceAll(text, " ", "\u00a0") }

// setter sets what a person wrote: names of the worksheet in it are mathematics, minus signs are
// minus signs, and units have their powers raised.
//
// A worksheet is typed on a keyboard, and its prose is printed beside formulas that are set: v_0
// in a question and v with a small 0 in the answer would look like two things.
type setter struct {
	names   map[string]bool
	vectors map[string]bool // those of them that have arrows
	units   *units.Table
}

// newSetter knows the names that a worksheet defines.
func newSetter(all []*entry.Entry) *setter {
	s := &setter{names: map[string]bool{}, vectors: map[string]bool{}, units: units.NewTable()}
	for _, e := range all {
		for _, v := range e.Values() {
			if v.Name != "" { // a column of a file too
				s.names[v.Name], s.vectors[v.Name] = true, v.IsVector()
			}
		}
		for _, f := range e.Findings {
			s.names["g"] = s.names["g"] || f.ID == finding.StandardGravity
		}
		for _, name := range e.Gives() {
			s.names[name] = true
		}
		if f, ok := e.Stmt.(*syntax.FuncDef); ok {
			for _, p := range f.Params {
				s.names[p] = true
			}
		}
		if g, ok := e.Outcome.(*entry.Graph); ok {
			for _, x := range g.X.Label.Of {
				if n, ok := x.(*syntax.Name); ok {
					s.names[n.Name] = true
				}
			}
		}
	}
	return s
}

// prose sets a text as one line.
func (s *setter) prose(text string) []piece { return s.line(oneLine(text)) }

// line sets a line of text, or a part of one.
//
// At each place the longest readings come first: a product of units, a formula, a name, a number.
// What is none of these is a letter of a word.
func (s *setter) line(text string) []piece {
	if s == nil {
		return []piece{{words: text}}
	}
	var out []piece
	var words strings.Builder
	for at := 0; at < len(text); {
		if n := s.unit(text, at); n > 0 {
			words.WriteString(text[at : at+n])
			at += n
			continue
		}
		x, n := s.formula(text, at)
		if n == 0 {
			x, n = s.expression(text, at)
		}
		if n > 0 {
			out = append(out, piece{words: words.String()}, piece{set: typeset.Expr(x)})
			words.Reset()
			at += n
			continue
		}
		written, n := s.quantity(text, at)
		words.WriteString(written)
		at += n
	}
	return append(out, piece{words: words.String()})
}

// unit reads a product or quotient of units, such as N·m and m/s², of which no letter is a
// name then. It returns how long it is, or 0, also where all of them are names here.
//
// In 5 N·m, m is no mass, whatever m is in the worksheet.
func (s *setter) unit(text string, at int) int {
	before, size := utf8.DecodeLastRuneInString(text[:at])
	word, _, _ := strings.Cut(text[at:], " ")
	if size > 0 && before != ' ' && before != '(' || !strings.ContainsAny(word, "·/") {
		return 0
	}
	u, end, _ := unitBehind(text[:at+len(word)], at, s.units)
	if u == nil || !strings.ContainsAny(text[at:end], "·/") {
		return 0
	}
	for word := range strings.FieldsFuncSeq(text[at:end], func(r rune) bool { return !unicode.IsLetter(r) }) {
		if !s.names[syntax.Canonical(word)] {
			return end - at
		}
	}
	return 0
}

// formula reads a formula that stands in prose as it would be typed, without blanks:
// 1/2*m*v^2. It returns how long it is, or 0.
func (s *setter) formula(text string, at int) (syntax.Expr, int) {
	before, _ := utf8.DecodeLastRuneInString(text[:at])
	if at > 0 && before != ' ' && before != '(' || strings.HasSuffix(text[:at], "in ") { // in m/s^2
		return nil, 0
	}
	run, _, _ := strings.Cut(text[at:], " ")
	run = strings.TrimRight(run, ".,;:!?")
	if strings.Count(run, "(") < strings.Count(run, ")") {
		run = strings.TrimSuffix(run, ")")
	}
	if !strings.ContainsAny(run, "*^") && !strings.HasPrefix(run, "1/") {
		return nil, 0
	}
	if x := s.known(run); x != nil {
		return x, len(run)
	}
	return nil, 0
}

// known reads an expression that has a name of the worksheet in it, and is no unit if it
// has others too; nil for any other text.
//
// Prose has many runs of letters with signs between that happen to be formulas. Only what names a
// quantity of this page is meant as one.
func (s *setter) known(text string) syntax.Expr {
	x := s.read(text)
	if x == nil {
		return nil
	}
	known, others := false, false
	for n := range syntax.Each[*syntax.Name](x) {
		known, others = known || s.names[n.Name], others || !s.names[n.Name]
	}
	if u, _ := s.units.Parse(text, units.AloneInPlace); !known || others && u != nil {
		return nil
	}
	return x
}

// expression reads a name of the worksheet that stands in prose, with the bracket and
// the power behind it: y(t), T3². It returns how long it is, or 0.
func (s *setter) expression(text string, at int) (syntax.Expr, int) {
	before, _ := utf8.DecodeLastRuneInString(text[:at])
	if inWord(before) || before == '\'' || before == '’' || before == '.' || before == '`' {
		return nil, 0
	}
	from := at
	if strings.HasPrefix(text[at:], "√") {
		from += len("√")
	}
	end := wordEnd(text, from)
	word := text[from:end]
	rest := text[end:]
	if !s.names[syntax.Canonical(word)] || english(word, rest, text[:at]) {
		return nil, 0
	}
	if strings.HasPrefix(rest, "(") {
		if shut := strings.IndexByte(rest, ')'); shut > 0 {
			end += shut + 1
		}
	}
	for end < len(text) {
		r, n := utf8.DecodeRuneInString(text[end:])
		if writing.Unraised(r) == 0 {
			break
		}
		end += n
	}
	if x := s.read(text[at:end]); x != nil {
		return x, end - at
	}
	return nil, 0
}

func inWord(r rune) bool {
	return r == '_' || unicode.IsLetter(r) || unicode.IsDigit(r)
}

// wordEnd is where the letters and digits of a name end that begins at a place.
func wordEnd(text string, at int) int {
	end := at
	for end < len(text) {
		r, n := utf8.DecodeRuneInString(text[end:])
		if !inWord(r) && (end == at || r != '′') || end == at && !unicode.IsLetter(r) {
			break
		}
		end += n
	}
	return end
}

// english tells whether a name is more likely a word of the language than a symbol:
// it has three letters or more and no index, or is a word of one letter that nothing
// makes a symbol, or the label of a part.
//
// Names such as a and I are words in most sentences; with a bracket, an index or an equals sign
// behind them they are symbols.
func english(word, after, before string) bool {
	switch {
	case strings.ContainsAny(word, "_0123456789"):
		return false
	case strings.HasPrefix(after, "."):
		r, _ := utf8.DecodeRuneInString(after[1:])
		return unicode.IsLetter(r) // e.g.
	case strings.HasSuffix(before, "part ") || strings.HasSuffix(before, "Part "):
		return true
	case word == "a" || word == "A" || word == "I" || word == "O":
		compared := strings.HasSuffix(before, " times ") && strings.HasPrefix(after, " as it was")
		return !compared && !strings.HasPrefix(after, " = ") && !strings.HasPrefix(after, "(")
	case strings.HasPrefix(after, "("):
		return false
	}
	ascii := strings.Trim(word, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ") == ""
	return ascii && len(word) > 2 || len(word) == 2 && ascii && strings.ToLower(word) == word
}

// quantity writes what stands at a place of prose: a number with its unit as a screen
// shows it, a hyphen before a number as the minus sign, or else a word or a sign as it
// is. It returns how much of the text that is.
func (s *setter) quantity(text string, at int) (string, int) {
	before, _ := utf8.DecodeLastRuneInString(text[:at])
	if text[at] >= '0' && text[at] <= '9' && !inWord(before) {
		end := at + numbers().FindStringIndex(text[at:])[1]
		last := end + len(others().FindString(text[end:])) // of (3, 4) m
		for _, end := range [...]int{end, last} {
			if u, to, _ := unitBehind(text, end, s.units); u != nil {
				unit := text[end:to]
				if strings.ContainsAny(unit, "^*") {
					unit = " " + strings.TrimSpace(u.Behind(units.Screen))
				}
				return strings.ReplaceAll(text[at:end], " -", " −") + together(unit), to - at
			}
		}
		return text[at:end], end - at
	}
	if text[at] == '-' && (at == 0 || before == ' ' || before == '(') && at+1 < len(text) && text[at+1] >= '0' && text[at+1] <= '9' {
		return "−", 1
	}
	if end := wordEnd(text, at); end > at {
		if i := strings.IndexByte(text[at:end], '_'); i > 2 {
			return strings.ReplaceAll(text[at:end], "_", " "), end - at // a formula's name is words
		}
		return text[at:end], end - at
	}
	_, n := utf8.DecodeRuneInString(text[at:])
	return text[at : at+n], n
}
