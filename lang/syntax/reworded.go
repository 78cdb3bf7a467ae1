package syntax

import (
	"slices"
	"strings"

	"steelyard/lang/finding"
)

// reworded is how a line is written that says in other words what the language says: vs for
// against. The lines after the signs are what to type, with $1 for the first group; where
// there are several, they come one after the other.
type reworded struct {
	words   string // of the statements that it is for, or "" for lines without a word
	slip    pattern
	message string
	lines   []string
}

// A name and an end of a range, in the patterns below.
const (
	aName = `([\pL][\pL\pN_']*)`
	aSide = `([^<>=≤≥]+?)`
)

// rewordings are looked for in a line that can't be read. What they offer can be read, or it
// is not offered, so that a pattern that is too wide does no harm.
var rewordings = []reworded{
	{"solve", patternWith(`^solve for (?:the )?`+aName+`\s*[:,]?\s+(.+=.+)$`, "for"), "The equation comes first.", []string{"solve $2 for $1"}},
	{"solve", patternWith(`^(solve .+ for (?:the \w+ )?)`+aName+`( in \S+)?[,:]?\s*([<>≤≥].+)$`, "<", ">", "≤", "≥"), "A condition comes after `where`.", []string{"$1$2$3 where $2 $4"}},
	{"solve", patternWith(`^(solve .+ for )`+aName+`( in \S+)?,? (?:is |being )?positive$`, "positive"), "A condition comes after `where`.", []string{"$1$2$3 where $2 > 0"}},
	{"solve", patternWith(`^(solve .+ for )`+aName+`( in \S+)?,? (?:is |being )?negative$`, "negative"), "A condition comes after `where`.", []string{"$1$2$3 where $2 < 0"}},
	{"solve", patternWith(`^(solve .+ for .+?),? (?:at|when|if|given|and) (`+aName+` = [^=]+)$`, "at", "when", "if", "given", "and"), "Values for names come after `with`.", []string{"$1 with $2"}},
	{"solve", patternWith(`^(solve .+=.+?)\s*[,;]\s*`+aName+`$`, ",", ";"), "The name to find comes after `for`.", []string{"$1 for $2"}},

	{"check", patternWith(`^check (?:if|that|whether) (.+)$`, "if", "that", "whether"), "The sides come right after `check`.", []string{"check $1"}},
	{"check", patternWith(`^check `+aSide+` (?:is|equals|is equal to) (?:about )?([^<>=≤≥]+)$`, "is", "equals"), "The sides have = between them.", []string{"check $1 = $2"}},
	{"check", patternWith(`^check `+aSide+`\s*(?:~|≈|≅|=\s*~)\s*([^<>=≤≥]+)$`, "~", "≈", "≅"), "For \"about equal\", use = and within.", []string{"check $1 = $2 within 1 %"}},
	{"check", patternWith(`^check (.+[<>=≤≥].+),? and (.+[<>=≤≥].+)$`, "and"), "Each check needs its own line.", []string{"check $1", "check $2"}},
	{"check", patternWith(`^(check .+)\?$`, "?"), "A check needs no question mark.", []string{"$1"}},

	{"graph table fit", patternWith(`^(graph|table|fit) (.+) (?:vs\.?|versus|over) (.+)$`, "vs", "versus", "over"), "The name on the axis across comes after `against`.", []string{"$1 $2 against $3"}},
	{"graph table", patternWith(`^(graph|table) (.+) (?:for|with) `+aName+` (?:from|between) (.+)$`, "for", "with"), "The name on the axis across comes after `against`.", []string{"$1 $2 against $3 from $4"}},
	{"graph table", patternWith(`^(graph|table) `+aName+`\(`+aName+`\) (from .+)$`, "from"), "The name on the axis across comes after `against`.", []string{"$1 $2($3) against $3 $4"}},
	{"graph table", patternWith(`^(graph|table) (.+ against `+aName+`),? (?:between|in) (.+) (?:and|in) (.+)$`, "between"), "A range is written `from … to …`.", []string{"$1 $2 from $4 to $5"}},
	{"graph table", patternWith(`^(graph|table) (.+ against `+aName+`),? (-?\d.*) (?:to|in) (.+)$`, "against"), "A range is written `from … to …`.", []string{"$1 $2 from $4 to $5"}},
	{"graph table", patternWith(`^((?:graph|table) .+ from .*\S)\s*(?:-|–|\.\.+|…|until)\s*(\d.*)$`, "-", "–", "..", "…", "until"), "A range is written `from … to …`.", []string{"$1 to $2"}},
	{"graph table", patternWith(`^((?:graph|table) .+ from )`+aName+`\s*=\s*(.+) (to|in) `+aName+`\s*=\s*(.+)$`, "="), "A range has no = in it.", []string{"$1$3 to $6"}},
	{"graph table", patternWith(`^(graph|table) (?:`+aName+`(?:\(`+aName+`\))?)\s*=\s*(.+ against .+)$`, "="), "A curve has no = in it.", []string{"$1 $4"}},
	{"graph table", patternWith(`^(graph|table) `+aName+`\(`+aName+`\)\s*=\s*(.+) (from .+)$`, "="), "A curve has no = in it.", []string{"$1 $4 against $3 $5"}},
	{"graph table", patternWith(`^(graph|table) (.+) and (.+ against .+)$`, "and"), "Curves have commas between them.", []string{"$1 $2, $3"}},
	{"graph", patternWith(`^graph residuals (?:of|for) (.+ against .+)$`, "residuals"), "Residuals are drawn below a graph of readings.", []string{"graph $1 with residuals"}},
	{"table", patternWith(`^(table .+ (?:to|in) .+?),? (?:every|step|steps of|with step|in steps of) (.+)$`, "every", "step"), "The step of a table comes after `by`.", []string{"$1 by $2"}},

	{"report", patternWith(`^(report .+?) (?:to|in) (\d+) significant figures?$`, "significant"), "A result is rounded to figures.", []string{"$1 to $2 figures"}},
	{"report", patternWith(`^(report .+?) (?:=|is) .+$`, "=", "is"), "An answer is a name that has a value.", []string{"$1"}},
	{"report", patternWith(`^report (\S+?)(?:,| and) (\S+)$`, ",", "and"), "Each answer needs its own line.", []string{"report $1", "report $2"}},
	{"report", patternWith(`^(report .+?),? (?:rounded|correct) (?:to|in) (\d+ .+)$`, "rounded", "correct"), "Figures come after `to`.", []string{"$1 to $2"}},
	{"report", patternWith(`^report (?:the )?sign (?:of )?(?:the )?(\S+)$`, "sign"), "A sign is asked with `of`.", []string{"report sign of $1"}},
	{"report", patternWith(`^(report .+?),? (?:for |\(|\[)(\d+) (?:marks?|points?|pts?)[)\]]?$`, "mark", "p"), "Points come after `for`.", []string{"$1 for $2 points"}},
	{"report", patternWith(`^report (.+?) as (?:a |the |its )?magnitude( (?:in|to|for) .*)?$`, "magnitude"), "The magnitude of a vector has strokes round it.", []string{"report |$1|$2"}},
	{"report", patternWith(`^report (.+?) as (?:a |the |its )?(?:direction|angle)( (?:in|to|for) .*)?$`, "direction", "angle"), "The direction of a vector is a function of it.", []string{"report direction($1)$2"}},

	{"let", patternWith(`^let (.+?) (?:be|is) a vector (?:.+ )?(in .+)$`, "vector"), "That it is a vector comes after the unit.", []string{"let $1 $2 as a vector"}},
	{"let", patternWith(`^let (.+=.+)$`, "="), "A value needs no `let`.", []string{"$1"}},
	{"let", patternWith(`^let (.+?) (?:be|is|has|measured) (?:a .+ )?(in .+)$`, "be", "is", "has", "measured"), "The unit comes after `in`.", []string{"let $1 $2"}},
	{"let", patternWith(`^(let .+),? and (?:let )?(`+aName+` in .+)$`, "and"), "Each unit needs its own line.", []string{"$1", "let $2"}},

	{"bars", patternWith(`^bars (?:from )?(["“'].+)$`, "\"", "“", "'"), "A place begins with `at`.", []string{"bars at $1"}},
	{"bars", patternWith(`^(bars .+)[|;,]\s*(["“].+)$`, "|", ";", ","), "A place begins with `at`.", []string{"$1| at $2"}},
	{"bars", patternWith(`^(bars .+?)\s*[;,]\s*(at .+)$`, ";", ","), "Places have | between them.", []string{"$1 | $2"}},
	{"bars", patternWith(`^bars at ([\pL ]+?)\s*:([^|]+)\| at ([\pL ]+?)\s*:([^|]+)$`, ":"), "A place needs quotation marks.", []string{"bars at \"$1\":$2| at \"$3\":$4"}},
	{"bars", patternWith(`^bars at ("[^"]+")\s+([^|:]+?)\s*\| at ("[^"]+")\s+([^|:]+)$`, "\""), "A place needs a colon after it.", []string{"bars at $1: $2 | at $3: $4"}},
	{"bars", patternWith(`^(bars .+ with )(?:W = )?([^=]+)$`, "with"), "Work comes after `with work`.", []string{"${1}work $2"}},

	{"arrows", patternWith(`^(arrows .+?)[,:]? (?:tip|head|tail|nose|end)(?:[- ]to[- ]|[- ])(?:tail|tip|head|end)\b(.*)$`, "tail", "tip", "end"), "One arrow after the other is asked for by `head to tail`.", []string{"$1 head to tail$2"}},
	{"arrows", patternWith(`^(arrows .+?),? (?:on|in|from|at) (?:a |the )?(?:box|block|body)\b(.*)$`, "box", "block", "body"), "A box to begin on is asked for by `on a box`.", []string{"$1 on a box$2"}},
	{"arrows", patternWith(`^(arrows .+?),? (?:on|from|at) (?:a |the |one )?(?:dot|point|particle)\b(.*)$`, "dot", "point", "particle"), "Arrows begin at one point anyway.", []string{"$1$2"}},
	{"arrows", patternWith(`^(arrows .+?),? with (?:the |their )?components?(?: marked)?\b(.*)$`, "component"), "Components are asked for by `with components`.", []string{"$1 with components$2"}},
	{"arrows", patternWith(`^(arrows .+?),? with (?:the |their )?(?:angle|direction)s?(?: marked)?\b(.*)$`, "angle", "direction"), "Angles are asked for by `with angles`.", []string{"$1 with angles$2"}},
	{"arrows", patternWith(`^(arrows .+?),? and (.+)$`, "and"), "Arrows have commas between them.", []string{"$1, $2"}},

	{"fit", patternWith(`^fit (?:a )?(?:straight )?(?:line|curve)(?: to| of| for| through| in)? (.+)$`, "line", "curve"), "The readings come right after `fit`.", []string{"fit $1"}},
	{"fit", patternWith(`^(fit .+)\[(as .+)\]$`, "[as"), "Write it without the square brackets.", []string{"$1$2"}},
	{"fit", patternWith(`^(fit .+ for (\S+)) (?:start|starting|start at|starting at|start with|starting with|from) ([^=]+)$`, "start", "from"), "A start value comes after `starting at` and its name.", []string{"$1 starting at $2 = $3"}},

	{"budget", patternWith(`^budget (?:for|of) (.+)$`, "for", "of"), "The name comes right after `budget`.", []string{"budget $1"}},
	{"budget", patternWith(`^(budget \S+) (?:with |by )?(?:sampling|simulation|random draws).*$`, "sampling", "simulation", "random"), "Sampling is asked by `by sampling`.", []string{"$1 by sampling"}},
	{"budget", patternWith(`^(budget .+?) (?:with|at|to|for|in) (\d.*%)$`, "%"), "The share of the values comes after `covering`.", []string{"$1 covering $2"}},

	{"", patternWith(`^(?:delete|erase|drop) (?:line )?(\d+)$`, "delete", "erase", "drop"), "A line is taken out by `remove`.", []string{"remove $1"}},
	{"", patternWith(`^(?:convert|express) (.+ in .+)$`, " in "), "A unit after `in` is enough to convert a value.", []string{"$1"}},
	{"", patternWith(`^(\p{Lu}\p{Ll}{2,}\s[^=]*[.?])$`, ".", "?"), "Words are kept in a note.", []string{"note $1"}},
	{"", patternWith(`^`+aName+`:\s*([^=]+)$`, ":"), "A value comes after =.", []string{"$1 = $2"}},
	{"", patternWith(`^(.+=.+?)\s*[.;]$`, ".", ";"), "A line needs no sign at its end.", []string{"$1"}},
	{"", patternWith(`^`+aName+`\s*(?:/|\(|\[| in )\s*([^=\d]+?)[)\]]?\s*=\s*(-?\d[^ a-zA-Z]*)$`, "/", "(", "[", " in "), "The unit comes after the number.", []string{"$1 = $3 $2"}},
	{"", patternWith(`^(.+=\s*-?\d[\d.e-]*),?\s*\[?([^\d\]]+)\]?$`, "[", ","), "The unit comes right after the number.", []string{"$1 $2"}},
	{"", patternWith(`^`+aName+` (?:of|for) ([\pL ]+?)\s*=\s*(.+)$`, " of ", " for "), "A name is one word. What it means comes after a comma.", []string{"$1 = $3, $1 of $2"}},
}

// settled are the findings of a line that the page may settle: names without a sign.
var settled = []finding.ID{finding.NamesTogether, finding.UnitOrName, finding.TwoReadings}

// reworded finds the first of the rewordings that can be read; nil if there is none.
func (r *reader) reworded(word string) *fault {
	line := r.text[r.from:r.to]
	if r.silent || strings.Contains(r.text, "\n") {
		return nil
	}
	for i := range rewordings {
		w := &rewordings[i]
		if word == "" && w.words != "" || word != "" && !strings.Contains(w.words, word) || w.slip.in(line) == nil {
			continue
		}
		var lines []string
		for _, as := range w.lines {
			to := w.slip.compiled().ReplaceAllString(line, as)
			if s, bad := (&Reader{Known: r.known}).read(to, reader{silent: true}); s == nil && (word == "" || !slices.Contains(settled, bad[0].ID)) {
				lines = nil
				break
			}
			lines = append(lines, to)
		}
		if lines != nil {
			return unread{r, nil}.instead(finding.NotWritten, w.message, "Write ", lines...)
		}
	}
	return nil
}
