package eval

import (
	"steelyard/lang/syntax"
)

// IsWritten tells whether an expression holds no name, no call, and nothing else
// that has to be worked out first.
func IsWritten(x syntax.Expr) bool {
	written := true
	syntax.Walk(x, func(x syntax.Expr) bool {
		switch x.(type) {
		case *syntax.Name, *syntax.Call, *syntax.That, syntax.Derived:
			written = false
		}
		return written
	})
	return written
}

func IsSymbol(f *syntax.FormulaDef, name string) bool {
	for _, s := range f.Symbols {
		if s.Name == name {
			return true
		}
	}
	return name == "g"
}
