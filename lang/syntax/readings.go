package syntax

import (
	"strings"
	"unicode/utf8"

	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/units"
)

// readings looks through trees for what can be read in two ways.
func (r *reader) readings(list ...Expr) *fault {
	var bad *fault
	for _, x := range list {
		if x == nil {
			continue
		}
		Walk(x, func(x Expr) bool {
			if bad != nil {
				return false
			}
			switch x := x.(type) {
			case *Binary:
				bad = first(treeSlips, beside{r, x})
			case *Call:
				if ops.IsLater(x.Func) && !r.alone {
					bad = notYet(x.Name, "The function "+x.Func+"( )")
				}
			}
			return bad == nil
		})
	}
	return bad
}

func (r *reader) source(at Span) string { return r.text[at.From:at.To] }

// numberOver finds 1/2 kg and 1/0.40 s: a written number without a unit over
// one with a unit.
func (r beside) numberOver() *fault {
	if r.Op != Div {
		return nil
	}
	var u UnitText
	switch y := r.Y.(type) {
	case *Quantity:
		u = y.Unit
	case *Mixed:
		u = y.Parts[0].Unit
	default:
		return nil
	}
	b, at := r.Binary, r.Y.Span()
	if !numbersOnly(b.X, u.Text == "rad" || u.Text == "sr") {
		return nil
	}
	left := r.source(b.X.Span())
	over := r.source(at)
	number := strings.TrimSpace(r.source(Span{From: at.From, To: u.At.From}))
	sign := r.source(Span{From: b.X.Span().To, To: at.From})
	group := "(" + left + sign + number + ") " + r.source(Span{From: u.At.From, To: at.To})
	below := left + sign + "(" + over + ")"
	readings := []string{group, below}
	if product, known := asNames(u.Text); product != "" {
		names := []string{left + sign + number + "*" + product, left + sign + "(" + number + "*" + product + ")"}
		if known {
			readings = append(readings, names...)
		} else {
			readings = append(names[:1], readings...)
		}
	}
	return &fault{finding.New(finding.TwoReadings, b.At,
		"This can be read in two ways: does the unit belong to the fraction, or only to "+number+"?", "Put brackets round what belongs together.", readings...)}
}

// asNames writes the words after a number as a product of names, as in
// 1/2 k x^2, if one of them is no known unit or each is one letter; else it
// returns "". Known tells whether all are units.
func asNames(text string) (product string, known bool) {
	words := strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == '·' })
	letters, table := true, units.NewTable()
	known = true
	for _, w := range words {
		word := unitScan{text: w, end: len(w)}.word(0)
		if word == "" || strings.ContainsAny(w, "/(") {
			return "", false
		}
		known = known && table.Has(word)
		letters = letters && utf8.RuneCountInString(word) == 1
	}
	if known && !letters {
		return "", true
	}
	return strings.Join(words, "*"), known
}

// numbersOnly tells whether an expression holds written numbers only, and no
// units.
func numbersOnly(x Expr, pi bool) bool {
	for {
		switch t := x.(type) {
		case *Number:
			return true
		case *Pi:
			return pi
		case *Paren:
			x = t.X
		case *Unary:
			x = t.X
		case *Binary:
			if t.Op == Add || t.Op == Sub || !numbersOnly(t.Y, pi) {
				return false
			}
			x = t.X
		default:
			return false
		}
	}
}

// holdsBracket tells whether an implied product has a bracket, a call or a root
// among its factors.
func holdsBracket(x Expr) bool {
	for {
		switch t := x.(type) {
		case *Paren, *Call, *Root:
			return true
		case *Binary:
			if t.Op == Pow {
				x = t.X
				continue
			}
			if !t.Implied {
				return false
			}
			if holdsBracket(t.Y) {
				return true
			}
			x = t.X
		default:
			return false
		}
	}
}

// overProduct finds 1/2π√(k/m): right of a solidus, an implied product with a
// bracket or a root in it.
func (r beside) overProduct() *fault {
	b := r.Binary
	y, ok := b.Y.(*Binary)
	if b.Op != Div || !ok || !y.Implied || !holdsBracket(y) {
		return nil
	}
	head := y.X
	for {
		f, ok := head.(*Binary)
		if !ok || !f.Implied {
			break
		}
		head = f.X
	}
	left := r.source(b.X.Span())
	sign := r.source(Span{From: b.X.Span().To, To: y.At.From})
	below := left + sign + "(" + r.source(y.At) + ")"
	rest := r.source(Span{From: head.Span().To, To: y.At.To})
	beside := "(" + left + sign + r.source(head.Span()) + ")" + rest
	return &fault{finding.New(finding.TwoReadings, b.At, "This can be read in two ways: how much of it stands under the fraction?",
		"Put brackets round what belongs together.", below, beside)}
}

// unitPower finds 5 m ^2 and 5 m^n: an exponent after a unit that does not go
// with it.
func (r beside) unitPower() *fault {
	b := r.Binary
	if b.Op != Pow {
		return nil
	}
	switch b.X.(type) {
	case *Quantity, *Mixed, *Measured:
	default:
		return nil
	}
	quantity := r.source(b.X.Span())
	power := r.source(Span{From: b.OpAt.From, To: b.At.To})
	readings := []string{"(" + quantity + ")" + power}
	if _, ok := b.Y.(*Number); ok {
		readings = append(readings, quantity+power)
	}
	return &fault{finding.New(finding.TwoReadings, b.At, "Does this exponent belong to the unit, or to the whole quantity?",
		"Close the gap for the unit, or put the quantity in brackets.", readings...)}
}

// rootPower finds √x^2.
func (r beside) rootPower() *fault {
	b := r.Binary
	root, ok := b.X.(*Root)
	if !ok || b.Op != Pow {
		return nil
	}
	head, inner := r.source(root.At), r.source(root.X.Span())
	power := r.source(Span{From: root.At.To, To: b.At.To})
	return &fault{finding.New(finding.TwoReadings, b.At, "This can be read in two ways: does the root reach over the power?",
		"Put brackets round what belongs together.", "("+head+")"+power, "√("+inner+power+")")}
}

// rootProduct finds √2π and √2(3): a number under a bare root with a factor
// directly after it.
func (r beside) rootProduct() *fault {
	b := r.Binary
	if b.Op != Mul || !b.Implied {
		return nil
	}
	x := b.X
	if f, ok := x.(*Binary); ok && f.Implied {
		x = f.Y
	}
	root, ok := x.(*Root)
	if !ok {
		return nil
	}
	if _, ok := root.X.(*Number); !ok || root.At.To != b.Y.Span().From {
		return nil
	}
	if _, ok := b.Y.(*Call); ok {
		return nil
	}
	factor := r.source(b.Y.Span())
	at := root.At.Join(b.Y.Span())
	return &fault{finding.New(finding.TwoReadings, at, "This can be read in two ways: how far does the root reach?",
		"Put brackets round what belongs together.", "√("+r.source(root.X.Span())+"*"+factor+")", "("+r.source(root.At)+")*"+factor)}
}
