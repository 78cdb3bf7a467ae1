package view_test

import (
	"bytes"
	"context"
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"steelyard/session"
	"steelyard/session/entry"
	"steelyard/session/view"
)

var update = flag.Bool("update", false, "rewrite the golden files")

// statements reads a file of statements; an indented line belongs to the one
// above it.
func statements(t *testing.T, path string) []string {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for line := range strings.Lines(string(data)) {
		line = strings.TrimSuffix(line, "\n")
		switch {
		case strings.TrimSpace(line) == "":
		case line[0] == ' ':
			out[len(out)-1] += "\n" + line
		default:
			out = append(out, line)
		}
	}
	return out
}

// render enters statements and shows each.
func render(t *testing.T, lines []string, show func(*bytes.Buffer, *entry.Entry) error) []byte {
	t.Helper()
	pad := session.New()
	var b bytes.Buffer
	for _, line := range lines {
		if err := show(&b, pad.Enter(context.Background(), line)); err != nil {
			t.Fatal(err)
		}
	}
	return b.Bytes()
}

// golden compares with a file, or writes it.
func golden(t *testing.T, path string, got []byte) {
	t.Helper()
	if *update {
		if err := os.WriteFile(path, got, 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Errorf("%s differs; got\n%s\nwant\n%s", path, got, want)
	}
}

// TestGolden shows each file of statements in every way there is.
func TestGolden(t *testing.T) {
	ways := map[string]func(*bytes.Buffer, *entry.Entry) error{
		"text": func(b *bytes.Buffer, e *entry.Entry) error {
			return view.Text(b, e, view.Options{Statement: true})
		},
		"bare": func(b *bytes.Buffer, e *entry.Entry) error { return view.Text(b, e, view.Options{}) },
		"narrow": func(b *bytes.Buffer, e *entry.Entry) error {
			return view.Text(b, e, view.Options{Statement: true, Width: 44})
		},
		"bold": func(b *bytes.Buffer, e *entry.Entry) error {
			var marked strings.Builder
			err := view.Text(&marked, e, view.Options{Statement: true, Bold: true})
			b.WriteString(strings.NewReplacer(view.BoldOn, "\x1b[1m", view.BoldOff, "\x1b[0m").Replace(marked.String()))
			return err
		},
		"json": func(b *bytes.Buffer, e *entry.Entry) error { return view.JSON(b, e, view.Replayed{}) },
	}
	files, err := filepath.Glob("testdata/*.txt")
	if err != nil || len(files) == 0 {
		t.Fatal("no files of statements", err)
	}
	for _, file := range files {
		lines := statements(t, file)
		for way, show := range ways {
			t.Run(filepath.Base(file)+"/"+way, func(t *testing.T) {
				golden(t, strings.TrimSuffix(file, ".txt")+"."+way+".golden", render(t, lines, show))
			})
		}
	}
}

// TestJSONReadsBack makes sure that each row is one JSON object and that the
// fields which must be there are.
func TestJSONReadsBack(t *testing.T) {
	files, _ := filepath.Glob("testdata/*.txt")
	for _, file := range files {
		rows := render(t, statements(t, file), func(b *bytes.Buffer, e *entry.Entry) error {
			return view.JSON(b, e, view.Replayed{})
		})
		for row := range bytes.Lines(rows) {
			var o map[string]any
			if err := json.Unmarshal(row, &o); err != nil {
				t.Errorf("%s: %v in %s", file, err, row)
				continue
			}
			for _, field := range []string{"line", "statement", "findings"} {
				if _, ok := o[field]; !ok {
					t.Errorf("%s: no %s in %s", file, field, row)
				}
			}
			_, has := o["value"]
			parts := slices.ContainsFunc([]string{"values", "components", "vectors"}, func(several string) bool {
				_, ok := o[several] // a list or a vector has these in its place
				return ok
			})
			for _, field := range []string{"si_unit", "dimension", "shown", "shown_value", "shown_unit"} {
				if _, ok := o[field]; ok != (has || parts && field != "shown_value") {
					t.Errorf("%s: value and %s must stand together in %s", file, field, row)
				}
			}
		}
	}
}
