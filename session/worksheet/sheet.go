package worksheet

import (
	"crypto/sha256"
	"fmt"
	"io"
	"os"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"steelyard/lang/finding"
	"steelyard/lang/limit"
	"steelyard/session/record"
)

// formatVersion is the version of the format that this package reads and writes.
const formatVersion = 1

const byteOrderMark = "\ufeff"

// Sheet is a worksheet as it stands in a file: its text cut into statements
// and records, none of it worked out.
type Sheet struct {
	path  string
	Title string
	// Statements are those of the file in order. A blank line and a remark are
	// statements too, so that nothing is lost when a sheet is saved again.
	Statements []Statement
	// Files reads a file of readings; of a spreadsheet file the sheet that is named, or else the
	// first. A sheet without it reads the files of its folder, spreadsheets not among them.
	Files  func(name, sheet string) ([]byte, error)
	text   string
	varied bool // givens were replaced: records are of other values
}

// Statement is one statement of a sheet with what is recorded under it.
type Statement struct {
	// Line is the number of its first line in the file, from 1.
	Line int
	// Text is the statement with its indented lines, without records and with
	// lines ended by LF.
	Text string
	// records are the lines under it that record results, in order.
	records []record.Line
	end     int // byte in the file behind the last line before the records
}

// Whole is the statement with its records.
func (st *Statement) Whole() string { return record.Join(st.Text, st.records) }

// Load reads a worksheet.
func Load(path string) (*Sheet, *FileProblem) {
	text, problem := readFile(path)
	if problem != nil {
		return nil, problem
	}
	return Parse(path, text)
}

// Read reads a worksheet that is no file; the name is only for what is said of it.
func Read(name string, from io.Reader) (*Sheet, *FileProblem) {
	text, problem := readAll(name, from, 0)
	if problem != nil {
		return nil, problem
	}
	return Parse(name, text)
}

// readFile returns the bytes of a plain file that is not beyond the limit.
func readFile(path string) (string, *FileProblem) {
	info, err := os.Stat(path)
	if err != nil {
		return "", unreadable(path, err)
	}
	if info.IsDir() {
		return "", &FileProblem{Kind: NotRead, Path: path, Message: "this is a folder, not a worksheet.", Hint: "Name the file in it."}
	}
	if !info.Mode().IsRegular() {
		return "", &FileProblem{Kind: NotRead, Path: path, Message: "this is a device or a pipe, not a file.", Hint: "Name a file."}
	}
	f, err := os.Open(path)
	if err != nil {
		return "", unreadable(path, err)
	}
	defer f.Close()
	return readAll(path, f, info.Size())
}

// readAll reads what is not beyond the limit; about so many bytes are expected.
func readAll(path string, from io.Reader, size int64) (string, *FileProblem) {
	var b strings.Builder
	b.Grow(int(min(size, limit.File)) + 1)
	n, err := io.Copy(&b, io.LimitReader(from, limit.File+1))
	if err != nil {
		return "", unreadable(path, err)
	}
	if n > limit.File {
		return "", &FileProblem{Kind: NotSheet, ID: finding.TooLong, Path: path,
			Message: fmt.Sprintf("the file has more than %d MiB, which is the most a worksheet may have.", limit.File>>20)}
	}
	return b.String(), nil
}

// Parse reads the text of a worksheet. The path is only for what is said of
// it.
func Parse(path, text string) (*Sheet, *FileProblem) {
	s := &Sheet{path: path, text: text}
	problem := s.readText()
	if problem == nil {
		problem = s.readFirst()
	}
	if problem == nil {
		s.split()
		problem = s.tooMany()
	}
	if problem != nil {
		problem.Kind, problem.Path = NotSheet, path
		return nil, problem
	}
	return s, nil
}

// Count is the number of statements, blank lines and remarks left out.
func (s *Sheet) Count() int {
	n := 0
	for i := range s.Statements {
		if !s.Statements[i].silent() {
			n++
		}
	}
	return n
}

// tooMany makes sure that the statements are not more than a sheet may have.
func (s *Sheet) tooMany() *FileProblem {
	n := s.Count()
	if n <= limit.Statements {
		return nil
	}
	return &FileProblem{ID: finding.TooLong,
		Message: fmt.Sprintf("the file has %d statements; the most a worksheet may have is %d.", n, limit.Statements),
		Hint:    "Split it into several worksheets."}
}

// readText makes sure that the bytes are text.
func (s *Sheet) readText() *FileProblem {
	if n := strings.Count(s.text, "\n"); n > limit.Lines {
		return &FileProblem{ID: finding.TooLong,
			Message: fmt.Sprintf("the file has %d lines; the most a worksheet may have is %d.", n, limit.Lines)}
	}
	if utf8.ValidString(s.text) {
		return nil
	}
	p := &FileProblem{ID: finding.BadText, Hint: "Save it again as UTF-8; most editors ask for the encoding under Save as."}
	if strings.HasPrefix(s.text, "\xff\xfe") || strings.HasPrefix(s.text, "\xfe\xff") {
		p.Message = "the file is UTF-16; a worksheet must be UTF-8."
		return p
	}
	line := 1
	for rest := s.text; ; line++ {
		first, after, _ := strings.Cut(rest, "\n")
		if !utf8.ValidString(first) {
			break
		}
		rest = after
	}
	p.Line = line
	p.Message = "the line holds bytes that are not UTF-8, so its letters can't be told."
	return p
}

// readFirst reads the first line: worksheet 1  Title.
func (s *Sheet) readFirst() *FileProblem {
	first, _, _ := strings.Cut(strings.TrimPrefix(s.text, byteOrderMark), "\n")
	first = strings.TrimSuffix(first, "\r")
	p := &FileProblem{ID: finding.UnknownFormat, Line: 1, Hint: "Write in the first line: worksheet 1  and a title."}
	if s.text == "" {
		p.Line = 0
		p.Message = "the file is empty."
		return p
	}
	word, rest := cutWord(first)
	if word != "worksheet" {
		p.Message = "the first line does not say that this is a worksheet."
		return p
	}
	number, title := cutWord(rest)
	version, err := strconv.Atoi(number)
	switch {
	case err != nil:
		p.Message = "the number of the format is missing in the first line."
	case version != formatVersion:
		p.Message = fmt.Sprintf("this worksheet is written in format %d; this program reads format %d.", version, formatVersion)
		p.Hint = "A newer version of the program may read it."
	case strings.ContainsFunc(strings.ReplaceAll(first, "\t", " "), unicode.IsControl):
		p.ID = finding.BadText
		p.Message = "the first line holds a control character, such as the line ends of an old system."
		p.Hint = "Save the file again with its lines ended by LF or CR LF."
	default:
		s.Title = strings.TrimSpace(title)
		return nil
	}
	return p
}

// cutWord takes the first word off a line. The line may not begin with white
// space.
func cutWord(line string) (word, rest string) {
	if i := strings.IndexFunc(line, unicode.IsSpace); i >= 0 {
		return line[:i], strings.TrimLeftFunc(line[i:], unicode.IsSpace)
	}
	return line, ""
}

// Stamp is what a file was like when it was read or written, by which a change
// made by someone else is noticed.
type Stamp struct {
	size int
	sum  [sha256.Size]byte
	crlf bool
	mark bool
}

func stampOf(text string) *Stamp {
	first, _, _ := strings.Cut(text, "\n")
	return &Stamp{
		size: len(text), sum: sha256.Sum256([]byte(text)),
		crlf: strings.HasSuffix(first, "\r"), mark: strings.HasPrefix(text, byteOrderMark),
	}
}

// Stamp returns the stamp of the sheet's file as it was read.
func (s *Sheet) Stamp() *Stamp { return stampOf(s.text) }
