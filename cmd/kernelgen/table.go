package main

import (
	"go/ast"
	"go/parser"
	"go/printer"
	"go/token"
	"log"
	"strconv"
	"strings"
)

// row is what the table of operations says of one.
type row struct {
	op       string // the name of its constant
	name     string
	operands int
	value    string // the result, as text in a, b and k
	lossy    bool   // a result of 0 may be one too small to hold
	shows    string // which operands without a value it tells of
	tame     bool   // of finite operands it makes nothing that isn't finite
}

// table is what the source of the table of operations says of those that work
// on numbers, and which exponents have a value of their own.
type table struct {
	rows      []*row
	exponents []string
	powers    map[string]string // the value at each of them
}

func readTable() *table {
	t := &table{powers: map[string]string{}}
	ast.Inspect(parse("../ops/table.go"), func(n ast.Node) bool {
		kv, ok := n.(*ast.KeyValueExpr)
		if !ok {
			return true
		}
		lit, ok := kv.Value.(*ast.CompositeLit)
		if !ok || lit.Type != nil {
			return true
		}
		if r := readRow(text(kv.Key), lit); r.operands > 0 && r.value != "" {
			t.rows = append(t.rows, r)
		}
		return false
	})
	for _, d := range parse("../ops/power.go").Decls {
		if f, ok := d.(*ast.FuncDecl); ok && f.Name.Name == "power" {
			t.readPowers(f.Body.List[0].(*ast.SwitchStmt))
		}
	}
	return t
}

func readRow(op string, lit *ast.CompositeLit) *row {
	r := &row{op: op}
	for _, e := range lit.Elts {
		f := e.(*ast.KeyValueExpr)
		switch text(f.Key) {
		case "name":
			r.name = strings.Trim(text(f.Value), `"`)
		case "operands":
			r.operands, _ = strconv.Atoi(text(f.Value))
		case "value":
			if value, ok := f.Value.(*ast.FuncLit); ok {
				if r.value = result(value.Body.List); r.value == "" {
					log.Fatalf("the value of %s is more than one expression: make it a function, and call that", op)
				}
			}
		case "vanishes":
			r.lossy = true
		case "shows":
			r.shows = text(f.Value)
		case "tame":
			r.tame = true
		}
	}
	return r
}

// readPowers reads the cases of a power that have a formula of their own; that
// of 0 forgets its operand, and that of 1 changes nothing.
func (t *table) readPowers(cases *ast.SwitchStmt) {
	for _, s := range cases.Body.List {
		c := s.(*ast.CaseClause)
		k := text(c.List[0])
		if v := result(c.Body); v != "" && k != "0" && k != "1" {
			t.exponents, t.powers[k] = append(t.exponents, k), v
		}
	}
}

// result is what a body of one statement returns; empty for a longer one.
func result(body []ast.Stmt) string {
	if ret, ok := body[0].(*ast.ReturnStmt); ok {
		return text(ret.Results[0])
	}
	return ""
}

func parse(file string) *ast.File {
	f, err := parser.ParseFile(token.NewFileSet(), file, nil, 0)
	if err != nil {
		log.Fatal(err)
	}
	return f
}

func text(n ast.Node) string {
	var b strings.Builder
	if err := printer.Fprint(&b, token.NewFileSet(), n); err != nil {
		log.Fatal(err)
	}
	return b.String()
}
