package syntax

// StatementWord is a word that a statement begins with.
type StatementWord struct {
	Word    string
	Form    string // how the statement is written
	Summary string // what it does, in one sentence
	Example string // a line that can be entered as it is
	Stored  bool   // it is kept in a worksheet
	Ready   bool   // this version works it out
}

// statements is the language's table of statement words.
var statements = [...]StatementWord{
	{"check", "check A = B [within 1 %]", "Tests that two sides agree, or that a value is negative, positive or zero.", "check 1/2*4 kg*(3 m/s)^2 = 18 J", true, true},
	{"let", "let NAME in UNIT", "Gives a symbol a unit and no value yet, so that units are checked before any number is known.", "let k in N/m", true, true},
	{"formula", "formula NAME: A = B", "Defines an equation with the units and the words of its symbols on indented lines.", "formula hill_energy: E = m*a*h\n  E in J, energy gained\n  m in kg, mass\n  a in m/s^2, gravity\n  h in m, height", true, true},
	{"part", "part LABEL: QUESTION", "Begins a part of the question.", "part a: How stiff is the spring?", true, true},
	{"note", "note TEXT", "Prose that is printed with the worksheet.", "note The scale was read from straight ahead.", true, true},
	{"report", "report NAME [in UNIT] [to N figures] [for N points]", "Makes a value an answer of its part.", "report k in N/m to 3 figures for 2 points", true, true},
	{"constants", "constants NAME, NAME", "Brings in constants of nature by their symbols.", "constants G, c", true, true},
	{"results", "results to N figures", "Sets how many figures results are shown with.", "results to 3 figures", true, true},
	{"round", "round halves to even", "Sets what becomes of a five with nothing after it.", "round halves to even", true, true},
	{"describe", "describe NAME", "Tells what a name is and where it is used.", "describe k", false, true},
	{"help", "help [WORD]", "Looks up a unit, a quantity, a formula, a function or a statement.", "help newton", false, true},
	{"names", "names", "Lists what has been given and worked out.", "names", false, true},
	{"undo", "undo", "Takes the last statement back with what hangs on it.", "undo", false, true},
	{"save", "save FILE", "Writes the worksheet to a file.", "save porch-swing.worked", false, true},
	{"open", "open FILE", "Reads a worksheet from a file.", "open porch-swing.worked", false, true},
	{"replay", "replay", "Works every line out again and compares it with its record.", "replay", false, true},
	{"worksheet", "worksheet 1 TITLE", "Gives the worksheet its title, with which it is saved.", "worksheet 1 Crates over a pulley", false, true},
	{"quit", "quit", "Leaves the scratchpad.", "quit", false, true},
	{"solve", "solve EQ for NAME [in UNIT] [with …] [where …]", "Rearranges an equation and works it out.", "solve 3 J = 1/2*k1*(5 cm)^2 for k1 in N/m", true, true},
	{"scaling", "scaling EXPR against NAME", "Says how one quantity grows with another.", "scaling T against L", true, true},
	{"slope", "slope of F(x) at x = A [in UNIT]", "The derivative of a function at a point.", "slope of (5 m/s^2)*t^2 at t = 3 s", true, true},
	{"area", "area under F(x) [against x] from A to B [in UNIT]", "The integral of a function between two bounds.", "area under (3 N/m)*x against x from 0 m to 4 m", true, true},
	{"graph", "graph F(x)[, G(x)] against x from A to B [in UNIT] [blank]", "Draws curves and says their shape in words.", "graph 1/2*(30 N/m)*x^2 against x from 0 m to 2 m in J", true, true},
	{"table", "table F(x)[, G(x)] against x from A to B [by STEP] [in UNIT]", "Prints columns of values.", "table 1/2*(30 N/m)*x^2 against x from 0 m to 2 m in J", true, true},
	{"bars", "bars at \"PLACE\": A, B | at \"PLACE\": C [with work W] [within D]", "An energy bar chart whose books are checked.", "bars at \"released\": 3 J, 0 J | at \"leaves\": 1 J, 2 J", true, true},
	{"data", "data FILE", "Columns of readings, paired row by row.", "data swing.csv", true, false},
	{"fit", "fit A against B", "Fits a line or a model to readings.", "fit T^2 against m", true, false},
	{"steps", "steps NAME, or steps all", "The worked lines of a result, or of the whole worksheet.", "steps k", true, true},
	{"budget", "budget NAME", "The uncertainty budget of a result.", "budget k", true, false},
	{"vary", "vary NAME from A to B by STEP", "Gives a range for versions of a test.", "vary m from 0.06 kg to 0.10 kg by 0.005 kg", true, false},
	{"marking", "marking: RULE", "How answers are marked.", "marking: 1 point off for a wrong unit", true, false},
	{"diagnose", "diagnose ANSWER as NAME", "Looks for the slip behind an answer.", "diagnose 128 N as k", false, false},
}

// Statements lists the words that statements begin with.
func Statements() []StatementWord { return statements[:] }

// Reserved tells whether a word is never a name.
func Reserved(name string) bool {
	switch name {
	case "in", "for", "to", "from", "by", "and", "where", "within", "against", "at", "with", "that", "pi", "π":
		return true
	}
	return false
}

// endsUnit tells whether a word that is no unit may follow one.
func endsUnit(word string) bool {
	switch word {
	case "figure", "figures", "point", "points", "uniform", "triangular", "normal", "of", "is", "if", "as", "per", "blank":
		return true
	}
	return Reserved(word)
}

// statementWord finds a statement's word.
func statementWord(word string) (StatementWord, bool) {
	for i := range statements {
		if statements[i].Word == word {
			return statements[i], true
		}
	}
	return StatementWord{}, false
}
