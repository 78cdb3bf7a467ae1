package eval

import (
	"steelyard/lang/syntax"
)

// IsWritten tells whether an expression holds no name and no call.
func IsWritten(x syntax.Expr) bool {
	written := true
	syntax.Walk(x, func(x syntax.Expr) bool {
		switch x.(type) {
		case *syntax.Name, *syntax.Call, *syntax.That:
			written = false
		}
		return written
	})
	return written
}

// IsPlain tells whether a written expression is one quantity, without an
// operator.
func IsPlain(x syntax.Expr) bool {
	switch x := x.(type) {
	case *syntax.Number, *syntax.Quantity, *syntax.Mixed, *syntax.Pi:
		return true
	case *syntax.Unary:
		return IsPlain(x.X)
	case *syntax.Paren:
		return IsPlain(x.X)
	}
	return false
}

// UsesName tells whether an expression holds a name.
func UsesName(x syntax.Expr, name string) bool {
	found := false
	syntax.Walk(x, func(x syntax.Expr) bool {
		n, ok := x.(*syntax.Name)
		found = found || ok && n.Name == name && n.Line == 0
		return !found
	})
	return found
}

func IsSymbol(f *syntax.FormulaDef, name string) bool {
	for _, s := range f.Symbols {
		if s.Name == name {
			return true
		}
	}
	return name == "g"
}
