package limit

import (
	"go/ast"
	"go/constant"
	"go/parser"
	"go/token"
	"go/types"
	"maps"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// elsewhere are rows of the reference's table whose limit is no constant here.
var elsewhere = map[string]string{
	"an exponent of a unit": "99", // units.Dim
	"a numerator or denominator of an exponent, in lowest terms": "30 000", // units.Exp
}

// TestReferenceHasEveryLimit holds the table of limits in the reference against
// the constants of this package. The words of a row are those of the constant's
// comment, "NAME is the most …", up to the first full stop or colon.
func TestReferenceHasEveryLimit(t *testing.T) {
	rows := referenceRows(t)
	want := limits(t)
	if len(want) < 17 {
		t.Fatalf("only %d limits were found", len(want))
	}
	maps.Copy(want, elsewhere)
	for words, value := range want {
		if rows[words] != value {
			t.Errorf("lang/REFERENCE.md lacks the row\n| %s | %s |\n(it has %q there)", words, value, rows[words])
		}
	}
	for words := range rows {
		if _, ok := want[words]; !ok {
			t.Errorf("lang/REFERENCE.md has a row that is of no limit: %s", words)
		}
	}
}

// referenceRows are the rows of the reference's table of limits.
func referenceRows(t *testing.T) map[string]string {
	t.Helper()
	text, err := os.ReadFile("../REFERENCE.md")
	if err != nil {
		t.Fatal(err)
	}
	_, section, _ := strings.Cut(string(text), "\n## Limits\n")
	section, _, _ = strings.Cut(section, "\n## ")
	rows := map[string]string{}
	for _, m := range regexp.MustCompile(`(?m)^\| (.*?) \| (.*?) \|$`).FindAllStringSubmatch(section, -1) {
		if _, twice := rows[m[1]]; twice {
			t.Errorf("lang/REFERENCE.md has two rows of %s", m[1])
		}
		rows[m[1]] = m[2]
	}
	delete(rows, "limit") // the head
	return rows
}

// limits are the exported whole numbers of this package, each with its value as
// it is printed, by the words of its comment.
func limits(t *testing.T) map[string]string {
	t.Helper()
	set := token.NewFileSet()
	files, err := os.ReadDir(".")
	if err != nil {
		t.Fatal(err)
	}
	var parsed []*ast.File
	for _, f := range files {
		if strings.HasSuffix(f.Name(), ".go") && !strings.HasSuffix(f.Name(), "_test.go") {
			file, err := parser.ParseFile(set, f.Name(), nil, parser.ParseComments)
			if err != nil {
				t.Fatal(err)
			}
			parsed = append(parsed, file)
		}
	}
	info := &types.Info{Defs: map[*ast.Ident]types.Object{}}
	config := types.Config{Error: func(error) {}, IgnoreFuncBodies: true} // nothing is imported: no limit hangs on it
	_, _ = config.Check("limit", set, parsed, info)

	out := map[string]string{}
	for _, file := range parsed {
		for _, d := range file.Decls {
			decl, ok := d.(*ast.GenDecl)
			if !ok || decl.Tok != token.CONST {
				continue
			}
			for _, s := range decl.Specs {
				spec := s.(*ast.ValueSpec)
				doc := spec.Doc
				if doc == nil {
					doc = decl.Doc
				}
				for _, name := range spec.Names {
					c, ok := info.Defs[name].(*types.Const)
					if !ok || !name.IsExported() || c.Type() != types.Typ[types.UntypedInt] {
						continue
					}
					words := wordsOf(name.Name, doc.Text())
					if words == "" {
						t.Errorf("the comment of %s does not begin with %q", name.Name, name.Name+" is the most ")
					}
					n, _ := constant.Int64Val(c.Val())
					out[words] = written(n, strings.HasPrefix(words, "bytes "))
				}
			}
		}
	}
	return out
}

// wordsOf are the words of a comment that say what a limit is of.
func wordsOf(name, comment string) string {
	words, ok := strings.CutPrefix(strings.Join(strings.Fields(comment), " "), name+" is the most ")
	if !ok {
		return ""
	}
	if i := strings.IndexAny(words, ".:"); i >= 0 {
		words = words[:i]
	}
	return words
}

// written writes a limit as the reference does: 1000, 20 000, 64 KiB.
func written(n int64, bytes bool) string {
	for _, unit := range []struct {
		name  string
		shift int
	}{{" MiB", 20}, {" KiB", 10}} {
		if bytes && n%(1<<unit.shift) == 0 {
			return strconv.FormatInt(n>>unit.shift, 10) + unit.name
		}
	}
	digits := strconv.FormatInt(n, 10)
	if len(digits) > 4 {
		for i := len(digits) - 3; i > 0; i -= 3 {
			digits = digits[:i] + " " + digits[i:]
		}
	}
	return digits
}
