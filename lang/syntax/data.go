package syntax

import (
	"strconv"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/limit"
	"steelyard/units"
	"steelyard/units/writing"
)

type (
	// Data is data FILE [sheet NAME] [where …], or data with a table under it: columns of
	// readings, paired row by row.
	//
	// Two forms give columns. One reads a file, here with only the rows for which a
	// condition holds, or one of the sheets of a spreadsheet file; the other has the table
	// under it:
	//
	//	data swing.csv where m > 0.1 kg
	//	data swing.xlsx sheet Tuesday
	//
	//	data
	//	  m / kg   T / s
	//	  0.10     0.44
	//	  0.20     0.63
	//
	// A row is one reading, and the values of a row belong together: T goes with the m
	// beside it in a graph or a fit.
	Data struct {
		File   string // empty where the table is in the worksheet
		FileAt Span
		Sheet  string      // of a file of several; empty for the first
		Where  []Condition // of the rows that count; of the others it is told how many
		Heads  []Column    // of the table in the worksheet
		Rows   [][]units.Decimal
	}
	// Column is the head of a column: m / kg, T (s), u(T) / s for the uncertainties of T,
	// or x for pure numbers.
	//
	// The unit is in the head alone, and belongs to each number below it (ISO 80000-1
	// writes m/kg for the number that is left when m is divided by kg). Without a unit
	// the column holds pure numbers.
	Column struct {
		Ident
		Uncertain bool // it is of the standard uncertainties of the column of that name
		Unit      UnitText
	}
)

var dataWord = StatementWord{
	Word: "data", Form: "data FILE [sheet NAME] [where …], or data with a table in indented lines",
	Summary: "Columns of readings, paired row by row.",
	Example: "data\n  m / kg   T / s\n  0.10     0.44\n  0.20     0.63", Stored: true, Ready: true,
	read: readData, prose: true, bare: true, rows: true, next: []string{"sheet", "where"},
}

// IsData tells whether a line is meant for readings, whether or not it can be read.
func IsData(line string) bool { return leadingStatement(line) == &dataWord }

// Exprs are the sides of the conditions.
//
// The numbers of the table are no expressions: nothing in them is worked out.
func (s *Data) Exprs() []Expr {
	var out []Expr
	for _, c := range s.Where {
		out = append(out, c.Left, c.Right)
	}
	return exprs(out...)
}

// Defines are the columns of a table in the worksheet; those of a file are known to
// who reads it.
//
// A column of uncertainties gives no name: u(T) / s is a part of T.
func (s *Data) Defines() []Ident {
	var out []Ident
	for _, h := range s.Heads {
		if !h.Uncertain {
			out = append(out, h.Ident)
		}
	}
	return out
}

// is says that what a file holds is recorded, so that one that has changed is found.
func (s *Data) is() nature {
	return nature{storing: storing(s.File != ""), role: Given}
}

// Key is what the column is called: T, or u(T).
//
// T and u(T) may be in one table.
func (c *Column) Key() string {
	if c.Uncertain {
		return "u(" + c.Name + ")"
	}
	return c.Name
}

// readData reads what is behind the word data. With nothing there, the table is on
// the lines below. Else it is a file, and a sheet in it, up to the first where, with
// quotation marks if a name has them, and no indented lines may follow. Whether there is such a
// file, and what is in it, is not known here.
func readData(r *reader, at int) (Stmt, *fault) {
	from, to := trimBlanks(r.text, at, r.to)
	s := &Data{}
	if from == to {
		return s, r.dataTable(s)
	}
	s.FileAt = Span{From: from, To: to}
	if head, rest, ok := strings.Cut(r.text[from:to]+" ", " where "); ok {
		rest = strings.TrimSuffix(rest, " ")
		if strings.Contains(rest, " or ") {
			return nil, &fault{finding.New(finding.Unreadable, Span{From: to - len(rest), To: to}, "A row stays if every condition holds; `or` doesn't work here.",
				"Write what must hold for each row that stays, as in `where 0.1 kg < m < 0.4 kg and T < 2 s`.")}
		}
		s.FileAt.To = from + len(strings.TrimRight(head, " \t"))
		var bad *fault
		if s.Where, bad = r.dataConditions(Span{From: to - len(rest), To: to}); bad != nil {
			return nil, bad
		}
	}
	s.File, s.Sheet = sheetOf(r.text[s.FileAt.From:s.FileAt.To])
	return s, r.noBody()
}

// sheetOf parts the name of a file from that of a sheet in it: both have quotation marks
// round them if blanks are in them, as in "lab 3.xlsx" sheet "Run 2".
func sheetOf(text string) (file, sheet string) {
	file = text
	if i := strings.LastIndex(text, " sheet "); i >= 0 && strings.Count(text[:i], `"`)%2 == 0 {
		file, sheet = text[:i], text[i+len(" sheet "):]
	}
	name := func(of string) string { return strings.Trim(strings.TrimSpace(of), `"`) }
	return name(file), name(sheet)
}

// dataConditions reads m > 0.1 kg and T < 2 s.
//
// They are joined by and. A chain such as 0 s < T < 2 s makes two conditions of
// neighbours. Each is a comparison of its own with the span that it has in the
// line.
func (r *reader) dataConditions(at Span) ([]Condition, *fault) {
	line := &reader{text: r.text, from: at.From, to: at.To, known: r.known}
	tokens, bad := line.tokens("")
	if bad != nil {
		return nil, bad
	}
	p := line.line(tokens, 0)
	all := p.conditions()
	return all, p.ends()
}

// conditions reads A < B, or A < B < C, which is two, and what is joined to it by and.
func (p *exprParser) conditions() (all []Condition) {
	for more := true; more; more = p.taken("and") {
		c := p.comparisons()
		if p.bad != nil {
			break
		}
		for i, op := range c.signs {
			all = append(all, Condition{Left: c.sides[i], Op: op, Right: c.sides[i+1]})
		}
	}
	return all
}

// dataTable reads the indented lines: heads, then a row of numbers for each reading.
//
// What is refused, each at its cell or its row: a table with no row, more rows
// than limit.DataRows, a head that is none, a row with more or fewer values than
// there are heads, and what is no plain number. A cell with a unit in it is such a
// value too much: units are in the heads, where they are said once.
func (r *reader) dataTable(s *Data) *fault {
	if len(r.body) < 2 {
		return &fault{finding.New(finding.Incomplete, Span{From: r.from, To: r.to}, "The table is missing under this line.",
			"Write it in indented lines, as `m / kg   T / s` and below it `0.10   0.44`; or the name of a file, as in `data swing.csv`.")}
	}
	if len(r.body)-1 > limit.DataRows {
		return &fault{finding.New(finding.TooLong, r.body[limit.DataRows], "This table has more than "+strconv.Itoa(limit.DataRows)+" rows.", "")}
	}
	for _, cell := range parted(r.text, r.body[0], true) {
		h, bad := ColumnHead(r.text[cell.From:cell.To])
		if bad != nil {
			bad.At = cell
			return &fault{*bad}
		}
		h.NameAt, h.Unit.At = Span{From: cell.From + h.NameAt.From, To: cell.From + h.NameAt.To}, cell
		s.Heads = append(s.Heads, h)
	}
	for i, row := range r.body[1:] {
		cells := parted(r.text, row, false)
		if len(cells) != len(s.Heads) {
			return &fault{finding.New(finding.Unreadable, row, "Row "+strconv.Itoa(i+1)+" has "+writing.Count(len(cells), "value")+" under "+writing.Count(len(s.Heads), "head")+".",
				"Write one number under each head, and the unit in the head alone. Between heads come two blanks or a comma: `m / kg, T / s`.")}
		}
		numbers := make([]units.Decimal, len(cells))
		for j, cell := range cells {
			d, ok := units.ParseDecimal(r.text[cell.From:cell.To])
			if !ok {
				return &fault{finding.New(finding.BadNumber, cell, "Row "+strconv.Itoa(i+1)+" under "+s.Heads[j].Name+": `"+r.source(cell)+"` is no number.",
					"Write it with digits and a decimal point.")}
			}
			numbers[j] = d
		}
		s.Rows = append(s.Rows, numbers)
	}
	return nil
}

// parted are the cells of a row: two blanks or a tab are between heads, which have
// blanks in them, and any blanks between numbers. A comma, a semicolon or a bar with a blank
// behind it parts cells too.
//
// So the line "m / kg   T / s" has two heads, and "0.10 0.44" two numbers with one
// blank between. Cells are spans of the text, for a fault to point at.
func parted(text string, at Span, heads bool) []Span {
	blank := func(i int) bool { return i >= at.To || isBlankByte(text[i]) }
	sign := func(i int) bool { return strings.IndexByte(",;|", text[i]) >= 0 && blank(i+1) }
	var out []Span
	for i := at.From; i < at.To; {
		for i < at.To && (blank(i) || sign(i)) {
			i++
		}
		from := i
		for i < at.To && !sign(i) && text[i] != '\t' && !(text[i] == ' ' && (!heads || blank(i+1) || sign(i+1))) {
			i++
		}
		if from < i {
			out = append(out, Span{From: from, To: i})
		}
	}
	return out
}

func isBlankByte(c byte) bool { return c == ' ' || c == '\t' }

// ColumnHead reads the head of a column: a name, and the unit behind a stroke or in
// brackets (ISO 80000-1:2022, 7.1; SP 811, 7.1). Where the name is counts from the
// beginning of the text.
//
// Heads that are read, and the name and unit that they have:
//
//	m / kg        m, kg
//	T (s)         T, s
//	v (m/s)       v, m/s
//	v / (m/s)     v, m/s
//	a / m/s^2     a, m/s^2     the first stroke parts, the rest is the unit
//	n / 1         n, none
//	u(T) / s      T, s         its uncertainties
//	T_1 / s       T1, s        the name in canonical form
//
// What is before the unit must be one name: "2m / kg" is refused, and so is a word
// that the language keeps, as in "in / m". Whether the unit is one is found later.
func ColumnHead(text string) (h Column, bad *finding.Finding) {
	at := columnHead.compiled().FindStringSubmatchIndex(text)
	if at != nil {
		part := func(k int) string { return text[max(at[2*k], 0):max(at[2*k+1], 0)] }
		h.Uncertain = at[2] >= 0
		h.NameAt = Span{From: max(at[2], at[4]), To: max(at[3], at[5])}
		h.Name = Canonical(part(1) + part(2))
		h.Unit.Text = strings.TrimSpace(part(3) + part(4))
		if in, is := strings.CutPrefix(h.Unit.Text, "("); is {
			h.Unit.Text = strings.TrimSuffix(in, ")")
		}
	}
	tokens, wrong := scan(h.Name, 0, len(h.Name), "")
	if wrong != nil || len(tokens) != 1 || tokens[0].kind != nameToken || Reserved(h.Name) {
		f := finding.New(finding.NameKind, Span{}, "`"+strings.TrimSpace(text)+"` can't head a column.", "A head is a name and its unit, as in `m / kg` or `T (s)`.")
		return h, &f
	}
	if h.Unit.Text == "1" {
		h.Unit.Text = ""
	}
	return h, nil
}

// columnHead is a name, or u( ) round one, and its unit behind a stroke or in brackets.
var columnHead = patternWith(`^\s*(?:u\(\s*([^()]*?)\s*\)|([^/(]*?))\s*(?:/(.*)|\(((?:[^()]|\([^()]*\))*)\)\s*)?$`)
