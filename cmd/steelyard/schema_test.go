package main

import (
	"bytes"
	"encoding/json"
	"path/filepath"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"steelyard/session/view"
)

// schema reads the published schema.
func schema(t *testing.T) (*jsonschema.Schema, map[string]any) {
	t.Helper()
	doc, err := jsonschema.UnmarshalJSON(strings.NewReader(view.Schema))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource("lines.schema.json", doc); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile("lines.schema.json")
	if err != nil {
		t.Fatal(err)
	}
	return s, doc.(map[string]any)
}

// printedLines are lines of JSON of every kind: the examples of the reference, the
// worksheets of the examples, and files that can't be replayed.
func printedLines(t *testing.T) [][]byte {
	t.Helper()
	var out []byte
	for _, b := range blocks(readDocument(t, "lang/REFERENCE.md")) {
		if b.kind == "scratchpad" {
			out = append(out, shownBy("", append([]string{"eval", "--json", "--"}, enteredIn(b.text)...)...)...)
		}
	}
	files, err := filepath.Glob("../../examples/*.worked")
	if err != nil || len(files) == 0 {
		t.Fatal("there are no examples")
	}
	out = append(out, shownBy("", append([]string{"replay", "--json", "nothing.worked", "main.go"}, files...)...)...)
	out = append(out, shownBy("worksheet 1  Differs\nF = 2 N*3\n  = 7 N\n2*q\n", "replay", "--json", "-")...)
	out = append(out, shownBy("", "eval", "--json", "m = 2 kg", "bars at \"a\": 3 J | at \"b\": 2 J with work -1 J", "steps all", "graph x^2 against x from 0 to 3 blank")...)
	return bytes.Split(bytes.TrimSuffix(out, []byte("\n")), []byte("\n"))
}

// TestSchema holds what --json prints to the published schema, and the schema to what
// is printed: each of its fields is there in some line.
func TestSchema(t *testing.T) {
	s, doc := schema(t)
	if id := doc["$id"]; id != "urn:steelyard:json-lines:1" {
		t.Errorf("the version is in %v", id)
	}
	seen := map[string]bool{}
	lines := printedLines(t)
	for _, line := range lines {
		value, err := jsonschema.UnmarshalJSON(bytes.NewReader(line))
		if err != nil {
			t.Fatalf("%s: %v", line, err)
		}
		if err := s.Validate(value); err != nil {
			t.Errorf("%.300s: %v", line, err)
		}
		fieldsOf(value, seen)
	}
	if len(lines) < 500 {
		t.Errorf("only %d lines", len(lines))
	}
	var named func(any)
	named = func(v any) {
		switch v := v.(type) {
		case map[string]any:
			if fields, ok := v["properties"].(map[string]any); ok {
				for f := range fields {
					if !seen[f] {
						t.Errorf("no line has the field %s", f)
					}
				}
			}
			for _, inner := range v {
				named(inner)
			}
		case []any:
			for _, inner := range v {
				named(inner)
			}
		}
	}
	named(doc)
}

// fieldsOf notes the names of all fields of a value.
func fieldsOf(v any, seen map[string]bool) {
	switch v := v.(type) {
	case map[string]any:
		for name, inner := range v {
			seen[name] = true
			fieldsOf(inner, seen)
		}
	case []any:
		for _, inner := range v {
			fieldsOf(inner, seen)
		}
	}
}

// TestSchemaRefuses changes good lines in ways that no program should be sent.
func TestSchemaRefuses(t *testing.T) {
	s, _ := schema(t)
	good := strings.TrimSpace(string(shownBy("", "eval", "--json", "k = 2 J/(3 m)^2 in N")))
	for _, c := range [][2]string{
		{`"line":1`, `"line":"1"`}, {`"line":1`, `"line":0`}, {`"line":1,`, ``}, {`"statement":`, `"state":`}, {`"severity":"mismatch"`, `"severity":"bad"`},
		{`"value":`, `"valve":`}, {`"si_unit":"N/m",`, ``}, {`"findings":`, `"found":`}, {`"from":`, `"form":`}, {`"id":"unit-mismatch"`, `"id":"Unit mismatch"`},
		{`{"line"`, `{"new":1,"line"`},
	} {
		bad := strings.Replace(good, c[0], c[1], 1)
		var value any
		if err := json.Unmarshal([]byte(bad), &value); err != nil || bad == good {
			t.Fatalf("%s: %v", bad, err)
		}
		if s.Validate(value) == nil {
			t.Errorf("%s is let through", bad)
		}
	}
}
