package view_test

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"math"
	"reflect"
	"strings"
	"testing"

	"github.com/mattn/go-runewidth"

	"steelyard/lang/finding"
	"steelyard/session"
	"steelyard/session/entry"
	"steelyard/session/view"
	"steelyard/units"
)

// TestLayout holds the scratchpad's layout against the agreed one, cell by
// cell.
func TestLayout(t *testing.T) {
	const want = `  1.  m = 0.080 kg
  2.  v = 3.4 m/s
  3.  x = 6.0 cm
  4.  W = 1/2*m*v^2
        = 0.4624 J, an energy
  5.  k = 2*W/x^2 in N
                     ^
      ! k comes out as a force per length (N/m); N is a force.
        "per length" is missing: report it in N/m.
        = 256.889 N/m
`
	lines := []string{"m = 0.080 kg", "v = 3.4 m/s", "x = 6.0 cm", "W = 1/2*m*v^2", "k = 2*W/x^2 in N"}
	got := render(t, lines, func(b *bytes.Buffer, e *entry.Entry) error {
		return view.Text(b, e, view.Options{Statement: true})
	})
	if string(got) != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// TestCaretByCells puts a caret under a span behind characters of several
// widths.
func TestCaretByCells(t *testing.T) {
	for _, tt := range []struct {
		text, at string
		column   int
	}{
		{"k = 2 N", "2", 4},
		{"ω₀ = 3 rad/s", "3", 5},
		{"# 秤 = 3", "3", 7}, // the sign takes two cells
		{"e\u0301 = 3", "3", 4},
	} {
		from := strings.Index(tt.text, tt.at)
		e := &entry.Entry{Line: 7, Text: tt.text, Findings: []finding.Finding{
			finding.New(finding.Unreadable, finding.Span{From: from, To: from + 1}, "Here.", ""),
		}}
		var b bytes.Buffer
		if err := view.Text(&b, e, view.Options{}); err != nil {
			t.Fatal(err)
		}
		row, _, _ := strings.Cut(b.String(), "\n")
		if want := strings.Repeat(" ", len(view.Prompt(7))+tt.column) + "^"; row != want {
			t.Errorf("%s: %q, want %q", tt.text, row, want)
		}
	}
}

// TestSpansOutside shows findings whose spans lie outside of the text or
// within a character; nothing may panic.
func TestSpansOutside(t *testing.T) {
	for _, at := range []finding.Span{{From: -3, To: -1}, {From: 90, To: 99}, {From: 1, To: 1}, {From: 5, To: 2}} {
		e := &entry.Entry{Line: 1, Text: "ω = ½ \xff\x00", Findings: []finding.Finding{finding.New(finding.BadText, at, "Here.", "")}}
		var b bytes.Buffer
		if err := view.Text(&b, e, view.Options{Statement: true}); err != nil {
			t.Fatal(err)
		}
		if strings.ContainsAny(b.String(), "\x00\x1b") {
			t.Errorf("control characters reach the terminal: %q", b.String())
		}
	}
}

// TestWidth wraps long findings and long statements at the width of the screen.
func TestWidth(t *testing.T) {
	long := "x = 1 m" + strings.Repeat(" + 1 m", 60)
	pad := session.New()
	for _, width := range []int{40, 60, 80, 120} {
		for _, text := range []string{long + " + 1 s", "1/2 kg", "k = 3 N in J", strings.Repeat("q", 100) + " = 2*zz"} {
			var b bytes.Buffer
			e := pad.Enter(context.Background(), text)
			if err := view.Text(&b, e, view.Options{Width: width}); err != nil {
				t.Fatal(err)
			}
			for row := range strings.Lines(b.String()) {
				row = strings.TrimRight(row, "\n")
				if cells := runewidth.StringWidth(row); cells > width && strings.Contains(strings.TrimSpace(row), " ") {
					t.Errorf("%d cells on a screen of %d: %s", cells, width, row)
				}
			}
		}
	}
}

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("full") }

// TestWriteError hands on that nothing can be written.
func TestWriteError(t *testing.T) {
	e := session.New().Enter(context.Background(), "2 m*3")
	if view.Text(full{}, e, view.Options{}) == nil || view.JSON(full{}, e, view.Replayed{}) == nil {
		t.Error("an error in writing is lost")
	}
}

// TestReplayedJSON shows what a replay adds.
func TestReplayedJSON(t *testing.T) {
	e := session.New().Enter(context.Background(), "2 m*3")
	agrees := true
	var b bytes.Buffer
	if err := view.JSON(&b, e, view.Replayed{File: "a.worked", Recorded: "= 6 m", Agrees: &agrees}); err != nil {
		t.Fatal(err)
	}
	want := `{"file":"a.worked","line":1,"statement":"2 m*3","value":6,"si_unit":"m","dimension":"m","shown":"6 m","shown_value":6,"shown_unit":"m","quantity":"length","recorded":"= 6 m","agrees":true,"findings":[]}` + "\n"
	if b.String() != want {
		t.Errorf("got %s want %s", b.String(), want)
	}
}

// BenchmarkText shows a result.
func BenchmarkText(b *testing.B) {
	e := session.New().Enter(context.Background(), "W = 1/2*(0.080 kg)*(3.4 m/s)^2")
	var out bytes.Buffer
	b.ReportAllocs()
	for b.Loop() {
		out.Reset()
		view.Text(&out, e, view.Options{Statement: true})
	}
}

// TestJSONOfAnyNumber writes outcomes of every kind in which each number is infinite or
// none: a line of JSON is lost for none of them.
func TestJSONOfAnyNumber(t *testing.T) {
	lines := []string{"v = 3 m", "L = [1.0 ± 0.1, 2.0 ± 0.1, 3.1 ± 0.1] m", "x = [1, 2, 3] s", "fit L against x", "graph L against x with residuals",
		"graph a^2 against a from 0 to 3", "w = 2.0 ± 0.1 m", "q = w^2", "budget q by sampling", "budget q covering 95 %",
		`bars at "a": 3 J | at "b": 2 J with work -1 J`, "steps all", "check q > 2 m^2", "table a^2 for a from 1 to 3"}
	for _, bad := range []float64{math.Inf(1), math.Inf(-1), math.NaN()} {
		pad := session.New()
		for _, text := range lines {
			e := pad.Enter(context.Background(), text)
			spoil(reflect.ValueOf(&e.Outcome).Elem(), bad, 12)
			var b bytes.Buffer
			if err := view.JSON(&b, e, view.Replayed{}); err != nil || b.Len() == 0 {
				t.Errorf("%s with %v: %v", text, bad, err)
			}
			for row := range bytes.Lines(b.Bytes()) {
				if !json.Valid(row) {
					t.Errorf("%s with %v: %s", text, bad, row)
				}
			}
		}
	}
}

// spoil puts a number in the place of every other in an outcome that it can reach.
func spoil(v reflect.Value, bad float64, depth int) {
	if depth == 0 {
		return
	}
	switch v.Kind() {
	case reflect.Float64:
		if v.CanSet() {
			v.SetFloat(bad)
		}
	case reflect.Interface, reflect.Pointer:
		if _, unit := v.Interface().(*units.Unit); !v.IsNil() && !unit {
			spoil(v.Elem(), bad, depth-1)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				spoil(v.Field(i), bad, depth-1)
			}
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			spoil(v.Index(i), bad, depth-1)
		}
	}
}
