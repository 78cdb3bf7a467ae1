package main

import (
	"fmt"
	"go/ast"
	"go/token"
	"log"
	"regexp"
	"slices"
	"strings"
)

// node is a node of what a kernel works out: an operation, a column or a
// constant.
type node struct {
	row      *row
	args     []*node
	exponent string // of a power that is known
	leaf     string // x, y, k0, k1, … or zero
	// at is its name in the code, with # for the lane; zero and inf tell that it
	// may be a 0 or not finite without being a value.
	at        string
	zero, inf bool
}

func (n *node) isConstant() bool { return n.leaf == "zero" || strings.HasPrefix(n.leaf, "k") }

// kernel is one loop.
type kernel struct {
	source string
	root   *node
	consts int
	body   []string // the assignments of one lane
	checks []string // what must be neither 0 nor infinite
	finite []string // what must be finite
}

// kernel makes the kernel of an expression.
func (t *table) kernel(source string, x ast.Expr) *kernel {
	k := &kernel{source: source}
	k.root = t.tree(k, x)
	switch {
	case k.root.zero:
		k.checks = append(k.checks, k.root.at)
	case k.root.inf:
		k.finite = append(k.finite, k.root.at)
	}
	return k
}

var infix = map[token.Token]string{token.ADD: "add", token.SUB: "sub", token.MUL: "mul", token.QUO: "div"}

// tree reads an expression, and writes what works it out into the kernel.
func (t *table) tree(k *kernel, x ast.Expr) *node {
	switch x := x.(type) {
	case *ast.ParenExpr:
		return t.tree(k, x.X)
	case *ast.Ident:
		return k.leaf(x.Name)
	case *ast.BinaryExpr:
		return t.operation(k, infix[x.Op], "", x.X, x.Y)
	case *ast.CallExpr:
		if name := text(x.Fun); name == "pow" && len(x.Args) == 2 {
			return t.operation(k, name, text(x.Args[1]), x.Args[0])
		}
		return t.operation(k, text(x.Fun), "", x.Args...)
	}
	log.Fatalf("a kernel can't hold %s", text(x))
	return nil
}

// leaf is a column or a constant.
func (k *kernel) leaf(name string) *node {
	if name == "x" || name == "y" {
		return &node{leaf: name, at: name + "[#]", inf: true}
	}
	n := &node{leaf: name, at: k.constant()}
	if name == "k" {
		n.leaf = n.at
	}
	return n
}

// constant takes the next of the kernel's constants.
func (k *kernel) constant() string {
	k.consts++
	return fmt.Sprintf("k%d", k.consts-1)
}

func (t *table) operation(k *kernel, name, exponent string, operands ...ast.Expr) *node {
	i := slices.IndexFunc(t.rows, func(r *row) bool { return r.name == name })
	if i < 0 {
		log.Fatalf("no operation %s", name)
	}
	n := &node{row: t.rows[i], exponent: exponent}
	op := n.row.op
	constant, zero := false, false
	for _, x := range operands {
		a := t.tree(k, x)
		n.args = append(n.args, a)
		constant, zero = constant || a.isConstant(), zero || a.leaf == "zero"
	}
	for _, a := range n.args {
		k.look(n, a, zero)
		n.zero, n.inf = n.zero || a.zero, n.inf || a.inf
	}
	n.zero = n.zero || n.row.lossy && !zero
	// A constant is too small for a sum with it to leave the range.
	n.inf = n.inf || !n.row.tame && !(constant && (op == "Add" || op == "Sub"))
	n.at = string("abcefgh"[len(k.body)]) + "#"
	k.body = append(k.body, n.at+" := "+t.value(k, n))
	return n
}

// look checks an operand that the result would not tell about: a 0 that only
// rounding has made, or what is not finite.
func (k *kernel) look(n, a *node, zero bool) {
	lost := a.zero && n.row.shows != "infiniteOrLost"
	// A number to the power 0 is 1, whatever it is.
	hidden := a.inf && (n.row.shows == "" || n.row.op == "Pow" && n.exponent == "" || zero && n.row.op == "Div") // 0 over what is infinite is 0
	switch {
	case !lost && !hidden:
	case a.zero:
		k.checks, a.zero, a.inf = append(k.checks, a.at), false, false
	default:
		k.finite, a.inf = append(k.finite, a.at), false
	}
}

var (
	letter = regexp.MustCompile(`\b[abk]\b`)
	// unexported finds a call of a function of the table's package.
	unexported = regexp.MustCompile(`(^|[^.\w])[a-z]+\(`)
	exported   = regexp.MustCompile(`(^|[^.\w])([A-Z]\w*\()`)
)

// value is the text of a node's value. What calls a function of the table's
// package goes through the table.
func (t *table) value(k *kernel, n *node) string {
	v := n.row.value
	if n.exponent != "" {
		v = t.powers[n.exponent]
	}
	operands := map[string]string{"a": n.args[0].at, "b": "0", "k": "0"}
	if len(n.args) > 1 {
		operands["b"] = n.args[1].at
	}
	if slices.Contains(letter.FindAllString(v, -1), "k") {
		operands["k"] = k.constant()
	}
	if unexported.MatchString(strings.ReplaceAll(v, "float64(", "(")) {
		v = "ops." + n.row.op + ".Value(a, b, k)"
	}
	v = exported.ReplaceAllString(v, "${1}ops.$2")
	return letter.ReplaceAllStringFunc(v, func(s string) string { return operands[s] })
}

// size counts operations.
func (n *node) size() int {
	s := 0
	for _, a := range n.args {
		s += a.size()
	}
	if n.row != nil {
		s++
	}
	return s
}

// name spells a tree, operations first.
func (n *node) name() string {
	if n.row == nil {
		return strings.ToUpper(n.leaf[:1]) + strings.TrimLeft(n.leaf[1:], "0123456789")
	}
	s := n.row.op + strings.NewReplacer("-", "Over", ".", "p").Replace(n.exponent)
	for _, a := range n.args {
		s += a.name()
	}
	return s
}

// shape is the tree for the matcher, operations first.
func (n *node) shape() []string {
	if n.row == nil {
		return []string{"leaf" + strings.ToUpper(n.leaf[:1]) + n.leaf[1:]}
	}
	out := []string{"ops." + n.row.op}
	for _, a := range n.args {
		out = append(out, a.shape()...)
	}
	return out
}

// power is the exponent of a tree's power, 0 if it has none that is known.
func (n *node) power() string {
	for _, a := range n.args {
		if p := a.power(); p != "0" {
			return p
		}
	}
	if n.exponent != "" {
		return n.exponent
	}
	return "0"
}
