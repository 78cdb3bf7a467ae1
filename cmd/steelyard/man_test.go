package main

import (
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// TestManTellsOfVariables finds every variable of the environment that the program looks
// at in its manual page.
func TestManTellsOfVariables(t *testing.T) {
	told := ""
	for _, v := range environment {
		told += v[0] + "\n"
	}
	asked := regexp.MustCompile(`(?i)env\("([A-Z_]+)"\)`)
	err := filepath.WalkDir("../..", func(path string, _ fs.DirEntry, err error) error {
		if err != nil || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		text, err := os.ReadFile(path)
		for _, m := range asked.FindAllStringSubmatch(string(text), -1) {
			if !strings.Contains(told, m[1]) {
				t.Errorf("%s looks at %s", path, m[1])
			}
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}
