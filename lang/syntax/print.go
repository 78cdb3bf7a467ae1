package syntax

import (
	"strconv"
	"strings"

	"steelyard/units"
)

// PrintExpr writes an expression so that reading it gives the same tree. Names
// stand in their canonical form, powers with ^, and brackets only where the tree
// has them.
func PrintExpr(x Expr) string {
	if x == nil {
		return ""
	}
	var p printer
	p.expr(x)
	return p.b.String()
}

// Print writes a statement in the form that worksheets have: reading it gives
// the same tree.
func Print(s Stmt) string {
	var p printer
	p.stmt(s)
	return p.b.String()
}

type printer struct {
	b strings.Builder
	// raised counts the factors, round what is printed, that another follows
	// without a sign.
	raised int
}

func (p *printer) text(parts ...string) {
	for _, s := range parts {
		p.b.WriteString(s)
	}
}

func (p *printer) expr(x Expr) {
	switch x := x.(type) {
	case *Number:
		p.text(x.Value.Text)
	case *Quantity:
		p.quantity(x)
	case *Mixed:
		if x.Neg {
			p.text("-")
		}
		for i, q := range x.Parts {
			if i > 0 {
				p.text(" ")
			}
			p.quantity(q)
		}
	case *Measured:
		p.expr(x.X)
		p.text(" ", x.Unit.Text)
	case *Pi:
		p.text("π")
	case *That:
		p.text("that")
	case *Name:
		p.text(x.Name)
		if x.Line > 0 {
			p.text("@", strconv.Itoa(x.Line))
		}
	case *Paren:
		p.text("(")
		p.expr(x.X)
		p.text(")")
	case *Unary:
		p.unary(x)
	case *Root:
		p.text("√")
		p.expr(x.X)
	case *Binary:
		p.binary(x)
	case *Call:
		p.call(x)
	case *List:
		p.text("[")
		for i, item := range x.Items {
			if i > 0 {
				p.text(", ")
			}
			p.expr(item)
		}
		p.text("]")
		p.unit(x.Unit)
	case *Uncertain:
		p.expr(x.X)
		p.text(" ± ")
		p.expr(x.By)
		p.unit(x.Unit)
	}
}

func (p *printer) unit(u UnitText) {
	if u.Present() {
		p.text(" ", u.Text)
	}
}

func (p *printer) quantity(q *Quantity) {
	p.text(q.Value.Text)
	switch q.Unit.Text {
	case "°", "′", "″":
		p.text(q.Unit.Text)
	default:
		p.text(" ", q.Unit.Text)
	}
}

func (p *printer) unary(x *Unary) {
	if x.Op == Sub {
		p.text("-")
	} else {
		p.text("+")
	}
	p.expr(x.X)
}

func (p *printer) binary(x *Binary) {
	if p.raised > 0 && p.raisedPower(x) {
		return
	}
	if x.Implied {
		p.raised++
	}
	p.expr(x.X)
	if x.Implied {
		p.raised--
	}
	switch {
	case x.Implied:
		if gapNeeded(x.X, x.Y) {
			p.text(" ")
		}
	case x.Op == Add:
		p.text(" + ")
	case x.Op == Sub:
		p.text(" - ")
	case x.Op == Mul:
		p.text("*")
	case x.Op == Div && endsInUnit(x.X):
		p.text(" / ") // 5 m / s divides by s; 5 m/s is a unit
	case x.Op == Div:
		p.text("/")
	case x.Op == Pow:
		p.text("^")
	}
	p.expr(x.Y)
}

// raisedPower prints π², whose exponent would run into a name that follows
// without a sign: π^2 E0.
func (p *printer) raisedPower(b *Binary) bool {
	if b.Op != Pow {
		return false
	}
	_, pi := b.X.(*Pi)
	n, whole := b.Y.(*Number)
	if !pi || !whole || strings.Trim(n.Value.Text, "0123456789") != "" {
		return false
	}
	p.text("π", strings.Map(func(r rune) rune { return []rune("⁰¹²³⁴⁵⁶⁷⁸⁹")[r-'0'] }, n.Value.Text))
	return true
}

// gapNeeded tells whether a blank stands between the factors of an implied
// product: before a function's name, after a number (0.5(2) is an uncertainty)
// and after a number under a root (√2π could be read in two ways).
func gapNeeded(x, y Expr) bool {
	first := y
	for {
		b, ok := first.(*Binary)
		if !ok {
			break
		}
		first = b.X
	}
	if _, call := first.(*Call); call {
		return true
	}
	_, pi := first.(*Pi)
	rooted := false
	for {
		switch t := x.(type) {
		case *Binary:
			x = t.Y
		case *Unary:
			x = t.X
		case *Root:
			x, rooted = t.X, true
		case *Number:
			return rooted || !pi
		default:
			return false
		}
	}
}

// endsInUnit tells whether the text of an expression ends with a unit.
func endsInUnit(x Expr) bool {
	for {
		switch t := x.(type) {
		case *Quantity, *Mixed, *Measured:
			return true
		case *Binary:
			x = t.Y
		case *Unary:
			x = t.X
		default:
			return false
		}
	}
}

func (p *printer) call(x *Call) {
	p.text(x.Func, "(")
	for i, a := range x.Args {
		if i > 0 {
			p.text(", ")
		}
		if a.Name != "" {
			p.text(a.Name, " = ")
		}
		p.expr(a.X)
	}
	p.text(")")
}

func (p *printer) in(u UnitText) {
	if u.Present() {
		p.text(" in ", u.Text)
	}
}

func (p *printer) stmt(s Stmt) {
	switch s := s.(type) {
	case *Define:
		p.text(s.Name, " = ")
		p.expr(s.X)
		p.in(s.In)
	case *Value:
		p.text(nameFirst(PrintExpr(s.X)))
		p.in(s.In)
	case *FuncDef:
		p.function(s)
	case *Let:
		p.text("let ", s.Name)
		p.in(s.In)
	case *UnitDef:
		p.text("1 ", s.Name, " = ")
		p.expr(s.X)
	case *CheckStmt:
		p.check(s)
	case *FormulaDef:
		p.formula(s)
	case *Part:
		p.text("part ", s.Label, ":")
		if s.Question != "" {
			p.text(" ", s.Question)
		}
	case *Note:
		p.text(strings.TrimRight("note "+strings.ReplaceAll(s.Text, "\n", "\n  "), " "))
	case *Remark:
		if s.Text != "" {
			p.text("# ", s.Text)
		}
	case *Report:
		p.report(s)
	case *Constants:
		p.text("constants ", strings.Join(s.Names, ", "))
	case *FiguresSetting:
		p.text("results to ", counted(s.Figures, "figure"))
	case *RoundSetting:
		if s.Rule == units.HalfEven {
			p.text("round halves to even")
		} else {
			p.text("round halves away from zero")
		}
	case *Graph:
		p.graph(s)
	case *Slope:
		p.slope(s)
	case *Area:
		p.area(s)
	case *Bars:
		p.bars(s)
	case *Solve:
		p.solve(s)
	case *With:
		p.with(s)
	case *Scaling:
		p.text("scaling ", PrintExpr(s.X), " against ", s.Against)
	case *Steps:
		if s.Name == "" {
			p.text("steps all")
		} else {
			p.text("steps ", s.Name)
		}
	case *Command:
		p.text(s.Word)
		if s.Arg != "" {
			p.text(" ", s.Arg)
		}
	}
}

// nameFirst keeps an expression that begins with a name from reading as the
// statement that begins with the same word: note+ 3.
func nameFirst(text string) string {
	if _, ok := leadingStatement(text); ok {
		return strings.Replace(text, " ", "", 1)
	}
	return text
}

func counted(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return strconv.Itoa(n) + " " + thing + "s"
}

var comparisons = [...]string{Equal: "=", Less: "<", Greater: ">", AtMost: "≤", AtLeast: "≥"}

func (p *printer) check(s *CheckStmt) {
	p.text("check ")
	p.expr(s.Left)
	switch s.Sign {
	case Negative:
		p.text(" is negative")
	case Positive:
		p.text(" is positive")
	case Zero:
		p.text(" is zero")
	default:
		p.text(" ", comparisons[s.Op], " ")
		p.expr(s.Right)
	}
	if s.Within != nil {
		p.text(" within ")
		p.expr(s.Within)
	}
}

func (p *printer) report(s *Report) {
	p.text("report ")
	if s.Sign {
		p.text("sign of ")
	}
	p.expr(s.X)
	p.in(s.In)
	if s.Figures > 0 {
		p.text(" to ", counted(s.Figures, "figure"))
	}
	if s.Points > 0 {
		p.text(" for ", counted(s.Points, "point"))
	}
}

func (p *printer) function(s *FuncDef) {
	p.text(s.Name, "(", strings.Join(s.Params, ", "), ") =")
	if s.X != nil {
		p.text(" ")
		p.expr(s.X)
	}
	p.in(s.In)
	for i := range s.Pieces {
		q := &s.Pieces[i]
		p.text("\n  ")
		p.expr(q.X)
		p.text(" for ")
		less := func(open bool) string {
			if open {
				return " < "
			}
			return " ≤ "
		}
		switch {
		case q.Lo == nil:
			p.text(q.Var, less(q.HiOpen))
			p.expr(q.Hi)
		case q.Hi == nil:
			p.text(q.Var, strings.NewReplacer("<", ">", "≤", "≥").Replace(less(q.LoOpen)))
			p.expr(q.Lo)
		default:
			p.expr(q.Lo)
			p.text(less(q.LoOpen), q.Var, less(q.HiOpen))
			p.expr(q.Hi)
		}
	}
}

func (p *printer) formula(s *FormulaDef) {
	p.text("formula ", s.Name, ": ")
	p.expr(s.Left)
	p.text(" = ")
	p.expr(s.Right)
	for i := range s.Symbols {
		f := &s.Symbols[i]
		p.text("\n  ", f.Name)
		p.in(f.Unit)
		if f.Meaning != "" {
			p.text(", ", f.Meaning)
		}
		if f.Default != nil {
			p.text(", ")
			p.expr(f.Default)
			p.text(" if left out")
		}
	}
	for _, line := range [...][2]string{{"holds", s.Holds}, {"topic", s.Topic}, {"source", s.Source}} {
		if line[1] != "" {
			p.text("\n  ", line[0], " ", line[1])
		}
	}
}
