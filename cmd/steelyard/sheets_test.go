package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"
)

// TestSpreadsheet reads a spreadsheet file wherever a worksheet is worked out, with its givens
// replaced too.
func TestSpreadsheet(t *testing.T) {
	folder := t.TempDir()
	f := excelize.NewFile()
	for i, row := range []*[]any{{"m / kg", "T / s"}, {0.1, 0.45}, {0.2, 0.65}} {
		if err := f.SetSheetRow("Sheet1", "A"+strconv.Itoa(i+1), row); err != nil {
			t.Fatal(err)
		}
	}
	if err := f.SaveAs(filepath.Join(folder, "swing.xlsx")); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(folder, "swing.worked"), []byte("worksheet 1  Swing\n\nn = 2\ndata swing.xlsx\nT_m = n*mean(T)\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	t.Chdir(folder)
	for _, c := range []struct {
		want string
		args []string
	}{
		{"= 1.10 ± 0.20 s", []string{"eval", "data swing.xlsx", "2*mean(T)"}},
		{": 2 results without a record", []string{"replay", "swing.worked"}},
		{"→ 1.65 ± 0.30 s", []string{"replay", "--with", "n = 3", "swing.worked"}},
		{"", []string{"print", "-o", "key.html", "swing.worked"}},
		{"", []string{"print", "-o", "b.html", "--with", "n = 3", "swing.worked"}},
	} {
		var out bytes.Buffer
		w := &world{ctx: context.Background(), stdin: strings.NewReader(""), stdout: &out, stderr: &out, width: 80}
		if status := run(w, c.args); status != statusHolds || !strings.Contains(out.String(), c.want) {
			t.Errorf("%q: status %d\n%s", c.args, status, out.String())
		}
	}
}
