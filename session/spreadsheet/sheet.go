// Package spreadsheet reads a sheet of a spreadsheet file (.xlsx, ISO/IEC 29500) as
// comma-separated values. It does not know what they mean.
package spreadsheet

import (
	"bytes"
	"cmp"
	"encoding/csv"
	"errors"
	"fmt"
	"math"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"

	"steelyard/lang/limit"
	"steelyard/session/disk"
	"steelyard/units/writing"
)

// Extension is how the name of a spreadsheet file ends.
const Extension = ".xlsx"

// mostUnpacked is how many times as long as the longest file what is packed in one may be.
const mostUnpacked = 4

// Folder reads files of a folder, as disk.Folder does; of a spreadsheet file the first
// sheet, or the one that is named.
func Folder(dir string) func(name, sheet string) ([]byte, error) {
	read := disk.Folder(dir)
	return func(name, sheet string) ([]byte, error) {
		content, err := read(name)
		if err != nil || !strings.EqualFold(filepath.Ext(name), Extension) {
			return content, err
		}
		return values(content, sheet)
	}
}

// values are those of a sheet, as comma-separated values: each line is a row of the sheet.
func values(content []byte, sheet string) ([]byte, error) {
	const most = mostUnpacked * limit.DataFile
	f, err := excelize.OpenReader(bytes.NewReader(content), excelize.Options{UnzipSizeLimit: most, UnzipXMLSizeLimit: most})
	if err != nil {
		return nil, errors.New("it is damaged, locked by a password, or no file of a spreadsheet program")
	}
	defer f.Close()
	sheets := f.GetSheetList()
	switch {
	case len(sheets) == 0:
		return nil, errors.New("it has no sheet")
	case sheet == "":
		sheet = sheets[0]
	default:
		if i, _ := f.GetSheetIndex(sheet); i < 0 {
			return nil, errors.New("it has no sheet " + sheet + "; there is " + writing.List(sheets, "and"))
		}
	}
	rows, err := cells(f, sheet, limit.SheetCells)
	if err != nil {
		return nil, err
	}
	var out bytes.Buffer
	w := csv.NewWriter(&out)
	wide := 0
	for _, row := range rows {
		if wide = cmp.Or(wide, len(row)); len(row) > 0 { // else it is a blank line, which is no head
			row = append(row, make([]string, wide-len(row))...)
		}
		if err := w.Write(row); err != nil {
			return nil, err
		}
	}
	w.Flush()
	return out.Bytes(), w.Error()
}

// cells are those of a sheet, row by row, up to the last that has any. The first of them are
// the heads: no cell is right of those.
//
// A sheet is read twice side by side, as it is shown and as it is kept, and no further than a
// number of cells, with those that are blank under a head: each takes a hundred times as long
// as one of a file of comma-separated values.
func cells(f *excelize.File, sheet string, most int) (out [][]string, err error) {
	shown, err1 := f.Rows(sheet)
	kept, err2 := f.Rows(sheet)
	if err := errors.Join(err1, err2); err != nil {
		return nil, unread(sheet, err)
	}
	defer shown.Close()
	defer kept.Close()
	n, last, wide := 0, 0, 0
	for shown.Next() && kept.Next() {
		a, err1 := shown.Columns()
		b, err2 := kept.Columns(excelize.Options{RawCellValue: true})
		if err := errors.Join(err1, err2); err != nil {
			return nil, unread(sheet, err)
		}
		row := make([]string, len(a))
		for k := range a {
			row[k] = cell(a[k], b[min(k, len(b)-1)])
		}
		if out = append(out, row); len(row) == 0 {
			continue
		}
		last = len(out)
		if wide = cmp.Or(wide, len(row)); len(row) > wide || n == 0 && slices.Contains(row, "") {
			return nil, headless(row, wide, last)
		}
		if n += wide; n > most {
			return nil, fmt.Errorf("its sheet %s has more than %d cells", sheet, most)
		}
	}
	if err := shown.Error(); err != nil {
		return nil, unread(sheet, err)
	}
	return out[:last], nil
}

// unread says why a sheet can't be read: it is told where a row or a column has a number that
// no spreadsheet has.
func unread(sheet string, err error) error {
	switch {
	case errors.Is(err, excelize.ErrMaxRows):
		return fmt.Errorf("its sheet %s has a row beyond %d, the last of a spreadsheet", sheet, excelize.TotalRows)
	case errors.Is(err, excelize.ErrColumnNumber):
		return fmt.Errorf("its sheet %s has a cell beyond XFD, the last column of a spreadsheet", sheet)
	}
	return errors.New("its sheet " + sheet + " is damaged, or holds no cells")
}

// headless says which column has no head: that of a blank one among the heads, or of a cell
// that is right of them.
func headless(row []string, wide, number int) error {
	if gap := slices.Index(row[:wide], ""); len(row) == wide {
		column, _ := excelize.ColumnNumberToName(gap + 1)
		last, _ := excelize.ColumnNumberToName(wide)
		return fmt.Errorf("column %s has no head, and column %s has one; write one, or take the blank columns out", column, last)
	}
	at := wide + slices.IndexFunc(row[wide:], func(cell string) bool { return cell != "" })
	name, _ := excelize.CoordinatesToCellName(at+1, number)
	return fmt.Errorf("its cell %s has no head above it; write one, or clear the cell", name)
}

// mostDigits is how many digits of a number a sheet keeps; those behind are of its binary
// form.
const mostDigits = 15

// cell is the text of a cell. A number is shown with the zeros that it was typed with
// (0.10), or rounded, and is kept in full: what is shown counts where that is the number
// itself, and else what is kept. What is shown as something else, as a date or a
// percentage, is left for the person to see, who finds it told as no number.
func cell(shown, kept string) string {
	shown = strings.Join(strings.Fields(shown), " ")
	number, err := strconv.ParseFloat(kept, 64)
	if err != nil {
		return shown
	}
	full := strconv.FormatFloat(number, 'g', mostDigits, 64)
	plain := strings.NewReplacer(",", "", " ", "", "\u00a0", "", "\u202f", "").Replace(shown)
	seen, err := strconv.ParseFloat(plain, 64)
	switch {
	case err != nil:
		return shown
	case strconv.FormatFloat(seen, 'g', mostDigits, 64) == full:
		return plain
	case math.Abs(seen-number) <= 0.501*place(plain):
		return full
	}
	return full + " shown as " + shown
}

// place is the place of the last digit of a number.
func place(text string) float64 {
	digits, power, _ := strings.Cut(strings.ToLower(text), "e")
	_, behind, _ := strings.Cut(digits, ".")
	of, _ := strconv.Atoi(power)
	return math.Pow10(of - len(behind))
}
