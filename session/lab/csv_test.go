package lab

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"io"
	"strings"
	"testing"
	"time"

	"steelyard/lang/limit"
)

// TestCSV reads files as they come from spreadsheets of several countries.
func TestCSV(t *testing.T) {
	for text, want := range map[string]string{
		"m / kg,T / s\n0.1,0.45\n":              "[[{0.1 -1}] [{0.45 -2}]]",
		"\ufeffm (kg);T (s)\r\n0,10;4,5e-1\r\n": "[[{0.1 -2}] [{0.45 -2}]]",
		"m\tT\n1\t2\n":                          "[[{1 0}] [{2 0}]]",
		"m,T\n\n1,2\n ,\n":                      "[[{1 0}] [{2 0}]]",
		"m,T\r1,2\r3,4\r":                       "[[{1 0} {3 0}] [{2 0} {4 0}]]",
		"m , T\n\"1\", 2 \n":                    "[[{1 0}] [{2 0}]]",
		"x\n−5\n+5\n1e3\n0.0\n":                 "[[{-5 0} {5 0} {1000 3} {0 -1}]]",
		"":                                      "There is nothing in this file.",
		"m,T\n":                                 "There are no rows under the heads of this file.",
		"m / kg,\n1,2\n":                        "Column 2 has no head.",
		"0.1,0.45\n":                            "`0.1` can't head a column.",
		"m,T\n1,2\n1,\n":                        "In line 3 under T there is no value.",
		"m,T\n1,2\n1,fast\n":                    "In line 3 under T there is `fast`, which isn't a number.",
		"m,T\n1,2,3\n":                          "Line 2 has 3 values under 2 heads.",
		"m\n1.2.3\n":                            "In line 2 under m there is `1.2.3`, which isn't a number.",
		"m;T\n1.280;0,45\n":                     "Some numbers in this file have a decimal comma, and some a decimal point.",
		"m\tT\n1,5\t2\n":                        "In line 2 under m there is `1,5`, which isn't a number.",
		"m\n1e-400\n":                           "In line 2 under m there is `1e-400`, which isn't a number.",
		"m\n1e400\n":                            "In line 2 under m there is `1e400`, which isn't a number.",
		"m\n0x10\n":                             "In line 2 under m there is `0x10`, which isn't a number.",
		"m\nInf\n":                              "In line 2 under m there is `Inf`, which isn't a number.",
		"m\n\x1b[2J\n":                          "In line 2 under m there is `\ufffd[2J`, which isn't a number.",
		"m\n" + strings.Repeat("a", 100) + "\n": "In line 2 under m there is `" + strings.Repeat("a", longestCell) + "…`, which isn't a number.",
		"m,T\n1,\"2\n3,4\n5,6\n":                "In line 2 under T, a quotation mark isn't closed on its line.",
		"m,T\n1,2\n3,4\"\n5,6\n":                "In line 3 under T there is `4\"`, which isn't a number.",
		"\"m,T\n1,2\n":                          "In the head of column 1, a quotation mark isn't closed on its line.",
		"\xff\xfem\x00\n":                       "This file is written in UTF-16.",
		"x / \xb5m\n1\n":                        "The head of column 1 isn't in UTF-8.",
	} {
		got, bad := readCSV([]byte(text))
		said := ""
		if bad != nil {
			said = bad.Message
		} else {
			said = fmt.Sprint(got.cols)
		}
		if said != want {
			t.Errorf("%q: %s\nwant %s", text, said, want)
		}
	}
}

// TestCSVLimit reads a file of as many rows as there may be, and none of one more.
func TestCSVLimit(t *testing.T) {
	text := "x\n" + strings.Repeat("1\n", limit.DataRows)
	if got, bad := readCSV([]byte(text)); bad != nil || len(got.cols[0]) != limit.DataRows {
		t.Errorf("%d rows: %v", limit.DataRows, bad)
	}
	if _, bad := readCSV([]byte(text + "1\n")); bad == nil {
		t.Errorf("%d rows are read", limit.DataRows+1)
	}
}

// FuzzCSV reads anything, and finds as many numbers in each column.
func FuzzCSV(f *testing.F) {
	f.Add("m / kg,T / s\n0.1,0.45\n")
	f.Add("\ufeffm (kg);u(T) / s\r\n0,10;0,45\r\n;\r\n")
	f.Add("a\tb\n\"1\n\"\t2e5")
	f.Fuzz(func(t *testing.T, text string) {
		got, bad := readCSV([]byte(text))
		if bad != nil {
			return
		}
		for _, col := range got.cols {
			if len(col) != len(got.cols[0]) {
				t.Errorf("%d values, %d values", len(col), len(got.cols[0]))
			}
			for _, n := range col {
				if n.v-n.v != 0 || n.figures() < 1 {
					t.Errorf("%+v", n)
				}
			}
		}
	})
}

// BenchmarkCSV reads a million rows; x-csv is the time over that of the reader of the
// standard library alone.
func BenchmarkCSV(b *testing.B) {
	var text bytes.Buffer
	text.WriteString("m / kg,T / s\n")
	for i := range 1_000_000 {
		fmt.Fprintf(&text, "%.3f,%.4f\n", float64(i)/1000, float64(i)/777)
	}
	var alone, ours time.Duration
	b.SetBytes(int64(text.Len()))
	for b.Loop() {
		start := time.Now()
		if _, bad := readCSV(text.Bytes()); bad != nil {
			b.Fatal(bad)
		}
		ours += time.Since(start)
		b.StopTimer()
		start = time.Now()
		r := csv.NewReader(bytes.NewReader(text.Bytes()))
		r.ReuseRecord = true
		for {
			if _, err := r.Read(); err == io.EOF {
				break
			}
		}
		alone += time.Since(start)
		b.StartTimer()
	}
	b.ReportMetric(float64(ours)/float64(alone), "x-csv")
}
