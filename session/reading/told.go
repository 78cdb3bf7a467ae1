package reading

import (
	"slices"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// finding says that a line has several readings.
//
// The message is about what most readings differ in: a letter, a function without brackets, turns,
// how far a bar goes. Where nothing stands out, it says that there are several, and shows them.
func (s *settler) finding(open *syntax.Open, offers []string) finding.Finding {
	id := finding.TwoReadings
	message, hint := "This line can be read in more than one way.", "Choose the one you mean."
	word, where := "", "this page"
	if len(open.Words) > 0 {
		word = open.Words[0]
	}
	if open.Bound {
		where = "this line"
	}
	switch {
	case open.Equation && oneQuestion(offers):
	case open.Several:
		id = finding.NotWritten
		message, hint = "To solve equations together, begin with `solve`.", ""
	case open.Posed:
		id = finding.NotWritten
		message, hint = "To solve an equation, begin with `solve`.", ""
	case open.Equation:
		id = finding.Unreadable
		message, hint = "The left side of = isn't a name, so it can't have a value.", "Use `check` to compare the sides, or `solve` to find a symbol."
	case open.Uncertain:
		message, hint = "u( ) is an uncertainty here, and u is also a name of this page.",
			"Put `*` between them for your u, or write uncertainty( ) for the other."
	case open.Degrees && len(offers) > 1 && strings.Contains(offers[0], "°"):
		message, hint = "A number without a unit is in radians here.", "Did you mean degrees?"
	case open.Tens != "":
		message, hint = "`"+open.Tens+"` is a number with a power of ten, and may be a name with its factor.", "Put `*` before the name."
	case open.Power != "":
		message, hint = "`"+open.Power+"` may be a power or a product.", "Put `^` or `*` between them."
	case open.Exponential:
		id = finding.UnknownName
		message, hint = "No line above defines e.", "The exponential function is exp(x); the elementary charge comes with `constants e`."
	case open.Turns && len(offers) == 1 && strings.Contains(offers[0], "(1 rev)"):
		message, hint = "Turns are angles of 2π here, and no plain number.", ""
	case open.Turns && len(offers) == 1:
		message, hint = "Turns are angles of 2π here: 2π is in it already.", ""
		if stmt, _ := syntax.Parse(offers[0]); stmt != nil {
			hint = strings.TrimSpace(s.InHertz(stmt.Exprs()...))
		}
	case len(offers) == 1 && strings.Count(offers[0], "*") < strings.Count(s.Entry.Text, "*"):
		message, hint = "After a number, units have a space or · between them, and no `*`.", ""
	case open.Beside && len(offers) == 1 && signsAlone(s.Entry.Text, offers[0]) && strings.Count(offers[0], "*") == strings.Count(s.Entry.Text, "*"):
		id = finding.NotWritten
		message, hint = "A function needs brackets round its value.", ""
	case open.Letters && word != "" && len(offers) == 1 && !s.IsUnit(word) && strings.Contains(offers[0], "*"):
		id = finding.NamesTogether
		message, hint = "There is no sign between the number and `"+word+"`.", putSign
	case open.Beside && len(offers) == 1 && signsAlone(s.Entry.Text, offers[0]):
		id = finding.NamesTogether
		message, hint = noSign, putSign
	case open.Letters && word != "" && len(offers) == 1:
		id = finding.UnitOrName
		message, hint = "`"+word+"` after a number is read as a unit.", "For your "+word+", put `*` before it."
		if unit, isUnit := units.Lookup(word); isUnit && s.Everyday(word) {
			message = word + " after a number is the unit " + unit.Name + "."
		}
		if without(s.Entry.Text, "()") == without(offers[0], "()") { // 60 s/T
			hint = "For your " + word + ", put brackets round the quantity before it."
		}
		if !open.Bound && !s.Known(syntax.Canonical(word)) {
			hint = "For a product, put `*` between the names."
		}
	case open.Letters && word != "" && s.planner.Units.Has(word):
		id = finding.UnitOrName
		message = word + " is a unit, and also a name of " + where + "."
		if _, given := s.planner.Names.Lookup(word); word == "g" && !given && !open.Bound {
			message = "g is a unit, and also standard gravity."
		}
	case len(offers) == 1 && without(s.Entry.Text, "* ") == without(offers[0], "* "):
		id = finding.NamesTogether
		message, hint = noSign, putSign
	case len(offers) == 1 && without(s.Entry.Text, "* ()") == without(offers[0], "* ()"):
		message, hint = "It isn't clear how far this fraction or root goes.", "Put brackets round what belongs together."
	case len(offers) == 1:
		message, hint = "Did you mean this?", ""
	}
	at := changed(s.Entry.Text, offers)
	short := make([]string, len(offers))
	for i, o := range offers {
		short[i] = o[at.From : len(o)-(len(s.Entry.Text)-at.To)]
	}
	f := finding.New(id, at, message, hint, short...)
	if at.From > 0 {
		f.Lines = offers
	}
	return f
}

// oneQuestion tells whether several equations are offered that are to be solved for the same, or
// to be checked: print leaves open how they are read.
func oneQuestion(offers []string) bool {
	asked := func(line string) string {
		word, _, _ := strings.Cut(line, " ")
		return word + line[max(0, strings.LastIndex(line, " for ")):]
	}
	return len(offers) > 1 && !slices.ContainsFunc(offers[1:], func(line string) bool { return asked(line) != asked(offers[0]) })
}

// What is said of names without a sign between them.
const (
	noSign  = "There is no sign between these names."
	putSign = "Put `*` between them."
)

// signsAlone tells whether a line differs from another in its signs for times and the brackets of functions.
func signsAlone(text, offered string) bool {
	return without(text, "* ()") == without(offered, "* ()") && !strings.ContainsAny(text, "/√")
}

// without is a text without some signs.
func without(text, signs string) string {
	return strings.Map(func(r rune) rune {
		if strings.ContainsRune(signs, r) {
			return -1
		}
		return r
	}, text)
}

// changed are the lines of a text that are not the same in all others.
func changed(text string, others []string) syntax.Span {
	at := syntax.Span{To: len(text)}
	if !strings.Contains(text, "\n") || len(others) == 0 {
		return at
	}
	same := func(line string, has func(s, line string) bool) bool {
		return line != "" && !slices.ContainsFunc(others, func(o string) bool { return !has(o, line) })
	}
	for {
		end := strings.IndexByte(text[at.From:], '\n') + 1
		if end == 0 || !same(text[:at.From+end], strings.HasPrefix) {
			break
		}
		at.From += end
	}
	for text[at.From] == ' ' {
		at.From++
	}
	for {
		from := strings.LastIndexByte(text[at.From:at.To], '\n')
		if from < 0 || !same(text[at.From+from:], strings.HasSuffix) {
			return at
		}
		at.To = at.From + from
	}
}

// withCaution tells with the one line that is offered which unit it lacks: W = mg below
// g = 9.8.
func (s *settler) withCaution(f finding.Finding) finding.Finding {
	if len(f.Readings) != 1 || f.At.To != len(s.Entry.Text) {
		return f
	}
	for _, c := range s.try(f.Readings[0], true).Findings {
		if c.ID == finding.LackingUnit {
			f.Hint = strings.TrimSpace(f.Hint + " " + c.Message + " " + c.Hint)
		}
	}
	return f
}
