package algebra

import "steelyard/lang/syntax"

// Display writes an expression as on paper.
func Display(x syntax.Expr) string { return syntax.ScreenExpr(x) }
