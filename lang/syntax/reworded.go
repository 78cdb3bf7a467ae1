package syntax

import (
	"slices"
	"strings"
	"unicode/utf8"

	"steelyard/lang/finding"
)

// reworded is how a line is written that says in other words what the language says: vs for
// against. The lines are what to type, with $1 for the first group; where there are several,
// they come one after the other, and are one reading. $1… is several statements, each of
// which has a line, with what is behind the dots in each.
//
// One row is one way in which people say it: what they type, why it is no line, and what to
// type. The offer is read before it is made, so a row can offer nothing that would be refused
// in turn.
type reworded struct {
	words   string // of the statements that it is for, or "" for lines without a word
	slip    pattern
	message string
	lines   []string
	meant   func(r *reader, s Stmt) bool // of the first line, read: whether it is meant; or nil
	hint    string                       // before the lines; both with groups as they have
	id      finding.ID
	without string   // what no such line has
	joint   *pattern // what parts the several statements
	here    bool     // the finding is where the line differs from what is offered
	again   bool     // the slip, or another of those for the statement that may come again, may be in the line once more
}

func as(words string, slip pattern, message string, lines ...string) reworded {
	return reworded{words: words, slip: slip, message: message, lines: lines, hint: "Write ", id: finding.NotWritten}
}

func (w reworded) only(meant func(r *reader, s Stmt) bool) reworded {
	w.meant = meant
	return w
}

func (w reworded) except(without string) reworded {
	w.without = without
	return w
}

func (w reworded) after(hint string) reworded {
	w.hint = hint + w.hint
	return w
}

func (w reworded) parted(by *pattern) reworded {
	w.joint = by
	return w
}

func (w reworded) atItsPlace() reworded {
	w.here = true
	return w
}

func (w reworded) repeated() reworded {
	w.again = true
	return w
}

func (w reworded) found(id finding.ID) reworded {
	w.id = id
	return w
}

// givesValue tells whether a line gives a name a value, givesKnown whether all names in it are
// known, isGiven whether it gives a plain one, and compares whether it compares a name of the page.
func givesValue(_ *reader, s Stmt) bool { _, ok := s.(*Define); return ok }
func givesKnown(r *reader, s Stmt) bool {
	d, ok := s.(*Define)
	return ok && r.known != nil && !Any(d.X, func(x Expr) bool { n, name := x.(*Name); return name && !r.known(n.Name) })
}
func isGiven(_ *reader, s Stmt) bool { d, ok := s.(*Define); return ok && d.Plain() }
func compares(r *reader, s Stmt) bool {
	check, ok := s.(*CheckStmt)
	if !ok || r.known == nil {
		return false
	}
	n, ok := check.Left.(*Name)
	return ok && r.known(n.Name)
}

// isMeasured tells whether a line gives a name a quantity with its unit, isNameless whether it
// gives none, hasMeaning whether it says in words what the name means, and replaces whether it works a value out again with
// plain ones for names of the page.
func isMeasured(_ *reader, s Stmt) bool {
	d, ok := s.(*Define)
	return ok && d.Plain() && !OfNumbers(d.X)
}
func isNameless(_ *reader, s Stmt) bool { return len(s.Defines()) == 0 }
func hasMeaning(_ *reader, s Stmt) bool {
	names := s.Defines()
	return len(names) > 0 && names[0].Meaning != ""
}
func replaces(r *reader, s Stmt) bool {
	_, x, _ := AsResult(s)
	w, ok := x.(*With)
	return ok && r.known != nil && !slices.ContainsFunc(w.By, func(b Binding) bool { return !r.known(b.Name) || !IsPlain(b.X) })
}

// A name and an end of a range, in the patterns below.
const (
	aName = `([\pL][\pL\pN_']*)`
	aSide = `([^<>=≤≥]+?)`
	// The label of a part is between these two.
	aLabel = `(?:[Pp]art|[Qq]uestion|[Tt]ask)?\s*\(?`
	aPart  = `\s*[).:]\s+(\pL.*)$`
	// Resistors side by side.
	aParallel  = `([\pL][\pL\pN_']*)`
	bySide     = `\s*(?:\|\||∥)\s*`
	inParallel = "Resistors in parallel have the sum of 1/R as their 1/R."
	toFigures  = `\s*[,(]?\s*(?:to\s+)?(\d{1,2})\s*(?:(?i:figs?|figures?|s\.?\s?f\.?|sig\.? ?figs?|significant figures))\)?$`
)

// What is said of several statements, of several equations, and of a vector that is written in
// another way.
const (
	eachItsLine   = "Each of these statements needs its own line."
	andThenCommas = "Put `and` between equations, and commas between unknowns."

	inSigns    = "A formula has signs in the place of words."
	halvesGo   = "A half is rounded away from zero, unless the page says `to even`."
	anAngle    = "The direction of a vector is an angle after `at`."
	inBrackets = "A vector is in round brackets, with a comma between its components."
)

// toThe is a quantity with one of some words for its direction.
func toThe(words string) pattern {
	return patternWith(`^((?:[^=]*=)?\s*[\d.(][^=]*?),? \(?(?:due |to the |directed )?(?:`+words+`)\)?$`, strings.Split(strings.ReplaceAll(words, "s?", ""), "|")...)
}

// severalValues is m = 2 kg, v = 3 m/s.
var severalValues = as("", patternWith(`^(`+aName+`(?:\([^()=]*\))?\s*=.+)$`, ",", " and ", ";"), eachItsLine, "$1…").only(givesValue)

// rewordings are looked for in a line that can't be read. What they offer can be read, or it
// is not offered, so that a pattern that is too wide does no harm.
var rewordings = []reworded{
	as("", patternWith(`^(.+ with .+?),? and (`+aName+`\s*=.+)$`, " with "), "Values after `with` have commas between them.", "$1, $2").repeated(),
	severalValues,
	as("", patternWith(`^(.+?)\s+(?:where|when|if|for|given)\s+(\S+\s*=[^=]+)$`, "where", "when", "if", "for", "given"), "Another value for a name comes after `with`.", "$1 with $2").only(replaces),
	as("", patternWith(`^(.+?)\s+(?:where|when|if|for|given)\s+(\S+\s*=[^=]+) and (\S+\s*=[^=]+)$`, " and "), "Another value for a name comes after `with`.", "$1 with $2, $3").only(replaces),
	as("", patternWith(`^(`+aName+`\(`+aName+`\)\s*=)\s*([^{]+? for [^=]*[<>≤≥].*)$`, " for "), "Put each interval on its own line below, with a space before it.", "$1\n  $4"),
	as("", patternWith(`^(.+) is (negative|positive|zero)$`, " is "), "To test whether a value is $2, use `check`.", "check $1 is $2"),
	as("", patternWith(`^(`+aName+`\s*=)\s*(-?\d[\d.]*(?:,\s+-?\d[\d.]*)+)(?:\s*([^\d,\s][^,]*))?$`, ","), "Several values of one name are a list.", "$1 [$3] $4").atItsPlace(),
	as("", patternWith(`^(.*?)`+aParallel+bySide+aParallel+bySide+aParallel+`(.*)$`, "||", "∥"), inParallel, "${1}1/(1/$2 + 1/$3 + 1/$4)$5"),
	as("", patternWith(`^(.*?)`+aParallel+bySide+aParallel+`(.*)$`, "||", "∥"), inParallel, "${1}1/(1/$2 + 1/$3)$4"),
	as("", patternWith(`^(.*?)(\d[\d.]* ?[kMm]?Ω)`+bySide+`(\d[\d.]* ?[kMm]?Ω)(.*)$`, "||", "∥"), inParallel, "${1}1/(1/($2) + 1/($3))$4"),
	as("", patternWith(`^(.+[*/+-]\s*|[^=]+=\s*-)((?:slope of|area under) .+)$`, "slope of", "area under"), "A slope or an area in a sum or a product needs brackets.", "$1($2)"),
	as("", patternWith(`^(.*?\d\s*\pL*)\s*x\s*(\d[\d.]*\s*\pL*)\s*x\s*(\d.*)$`, "x"), "The letter x is a name here, not times.", "$1*$2*$3").found(finding.BadNumber),
	as("constants", patternWith(`^(constants \S+?),? (?:and )?([^\s,]+.*)$`, "constants "), "Constants have commas between them.", "$1, $2").repeated(),
	as("", patternWith(`^(.+?)\s*,\s*(in .+)$`, ","), "There is no comma before `in`.", "$1 $2").atItsPlace(),
	as("", patternWith(`^(.+),(\pL.*)$`, ","), "Words about a name come after a comma and a space.", "$1, $2").only(hasMeaning).atItsPlace(),
	as("", patternWith(`^(.+\S) (?:times|multiplied by) (\S.*)$`, " times ", " multiplied by "), inSigns, "$1*$2").repeated(),
	as("", patternWith(`^(.+\S) (?:divided by|over) (\S.*)$`, " divided by ", " over "), inSigns, "$1/$2").repeated(),
	as("", patternWith(`^(.+\S) plus (\S.*)$`, " plus "), inSigns, "$1 + $2").repeated(),
	as("", patternWith(`^(.+\S) minus (\S.*)$`, " minus "), inSigns, "$1 - $2").repeated(),
	as("", patternWith(`^(.+[\pL\pN_)]) squared\b(.*)$`, " squared"), inSigns, "$1^2$2").repeated(),
	as("", patternWith(`^(.+[\pL\pN_)]) cubed\b(.*)$`, " cubed"), inSigns, "$1^3$2").repeated(),
	as("", patternWith(`^(.+), (\pL{4,}.*|\pL+ .*)$`, ", "), "Words after a comma say what a name means. This line has no name.", "$1").only(isNameless).after("Begin the line with a name and =, or leave the words out. ").atItsPlace(),
	as("solve", patternWith(`^(solve .+?=.+?), ?(.+=.+ for .+)$`, ","), andThenCommas, "$1 and $2").repeated(),
	as("solve", patternWith(`^(solve .+ for .+?),? and (.+)$`, "and"), andThenCommas, "$1, $2").repeated(),
	as("solve", patternWith(`^solve for (?:the )?`+aName+`\s*[:,]?\s+(.+=.+)$`, "for"), "The equation comes first.", "solve $2 for $1"),
	as("solve", patternWith(`^(solve .+ for (?:the \w+ )?)`+aName+`( in \S+)?[,:]?\s*([<>≤≥].+)$`, "<", ">", "≤", "≥"), "A condition comes after `where`.", "$1$2$3 where $2 $4"),
	as("solve", patternWith(`^(solve .+ for )`+aName+`( in \S+)?,? (?:is |being )?positive$`, "positive"), "A condition comes after `where`.", "$1$2$3 where $2 > 0"),
	as("solve", patternWith(`^(solve .+ for )`+aName+`( in \S+)?,? (?:is |being )?negative$`, "negative"), "A condition comes after `where`.", "$1$2$3 where $2 < 0"),
	as("solve", patternWith(`^(solve .+ for .+?),? (?:at|when|if|given|and) (`+aName+` = [^=]+)$`, "at", "when", "if", "given", "and"), "Values for names come after `with`.", "$1 with $2"),
	as("solve", patternWith(`^(solve .+=.+?)\s*[,;]\s*`+aName+`$`, ",", ";"), "The name to find comes after `for`.", "$1 for $2").except(" for "),

	as("check", patternWith(`^check (?:if|that|whether) (.+)$`, "if", "that", "whether"), "The sides come right after `check`.", "check $1"),
	as("check", patternWith(`^check `+aSide+` (?:is|equals|is equal to) (?:about )?([^<>=≤≥]+)$`, "is", "equals"), "The sides have = between them.", "check $1 = $2"),
	as("check", patternWith(`^check `+aSide+`\s*(?:~|≈|≅|=\s*~)\s*([^<>=≤≥]+)$`, "~", "≈", "≅"), "For \"about equal\", use = and within.", "check $1 = $2 within 1 %"),
	as("check", patternWith(`^check (.+[<>=≤≥].+),? and (.+[<>=≤≥].+)$`, "and"), "Each check needs its own line.", "check $1", "check $2"),
	as("check", patternWith(`^check ([^<>=≤≥]+?)\s*(<=?|≤)\s*([^<>=≤≥]+?)\s*(<=?|≤)\s*([^<>=≤≥]+)$`, "<", "≤"), "A check compares two sides.", "check $1 $2 $3", "check $3 $4 $5"),
	as("check", patternWith(`^(check .+)\?$`, "?"), "A check needs no question mark.", "$1"),

	as("graph table fit", patternWith(`^(graph|table|fit) (.+) (?:vs\.?|versus|over) (.+)$`, "vs", "versus", "over"), "The name on the axis across comes after `against`.", "$1 $2 against $3"),
	as("graph table", patternWith(`^(graph|table) (.+) (?:for|with) `+aName+` (?:from|between) (.+)$`, "for", "with"), "The name on the axis across comes after `against`.", "$1 $2 against $3 from $4"),
	as("graph table", patternWith(`^(graph|table) `+aName+`\(`+aName+`\) (from .+)$`, "from"), "The name on the axis across comes after `against`.", "$1 $2($3) against $3 $4"),
	as("graph table", patternWith(`^(graph|table) (.+ against `+aName+`),? (?:between|in) (.+) (?:and|in) (.+)$`, "between"), "A range is written `from … to …`.", "$1 $2 from $4 to $5"),
	as("graph table", patternWith(`^(graph|table) (.+ against `+aName+`),? (-?\d.*) (?:to|in) (.+)$`, "against"), "A range is written `from … to …`.", "$1 $2 from $4 to $5"),
	as("graph table", patternWith(`^((?:graph|table) .+ from .*\S)\s*(?:-|–|\.\.+|…|until)\s*(\d.*)$`, "-", "–", "..", "…", "until"), "A range is written `from … to …`.", "$1 to $2"),
	as("graph table", patternWith(`^((?:graph|table) .+ from )`+aName+`\s*=\s*(.+) (to|in) (?:`+aName+`\s*=\s*)?(.+)$`, "="), "A range has no = in it.", "$1$3 to $6"),
	as("graph table", patternWith(`^(graph|table) (?:`+aName+`(?:\(`+aName+`\))?\s*=\s*)?(.+?) (?:from|for) `+aName+`\s*=\s*(.+?) (?:to|in) (?:`+aName+`\s*=\s*)?(.+)$`, "="), "The name on the axis across comes after `against`.", "$1 $4 against $5 from $6 to $8"),
	as("graph table", patternWith(`^(graph|table) (.+?) (?:for|from) ([^<≤]*\d[^<≤]*?)\s*[<≤]=?\s*`+aName+`\s*[<≤]=?\s*(.+)$`, "<", "≤"), "The name on the axis across comes after `against`.", "$1 $2 against $4 from $3 to $5"),
	as("table", patternWith(`^(table .+) (?:for|from) `+aName+`\s*=\s*(.+?) (?:to|in) (.+?),? (?:every|step|steps of|with step|in steps of|by) (.+)$`, "="), "A table is written `against … from … to … by …`.", "$1 against $2 from $3 to $4 by $5"),
	as("table", patternWith(`^(table .+) for `+aName+` (from .+ (?:to|in) .+?),? (?:every|step|steps of|with step|in steps of) (.+)$`, "for"), "A table is written `against … from … to … by …`.", "$1 against $2 $3 by $4"),
	as("graph table", patternWith(`^(graph|table) (?:`+aName+`(?:\(`+aName+`\))?)\s*=\s*(.+ against .+)$`, "="), "A curve has no = in it.", "$1 $4"),
	as("graph table", patternWith(`^(graph|table) `+aName+`\(`+aName+`\)\s*=\s*(.+) (from .+)$`, "="), "A curve has no = in it.", "$1 $4 against $3 $5"),
	as("graph table", patternWith(`^(graph|table) (.+) and (.+ against .+)$`, "and"), "Curves have commas between them.", "$1 $2, $3"),
	as("", patternWith(`^graph \((.+), *(.+)\) (?:for|against) `+aName+` (from .+)$`, "graph ("), "For a path, what goes up comes before `against`.", "graph $2 against $1 for $3 $4"),
	as("graph", patternWith(`^graph residuals (?:of|for) (.+ against .+)$`, "residuals"), "Residuals are drawn below a graph of readings.", "graph $1 with residuals"),
	as("table", patternWith(`^(table .+ (?:to|in) .+?),? (?:every|step|steps of|with step|in steps of) (.+)$`, "every", "step"), "The step of a table comes after `by`.", "$1 by $2"),

	as("report", patternWith(`^(report .+?)\s+(?:to|in)\s+(\d+)\s+significant\s+figures?$`, "significant"), "Write `figures` alone.", "$1 to $2 figures"),
	as("report", patternWith(`^(report \S+(?: in \S+)?) (\d+) (?:significant )?figures?$`, "figure"), "Figures come after `to`.", "$1 to $2 figures"),
	as("report", patternWith(`^(report .+?) (?:=|is) .+$`, "=", "is"), "An answer is a name that has a value.", "$1"),
	as("report", patternWith(`^(report .+?) (to \d+ figures?|to \d\S* \S+)((?: for \d+ points?)?) (in \S+)((?: for \d+ points?)?)$`, " in "), "The unit comes before the figures.", "$1 $4 $2$3$5"),
	as("report", patternWith(`^report ([^\s,]+(?:(?:\s*,\s*(?:and\s+)?|\s+and\s+)[^\s,]+)+)((?: (?:in|to|for) .*)?)$`, ",", "and"), "Each answer needs its own line.", "report $1…$2").parted(&answerJoint),
	as("report", patternWith(`^(report .+?),? (?:rounded|correct) (?:to|in) (\d+ .+)$`, "rounded", "correct"), "Figures come after `to`.", "$1 to $2"),
	as("report", patternWith(`^report (?:the )?sign (?:of )?(?:the )?(\S+)$`, "sign"), "For a sign, write `of` before the name.", "report sign of $1"),
	as("report", patternWith(`^(report .+?),? (?:for |\(|\[)(\d+) (?:marks?|points?|pts?)[)\]]?$`, "mark", "p"), "Points come after `for`.", "$1 for $2 points"),
	as("report", patternWith(`^report (.+?) as (?:a |the |its )?magnitude( (?:in|to|for) .*)?$`, "magnitude"), "For the magnitude of a vector, put strokes round it.", "report |$1|$2"),
	as("report", patternWith(`^report (.+?) as (?:a |the |its )?(?:direction|angle)( (?:in|to|for) .*)?$`, "direction", "angle"), "For the direction of a vector, write direction( ).", "report direction($1)$2"),

	as("", patternWith(`^(.+=.+?)\s*(?:=>|⇒|⟹|→|∴|, so|, then)\s*(`+aName+`\s*=.+)$`, "=>", "⇒", "⟹", "→", "∴", ", so", ", then"), eachItsLine, "$1", "$2").only(isMeasured),
	as("", patternWith(`^.+=.+?\s*(?:=>|⇒|⟹|→|∴|, so|, then)\s*(`+aName+`\s*=.+)$`, "=>", "⇒", "⟹", "→", "∴", ", so", ", then"), "The last equation is enough; the first can be a note.", "$1"),
	as("", patternWith(`^(.*?)(?:the )?(?:direction|angle) of (?:the )?`+aName+`(.*)$`, "direction of", "angle of"), "For the direction of a vector, write direction( ).", "${1}direction($2)$3"),
	as("", patternWith(`^(.*?)(?:the )?(?:magnitude|size|length) of (?:the )?`+aName+`(.*)$`, "magnitude of", "size of", "length of"), "The magnitude of a vector has strokes round it.", "$1|$2|$3"),
	as("", patternWith(`^`+aName+`\s*=\s*(solve .+ for )`+aName+`(.*)$`, "solve"), "An equation needs its own line.", "$2$3$4", "$1 = $3"),

	as("", patternWith(`^round half (?:up|away|away from 0|away from zero)$`, "half"), halvesGo, "round halves away from zero"),
	as("round", patternWith(`^round halves (?:up|away|away from 0)$`, "halves"), halvesGo, "round halves away from zero"),
	as("", patternWith(`^round half (?:to |in )?even$`, "half"), "This setting has fixed words.", "round halves to even"),

	as("let", patternWith(`^let (.+?) (?:be|is) a vector (?:.+ )?(in .+)$`, "vector"), "The words `as a vector` come after the unit.", "let $1 $2 as a vector"),
	as("", toThe("east|eastwards?|right"), anAngle, "$1 at 0°"),
	as("", toThe("north|northwards?|up|upwards?"), anAngle, "$1 at 90°"),
	as("", toThe("west|westwards?|left"), anAngle, "$1 at 180°"),
	as("", toThe("south|southwards?|down|downwards?"), anAngle, "$1 at -90°"),
	as("", patternWith(`^(.+ at .+?) (above|below) (?:the )?horizontal$`, "horizontal"), "The horizontal is the x axis here.", "$1 $2 +x"),
	as("", patternWith(`^(.+ at .+?) (?:to|from|off|with) (?:the )?(?:horizontal|x[- ]axis)$`, "horizontal", "axis"), "The horizontal is the x axis here.", "$1 above +x"),
	as("", patternWith(`^(.+ at )(\S+?)( ?(?:deg|rad))? (?:to|from|off|with) (?:the )?(?:vertical|y[- ]axis)$`, "vertical", "axis"), "Angles start at +x here, so this one is 90° minus yours.", "$1(90° - $2$3)"),
	as("", patternWith(`^(.+\S)\s*[∠@]\s*(-?\d.*)$`, "∠", "@"), anAngle, "$1 at $2"),
	as("", patternWith(`^(.+=.+), (-?\d[\d.]*\s?(?:°|deg|degrees|rad)( .+)?)$`, ", "), anAngle, "$1 at $2"),
	as("", patternWith(`^(.*)<([^<>]+,[^<>]+)>(.*)$`, "<"), inBrackets, "$1($2)$3"),
	as("", patternWith(`^(.*)\{([^{}]+,[^{}]+)\}(.*)$`, "{"), inBrackets, "$1($2)$3"),
	as("", patternWith(`^(.*)\(([^();]+);([^();]+)\)(.*)$`, ";"), inBrackets, "$1($2,$3)$4"),
	as("", patternWith(`^(.*)`+aName+`\.([xyz])\b(.*)$`, "."), "Write a component with _ and its axis.", "$1${2}_$3$4"),
	as("", patternWith(`^(.*[\pL\d)_']) x ([\pL(].*)$`, " x "), "The cross product is written ×.", "$1×$2"),

	as("let", patternWith(`^let (.+=.+)$`, "="), "A value needs no `let`.", "$1"),
	as("let", patternWith(`^let (.+?) (?:be|is|has|measured) (?:a .+ )?(in .+)$`, "be", "is", "has", "measured"), "The unit comes after `in`.", "let $1 $2"),
	as("let", patternWith(`^let (.+ in .+)$`, ",", "and"), eachItsLine, "let $1…"),

	as("bars", patternWith(`^bars (?:from )?(["“'].+)$`, "\"", "“", "'"), "A place begins with `at`.", "bars at $1"),
	as("bars", patternWith(`^(bars .+)[|;,]\s*(["“].+)$`, "|", ";", ","), "A place begins with `at`.", "$1| at $2"),
	as("bars", patternWith(`^(bars .+?)\s*[;,]\s*(at .+)$`, ";", ","), "Places have | between them.", "$1 | $2"),
	as("bars", patternWith(`^bars at ([\pL ]+?)\s*:([^|]+)\| at ([\pL ]+?)\s*:([^|]+)$`, ":"), "A place needs quotation marks.", "bars at \"$1\":$2| at \"$3\":$4"),
	as("bars", patternWith(`^bars at ("[^"]+")\s+([^|:]+?)\s*\| at ("[^"]+")\s+([^|:]+)$`, "\""), "A place needs a colon after it.", "bars at $1: $2 | at $3: $4"),
	as("bars", patternWith(`^(bars .+ with )(?:W = )?([^=]+)$`, "with"), "Work comes after `with work`.", "${1}work $2"),

	as("arrows", patternWith(`^(arrows .+?)[,:]? (?:tip|head|tail|nose|end)(?:[- ](?:to|in)[- ]|[- ])(?:tail|tip|head|end)\b(.*)$`, "tail", "tip", "end"), "For one arrow after the other, write `head to tail`.", "$1 head to tail$2"),
	as("arrows", patternWith(`^(arrows .+?),? (?:on|in|from|at) (?:a |the )?(?:box|block|body)\b(.*)$`, "box", "block", "body"), "For a box to start on, write `on a box`.", "$1 on a box$2"),
	as("arrows", patternWith(`^(arrows .+?),? (?:on|from|at) (?:a |the |one )?(?:dot|point|particle)\b(.*)$`, "dot", "point", "particle"), "Arrows begin at one point anyway.", "$1$2"),
	as("arrows", patternWith(`^(arrows .+?),? with (?:the |their )?components?(?: marked)?\b(.*)$`, "component"), "For components, write `with components`.", "$1 with components$2"),
	as("arrows", patternWith(`^(arrows .+?),? with (?:the |their )?(?:angle|direction)s?(?: marked)?\b(.*)$`, "angle", "direction"), "For angles, write `with angles`.", "$1 with angles$2"),
	as("arrows", patternWith(`^(arrows .+?),? and (.+)$`, "and"), "Arrows have commas between them.", "$1, $2"),

	as("fit", patternWith(`^fit (?:a )?(?:straight )?(?:line|curve)(?: to| of| for| through| in)? (.+)$`, "line", "curve"), "The readings come right after `fit`.", "fit $1"),
	as("fit", patternWith(`^(fit .+)\[(as .+)\]$`, "[as"), "Write it without the square brackets.", "$1$2"),
	as("fit", patternWith(`^(fit .+ for (\S+)) (?:start|starting|start at|starting at|start with|starting with|from) ([^=]+)$`, "start", "from"), "A start value comes after `starting at` and its name.", "$1 starting at $2 = $3"),

	as("steps", patternWith(`^steps (\|.+\|)$`, "|"), "Steps need a name.", "size = $1", "steps size"),
	as("budget", patternWith(`^budget (\|.+\|)$`, "|"), "A budget needs a name.", "size = $1", "budget size"),
	as("budget", patternWith(`^budget (?:for|of) (.+)$`, "for", "of"), "The name comes right after `budget`.", "budget $1"),
	as("budget", patternWith(`^(budget \S+) (?:with |by )?(?:sampling|simulation|random draws).*$`, "sampling", "simulation", "random"), "For sampling, write `by sampling`.", "$1 by sampling"),
	as("budget", patternWith(`^(budget .+?) (?:with|at|to|for|in) (\d.*%)$`, "%"), "The share of the values comes after `covering`.", "$1 covering $2"),

	as("", patternWith(`^`+aLabel+`([a-zA-Z]|[ivx]{1,4}|[0-9]{1,2})`+aPart, ")", ".", ":"), "A label can't be before a value.", "$2").only(givesValue).after("A part begins with its own line, `part $1: …`. "),
	as("", patternWith(`^`+aLabel+`([a-zA-Z]|[ivx]{1,4})`+aPart, ")", ".", ":"), "Is this the beginning of a part?", "part $1: $2"),
	as("", patternWith(`^(\pL[\pL ]+:\s*([^=].*)?)$`, ":"), "Words are kept in a note.", "note $1"),
	as("", patternWith(`^([^=\s]+?)\s*[≈≅]\s*(.+)$`, "≈", "≅"), "For \"about equal\", use = and within.", "check $1 = $2 within 1 %").only(compares),
	as("", patternWith(`^([^=\s]+?)\s*[≈≅]\s*(.+)$`, "≈", "≅"), "For \"about equal\", use = and within.", "$1 = $2"),
	as("", patternWith(`^([^<>=≤≥]+?)\s*([<>≤≥]=?)\s*([^<>=≤≥]+)$`, "<", ">", "≤", "≥"), "A comparison begins with `check`.", "check $1 $2 $3").only(compares),
	as("", patternWith(`^([^<>=≤≥]+?)\s*[<>≤≥]=?\s*([^<>=≤≥]+)$`, "<", ">", "≤", "≥"), "$1 has no value yet. At its limit, both sides are equal.", "$1 = $2").only(givesKnown),
	as("", patternWith(`^(\S+)\s*=\s*(.+?)\s+at\s+(\S+)\s*=\s*(.+)$`, "at"), "For a value at one place, define a function.", "${1}1($3) = $2", "${1}1($4)"),
	as("", patternWith(`^`+aName+`\s*=[^=\pL]*\d[^=\pL]*=\s*([^=]*\d[^=]*)$`, "="), "The first value has no unit, but the one after it has.", "$1 = $2").only(isMeasured).found(finding.Unreadable),
	as("", patternWith(`^(.+?)`+toFigures, "f", "F"), "The digits of a given value say how many figures it has.", "$1").only(isGiven),
	as("", patternWith(`^(`+aName+`\s*=.+?)`+toFigures, "f", "F"), "A line keeps all figures. `report` rounds.", "$1", "report $2 to $3 figures").only(givesValue),
	as("", patternWith(`^([^=]+?)`+toFigures, "f", "F"), "A line keeps all figures. `report` rounds.", "report $1 to $2 figures"),

	as("", patternWith(`^(?:tip|head)[- ](?:to|in)[- ]tail:?\s+(.+)$`, "tail"), "Vectors are drawn by `arrows`.", "arrows $1 head to tail"),
	as("", patternWith(`^(?:vectors?|free[- ]body diagram(?: of)?):?\s+(.+)$`, "vector", "free"), "Vectors are drawn by `arrows`.", "arrows $1"),
	as("", patternWith(`^(?:delete|erase|drop) (?:line )?(\d+)$`, "delete", "erase", "drop"), "Use `remove` to take a line out.", "remove $1"),
	as("", patternWith(`^(?:edit|correct|modify) (?:line )?(\d+)((?: to .*)?)$`, "edit", "correct", "modify"), "Use `change` to edit a line.", "change $1$2"),
	as("", patternWith(`^(?:show|list|view) (?:lines? )?(\d+)(?:\s*(?:-|–|to)\s*(\d+))?$`, "show", "list", "view"), "Use `page` to see lines.", "page $1"),
	as("", patternWith(`^(?:convert|express) (.+ in .+)$`, " in "), "A unit after `in` is enough to convert a value.", "$1"),
	as("", patternWith(`^(\p{Lu}\p{Ll}*\s[^=]*[.?])$`, ".", "?"), "Words are kept in a note.", "note $1"),
	as("", patternWith(`^`+aName+`:\s*([^=]+)$`, ":"), "Put the value after =.", "$1 = $2"),
	as("", patternWith(`^(.+=.+?)\s*[.;]$`, ".", ";"), "A line needs no sign at its end.", "$1"),
	as("", patternWith(`^`+aName+`\s*(?:/|\(|\[| in )\s*([^=\d]+?)[)\]]?\s*=\s*(-?\d[^ a-zA-Z]*)$`, "/", "(", "[", " in "), "The unit comes after the number.", "$1 = $3 $2"),
	as("", patternWith(`^(.+=\s*-?\d[\d.e-]*),?\s*\[?([^\d\]]+)\]?$`, "[", ","), "The unit comes right after the number.", "$1 $2"),
	as("", patternWith(`^`+aName+` (?:of|for) ([\pL ]+?)\s*=\s*(.+)$`, " of ", " for "), "A name is one word. What it means comes after a comma.", "$1 = $3, $1 of $2"),
}

// MayBeSeveral tells quickly whether a line may be several statements: it has more than one
// equals sign.
func MayBeSeveral(text string) bool {
	return strings.Count(text, "=") > 1 && !strings.Contains(text, "\n")
}

// Several are the statements of a line which gives several names values, with a comma, a
// semicolon or `and` between them; nil for another.
func (rd *Reader) Several(text string) []string {
	if strings.Contains(text, " with ") {
		return nil
	}
	r := reader{text: text, to: len(text), known: rd.Known}
	r.from, r.to = trimBlanks(text, 0, len(text))
	return r.rewordedAs(&severalValues, text[r.from:r.to], "", 0)
}

// settled are the findings of a line that the page may settle: names without a sign.
var settled = []finding.ID{finding.NamesTogether, finding.UnitOrName, finding.TwoReadings}

// statementJoint is between two statements of one line, of which the second gives a name.
var statementJoint = patternWith(`\s*(?:[,;]\s*(?:and\s+)?|\s+and\s+)(?:let )?(`+aName+`(?:\([^()=]*\))?\s*(?:=| in ))`, ",", ";", "and")

// answerJoint is between two answers of one line.
var answerJoint = patternWith(`(?:\s*,\s*(?:and\s+)?|\s+and\s+)()`, ",", "and")

// intervalJoint is between two intervals of one line.
var intervalJoint = patternWith(`\s*[,;]\s*(?:and\s+)?([^,;]+? for )`, ",", ";")

// reworded finds the first of the rewordings that can be read; nil if there is none.
//
// The rows of a statement are tried for its own word alone. The order of the rows is their
// precedence, as for all slips.
func (r *reader) reworded(word string) *fault {
	if r.silent || strings.Contains(r.text, "\n") {
		return nil
	}
	line := r.text[r.from:r.to]
	for i := range rewordings {
		w := &rewordings[i]
		if lines := r.rewordedAs(w, line, word, mostReworded); lines != nil {
			told := func(words string) string { return w.slip.compiled().ReplaceAllString(line, words) }
			text := strings.Join(lines, "\n")
			hint := told(w.hint) + "`" + strings.Join(lines, "` and then `") + "`."
			if len(StatementsOf(text)) < strings.Count(text, "\n")+1 {
				hint = "" // one with a body, which is shown as it is
			}
			bad := &fault{finding.New(w.id, Span{From: r.from, To: r.to}, told(w.message), hint, text)}
			if w.here {
				from, to := differ(line, lines[0])
				bad.At = Span{From: r.from + from, To: r.from + to}
				bad.Readings = []string{lines[0][from : len(lines[0])-(len(line)-to)]}
			}
			return bad
		}
	}
	return nil
}

// differ is where a line differs from another: at least one character of it.
func differ(line, from string) (int, int) {
	at, end := 0, 0 // of the beginning and of the end that are the same
	for at < min(len(line), len(from)) && line[at] == from[at] {
		at++
	}
	for end < min(len(line), len(from))-at && line[len(line)-1-end] == from[len(from)-1-end] {
		end++
	}
	if at+end == len(line) && at > 0 {
		at--
	}
	for at > 0 && !utf8.RuneStart(line[at]) {
		at--
	}
	for end > 0 && !utf8.RuneStart(line[len(line)-end]) {
		end--
	}
	return at, len(line) - end
}

// mostReworded is how often one slip may be in a line, and how many statements a line may hold.
const mostReworded = 8

// rewordedAs are the lines as which one of the rewordings writes a line; nil where they can't
// be read. A line that can't may have the same slip once more.
func (r *reader) rewordedAs(w *reworded, line, word string, most int) (out []string) {
	if word == "" && w.words != "" || word != "" && !strings.Contains(w.words, word) || w.without != "" && strings.Contains(line, w.without) || w.slip.in(line) == nil {
		return nil
	}
	several := false
	for _, to := range w.lines {
		one, behind, each := strings.Cut(to, "…")
		lead, _, _ := strings.Cut(one, "$")
		text, tail := strings.TrimRight(w.slip.compiled().ReplaceAllString(line, one), " "), w.slip.compiled().ReplaceAllString(line, behind)
		if strings.Contains(to, "\n") {
			text = intervalJoint.compiled().ReplaceAllString(text, "\n  $1")
		}
		if several = several || each; !each {
			out = append(out, text)
			continue
		}
		joint := &statementJoint
		if w.joint != nil {
			joint = w.joint
		}
		for _, part := range joint.parts(text[len(lead):]) {
			out = append(out, lead+part+tail)
		}
	}
	if several && (len(out) < 2 || len(out) > mostReworded) {
		return nil
	}
	for i, text := range out {
		s, bad := (&Reader{Known: r.known}).read(text, reader{silent: true})
		switch {
		case s == nil && w.again && most > 0:
			for k := range rewordings {
				if same := &rewordings[k]; same.again && same.words == w.words {
					if lines := r.rewordedAs(same, text, word, most-1); lines != nil {
						return lines
					}
				}
			}
			return nil
		case s == nil && (w.again || word == "" && !several || !slices.Contains(settled, bad[0].ID)):
			return nil
		case s != nil && w.meant != nil && (i == 0 || len(w.lines) == 1) && !w.meant(r, s):
			return nil
		}
	}
	return out
}
