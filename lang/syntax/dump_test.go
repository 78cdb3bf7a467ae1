package syntax

import (
	"fmt"
	"strconv"
	"strings"
)

// dump writes a tree with brackets round everything, so that a test sees how a
// line was read: (· 2 π) is an implied product, "2|kg" a quantity.
func dump(x Expr) string {
	switch x := x.(type) {
	case nil:
		return ""
	case *Number:
		return x.Value.Written()
	case *Quantity:
		text := x.Value.Written() + "|" + x.Unit.Text
		if x.Value.Off != nil {
			text += x.Value.Off.Shape.String()
		}
		return text
	case *Mixed:
		var parts []string
		for _, q := range x.Parts {
			parts = append(parts, dump(q))
		}
		sign := ""
		if x.Neg {
			sign = "-"
		}
		return sign + "{" + strings.Join(parts, " ") + "}"
	case *Measured:
		return dump(x.X) + "|" + x.Unit.Text
	case *Pi:
		return "π"
	case *That:
		return "that"
	case *Name:
		if x.Line > 0 {
			return x.Name + "@" + strconv.Itoa(x.Line)
		}
		return x.Name
	case *Paren:
		return "[" + dump(x.X) + "]"
	case *Unary:
		return "(" + [...]string{"+", "-"}[x.Op] + " " + dump(x.X) + ")"
	case *Root:
		return "(√ " + dump(x.X) + ")"
	case *List:
		var parts []string
		for _, e := range x.Elems {
			parts = append(parts, dump(e))
		}
		return x.Brackets()[:1] + strings.Join(parts, ", ") + x.Brackets()[1:] + "|" + x.Unit.Text
	case *Polar:
		return "(at " + dump(x.X) + " " + dump(x.Angle) + " " + x.Bearing.String() + ")"
	case *Binary:
		op := [...]string{"+", "-", "*", "/", "^"}[x.Op]
		if x.Implied {
			op = "·"
		}
		return "(" + op + " " + dump(x.X) + " " + dump(x.Y) + ")"
	case *Call:
		var args []string
		for _, a := range x.Args {
			s := dump(a.X)
			if a.Name != "" {
				s = a.Name + ":" + s
			}
			args = append(args, s)
		}
		return x.Func + "<" + strings.Join(args, "; ") + ">"
	case *With:
		out := "(with " + dump(x.X)
		for _, b := range x.By {
			out += " " + b.Name + ":" + dump(b.X)
		}
		return out + ")"
	case *SlopeOf:
		return "(slope " + dump(x.X) + " " + x.Var.Name + ":" + dump(x.Place) + ")"
	case *AreaUnder:
		return "(area " + dump(x.X) + " " + x.Var.Name + " " + dump(x.From) + " " + dump(x.To) + ")"
	}
	return fmt.Sprintf("%T", x)
}

// dumpStmt writes a statement likewise.
func dumpStmt(s Stmt) string {
	in := func(u UnitText) string {
		if u.Present() {
			return " in|" + u.Text
		}
		return ""
	}
	words := func(i Ident) string {
		if i.Meaning != "" {
			return " " + strconv.Quote(i.Meaning)
		}
		return ""
	}
	switch s := s.(type) {
	case nil:
		return "nil"
	case *Define:
		return "define " + s.Name + " " + dump(s.X) + in(s.In) + words(s.Ident)
	case *Value:
		return "value " + dump(s.X) + in(s.In)
	case *FuncDef:
		out := "function " + s.Name + "(" + strings.Join(s.Params, ",") + ") " + dump(s.X) + in(s.In)
		for _, p := range s.Pieces {
			out += fmt.Sprintf(" {%s for %s %v %s %v %s}", dump(p.X), dump(p.Lo), p.LoOpen, p.Var, p.HiOpen, dump(p.Hi))
		}
		return out + words(s.Ident)
	case *Let:
		var names []string
		for _, n := range s.Symbols {
			names = append(names, n.Name)
		}
		return "let " + strings.Join(names, ",") + in(s.In) + [...]string{"", "", " as a vector", " as a vector in space"}[s.Axes()] + words(s.Symbols[0])
	case *UnitDef:
		return "unit " + s.Name + " " + dump(s.X) + words(s.Ident)
	case *CheckStmt:
		out := fmt.Sprintf("check %s %d %s", dump(s.Left), s.Op, dump(s.Right))
		if s.Sign != NoSign {
			out = fmt.Sprintf("check %s sign %d", dump(s.Left), s.Sign)
		}
		if s.Within != nil {
			out += " within " + dump(s.Within)
		}
		return out
	case *FormulaDef:
		out := "formula " + s.Name + " " + dump(s.Left) + " = " + dump(s.Right)
		for _, f := range s.Symbols {
			out += " {" + f.Name + in(f.Unit) + " " + strconv.Quote(f.Meaning) + " " + dump(f.Default) + "}"
		}
		return out + fmt.Sprintf(" %q %q %q", s.Holds, s.Topic, s.Source)
	case *Straighten:
		return "straighten " + dump(s.Y) + " against " + dump(s.X)
	case *Compare:
		return "compare " + dump(s.X) + " with " + dump(s.With)
	case *Report:
		return fmt.Sprintf("report %s%s%s figures %d points %d sign %v", dump(s.X), in(s.In), [...]string{"", " as components", " as polar"}[s.Form], s.Figures, s.Points, s.Sign)
	case *Part:
		return fmt.Sprintf("part %q %q", s.Label, s.Question)
	case *Note:
		return fmt.Sprintf("note %q", s.Text)
	case *Remark:
		return fmt.Sprintf("remark %q", s.Text)
	case *Constants:
		var names []string
		for _, n := range s.Names {
			names = append(names, n.Name)
		}
		return "constants " + strings.Join(names, ",")
	case *FiguresSetting:
		return fmt.Sprintf("figures %d", s.Figures)
	case *Budget:
		out := "budget " + s.Of.Name
		if s.Sampled {
			out += " sampled"
		}
		if s.Covering != nil {
			out += " covering " + dump(s.Covering)
		}
		return out
	case *ExactSetting:
		return "exact"
	case *SpreadSetting:
		if s.Up {
			return "rounded up"
		}
		return "added"
	case *RoundSetting:
		return fmt.Sprintf("round %d", s.Rule())
	case *Solve:
		out := "solve"
		for _, e := range s.Equations {
			out += " {" + dump(e.Left)
			if e.Right != nil {
				out += " = " + dump(e.Right)
			}
			out += "}"
		}
		for _, u := range s.Unknowns {
			out += fmt.Sprintf(" for %s%s %d", u.Name, in(u.In), u.Which)
		}
		for _, b := range s.With {
			out += " with " + b.Name + " " + dump(b.X)
		}
		for _, c := range s.Where {
			out += fmt.Sprintf(" where %s %d %s", dump(c.Left), c.Op, dump(c.Right))
		}
		return out
	case *Scaling:
		return "scaling " + dump(s.X) + " " + s.Against.Name
	case *Steps:
		return "steps " + s.Of.Name
	case *Graph:
		out := map[bool]string{false: "graph", true: "table"}[s.Table] + fmt.Sprintf(" %v", s.Table)
		for _, c := range s.Curves {
			out += " " + dump(c.X) + in(c.In)
		}
		out += " against " + s.Against.Name + " " + dump(s.From) + " " + dump(s.To)
		if s.By != nil {
			out += " by " + dump(s.By)
		}
		if s.Vector {
			out += " vector"
		}
		if s.Path.X != nil {
			out += " path " + dump(s.Path.X) + in(s.Path.In)
		}
		out += in(s.In)
		for word, asked := range map[string]bool{" log across": s.Across && !s.Up, " log up": s.Up && !s.Across, " log across up": s.Across && s.Up} {
			if asked {
				out += word
			}
		}
		return out + fmt.Sprintf(" %v", s.Blank)
	case *Bars:
		out := "bars"
		for _, st := range s.Stages {
			if st.Work.X != nil {
				out += " work " + energy(st.Work)
			}
			out += " [" + st.Name + "]"
			for _, e := range st.Entries {
				out += " " + energy(e)
			}
		}
		if s.Within != nil {
			out += " within " + dump(s.Within)
		}
		return out
	case *Arrows:
		out := "arrows"
		for _, x := range s.Of {
			out += " " + dump(x)
		}
		for _, word := range s.With {
			out += " with " + word
		}
		return out + in(s.In) + fmt.Sprintf(" %v %v %v", s.Chained, s.Boxed, s.Blank)
	case *Command:
		return fmt.Sprintf("command %s %q", s.Word, s.Arg)
	}
	return fmt.Sprintf("%T", s)
}

func energy(e Energy) string {
	if e.Called != nil {
		return e.Called.Name + "=" + dump(e.X)
	}
	return dump(e.X)
}
