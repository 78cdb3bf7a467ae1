package main

import (
	"bytes"
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"steelyard/session/view"
)

// replayed runs `steelyard replay` and returns what it prints and its status.
func replayed(args ...string) (string, int) {
	var out bytes.Buffer
	w := &world{ctx: context.Background(), stdin: strings.NewReader(""), stdout: &out, stderr: &out, width: 80}
	status := run(w, append([]string{"replay"}, args...))
	return out.String(), status
}

func examples(t *testing.T) []string {
	t.Helper()
	files, err := filepath.Glob(filepath.Join("..", "..", "examples", "*.worked"))
	if err != nil || len(files) < 7 {
		t.Fatalf("only %d examples: %v", len(files), err)
	}
	return files
}

// TestExamples replays each example as it stands: no result without a record,
// no difference, and nothing to say but its summary.
func TestExamples(t *testing.T) {
	for _, file := range examples(t) {
		out, status := replayed("--strict", file)
		if status != statusHolds {
			t.Errorf("%s: status %d\n%s", file, status, out)
		}
		if !strings.Contains(out, filepath.Base(file)+": ") || strings.Contains(out, "caution") {
			t.Errorf("%s prints\n%s", file, out)
		}
	}
}

// TestExamplesCanFail changes the last digit of each record of an example in
// turn: each change must be found, in its own line.
func TestExamplesCanFail(t *testing.T) {
	for _, file := range examples(t) {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		rows := strings.SplitAfter(string(data), "\n")
		statement, folder := 0, copied(t, file)
		for i, row := range rows {
			if !strings.HasPrefix(row, " ") {
				statement = i + 1
			}
			if !strings.HasPrefix(strings.TrimLeft(row, " "), "= ") {
				continue
			}
			changed := filepath.Join(folder, filepath.Base(file))
			text := strings.Join(rows[:i], "") + otherLastDigit(row) + strings.Join(rows[i+1:], "")
			if err := os.WriteFile(changed, []byte(text), 0o644); err != nil {
				t.Fatal(err)
			}
			out, status := replayed(changed)
			if status != statusFinding || !strings.HasPrefix(out, view.Prompt(statement)) || !strings.Contains(out, "1 result differs") {
				t.Errorf("%s, line %d: recorded as %sstatus %d\n%s", file, i+1, otherLastDigit(row), status, out)
			}
		}
	}
}

// copied makes a folder with the readings that an example has beside it.
func copied(t *testing.T, file string) string {
	folder := t.TempDir()
	readings := strings.TrimSuffix(file, ".worked") + ".csv"
	if data, err := os.ReadFile(readings); err == nil {
		if err := os.WriteFile(filepath.Join(folder, filepath.Base(readings)), data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return folder
}

// TestInventedReadings makes the readings of the hung masses again: a spring of 12.4 N/m
// and 42 g, of which a third swings, with noise of 4 ms.
func TestInventedReadings(t *testing.T) {
	noise := rand.New(rand.NewPCG(14, 1))
	var out strings.Builder
	out.WriteString("m / kg,T / s,u(T) / s\n")
	for i := range 10 {
		m := 0.05 * float64(i+1)
		T := 2*math.Pi*math.Sqrt((m+0.042/3)/12.4) + 0.004*noise.NormFloat64()
		fmt.Fprintf(&out, "%.3f,%.3f,0.004\n", m, T)
	}
	path := filepath.Join("..", "..", "examples", "hung-masses.csv")
	if *update {
		if err := os.WriteFile(path, []byte(out.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if got, err := os.ReadFile(path); err != nil || string(got) != out.String() {
		t.Errorf("%v\n%s, not\n%s", err, got, out.String())
	}
}

// TestLabKey holds the key of the hung masses and its graph, which are kept beside the
// example, against what is printed now.
func TestLabKey(t *testing.T) {
	folder := filepath.Join("..", "..", "examples")
	for name, options := range map[string][]string{"hung-masses-key.html": nil, "hung-masses.svg": {"--drawing", "1"}} {
		printed := filepath.Join(t.TempDir(), name)
		var out bytes.Buffer
		w := &world{ctx: context.Background(), stdin: strings.NewReader(""), stdout: &out, stderr: &out, width: 80}
		if status := run(w, append(append([]string{"print"}, options...), "-o", printed, filepath.Join(folder, "hung-masses.worked"))); status != statusHolds {
			t.Fatalf("%s: status %d\n%s", name, status, out.String())
		}
		now, err := os.ReadFile(printed)
		if err != nil {
			t.Fatal(err)
		}
		if *update {
			if err := os.WriteFile(filepath.Join(folder, name), now, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		if kept, err := os.ReadFile(filepath.Join(folder, name)); err != nil || !bytes.Equal(kept, now) {
			t.Errorf("%s is not what is printed now: go test ./cmd/steelyard -run LabKey -update", name)
		}
	}
}

// otherLastDigit changes the last digit of the number in a record.
func otherLastDigit(record string) string {
	text := strings.TrimLeft(record, " ")[2:]
	if _, value, ok := strings.Cut(text, " = "); ok {
		text = value
	}
	number, _, _ := strings.Cut(text, " ")
	number, _, _ = strings.Cut(number, "e")
	at := strings.Index(record, number) + strings.LastIndexAny(number, "0123456789")
	digit := record[at]
	if digit == '9' {
		digit = '7'
	}
	return record[:at] + string(digit+1) + record[at+1:]
}
