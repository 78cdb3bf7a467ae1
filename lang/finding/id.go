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
	GivenAgain   ID = "given-again"    // a name given a second time in a part
	OwnName      ID = "own-name"       // x = x + 1 m
	NameKind     ID = "name-kind"      // a name both quantity and function; a reserved word
	UnitExists   ID = "unit-exists"    // an own unit that has the name of a known one
	WrongCall    ID = "wrong-call"     // arguments: too few, too many, unknown
	NothingThat  ID = "nothing-that"   // "that" with no value above it
	NotWorkedOut ID = "not-worked-out" // needs a line that failed
	NoValueYet   ID = "no-value-yet"   // needs a symbol that has a unit only

	// dimensions
	UnitMismatch        ID = "unit-mismatch"          // reported in a unit of another dimension
	UnlikeDimensions    ID = "unlike-dimensions"      // J + N, m < m²
	ArgumentDimension   ID = "argument-dimension"     // sin of a length
	FormulaArgument     ID = "formula-argument"       // a formula's symbol given another dimension
	ExponentDimension   ID = "exponent-dimension"     // 2^(3 m)
	ExponentNotWritten  ID = "exponent-not-written"   // x^n where n is worked out
	AngleOrCycle        ID = "angle-or-cycle"         // rad/s in Hz and Hz in rad/s: the factor 2π
	RateWithout2Pi      ID = "rate-without-2pi"       // √(k/m) in Hz, T = 1/ω
	ZeroTwice           ID = "zero-two-dimensions"    // a bare 0 used as two dimensions
	TemperatureSum      ID = "temperature-sum"        // 20 °C + 5 °C
	TemperatureGiven    ID = "temperature-given"      // ΔT = 5 °C
	TemperatureReading  ID = "temperature-reading"    // a value in K shown in °C that is neither
	TorqueOrEnergy      ID = "torque-or-energy"       // τ in J, E in N m
	UnusualSign         ID = "unusual-sign"           // a tension of -5 N
	CommonSlip          ID = "common-slip"            // K = m*v^2, π*d^2, 25 °C + 273.15 K
	DimensionOutOfRange ID = "dimension-out-of-range" // exponents of a thousand million

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
	NoSlope     ID = "no-slope"     // a corner, a jump or a vertical tangent
	BooksDiffer ID = "books-differ" // an energy bar chart does not balance
	Searched    ID = "searched"     // found by search, since no rearrangement leads there
	NotSettled  ID = "not-settled"  // neither proved to hold a solution nor proved empty
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
	{Unreadable, Error, "The line does not follow the language; the caret is at the first word that does not fit."},
	{BadNumber, Error, "A number is written in a way that has another meaning here, such as a decimal comma."},
	{TwoReadings, Error, "The line can be read in two ways; both are offered."},
	{UnknownUnit, Error, "No unit has this name; the nearest are offered."},
	{UnitText, Error, "This isn't a unit; the unit meant is offered."},
	{NamesTogether, Error, "Names stand side by side without an operator; the product is offered."},
	{NotWritten, Error, "The notation is known, but is written in another way here; that way is offered."},
	{NotAvailableYet, Error, "A part of the language that this version does not work out yet."},
	{UnknownFormat, Error, "The first line of a worksheet names a format that this version does not know."},
	{File, Error, "A worksheet's file can't be read or written, or what the command line asks of it can't be done."},
	{TooLong, Error, "A limit of length, nesting, digits or work is passed."},
	{BadText, Error, "The text holds bytes or marks that no line may hold."},
	{StrayRecord, Error, "A line that records a result stands under a statement that has none."},
	{Incomplete, Error, "The line ends in the middle of an expression."},

	{UnknownName, Error, "No line above gives this name; the nearest are offered."},
	{UnitOrName, Error, "A word that is both a unit and a name of the worksheet stands where it could be either; both readings are offered."},
	{LackingUnit, Caution, "A plain number seems to lack its unit: with it, the value would be what its symbol is used for."},
	{GivenAgain, Caution, "A name is given a second time within a part of the question."},
	{OwnName, Error, "The right side uses the name that the line defines."},
	{NameKind, Error, "The word can't be used as this kind of name."},
	{UnitExists, Error, "A unit of the worksheet may not take the name of a known unit."},
	{WrongCall, Error, "A function or formula is called with arguments that it does not have."},
	{NothingThat, Error, "There is no value above for the word that to mean."},
	{NotWorkedOut, Error, "The line needs another line that has failed."},
	{NoValueYet, Note, "The units are checked; there is no value, since a symbol has none yet."},

	{UnitMismatch, Mismatch, "The value comes out in another dimension than the unit it is reported in."},
	{UnlikeDimensions, Mismatch, "Quantities of different dimensions are added, subtracted or compared."},
	{ArgumentDimension, Mismatch, "A function is given a quantity of a dimension that it can't take."},
	{FormulaArgument, Mismatch, "A formula's symbol is given a quantity of another dimension."},
	{ExponentDimension, Mismatch, "An exponent has a dimension."},
	{ExponentNotWritten, Error, "The exponent of a quantity with a dimension is neither written out nor a given."},
	{AngleOrCycle, Mismatch, "An angle per time is reported as cycles per time, or the other way round: the factor 2π."},
	{RateWithout2Pi, Caution, "A rate in radians per second stands for a frequency, or the time for a radian for a period: the factor 2π."},
	{ZeroTwice, Mismatch, "A bare 0 is used as two different dimensions."},
	{TemperatureSum, Mismatch, "Temperatures are added, multiplied or scaled as if they were differences."},
	{TemperatureGiven, Error, "A difference of temperature is given in °C."},
	{TemperatureReading, Caution, "A value in K that is neither a temperature nor a difference is shown in °C."},
	{TorqueOrEnergy, Caution, "A torque is reported in J, or an energy in N m."},
	{UnusualSign, Caution, "A value has a sign that a quantity of its name can't have: a normal force or a tension is negative, or the work of friction positive."},
	{CommonSlip, Caution, "The units agree, and yet the line shows a slip that is often made, such as a 1/2 that is left out."},
	{DimensionOutOfRange, Error, "An exponent of a unit is too large to keep."},

	{NoRealValue, Error, "There is no real value, as for the root of a negative number."},
	{DivisionByZero, Error, "Something is divided by zero."},
	{OutOfRange, Error, "The value is too large for a number here to hold."},
	{NoInterval, Error, "The value lies in none of the intervals that the function is given for."},
	{Stopped, Error, "The work was stopped before it ended."},

	{CheckFailed, Check, "The two sides of a check do not agree."},
	{RecordDiffers, Check, "The value differs from the one recorded in the worksheet."},
	{Unrecorded, Note, "The worksheet has no record of this result."},

	{NoSolution, Error, "No real value of the unknown satisfies the equation."},
	{WhichRoot, Error, "Several values satisfy the equation; the line must say which is meant."},
	{OtherRoot, Note, "Another value satisfies the equation too."},
	{NoRange, Error, "The range of a graph, a table or an area has no length."},
	{NoSlope, Error, "A curve has a corner, a jump or a vertical tangent at a point, and so no slope."},
	{BooksDiffer, Check, "The energies of a bar chart do not add up from one stage to the next."},
	{Searched, Note, "No rearrangement leads to the unknown; its values were searched for between bounds."},
	{NotSettled, Caution, "A piece of the range is neither proved to hold a solution nor proved empty."},
	{NotSolved, Error, "The equation can't be rearranged for the unknown by this version."},

	{ReadAs, Note, "Something is written in another way than print does, and is read: nothing else can be meant."},
	{StandardGravity, Note, "g is standard gravity until the worksheet sets its own."},
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
