package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// bookish are words that a sixteen-year-old would look up, or that say in a roundabout
// way what a plain word says.
var bookish = regexp.MustCompile(`(?i)\b(stands?|stood|gives|solidus|whence|thereof|lest|thus|hence|shall|upon|` +
	`anew|thereby|whereby|wherein|henceforth|therein|aforesaid|notwithstanding|forthwith|hitherto|` +
	`hangs on|is written as|are written as|nor|lacks?|satisf(y|ies)|so that|within each other|bare 0)\b`)

// TestPlainWords looks for bookish words in everything that a user can be told: the
// texts of the program, and the pages that a user reads.
func TestPlainWords(t *testing.T) {
	root := filepath.Join("..", "..")
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case strings.HasSuffix(path, "_test.go") || strings.Contains(path, "kernelgen"):
		case strings.HasSuffix(path, ".go"):
			return plainSource(t, path)
		case path == filepath.Join(root, "README.md"), path == filepath.Join(root, "lang", "REFERENCE.md"),
			filepath.Dir(path) == filepath.Join(root, "session", "help") && strings.HasSuffix(path, ".txt"):
			text, err := os.ReadFile(path)
			for n, line := range strings.Split(string(text), "\n") {
				plain(t, path+":"+strconv.Itoa(n+1), line)
			}
			return err
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}

// plainSource looks at the texts of several words in a file of the program.
func plainSource(t *testing.T, path string) error {
	files := token.NewFileSet()
	f, err := parser.ParseFile(files, path, nil, 0)
	if err != nil {
		return err
	}
	ast.Inspect(f, func(n ast.Node) bool {
		if lit, ok := n.(*ast.BasicLit); ok && lit.Kind == token.STRING {
			if text, err := strconv.Unquote(lit.Value); err == nil && strings.Contains(text, " ") {
				plain(t, files.Position(lit.Pos()).String(), text)
			}
		}
		return true
	})
	return nil
}

func plain(t *testing.T, where, text string) {
	t.Helper()
	if word := bookish.FindString(text); word != "" {
		t.Errorf("%s: %q in %q", where, word, text)
	}
}
