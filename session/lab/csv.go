package lab

import (
	"bytes"
	"encoding/csv"
	"errors"
	"io"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"

	"steelyard/lang/finding"
	"steelyard/lang/limit"
	"steelyard/lang/syntax"
	"steelyard/units"
	"steelyard/units/writing"
)

// reading is a number with the power of ten of its last figure.
//
// A zero at the end counts: 0.450 and 0.45 are one number, and known to other figures.
type reading struct {
	v    float64
	last int
}

// readings are columns as they were written, row by row.
//
// Rows without any value are counted and left out: spreadsheets save them below the last one.
type readings struct {
	heads []syntax.Column
	cols  [][]reading
	blank int // rows without any value
}

// bad is what is wrong with a file of readings.
func bad(message, hint string) *finding.Finding {
	f := finding.New(finding.BadData, syntax.Span{}, message, hint)
	return &f
}

// csvFile is a file of readings while it is read.
type csvFile struct {
	*csv.Reader
	readings
	numbers numbers
}

// readCSV reads columns parted by commas, semicolons or tabs, with a head each (RFC 4180,
// and the files that spreadsheets of other countries write: with semicolons, numbers may
// have decimal commas). Nothing is left out: a cell that holds no number is told by its
// line and column.
func readCSV(data []byte) (*readings, *finding.Finding) {
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	if bytes.HasPrefix(data, []byte{0xff, 0xfe}) || bytes.HasPrefix(data, []byte{0xfe, 0xff}) {
		return nil, bad("This file is written in UTF-16.", "Save it as comma-separated values in UTF-8.")
	}
	if bytes.IndexByte(data, '\n') < 0 { // the one sign may end a line as well as the other
		data = bytes.ReplaceAll(data, []byte("\r"), []byte("\n"))
	}
	first, _, _ := bytes.Cut(bytes.TrimLeft(data, "\r\n"), []byte("\n"))
	f := &csvFile{Reader: csv.NewReader(bytes.NewReader(data))}
	f.Comma = separator(string(first))
	f.FieldsPerRecord, f.ReuseRecord, f.LazyQuotes = -1, true, true
	// Blanks round a number are taken off with it; only before a quotation mark they count.
	f.TrimLeadingSpace = f.Comma != '\t' && (bytes.Contains(data, []byte(` "`)) || bytes.Contains(data, []byte("\t\"")))
	f.numbers.comma = f.Comma == ';'
	if wrong := f.readHeads(data); wrong != nil {
		return nil, wrong
	}
	for {
		row, err := f.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return nil, bad("This file can't be read as columns of values.", "Save it as comma-separated values.")
		}
		if wrong := f.add(row); wrong != nil {
			return nil, wrong
		}
	}
	switch {
	case len(f.cols[0]) == 0:
		return nil, bad("There are no rows under the heads of this file.", "Write a row of numbers for each reading.")
	case f.numbers.points && f.numbers.commas:
		return nil, bad("Some numbers in this file have a decimal comma, and some a decimal point.", "Write them all in one way, with nothing between thousands.")
	}
	return &f.readings, nil
}

// separator is the sign that parts the cells of a line.
//
// The heads decide, as numbers may have commas of their own. A semicolon before a tab, since a
// head may hold a tab that nobody sees, and no head has a semicolon.
func separator(line string) rune {
	switch {
	case strings.Contains(line, ";"):
		return ';'
	case strings.Contains(line, "\t"):
		return '\t'
	}
	return ','
}

// readHeads reads the first line, and makes room for the others.
//
// Each head has a name and a unit by the rules of the page: a wrong one is told with the same
// words as in a line. Room is made for as many rows as the file has lines, but no more than it
// has bytes for, so that a wrong size costs nothing.
func (f *csvFile) readHeads(data []byte) *finding.Finding {
	head, err := f.Read()
	if err != nil {
		return bad("There is nothing in this file.", "Its first line has the heads of the columns, as in `m / kg,T / s`.")
	}
	for i, text := range head {
		if !utf8.ValidString(text) {
			return bad("The head of column "+strconv.Itoa(i+1)+" isn't in UTF-8.", "Save the file as comma-separated values in UTF-8.")
		}
		if strings.Contains(text, "\n") {
			return bad("In the head of column "+strconv.Itoa(i+1)+", a quotation mark isn't closed on its line.", "Close it, or take it out.")
		}
		if strings.TrimSpace(text) == "" {
			return bad("Column "+strconv.Itoa(i+1)+" has no head.", "Write its name and unit, as in `m / kg`, or take the column out.")
		}
		h, wrong := syntax.ColumnHead(text)
		if wrong != nil {
			wrong.ID = finding.BadData
			return wrong
		}
		f.heads = append(f.heads, h)
	}
	rows := min(bytes.Count(data, []byte("\n")), limit.DataRows, len(data)/(2*len(f.heads))+1)
	f.cols = make([][]reading, len(f.heads))
	for i := range f.cols {
		f.cols[i] = make([]reading, 0, rows)
	}
	return nil
}

// add takes one row.
//
// A row counts with all of its cells or not at all, so that columns never go out of step.
func (f *csvFile) add(row []string) *finding.Finding {
	if len(row) != len(f.heads) || len(f.cols[0]) == limit.DataRows {
		return f.refuse(row, -1)
	}
	for i, cell := range row {
		n, ok := f.numbers.read(cell)
		if !ok {
			for k := range i {
				f.cols[k] = f.cols[k][:len(f.cols[i])]
			}
			return f.refuse(row, i)
		}
		f.cols[i] = append(f.cols[i], n)
	}
	return nil
}

// refuse says what is wrong with a row, of which cell i holds no number; nothing is if
// all cells are blank.
//
// A spreadsheet counts its lines, and so does what is said here: the reader goes to that cell.
func (f *csvFile) refuse(row []string, i int) *finding.Finding {
	n, _ := f.FieldPos(0)
	line := strconv.Itoa(n)
	switch {
	case strings.TrimSpace(strings.Join(row, "")) == "":
		f.blank++
		return nil
	case len(row) != len(f.heads):
		return bad("Line "+line+" has "+writing.Count(len(row), "value")+" under "+writing.Count(len(f.heads), "head")+".",
			"Each row has one value under each head. A decimal comma needs semicolons between the values.")
	case i < 0:
		return bad("This file has more than "+strconv.Itoa(limit.DataRows)+" rows.", "Take rows out, or use their means.")
	}
	if strings.Contains(row[i], "\n") {
		return bad("In line "+line+" under "+f.heads[i].Key()+", a quotation mark isn't closed on its line.", "Close it, or take it out.")
	}
	is := "there is `" + quoted(row[i]) + "`, which isn't a number"
	if strings.TrimSpace(row[i]) == "" {
		is = "there is no value"
	}
	return bad("In line "+line+" under "+f.heads[i].Key()+" "+is+".", "Put a number there, or take the row out of the file.")
}

// longestCell is how much of a cell is told.
const longestCell = 40

// quoted is the text of a cell as it may be shown.
//
// A cell may hold anything, signs that move the cursor and whole chapters too.
func quoted(cell string) string {
	if len(cell) > longestCell {
		cell = strings.ToValidUTF8(cell[:longestCell], "") + "…"
	}
	return writing.Clean(cell, writing.Screen)
}

// numbers reads numbers, and notes how they are written.
//
// Both signs in one file mean that one of them parts thousands, and 1,234 could be either: the
// file is refused then, and no number of it is guessed.
type numbers struct {
	comma          bool // a comma may be the decimal sign
	points, commas bool // there were such signs
}

// mostExact is how many digits a number has that a float64 holds as they are; so it does
// the powers of ten up to mostTens, and the quotient of two such is rounded once.
const mostExact, mostTens = 15, 22

// read reads a number with a decimal point, or a comma where that may be one.
//
// A table may have a million cells, nearly all short. Their digits are a whole number that is
// held exactly, and one division by an exact power of ten is rounded once, as the standard
// asks for (IEEE 754, 5.4.1; from memory): the result has the bits of the longer way.
func (r *numbers) read(cell string) (n reading, ok bool) {
	if cell == "" || cell[0] <= ' ' || cell[len(cell)-1] <= ' ' {
		cell = strings.TrimSpace(cell)
	}
	point, digits, whole := -1, 0, 0
	for i := range len(cell) {
		switch c := cell[i]; {
		case c >= '0' && c <= '9':
			digits++
			if digits <= mostExact {
				whole = 10*whole + int(c-'0')
			}
		case c == '.' && point < 0, c == ',' && r.comma && point < 0:
			point = i
		case (c == '-' || c == '+') && i == 0:
		default:
			return r.long(cell)
		}
	}
	if point >= 0 {
		n.last = point + 1 - len(cell)
		r.points, r.commas = r.points || cell[point] == '.', r.commas || cell[point] == ','
	}
	if digits == 0 || digits > mostExact || -n.last > mostTens {
		return r.long(cell)
	}
	if n.v = float64(whole) / tens[-n.last]; cell[0] == '-' {
		n.v = -n.v
	}
	return n, true
}

var tens = func() (all [mostTens + 1]float64) {
	for i := range all {
		all[i] = math.Pow10(i)
	}
	return all
}()

// long reads a number of many digits, or with a power of ten.
func (r *numbers) long(cell string) (n reading, ok bool) {
	cell = strings.Replace(cell, "−", "-", 1)
	if r.comma {
		r.commas = r.commas || strings.Contains(cell, ",")
		cell = strings.Replace(cell, ",", ".", 1)
	}
	d, ok := units.ParseDecimal(strings.TrimPrefix(strings.Replace(cell, "E", "e", 1), "+"))
	return reading{d.Float(), int(d.LastPlace)}, ok
}

// figures is how many figures a number was written with.
//
// The place of the first digit is told by the logarithm, that of the last was counted as it
// was read: 0.0450 has three.
func (n reading) figures() int {
	if n.v == 0 {
		return 1
	}
	const near = 1e-12 // the logarithm of 1000 may come out a little less than 3
	return max(1, int(math.Floor(math.Log10(math.Abs(n.v))+near))-n.last+1)
}
