package finding

// ID is the stable identifier of a kind of finding. Tests, JSON and the
// reference use it; it never changes once it has been printed.
type ID string

// The identifiers. Each has a line in the table below, which gives its
// severity and its sentence in the reference.
const (
	// reading a line
	Unreadable      ID = "unreadable"        // the line does not follow the language
	BadNumber       ID = "bad-number"        // 1,280 · 0,5 · 1 e3 · 2x10^8
	TwoReadings     ID = "two-readings"      // 1/2 kg · 1/2π√(k/m) · √x^2
	UnknownUnit     ID = "unknown-unit"      // no such unit
	UnitText        ID = "unit-text"         // kgm/s · m/s2 · J/kg/K · 12 Nm · 3 ft-lb
	NamesTogether   ID = "names-together"    // 2ax · mgh · m(g+a)
	NotWritten      ID = "not-written-so"    // |x| · e^x · log(x) · sin 30° · sin²(θ) · 5' · 3 % of m · x² m
	NotAvailableYet ID = "not-available-yet" // part of the language that this version can't do
	UnknownFormat   ID = "unknown-format"    // a worksheet's first line
	File            ID = "file"              // a file that can't be read or written
	TooLong         ID = "too-long"          // a limit of length, nesting, digits or cost
	BadText         ID = "bad-text"          // not UTF-8, NUL, direction marks
	StrayRecord     ID = "stray-record"      // "= 3 J" under nothing that records a value
	Incomplete      ID = "incomplete"        // an open bracket or a final operator

	// names
	UnknownName  ID = "unknown-name"
	UnitOrName   ID = "unit-or-name"   // 2g where g is a name of the worksheet
	LackingUnit  ID = "lacking-unit"   // a plain number explains an odd quantity
	GivenAgain   ID = "given-again"    // a name given a second time
	OwnName      ID = "own-name"       // x = x + 1 m
	NameKind     ID = "name-kind"      // a name both quantity and function; a reserved word
	UnitExists   ID = "unit-exists"    // an own unit that has the name of a known one
	WrongCall    ID = "wrong-call"     // arguments: too few, too many, unknown
	NothingThat  ID = "nothing-that"   // "that" with no value above it
	NotWorkedOut ID = "not-worked-out" // needs a line that failed
	NoValueYet   ID = "no-value-yet"   // needs a symbol that has a unit only
	InBraces     ID = "in-braces"      // {m} in a note, where no line above gives m

	// dimensions
	UnitMismatch        ID = "unit-mismatch"          // reported in a unit of another dimension
	UnlikeDimensions    ID = "unlike-dimensions"      // J + N, m < m²
	ArgumentDimension   ID = "argument-dimension"     // sin of a length
	FormulaArgument     ID = "formula-argument"       // a formula's symbol given another dimension
	ExponentDimension   ID = "exponent-dimension"     // 2^(3 m)
	ExponentNotWritten  ID = "exponent-not-written"   // x^n where n is worked out
	AngleOrCycle        ID = "angle-or-cycle"         // rad/s in Hz and Hz in rad/s: the factor 2π
	RateWithout2Pi      ID = "rate-without-2pi"       // √(k/m) in Hz, T = 1/ω
	UnequalLists        ID = "unequal-lists"          // lists of 5 and of 4 values added
	OneValueNeeded      ID = "one-value-needed"       // a list where one value is needed
	VectorOrNumber      ID = "vector-or-number"       // a vector where a number is needed, or the other way round
	ZeroTwice           ID = "zero-two-dimensions"    // a bare 0 used as two dimensions
	TemperatureSum      ID = "temperature-sum"        // 20 °C + 5 °C
	TemperatureGiven    ID = "temperature-given"      // ΔT = 5 °C
	TemperatureReading  ID = "temperature-reading"    // a value in K shown in °C that is neither
	TorqueOrEnergy      ID = "torque-or-energy"       // τ in J, E in N m
	UnusualSign         ID = "unusual-sign"           // a tension of -5 N
	CommonSlip          ID = "common-slip"            // K = m*v^2, π*d^2, 25 °C + 273.15 K
	DimensionOutOfRange ID = "dimension-out-of-range" // exponents of a thousand million

	// figures
	NoFigures   ID = "no-figures"   // 5.02 m - 5.019 m shown to the givens' figures
	Noughts     ID = "noughts"      // 1200 N decides how many figures are known
	MoreFigures ID = "more-figures" // report k to 5 figures, of givens with two
	FirstOrder  ID = "first-order"  // √x at x = 0 ± 1: no slope, so no uncertainty

	// numbers
	NoRealValue    ID = "no-real-value"    // √ of a negative, ln 0, asin 2
	DivisionByZero ID = "division-by-zero" //
	OutOfRange     ID = "out-of-range"     // beyond what a number here can hold
	NoInterval     ID = "no-interval"      // outside every interval of a function
	Stopped        ID = "stopped"          // by Ctrl-C

	// checks and records
	CheckFailed   ID = "check-failed"
	RecordDiffers ID = "record-differs"
	Unrecorded    ID = "unrecorded"

	// solving
	NoSolution  ID = "no-solution"  // no real value satisfies the equation
	WhichRoot   ID = "which-root"   // several values do, and none is asked for
	OtherRoot   ID = "other-root"   // another value satisfies the equation too
	NoRange     ID = "no-range"     // a range without length
	Decades     ID = "decades"      // a graph whose range or values go over more than two decades
	NoSlope     ID = "no-slope"     // a corner, a jump or a vertical tangent
	BooksDiffer ID = "books-differ" // an energy bar chart does not balance
	Searched    ID = "searched"     // found by search, since no rearrangement leads there
	NotSettled  ID = "not-settled"  // neither proved to hold a solution nor proved empty
	BadData     ID = "bad-data"     // readings with a cell that holds no number
	NoFit       ID = "no-fit"       // no parameters were found that fit readings best
	NotSolved   ID = "not-solved"   // this equation can't be rearranged here

	// said once
	ReadAs          ID = "read-as"          // Nm is N m, 3x10^8 is 3×10^8
	StandardGravity ID = "standard-gravity" // g is 9.80665 m/s² until set
)

// about is what the reference says of an identifier.
type about struct {
	id       ID
	severity Severity
	sentence string
}

// table is searched in order: a finding is rare, and a map would have to be
// built at each start.
var table = [...]about{
	{Unreadable, Error, "The line can't be read; the ^ marks the first word that doesn't fit."},
	{BadNumber, Error, "The number can't be read as it is written, as with a decimal comma."},
	{TwoReadings, Error, "The line can be read in two ways; both are shown."},
	{UnknownUnit, Error, "There is no unit of this name; the nearest are shown."},
	{UnitText, Error, "This isn't a unit; the unit that was meant is shown."},
	{NamesTogether, Error, "There is nothing between two names; their product is shown."},
	{NotWritten, Error, "This is written in another way here; that way is shown."},
	{NotAvailableYet, Error, "This version can't do this yet."},
	{UnknownFormat, Error, "The first line of a worksheet names a format that this version does not know."},
	{File, Error, "A file can't be read or written, or the command can't be carried out."},
	{TooLong, Error, "The line is too long, or takes too much work."},
	{BadText, Error, "The text has characters that can't be used."},
	{StrayRecord, Error, "A recorded result is below a statement that has no result."},
	{Incomplete, Error, "The line is unfinished."},

	{UnknownName, Error, "No line above defines this name; the nearest are shown."},
	{UnitOrName, Error, "A word could be a unit or a name of the worksheet; both ways to read it are shown."},
	{LackingUnit, Caution, "The unit of a plain number seems to be missing: with it, the value would be what its symbol is used for."},
	{GivenAgain, Caution, "A name is given a second time."},
	{OwnName, Error, "The right side uses the name that the line defines."},
	{NameKind, Error, "The word can't be used as this kind of name."},
	{UnitExists, Error, "A unit of the worksheet may not take the name of a known unit."},
	{WrongCall, Error, "A function or formula is used with too few values, too many, or the wrong ones."},
	{NothingThat, Error, "The word that means the value above, and there is none."},
	{NotWorkedOut, Error, "The line needs a line that could not be worked out."},
	{NoValueYet, Note, "The units are checked; there is no value yet, since a symbol has none."},
	{InBraces, Caution, "A name in braces is not defined above."},

	{UnitMismatch, Mismatch, "The unit after `in` is for another kind of quantity than the value."},
	{UnlikeDimensions, Mismatch, "Quantities of different kinds are added, subtracted or compared."},
	{ArgumentDimension, Mismatch, "A function can't take a quantity of this kind."},
	{FormulaArgument, Mismatch, "A formula takes another kind of quantity here."},
	{ExponentDimension, Mismatch, "An exponent has a unit."},
	{ExponentNotWritten, Error, "The exponent of a quantity with a unit must be a number, or a name given as a number."},
	{AngleOrCycle, Mismatch, "An angle per time is reported in cycles per time, or the other way round: 2π is missing."},
	{RateWithout2Pi, Caution, "A rate in radians is used as a frequency, or the time for one radian as a period, or the other way round: 2π is missing."},
	{UnequalLists, Error, "Two lists of different lengths are put together; both lengths are shown."},
	{OneValueNeeded, Error, "There is a list where one value is needed."},
	{VectorOrNumber, Error, "There is a vector where a number is needed, or a number where a vector is."},
	{ZeroTwice, Mismatch, "A 0 without a unit is used as two different kinds of quantity."},
	{TemperatureSum, Mismatch, "Temperatures are added or multiplied; only differences of temperatures can be."},
	{TemperatureGiven, Error, "A difference of temperature is given in °C."},
	{TemperatureReading, Caution, "A value in K is shown in °C, though it is not clear whether it is a temperature or a difference."},
	{TorqueOrEnergy, Caution, "A torque is in J, or an energy in N m."},
	{UnusualSign, Caution, "A value has a sign that a quantity of its name can't have: a normal force or a tension is negative, or the work of friction positive."},
	{CommonSlip, Caution, "The units agree, but the line has a slip that is often made, such as a missing 1/2."},
	{DimensionOutOfRange, Error, "An exponent of a unit is too large to keep."},

	{NoFigures, Caution, "No figure of the value is sure."},
	{Noughts, Caution, "Zeros at the end of a given decide how many figures a result has, but may only fill places."},
	{MoreFigures, Caution, "An answer is reported with more figures than its givens support."},
	{FirstOrder, Caution, "The uncertainty of a value can't be told from the slopes at the givens."},

	{NoRealValue, Error, "There is no real value, as for the root of a negative number."},
	{DivisionByZero, Error, "Something is divided by zero."},
	{OutOfRange, Error, "The value is too large for a number here to hold."},
	{NoInterval, Error, "No interval of the function has this value in it."},
	{Stopped, Error, "The line was stopped before it was done."},

	{CheckFailed, Check, "The two sides of a check do not agree."},
	{RecordDiffers, Check, "The value differs from the one recorded in the worksheet."},
	{Unrecorded, Note, "The worksheet has no record of this result."},

	{NoSolution, Error, "No real value of the unknown solves the equation."},
	{WhichRoot, Error, "Several values solve the equation; the line must say which is meant."},
	{OtherRoot, Note, "Another value solves the equation too."},
	{NoRange, Error, "The range of a graph, a table or an area begins and ends at the same value, an interval ends before it begins, or all arrows of a drawing have no length."},
	{Decades, Note, "The range or the values of a graph go over more than two powers of ten; logarithmic axes are offered."},
	{NoSlope, Error, "A curve has a corner, a jump or a vertical tangent at a point, so it has no slope there."},
	{BooksDiffer, Check, "The energies of a bar chart do not add up from one stage to the next."},
	{Searched, Note, "The equation can't be rearranged for the unknown; its values were searched for in a range."},
	{NotSettled, Caution, "Somewhere in the range it could not be told whether there is a solution."},
	{BadData, Error, "A table of readings can't be read; the line and the column are shown."},
	{NoFit, Error, "No best line or values were found for the readings."},
	{NotSolved, Error, "This version can't solve the equation for the unknown."},

	{ReadAs, Note, "Something is written in another way than in print, and is read all the same: nothing else can be meant."},
	{StandardGravity, Note, "g is standard gravity, unless the worksheet sets its own."},
}

// find returns the row of an identifier, or an empty one.
func (id ID) find() about {
	for i := range table {
		if table[i].id == id {
			return table[i]
		}
	}
	return about{}
}

// Severity returns the severity that findings of this kind have.
func (id ID) Severity() Severity { return id.find().severity }

// Sentence returns what the reference says of the identifier.
func (id ID) Sentence() string { return id.find().sentence }

// IDs returns every identifier, in the order of the reference.
func IDs() []ID {
	ids := make([]ID, len(table))
	for i := range table {
		ids[i] = table[i].id
	}
	return ids
}
