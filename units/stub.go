package units

import "math/big"

type Tag uint8

const (
	None Tag = iota
	Angle
	Cycle
)

type Rounding uint8

const (
	HalfAway Rounding = iota
	HalfEven
)

type Figures struct {
	N    int
	Keep bool
}
type Form uint8

const (
	File Form = iota
	Screen
)

type Decimal struct {
	Text               string
	Hi, Lo             float64
	Figures, LastPlace int
}

func ParseDecimal(text string) (Decimal, bool) { return Decimal{}, false }
func (d Decimal) Float() float64               { return d.Hi }
func (d Decimal) Neg() Decimal                 { return d }
func (d Decimal) Rat() *big.Rat                { return new(big.Rat) }

type Unit struct {
	dim Dim
	tag Tag
}

var One = &Unit{}

func (u *Unit) Dim() Dim                            { return u.dim }
func (u *Unit) Tag() Tag                            { return u.tag }
func (u *Unit) Affine() bool                        { return false }
func (u *Unit) Difference() bool                    { return false }
func (u *Unit) Text() string                        { return "" }
func (u *Unit) Screen() string                      { return "" }
func (u *Unit) ToSI(d Decimal) float64              { return 0 }
func (u *Unit) FromSI(v float64) float64            { return 0 }
func (u *Unit) FromSIDifference(v float64) float64  { return 0 }
func (u *Unit) ToSIFloat(v float64) float64         { return 0 }
func (u *Unit) Convert(d Decimal, to *Unit) float64 { return 0 }
func (u *Unit) Factor() *big.Rat                    { return nil }
func (u *Unit) PiPower() int                        { return 0 }
func (u *Unit) SameAs(o *Unit) bool                 { return false }

type Family uint8

const (
	FamilyNone Family = iota
	FamilyTime
	FamilyArc
	FamilyFoot
	FamilyPound
)

func (u *Unit) Family() (f Family, rank int) { return }

type Table struct{}

func NewTable() *Table { return &Table{} }

type Place uint8

const (
	AfterNumber Place = iota
	AloneInPlace
)

type Problem struct {
	Kind          ProblemKind
	From, To      int
	Message, Hint string
	Readings      []string
}
type ProblemKind uint8

const (
	ProblemUnknown ProblemKind = iota
	ProblemText
	ProblemRange
)

func (t *Table) Parse(text string, p Place) (*Unit, *Problem) { return One, nil }
func (t *Table) Define(name string, of *Unit, siHi, siLo float64) (*Unit, bool) {
	return nil, false
}
func (t *Table) Remove(name string)              {}
func (t *Table) Has(word string) bool            { return false }
func (t *Table) Suggest(word string) []string    { return nil }
func (t *Table) Complete(prefix string) []string { return nil }

type Info struct {
	Symbol, Name, Plural, Quantity, Exact, Source, Remark string
	Prefixable, Core                                      bool
}

func Lookup(word string) (Info, bool) { return Info{}, false }

type Kind struct {
	Name, Article string
	Dim           Dim
	Tag           Tag
	Unit          string
	Others        []string
}

func KindOf(d Dim, t Tag) (Kind, bool) { return Kind{}, false }
func FindKind(word string) []Kind      { return nil }
func Kinds() []Kind                    { return nil }
func Preferred(d Dim, t Tag) *Unit     { return One }
func Coherent(d Dim, t Tag) *Unit      { return One }
func BaseUnits(d Dim) *Unit            { return One }
func Missing(got, wanted Dim) string   { return "" }

type Constant struct {
	Symbol, Name string
	Value        Decimal
	Unit, Source string
	Exact        bool
}

func LookupConstant(symbol string) (Constant, bool) { return Constant{}, false }
func Constants() []Constant                         { return nil }

func FormatNumber(v float64, f Figures, r Rounding, form Form) string { return "" }
func FormatQuantity(v float64, u *Unit, f Figures, r Rounding, form Form) string {
	return ""
}
