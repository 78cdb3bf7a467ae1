package spreadsheet

import (
	"archive/zip"
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/xuri/excelize/v2"
)

// file makes a spreadsheet file of two sheets.
func file(t testing.TB) []byte {
	t.Helper()
	f := excelize.NewFile()
	defer f.Close()
	set := func(sheet, at string, v any, format string) {
		if err := f.SetCellValue(sheet, at, v); err != nil {
			t.Fatal(err)
		}
		if format != "" {
			style, err := f.NewStyle(&excelize.Style{CustomNumFmt: &format})
			if err != nil {
				t.Fatal(err)
			}
			if err := f.SetCellStyle(sheet, at, at, style); err != nil {
				t.Fatal(err)
			}
		}
	}
	set("Sheet1", "A1", "m / kg", "")
	set("Sheet1", "B1", "T / s", "")
	set("Sheet1", "A2", 0.1, "0.00")
	set("Sheet1", "B2", 0.6283, "0.00")
	set("Sheet1", "A3", 0.1+0.2, "")
	set("Sheet1", "B3", 1234.5, "#,##0.00")
	set("Sheet1", "A5", "0.40", "")
	set("Sheet1", "B5", 0.05, "0%")
	set("Sheet1", "A6", time.Date(2020, 3, 1, 0, 0, 0, 0, time.UTC), "yyyy")
	set("Sheet1", "B6", 1e-7, "")
	if _, err := f.NewSheet("Run 2"); err != nil {
		t.Fatal(err)
	}
	set("Run 2", "A1", "x", "")
	set("Run 2", "A2", 3, "")
	b, err := f.WriteToBuffer()
	if err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// TestFolder reads the first sheet of a file, or the one that is named; numbers as they
// are shown where nothing is lost by that.
func TestFolder(t *testing.T) {
	dir := t.TempDir()
	for name, content := range map[string][]byte{"a.xlsx": file(t), "b.XLSX": []byte("m\n1\n"), "c.csv": []byte("m\n1\n")} {
		if err := os.WriteFile(filepath.Join(dir, name), content, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	for _, c := range [][3]string{
		{"a.xlsx", "", "m / kg,T / s\n0.10,0.6283\n0.3,1234.50\n\n0.40,5%\n43891 shown as 2020,0.0000001\n"},
		{"a.xlsx", "Run 2", "x\n3\n"},
		{"a.xlsx", "Run 3", "it has no sheet Run 3; there is Sheet1 and Run 2"},
		{"b.XLSX", "", "it is damaged, locked by a password, or no file of a spreadsheet program"},
		{"c.csv", "", "m\n1\n"},
	} {
		got, err := Folder(dir)(c[0], c[1])
		if err != nil {
			got = []byte(err.Error())
		}
		if string(got) != c[2] {
			t.Errorf("%s %s: %q, want %q", c[0], c[1], got, c[2])
		}
	}
}

// TestCells reads as many cells as there may be, and none of one more.
func TestCells(t *testing.T) {
	f, err := excelize.OpenReader(bytes.NewReader(file(t)))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	const all = 10
	if got, err := cells(f, "Sheet1", all); err != nil || len(got) != 6 {
		t.Errorf("%v, %v", got, err)
	}
	if _, err := cells(f, "Sheet1", all-1); err == nil || err.Error() != "its sheet Sheet1 has more than 9 cells" {
		t.Error(err)
	}
	if _, err := cells(f, "Sheet 9", all); err == nil {
		t.Error("a sheet that is not there is read")
	}
}

// sheetOf is a spreadsheet file whose first sheet has these rows, as XML.
func sheetOf(t testing.TB, rows string) []byte {
	t.Helper()
	whole := file(t)
	from, err := zip.NewReader(bytes.NewReader(whole), int64(len(whole)))
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	to := zip.NewWriter(&out)
	for _, part := range from.File {
		if part.Name != "xl/worksheets/sheet1.xml" {
			err = to.Copy(part)
		} else if w, err1 := to.Create(part.Name); err1 == nil {
			_, err = w.Write([]byte(`<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData>` + rows + `</sheetData></worksheet>`))
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	if err := to.Close(); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// TestStray reads sheets with a cell far from the others, or where no spreadsheet has one:
// the rows are not filled up to it, and it is told by its name.
func TestStray(t *testing.T) {
	const table = `<row r="1"><c r="A1" t="inlineStr"><is><t>m</t></is></c><c r="B1" t="inlineStr"><is><t>T</t></is></c></row>` +
		`<row r="2"><c r="A2"><v>3</v></c><c r="B2"><v>4</v></c></row>`
	for _, c := range [][2]string{
		{table, "m,T\n3,4\n"},
		{table + `<row r="7"><c r="XFD7" s="0"/></row><row r="1048576"/>`, "m,T\n3,4\n"},
		{table + `<row r="4"><c r="A4"><v>5</v></c></row>`, "m,T\n3,4\n\n5,\n"},
		{table + `<row r="7"><c r="XFD7"><v>1</v></c></row>`, "its cell XFD7 has no head above it; write one, or clear the cell"},
		{strings.Replace(table, `"B1"`, `"XFD1"`, 1), "column B has no head, and column XFD has one; write one, or take the blank columns out"},
		{table + `<row r="1500000000"><c r="A1500000000"><v>1</v></c></row>`, "its sheet Sheet1 has a row beyond 1048576, the last of a spreadsheet"},
		{table + `<row r="99999999999999999999"/>`, "its sheet Sheet1 has a row beyond 1048576, the last of a spreadsheet"},
		{table + `<row r="7"><c r="A1500000000"><v>1</v></c></row>`, "its sheet Sheet1 has a row beyond 1048576, the last of a spreadsheet"},
		{table + `<row r="7"><c r="ZZZZ7"><v>1</v></c></row>`, "its sheet Sheet1 has a cell beyond XFD, the last column of a spreadsheet"},
		{table + `<row r="0"><c r="A0"><v>1</v></c></row>`, "its sheet Sheet1 is damaged, or holds no cells"},
	} {
		got, err := values(sheetOf(t, c[0]), "")
		if err != nil {
			got = []byte(err.Error())
		}
		if string(got) != c[1] {
			t.Errorf("%s\n%q, want %q", c[0], got, c[1])
		}
	}
	if got, err := values(sheetOf(t, table+`<row r="90000"><c r="A90000"><v>1</v></c></row>`), ""); err != nil || len(got) > 91_000 {
		t.Errorf("%d bytes, %v", len(got), err)
	}
}

// FuzzFile opens what may be no spreadsheet file.
func FuzzFile(f *testing.F) {
	whole := file(f)
	f.Add(whole)
	for _, cut := range []int{0, 10, len(whole) / 2, len(whole) - 1} {
		f.Add(whole[:cut])
	}
	f.Add(sheetOf(f, `<row r="3"><c r="B3"><v>1</v></c></row><row r="2"><c r="XFD2"><v>1</v></c></row>`))
	f.Add(bytes.Replace(whole, []byte("sheet1"), []byte("sheet9"), 1))
	f.Fuzz(func(t *testing.T, content []byte) {
		got, err := values(content, "")
		if err == nil && strings.Contains(string(got), "\r") {
			t.Errorf("%q", got)
		}
	})
}
