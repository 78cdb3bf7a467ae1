package reading

import (
	"slices"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/eval"
	"steelyard/units"
)

// Lines tries statements, each put below those before it: the last, or nil where one is not
// accepted.
type Lines func(lines ...string) *entry.Entry

// Several are the statements that a line holds which is no single one, if each is accepted:
//
//   - values with commas, semicolons or `and` between them: m = 2 kg, v = 3 m/s;
//   - a value with what it is equal to: a = F/m = 3 m/s^2 is a = F/m and then the check
//     a = 3 m/s^2; of F1 = F2 = 20 N, where F2 has no value, it is F1 = 20 N and then F1 = F2;
//   - values with blanks alone between them, where the name is no unit: m = 2 kg v = 3 m/s;
//   - values behind a formula, of names that have none yet: p2 = p*T2/T with T2 = 348 K.
//
// It is nil for another line.
//
// It is what a scratchpad does at Enter: the page gets as many lines as there are statements, as if
// they had been typed one by one.
func Several(p *eval.Page, text string, try Lines) []string {
	if !syntax.MayBeSeveral(text) {
		return nil
	}
	rd := &syntax.Reader{Known: Known(p)}
	if stmt, _ := rd.Read(text); stmt != nil {
		return nil
	}
	lines := rd.Several(text)
	if lines == nil {
		lines, _ = linesBehind(text, func(name string) bool { _, some := p.Planner.Names.Lookup(name); return some }, func(lines []string) bool { return try(lines...) != nil })
	}
	if lines == nil {
		c := chain{try: try, all: true, known: rd.Known}
		lines = c.of(text)
	}
	if lines == nil {
		var sure bool
		if lines, sure = givensIn(text); !sure {
			return nil
		}
	}
	if lines == nil {
		return nil
	}
	if try(lines...) == nil { // f = v/(4*L), v = 343 m/s
		slices.SortStableFunc(lines, func(a, b string) int { return one(isPlain(b)) - one(isPlain(a)) })
		if try(lines...) == nil {
			return nil
		}
	}
	return lines
}

// isPlain tells whether a line gives a name a plain value.
func isPlain(line string) bool {
	stmt, _ := syntax.Parse(line)
	d, ok := stmt.(*syntax.Define)
	return ok && d.Plain()
}

// chained offers a line with more than one equals sign as statements of which some may not
// hold, or leave a formula out whose names have no value.
func (s *settler) chained() Verdict {
	if !s.offered || s.Entry.Stmt != nil || !syntax.MayBeSeveral(s.Entry.Text) {
		return Verdict{}
	}
	if slices.ContainsFunc(s.Entry.Findings, func(f finding.Finding) bool {
		return f.ID == finding.NotWritten || f.ID == finding.Unreadable && len(f.Readings) > 0
	}) {
		return Verdict{} // x = 3 = 3 m; b = 2*v if v = 5 m/s
	}
	c := chain{known: s.Known, try: func(lines ...string) *entry.Entry {
		if e := s.try(strings.Join(lines, "\n"), true); !worst(e).Fails() {
			return e
		}
		return nil
	}}
	lines, hint := c.of(s.Entry.Text), "Write each step on its own line."
	if lines == nil {
		if lines, _ = givensIn(s.Entry.Text); lines != nil && c.try(lines...) != nil {
			hint = "Write each of them on its own line."
		} else if lines = []string{c.value}; c.unlike != "" {
			hint = s.whyNot(c.value, c.unlike)
		} else {
			return Verdict{}
		}
	}
	f := s.whole(finding.Unreadable, "A second = doesn't fit here.", hint, strings.Join(lines, "\n"))
	return Verdict{Slip: true, try: s.try, Findings: []finding.Finding{f}}
}

// whyNot is what is found of a check below a value.
func (s *settler) whyNot(value, check string) string {
	for _, f := range s.try(value+"\n"+check, true).Findings {
		if f.Severity.Fails() {
			return "`" + check + "`: " + f.Message
		}
	}
	return ""
}

// valuesBehind offers the values behind a formula as lines before it, where their names have none
// yet: share = K1/E where K1 = ½m1v1² is K1 = ½m1v1², and then share = K1/E.
func (s *settler) valuesBehind() (finding.Finding, bool) {
	given := func(name string) bool { _, some := s.planner.Names.Lookup(name); return some }
	lines, names := linesBehind(s.Entry.Text, given, func(lines []string) bool { return s.accepted(strings.Join(lines, "\n")) })
	if lines == nil {
		return finding.Finding{}, false
	}
	return s.whole(finding.NotWritten, noValue(names)+" yet.", "Each value needs its own line.", strings.Join(lines, "\n")), true
}

// linesBehind are the values behind a formula as lines, and then the formula, if all are accepted
// and no line gives one of the names; nil for another line.
func linesBehind(text string, given func(name string) bool, accepted func(lines []string) bool) (lines, names []string) {
	if strings.HasPrefix(text, "solve ") {
		return nil, nil
	}
	for _, word := range [...]string{" where ", " with ", " when ", " if ", " given ", " for "} {
		head, values, found := strings.Cut(text, word)
		if !found || !strings.Contains(values, "=") || strings.Contains(head, "=") && entry.BeginsWith(head) == "" {
			continue
		}
		lines, names = partsOf(values), nil
		for _, line := range lines {
			names = append(names, entry.BeginsWith(line))
		}
		known := func(name string) bool { return name == "" || given(name) || !strings.Contains(head, name) }
		lines = append(lines, strings.TrimRight(head, " ,"))
		if !slices.ContainsFunc(names, known) && accepted(lines) {
			return lines, names
		}
	}
	return nil, nil
}

// chain takes a line with several equals signs apart.
type chain struct {
	try   Lines
	known func(name string) bool
	all   bool // each part must be accepted, none left out
	// value is the line that gives the name its value, and unlike a check that does not hold
	// beside it.
	value, unlike string
}

// of is E = m*g*h = 30 J as E = m*g*h and then check E = 30 J; nil if that can't be. The name
// gets the first part that has a value. A part that has none is the equation for its symbol.
// Where no name is on the left, m*g*h = ½*m*v² = 30 J, each part is equal to that.
//
// A chain of equals signs says two things on paper: what a name is, and that the number comes out.
// The second is a check here, so that a wrong number is found and not taken.
func (c *chain) of(text string) (lines []string) {
	head, parts := sidesOf(text)
	if len(parts) < 2 {
		return nil
	}
	equal := func(part string) string { return head + " = " + part }
	gives := func(part string) bool {
		e := c.try(equal(part))
		if e == nil {
			return false
		}
		_, named := e.Stmt.(*syntax.Define)
		return named
	}
	value, name := -1, entry.BeginsWith(text)
	if name != "" {
		value = slices.IndexFunc(parts, gives)
	}
	if value < 0 && c.known(name) {
		return nil // it is to have another value
	}
	if value >= 0 {
		c.value = equal(parts[value])
		lines = append(lines, c.value)
		parts = slices.Delete(parts, value, value+1)
	}
	for len(parts) > 0 {
		accepted := func(line string) bool { return c.try(append(slices.Clip(lines), line)...) != nil }
		k := slices.IndexFunc(parts, func(part string) bool { return accepted(equal(part)) && !(value >= 0 && gives(part)) })
		line := ""
		if k >= 0 {
			line = equal(parts[k])
		} else if k = slices.IndexFunc(parts, func(part string) bool { return accepted("check " + equal(part)) }); k >= 0 {
			line = "check " + equal(parts[k])
		} else {
			break
		}
		lines, parts = append(lines, line), slices.Delete(parts, k, k+1)
	}
	for _, part := range parts {
		hasValue := c.try(part) != nil
		if hasValue && value >= 0 {
			c.unlike = "check " + equal(part)
		}
		if c.all || hasValue || strings.ContainsAny(part, "0123456789") {
			return nil
		}
	}
	if len(lines) < 2 {
		return nil
	}
	return lines
}

// sidesOf are what is before the first equals sign of a line, and what is behind each. There
// are none where a clause has one too.
func sidesOf(text string) (head string, parts []string) {
	for _, word := range [...]string{" with ", " at ", " for ", " where ", " if ", " when ", " given ", ":", "==", ">", "<", "≤", "≥", "≠", "≈", "~", ","} {
		if strings.Contains(text, word) {
			return "", nil
		}
	}
	parts = strings.Split(text, "=")
	for i := range parts {
		if parts[i] = strings.TrimSpace(parts[i]); parts[i] == "" {
			return "", nil
		}
	}
	return parts[0], parts[1:]
}

// givensIn takes written quantities with blanks between them apart: m = 2 kg v = 3 m/s. They
// are sure where no name is a unit too, as the t of h = 5 m t = 3 s is.
func givensIn(text string) (lines []string, sure bool) {
	head, parts := sidesOf(text)
	table := units.NewTable()
	sure = true
	for i, part := range parts {
		next := ""
		if i < len(parts)-1 {
			at := strings.LastIndexByte(part, ' ')
			if at < 0 {
				return nil, false
			}
			part, next = strings.TrimSpace(part[:at]), part[at+1:]
			sure = sure && !table.Has(next)
		}
		line := head + " = " + part
		stmt, _ := syntax.Parse(line)
		if d, ok := stmt.(*syntax.Define); !ok || !d.Plain() || syntax.OfNumbers(d.X) && i < len(parts)-1 {
			return nil, false
		}
		lines, head = append(lines, line), next
	}
	if len(lines) < 2 {
		return nil, false
	}
	return lines, sure
}
