package syntax

import "steelyard/units"

// Stmt is a statement. The set of statements is closed.
type Stmt interface {
	stmt()
}

// Comparison is the sign of a check or of an interval's bound.
type Comparison uint8

// The comparisons.
const (
	Equal Comparison = iota
	Less
	Greater
	AtMost
	AtLeast
)

// SignWord is what "check W is …" asks.
type SignWord uint8

// The signs a check may ask for; NoSign means that a comparison is asked.
const (
	NoSign SignWord = iota
	Negative
	Positive
	Zero
)

type (
	// Define is NAME = EXPR [in UNIT]: a given or a result.
	Define struct {
		Name   string
		NameAt Span
		X      Expr
		In     UnitText
	}
	// Value is EXPR [in UNIT]: a result with no name.
	Value struct {
		X  Expr
		In UnitText
	}
	// FuncDef is NAME(PARAMS) = EXPR [in UNIT], or a body of pieces.
	FuncDef struct {
		Name     string
		NameAt   Span
		Params   []string
		ParamsAt []Span
		X        Expr // nil if there are pieces
		Pieces   []Piece
		In       UnitText
	}
	// Let is let NAME in UNIT: a symbol with a unit and no value yet.
	Let struct {
		Name   string
		NameAt Span
		In     UnitText
	}
	// UnitDef is 1 NAME = EXPR: a unit of this worksheet.
	UnitDef struct {
		Name   string
		NameAt Span
		X      Expr
	}
	// CheckStmt is check A = B [within C], or check A is negative.
	CheckStmt struct {
		Left   Expr
		Op     Comparison
		OpAt   Span
		Right  Expr // nil if Sign is set
		Sign   SignWord
		Within Expr // nil if none was given; a percentage or a quantity
	}
	// FormulaDef is formula NAME: LEFT = RIGHT with its indented lines.
	FormulaDef struct {
		Name        string
		NameAt      Span
		Left, Right Expr
		Symbols     []FormulaSymbol
		Holds       string
		Topic       string
		Source      string
	}
	// Part is part LABEL: QUESTION.
	Part struct {
		Label    string
		Question string
	}
	// Note is prose for print.
	Note struct{ Text string }
	// Remark is # …; it is kept and has no effect. A blank line is a Remark
	// with no text.
	Remark struct{ Text string }
	// Report is report NAME [in UNIT] [to N figures] [for N points], or report
	// sign of NAME.
	Report struct {
		X       Expr
		In      UnitText
		Figures int // 0 if none was asked
		Points  int // 0 if none was given
		Sign    bool
	}
	// Constants is constants G, c.
	Constants struct {
		Names []string
		At    []Span
	}
	// FiguresSetting is results to N figures.
	FiguresSetting struct{ Figures int }
	// RoundSetting is round halves to even, or round halves away from zero.
	RoundSetting struct{ Rule units.Rounding }
	// Command is a word that acts on the scratchpad and is not stored:
	// describe, help, names, undo, save, open, replay, quit.
	Command struct {
		Word   string
		WordAt Span
		Arg    string
		ArgAt  Span
	}
)

// Piece is one interval of a function's body: X for Lo ≤ Var ≤ Hi. Lo or Hi is
// nil for a bound that is not given.
type Piece struct {
	At     Span
	X      Expr
	Var    string
	VarAt  Span
	Lo, Hi Expr
	LoOpen bool // Lo < Var
	HiOpen bool // Var < Hi
}

// FormulaSymbol is one indented line of a formula: U in J, spring energy.
type FormulaSymbol struct {
	Name    string
	NameAt  Span
	Unit    UnitText // "1" for a pure number
	Meaning string
	Default Expr // θ in °, angle, 0° if left out; else nil
}

func (*Define) stmt()         {}
func (*Value) stmt()          {}
func (*FuncDef) stmt()        {}
func (*Let) stmt()            {}
func (*UnitDef) stmt()        {}
func (*CheckStmt) stmt()      {}
func (*FormulaDef) stmt()     {}
func (*Part) stmt()           {}
func (*Note) stmt()           {}
func (*Remark) stmt()         {}
func (*Report) stmt()         {}
func (*Constants) stmt()      {}
func (*FiguresSetting) stmt() {}
func (*RoundSetting) stmt()   {}
func (*Command) stmt()        {}

type (
	// Solve is solve EQ [and EQ…] for NAME [in UNIT][, …] [with …] [where …].
	Solve struct {
		Equations []Equation
		Unknowns  []Unknown
		With      []Binding
		Where     []Condition
	}
	// Steps is steps NAME, or steps all: the worked lines of a result.
	Steps struct {
		Name   string // empty for all
		NameAt Span
	}
)

// Equation is one equation of a solve. Right is nil where Left names a formula.
type Equation struct{ Left, Right Expr }

// Choice says which of several roots is meant.
type Choice uint8

// The choices.
const (
	AnyRoot Choice = iota
	GreatestRoot
	LeastRoot
)

// Unknown is one name that a solve gives a value.
type Unknown struct {
	Name   string
	NameAt Span
	In     UnitText
	Which  Choice
}

// Binding gives a formula's symbol a value: with U = W.
type Binding struct {
	Name   string
	NameAt Span
	X      Expr
}

// Condition bounds the unknown: where t > 0.
type Condition struct {
	Left  Expr
	Op    Comparison
	OpAt  Span
	Right Expr
}

func (*Solve) stmt() {}
func (*Steps) stmt() {}
