package syntax

import (
	"strconv"
	"strings"

	"github.com/alecthomas/participle/v2/lexer"

	"steelyard/lang/finding"
	"steelyard/lang/limit"
	"steelyard/lang/ops"
	"steelyard/units"
)

// small reads a whole number from 1 to most.
func small(t lexer.Token, most int) (int, *fault) {
	n, err := strconv.Atoi(t.Value)
	if err != nil || n < 1 || n > most {
		return 0, &fault{finding.New(finding.BadNumber, tokenSpan(&t), "A whole number from 1 to "+strconv.Itoa(most)+" should stand here.", "Write it in digits.")}
	}
	return n, nil
}

func ruleOf(word string) units.Rounding {
	if word == "to" {
		return units.HalfEven
	}
	return units.HalfAway
}

func nameList(list []oneName) (names []string, at []Span) {
	for i := range list {
		t := &list[i].Token
		names = append(names, Canonical(t.Value))
		at = append(at, tokenSpan(t))
	}
	return names, at
}

// note reads prose, which may go on over indented lines.
func (r *reader) note(from int) Stmt {
	from, to := trimBlanks(r.text, from, r.to)
	text := r.text[from:to]
	for _, s := range r.body {
		text += "\n" + r.text[s.From:s.To]
	}
	return &Note{Text: text}
}

// part reads part LABEL: QUESTION.
func (r *reader) part(from int) (Stmt, *fault) {
	from, to := trimBlanks(r.text, from, r.to)
	label, question, _ := strings.Cut(r.text[from:to], ":")
	label = strings.TrimSpace(label)
	if label == "" || strings.ContainsAny(label, " \t") {
		return nil, &fault{finding.New(finding.Unreadable, Span{From: from, To: to}, "A part needs a label of one word.",
			"Write it as in `part a: How stiff is the spring?`.")}
	}
	return &Part{Label: label, Question: strings.TrimSpace(question)}, r.noBody()
}

// function reads U(x) = … or a function in pieces.
func (r *reader) function(tokens []token) (Stmt, *fault) {
	name, bad := newName(&tokens[0])
	if bad != nil {
		return nil, bad
	}
	f := &FuncDef{Name: name, NameAt: tokens[0].span()}
	if ops.IsFunction(name) {
		return nil, &fault{finding.New(finding.NameKind, f.NameAt, name+"( ) is a function that every worksheet has.", "Give yours another name.")}
	}
	if bad := params(tokens); bad != nil {
		return nil, bad
	}
	var list []oneName
	if takesPieces(r.text[r.from:r.to]) {
		v, bad := parse(piecewiseLines, tokens, r.to)
		if bad != nil {
			return nil, bad
		}
		list, f.In = v.Params, unitText(&v.In)
		if f.Pieces, bad = r.pieces(); bad != nil {
			return nil, bad
		}
	} else {
		v, bad := parse(functionLines, tokens, r.to)
		if bad == nil {
			bad = r.readings(v.X)
		}
		if bad == nil {
			bad = r.noBody()
		}
		if bad != nil {
			return nil, bad
		}
		list, f.X, f.In = v.Params, v.X, unitText(&v.In)
	}
	f.Params, f.ParamsAt = nameList(list)
	if len(f.Params) > limit.Args {
		return nil, &fault{finding.New(finding.TooLong, f.NameAt, "This function has more than "+strconv.Itoa(limit.Args)+" arguments.", "Take fewer.")}
	}
	for i, p := range f.Params {
		for j := range i {
			if f.Params[j] == p {
				return nil, &fault{finding.New(finding.NameKind, f.ParamsAt[i], "The argument "+p+" stands twice in this function.", "Give one of them another name.")}
			}
		}
	}
	return f, nil
}

// params refuses a definition whose brackets hold anything but names.
func params(tokens []token) *fault {
	for i := 2; i < len(tokens) && tokens[i].text != ")"; i++ {
		t := &tokens[i]
		if t.kind == signToken && t.text == "," {
			continue
		}
		if _, bad := newName(t); bad != nil {
			bad.Message = "Between the brackets of a function that is defined stand the names of its arguments. " + bad.Message
			return bad
		}
	}
	return nil
}

// pieces reads the indented lines of a function by intervals.
func (r *reader) pieces() ([]Piece, *fault) {
	if len(r.body) == 0 {
		return nil, &fault{finding.New(finding.Incomplete, Span{From: r.to, To: r.to}, "The function has no right side.",
			"Write it after =, or indented lines such as `2 m/s*t for 0 s ≤ t ≤ 2 s` below.")}
	}
	if len(r.body) > limit.Pieces {
		return nil, &fault{finding.New(finding.TooLong, r.body[limit.Pieces], "A function has at most "+strconv.Itoa(limit.Pieces)+" intervals.", "Join some of them.")}
	}
	pieces := make([]Piece, 0, len(r.body))
	for _, at := range r.body {
		p, bad := r.piece(at)
		if bad != nil {
			return nil, bad
		}
		pieces = append(pieces, p)
	}
	return pieces, nil
}

func (r *reader) piece(at Span) (Piece, *fault) {
	line := &reader{text: r.text, from: at.From, to: at.To}
	tokens, bad := line.tokens("")
	if bad != nil {
		return Piece{}, bad
	}
	v, bad := parse(pieceLines, tokens, at.To)
	if bad == nil {
		bad = line.readings(v.X, v.First, v.Second, v.Third)
	}
	if bad != nil {
		if bad.ID == finding.Unreadable || bad.ID == finding.Incomplete {
			bad.Hint = "A line of a function by intervals is written like `2 m/s*t for 0 s ≤ t ≤ 2 s`."
		}
		return Piece{}, bad
	}
	return interval(at, v)
}

// interval reads 0 s ≤ t ≤ 2 s, t > 2 s and 2 s > t.
func interval(at Span, v *pieceLine) (Piece, *fault) {
	p := Piece{At: at, X: v.X}
	wrong := func(message string) (Piece, *fault) {
		return p, &fault{finding.New(finding.Unreadable, v.First.Span().Join(v.Second.Span()), message,
			"Write the interval like `0 s ≤ t ≤ 2 s`, `t < 0 s` or `t > 2 s`.")}
	}
	first, second := comparison(&v.Sign), Equal
	if v.Third != nil {
		second = comparison(&v.Next)
	}
	low, high := v.First, v.Third
	name, ok := v.Second.(*Name)
	if v.Third == nil {
		if n, is := v.First.(*Name); is {
			name, ok, low, high, second, first = n, true, nil, v.Second, first, Equal
		}
	}
	if !ok || name.Line != 0 {
		return wrong("The interval does not say which argument it is about.")
	}
	p.Var, p.VarAt = name.Name, name.At
	down := first == Greater || first == AtLeast || second == Greater || second == AtLeast
	up := first == Less || first == AtMost || second == Less || second == AtMost
	if down && up {
		return wrong("The two signs of this interval point in opposite directions.")
	}
	if down {
		low, high, first, second = high, low, second, first
	}
	p.Lo, p.Hi = low, high
	p.LoOpen = low != nil && (first == Less || first == Greater)
	p.HiOpen = high != nil && (second == Less || second == Greater)
	return p, nil
}

// formula reads a formula with its indented lines.
func (r *reader) formula() (Stmt, *fault) {
	tokens, bad := r.tokens("formula")
	if bad != nil {
		return nil, bad
	}
	word, _ := statementWord("formula")
	v, bad := parse(formulaLines, tokens, r.to)
	if bad == nil {
		bad = r.readings(v.Left, v.Right)
	}
	if bad != nil {
		return nil, r.wrongForm(word, bad)
	}
	f := &FormulaDef{Name: Canonical(v.Name.Value), NameAt: tokenSpan(&v.Name), Left: v.Left, Right: v.Right}
	if ops.IsFunction(f.Name) || strings.Contains(f.Name, "π") {
		return nil, &fault{finding.New(finding.NameKind, f.NameAt, f.Name+" can't be the name of a formula.", "Give it another name.")}
	}
	for _, at := range r.body {
		if bad := r.formulaLine(f, at); bad != nil {
			return nil, bad
		}
	}
	if len(f.Symbols) == 0 {
		return nil, &fault{finding.New(finding.Incomplete, Span{From: r.to, To: r.to}, "The formula's symbols have no units.",
			"Write a line for each below it, with a blank before it, such as `  U in J, spring energy`.")}
	}
	return f, nil
}

// formulaLine reads one indented line of a formula.
func (r *reader) formulaLine(f *FormulaDef, at Span) *fault {
	line := r.text[at.From:at.To]
	word, rest, _ := strings.Cut(line, " ")
	rest = strings.TrimSpace(rest)
	switch {
	case strings.HasPrefix(rest, "in ") || rest == "in":
	case word == "holds":
		f.Holds = rest
		return nil
	case word == "topic":
		f.Topic = rest
		return nil
	case word == "source":
		f.Source = rest
		return nil
	}
	end := len(line)
	if i := strings.IndexByte(line, ','); i >= 0 {
		end = i
	}
	head := &reader{text: r.text, from: at.From, to: at.From + end}
	tokens, bad := head.tokens("")
	var v *symbolLine
	if bad == nil && len(tokens) > 0 {
		_, bad = newName(&tokens[0])
	}
	if bad == nil && len(tokens) == 1 {
		return noUnit(tokens[0].span(), line[:end], line)
	}
	if bad == nil {
		v, bad = parse(symbolLines, tokens, head.to)
	}
	if bad != nil {
		if bad.ID == finding.Unreadable || bad.ID == finding.Incomplete || bad.ID == finding.NamesTogether {
			bad.Hint, bad.Readings = "A line of a formula is written like `U in J, spring energy`, or begins with holds, topic or source.", nil
		}
		return bad
	}
	s := FormulaSymbol{Name: Canonical(v.Name.Value), NameAt: tokenSpan(&v.Name), Unit: unitText(&v.In)}
	for _, other := range f.Symbols {
		if other.Name == s.Name {
			return &fault{finding.New(finding.NameKind, s.NameAt, "The symbol "+s.Name+" has a line already.", "Leave one of them out.")}
		}
	}
	s.Meaning, s.Default, bad = r.meaning(Span{From: min(at.From+end+1, at.To), To: at.To})
	f.Symbols = append(f.Symbols, s)
	return bad
}

// noUnit says that a symbol of a formula has no unit, and how that of a pure
// number is written.
func noUnit(at Span, name, line string) *fault {
	name = strings.TrimSpace(name)
	return &fault{finding.New(finding.Incomplete, at, "The unit of "+name+" is missing.",
		"For a pure number write `"+name+" in 1"+strings.TrimPrefix(strings.TrimSpace(line), name)+"`; else its unit in the place of the 1.", name+" in 1")}
}

// meaning reads the words for a symbol, and what it is if it is left out.
func (r *reader) meaning(at Span) (string, Expr, *fault) {
	from, to := trimBlanks(r.text, at.From, at.To)
	words := r.text[from:to]
	head, ok := strings.CutSuffix(words, " if left out")
	if !ok {
		return words, nil, nil
	}
	cut := strings.LastIndexByte(head, ',')
	line := &reader{text: r.text, from: from + cut + 1, to: from + len(head)}
	line.from, line.to = trimBlanks(r.text, line.from, line.to)
	tokens, bad := line.tokens("")
	if bad != nil {
		return "", nil, bad
	}
	v, bad := parse(valueLines, tokens, line.to)
	if bad != nil {
		return "", nil, bad
	}
	return strings.TrimSpace(head[:max(cut, 0)]), v.X, nil
}
