package syntax

import (
	"cmp"
	"strings"
	"unicode"
	"unicode/utf8"

	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/units/writing"
)

// FromTeX writes a line that has commands of TeX as it is written here:
// \frac{1}{2} m v^2 as 1/2*m*v^2. In TeX each letter is a symbol of its own, and symbols
// side by side are a product; upright letters behind a number are its unit. A line without
// such commands, and one with a command that has no meaning here, stays as it is. What sets
// a line apart on paper is left out: & where lines are lined up, \\ at the end, \tag{1}.
//
// A teacher who copies a formula from a document pastes this. What comes out is read like any
// line, so that a unit or a bracket that was understood in another way is seen at once.
//
// Some lines and what becomes of them:
//
//	\frac{1}{2} m v^2                   1/2*m*v^2
//	\sqrt{2 g h}                        √(2*g*h)
//	\sqrt[3]{V}                         V^(1/3)
//	\left(a+b\right)c                   (a +b)*c
//	2\pi r                              2*π*r
//	m = 3\,\text{kg}                    m = 3 kg
//	\alpha\beta                         α*β
//	\vec{F}                             F
//	E = 2.5\times 10^{3}\,\text{J}      E = 2.5×10^3 J
//
// A line with a command that is not known, \foo{3}, comes back unchanged: half of
// a formula would be another formula. One without any, x^{10}, is left as well.
//
// Pages of problems are set in TeX, and a formula that is pasted from one has its commands.
// What has a form here is written so; a command that has none stays, and is told as any unknown
// word.
func FromTeX(line string) string {
	if !strings.Contains(line, `\`) {
		return line
	}
	t := texReader{rest: line}
	out := t.group("")
	if t.unknown != "" {
		return line
	}
	return out
}

// ofTeX finds a line that has commands of TeX, and was not pasted, or has one that is not
// known. A stroke without letters behind it is no command.
func (r *reader) ofTeX() *fault {
	at := Span{From: r.from, To: r.to}
	source := r.source(at)
	command := strings.IndexByte(source, '\\')
	if command < 0 {
		return nil
	}
	t := texReader{rest: source}
	line := t.group("")
	switch hint := "TeX is read where it is pasted at the prompt. Elsewhere write it without commands."; {
	case t.unknown == texOpen:
		return &fault{finding.New(finding.NotWritten, at, "This line of TeX ends in the middle: a brace is not closed, or what a command is of is missing.", hint)}
	case t.unknown != "" && wordEnd(t.unknown[1:]) > 0:
		return &fault{finding.New(finding.NotWritten, at, "The command "+t.unknown+" of TeX can't be read here.", "Write the line without commands of TeX.")}
	case t.unknown != "" || line == source:
		return nil
	case line == "":
		return &fault{finding.New(finding.NotWritten, at, "This line has nothing but commands of TeX.", "Take it out.")}
	default:
		return &fault{finding.New(finding.NotWritten, at, "This line has commands of TeX.", hint, line)}
	}
}

// texOpen is what a reader has met where a line ends too early.
const texOpen = "end"

// texAround are the commands that set formulas apart on paper and mean nothing else, with a
// group behind them or without. A group after \begin and \end is the name of what is set;
// only where that is lines of formulas is it left out.
var texAround = map[string]bool{"tag": true, "label": true, "nonumber": false, "notag": false}

// texLines are the names of what holds lines of formulas.
var texLines = map[string]bool{"align": true, "aligned": true, "equation": true, "gather": true, "gathered": true, "split": true}

// texSigns are the commands that stand for one sign or word; blank is room between.
//
// A command with an empty text is dropped: \left and \right change only the size
// of a bracket, which is behind them. \circ is a degree, as it is written for one.
var texSigns = map[string]string{
	"cdot": "*", "times": "×", "div": "÷", "pm": "±", "le": "≤", "leq": "≤", "ge": "≥", "geq": "≥", "approx": "≈",
	"%": "%", "varepsilon": "ε", "varphi": "φ", "vartheta": "θ", "degree": "°", "circ": "°", "ast": "*",
	",": " ", ";": " ", ":": " ", "!": " ", " ": " ", "quad": " ", "qquad": " ",
	"left": "", "right": "", "big": "", "Big": "", "displaystyle": "", "(": "", ")": "", "[": "", "]": "",
}

// texSpaced are the signs with room round them.
const texSpaced = "=+-−≤≥<>≈±"

// texKind is what a piece of TeX is, for what may follow it.
//
// A product has no sign in TeX either, and the same look of two letters side by side may be a
// product, an argument or a number with its unit: the kind of what stands before decides.
type texKind int

const (
	texSign texKind = iota
	texNumber
	texFactor // a fraction, a root, a closed bracket
	texSymbol // a bracket behind it may be its argument
	texUnit
	texWord
)

// texReader writes what it reads of a line.
//
// A reader has its own last kind, so that each group in braces begins anew: the
// first letter of a group is never a factor of what is before the brace.
type texReader struct {
	rest    string
	unknown string // the command that has no meaning here, or texOpen; empty if all was read

	out  strings.Builder
	last texKind
}

// group reads as far as a closing brace, if there is an opening one, or to the end.
//
// What is in the group has no blanks at its ends. A brace that is missing is a fault: what
// would come behind it may be half of the formula.
func (t *texReader) group(end string) string {
	inner := texReader{rest: t.rest}
	for inner.rest != "" && inner.unknown == "" && (end == "" || !strings.HasPrefix(inner.rest, end)) {
		inner.one()
	}
	rest, closed := strings.CutPrefix(inner.rest, end)
	if !closed {
		inner.unknown = cmp.Or(inner.unknown, texOpen)
	}
	t.rest, t.unknown = rest, cmp.Or(t.unknown, inner.unknown)
	return strings.TrimSpace(inner.out.String())
}

// argument reads what a command applies to: a group in braces, a command or one character.
//
// So \frac12 is 1/2, and ^ in x^2y takes the 2 alone.
func (t *texReader) argument() string {
	t.rest = strings.TrimLeft(t.rest, " ")
	if inner, ok := strings.CutPrefix(t.rest, "{"); ok {
		t.rest = inner
		return t.group("}")
	}
	one := texReader{rest: t.rest}
	switch _, n := utf8.DecodeRuneInString(t.rest); {
	case t.rest == "":
		one.unknown = texOpen
	case t.rest[0] == '\\':
		one.one()
	default:
		one.rest = t.rest[:n]
		one.one()
		one.rest = t.rest[n:]
	}
	t.rest, t.unknown = one.rest, cmp.Or(t.unknown, one.unknown)
	return one.out.String()
}

// function writes a function with its argument. A raised -1 is its inverse, any other power
// goes behind the argument: \sin^2\theta is sin(θ)^2.
func (t *texReader) function(name string) {
	power := ""
	if rest, ok := strings.CutPrefix(strings.TrimLeft(t.rest, " "), "^"); ok {
		t.rest = rest
		power = t.argument()
	}
	if inverse := "a" + name; power == "-1" && ops.IsFunction(inverse) {
		name, power = inverse, ""
	}
	if power != "" {
		power = "^" + bracketedTeX(power)
	}
	if strings.HasPrefix(strings.TrimLeft(t.rest, " "), "(") || strings.HasPrefix(t.rest, `\left`) {
		t.put(texFactor, name+power) // sin^2(θ) is read as it stands
		t.last = texSign
		return
	}
	t.put(texFactor, name)
	t.out.WriteString("(" + t.operand() + ")" + power)
	t.last = texFactor
}

// operand reads what a function without a bracket is of: a group in braces, or all that
// print sets behind it up to a sign, a bracket, a fraction or the next function. So
// \cos 30^\circ is cos(30°), and \cos\omega t is cos(ω*t).
func (t *texReader) operand() string {
	t.rest = strings.TrimLeft(t.rest, " ")
	inner := texReader{rest: t.rest}
	for inner.factorNext() {
		inner.one()
		inner.rest = strings.TrimLeft(inner.rest, " ")
	}
	if inner.out.Len() == 0 {
		return t.argument()
	}
	t.rest, t.unknown = inner.rest, cmp.Or(t.unknown, inner.unknown)
	return inner.out.String()
}

// factorNext tells whether the next piece is a number, a symbol, a unit or a power of what
// is before it.
func (t *texReader) factorNext() bool {
	r, _ := utf8.DecodeRuneInString(t.rest)
	switch {
	case r == '^':
		return t.out.Len() > 0
	case r >= '0' && r <= '9':
		return t.out.Len() == 0
	case unicode.IsLetter(r):
		word := t.rest[:wordEnd(t.rest)]
		return len(word) == 1 || statementWord(word) == nil && !Reserved(word)
	case r == '\\':
		name := t.rest[1 : 1+wordEnd(t.rest[1:])]
		return writing.Greek(name) != "" || name == "mathrm" || name == "text" || name == "vec" || name == "Delta" || texSigns[name] == "°"
	}
	return false
}

// wordEnd is where the letters that a text begins with end.
func wordEnd(text string) int {
	return len(text) - len(strings.TrimLeftFunc(text, unicode.IsLetter))
}

// put writes a piece, with the sign of multiplication that TeX does without.
//
// A unit behind a number has a blank before it, 3 kg, and so has a unit behind a
// unit. Two factors have *, as two letters side by side would make one name; a
// bracket behind a number has it as well. Behind a symbol it may hold an argument,
// and has none.
func (t *texReader) put(kind texKind, text string) {
	switch {
	case kind == texUnit && t.last == texNumber, kind == texUnit && t.last == texUnit,
		kind == texWord || t.last == texWord:
		text = " " + text
	case t.last != texSign && kind != texSign:
		text = "*" + text
	}
	t.out.WriteString(text)
	t.last = kind
}

// one reads one piece.
//
// A letter begins a word or a symbol, a digit a number. A raised circle is the
// degree and no power: 30^\circ is 30°. Blanks and $ are dropped, but for a blank
// behind a sign such as = and +.
func (t *texReader) one() {
	r, n := utf8.DecodeRuneInString(t.rest)
	switch {
	case r == '\\':
		t.command()
		return
	case r == '{':
		t.rest = t.rest[1:]
		t.put(texFactor, bracketedTeX(t.group("}")))
		return
	case unicode.IsLetter(r):
		t.letters()
		return
	case r >= '0' && r <= '9':
		n = len(t.rest) - len(strings.TrimLeft(t.rest, "0123456789."))
		t.put(texNumber, t.rest[:n])
	case r == '^':
		t.rest = t.rest[1:]
		if power := t.argument(); power == "°" {
			t.put(texSign, "°")
			t.last = texUnit
		} else {
			t.out.WriteString("^" + bracketedTeX(power))
		}
		return
	case r == '(' && t.last != texSign && t.last != texSymbol:
		t.put(texFactor, "(")
		t.last = texSign
	case r == ')':
		t.out.WriteString(")")
		t.last = texFactor
	case r == ' ' || r == '~' || r == '$' || r == '&':
		if written := t.out.String(); r == ' ' && written != "" && strings.ContainsRune(texSpaced, lastRune(written)) {
			t.out.WriteString(" ")
		}
	default:
		space := ""
		if strings.ContainsRune(texSpaced, r) && t.last != texSign {
			space = " "
		}
		t.out.WriteString(space + string(r))
		t.last = texSign
	}
	t.rest = t.rest[n:]
}

// letters reads a word of the language, or a symbol: one letter and what is under it.
//
// A word counts only if it is one of the language: in solve a = b the first five
// letters are no product of s, o, l, v and e, while ma is m times a.
func (t *texReader) letters() {
	n := wordEnd(t.rest)
	if word := t.rest[:n]; n > 1 && (statementWord(word) != nil || Reserved(word)) {
		t.rest = t.rest[n:]
		t.put(texWord, word)
		return
	}
	_, n = utf8.DecodeRuneInString(t.rest)
	symbol := t.rest[:n]
	t.rest = t.rest[n:]
	t.symbol(symbol)
}

// symbol writes a symbol with the index that follows it.
//
// A bracket directly behind a symbol may hold the argument of a function, and gets no sign.
//
// The index may be in braces, in which products and blanks are none: that of
// x_{max} becomes x_max.
func (t *texReader) symbol(name string) {
	if rest, ok := strings.CutPrefix(strings.TrimLeft(t.rest, " "), "_"); ok {
		t.rest = rest
		name += "_" + strings.ReplaceAll(strings.ReplaceAll(t.argument(), "*", ""), " ", "")
	}
	t.put(texSymbol, name)
}

// command reads a command with what it applies to.
//
// A fraction puts brackets round what needs them, \frac{a+b}{c} is (a +b)/c. A
// function without a bracket takes what follows it: see operand. \Delta
// is no symbol of its own, but the beginning of one: \Delta x is Δx.
func (t *texReader) command() {
	n := 1 + wordEnd(t.rest[1:])
	if n == 1 {
		_, size := utf8.DecodeRuneInString(t.rest[1:])
		n += size
	}
	name := t.rest[1:n]
	t.rest = t.rest[n:]
	sign, known := texSigns[name]
	switch greek := writing.Greek(name); {
	case name == "frac" || name == "dfrac" || name == "tfrac":
		over := bracketedTeX(t.argument())
		t.put(texFactor, over+"/"+bracketedTeX(t.argument()))
	case name == "sqrt":
		t.root()
	case name == "mathrm" || name == "text" || name == "mathsf" || name == "operatorname":
		t.upright()
	case name == "vec" || name == "mathbf" || name == "mathit":
		t.symbol(t.argument())
	case name == "Delta":
		t.rest = strings.TrimLeft(t.rest, " ")
		t.symbol("Δ" + t.argument())
	case greek != "":
		t.symbol(greek)
	case ops.IsFunction(name):
		t.function(name)
	case sign == "°":
		t.out.WriteString(sign)
		t.last = texUnit
	case known && sign != " " && sign != "":
		t.out.WriteString(sign)
		t.last = texSign
	case !known:
		t.around(name)
	}
}

// root reads what a root is of; one with a number in front, \sqrt[3]{V}, is a power.
func (t *texReader) root() {
	degree := ""
	if inner, ok := strings.CutPrefix(strings.TrimLeft(t.rest, " "), "["); ok {
		t.rest = inner
		degree = t.group("]")
	}
	switch of := t.argument(); degree {
	case "":
		t.put(texFactor, "√("+of+")")
	default:
		t.put(texFactor, bracketedTeX(of)+"^(1/"+bracketedTeX(degree)+")")
	}
}

// around leaves out a command that sets the line apart on paper; any other has no meaning
// here. Behind \\ nothing may come but such commands: it would be another line.
func (t *texReader) around(name string) {
	group, known := texAround[name]
	inner, rest, closed := strings.Cut(strings.TrimPrefix(t.rest, "{"), "}")
	switch {
	case known && !group:
	case closed && strings.HasPrefix(t.rest, "{") && (known || (name == "begin" || name == "end") && texLines[strings.TrimSuffix(inner, "*")]):
		t.rest = rest
	case name == "\\":
		behind := texReader{rest: t.rest}
		if behind.group("") != "" || behind.unknown != "" {
			t.unknown = `\\`
		}
		t.rest = ""
	default:
		t.unknown = `\` + name
	}
}

// upright reads letters that are set upright: a unit behind a number, else a name.
//
// Units are set upright, symbols of quantities sloping (ISO 80000-1:2009, 7.1 and 7.2).
//
// Behind a stroke they are the rest of a unit, as in 5 \mathrm{m}/\mathrm{s},
// which is 5 m/s. Elsewhere they are a name of several letters: \mathrm{KE} is KE.
// With a command within the braces the line is left as it is.
func (t *texReader) upright() {
	inner, _, found := strings.Cut(strings.TrimPrefix(strings.TrimLeft(t.rest, " "), "{"), "}")
	if !found || strings.Contains(inner, `\`) {
		t.unknown = cmp.Or(t.unknown, `\text`)
		return
	}
	t.rest = t.rest[strings.IndexByte(t.rest, '}')+1:]
	if t.last == texNumber || t.last == texUnit || strings.HasSuffix(t.out.String(), "/") && !unicode.IsDigit(firstRune(inner)) {
		t.put(texUnit, inner)
		return
	}
	t.symbol(inner)
}

// bracketedTeX puts brackets round what is more than a number or a symbol.
//
// A minus in front needs none: ^{-2} is ^-2.
func bracketedTeX(text string) string {
	if strings.TrimLeft(text, "-") != "" && !strings.ContainsFunc(strings.TrimPrefix(text, "-"), func(r rune) bool { return !continuesName(r) && r != '.' }) {
		return text
	}
	return "(" + text + ")"
}
