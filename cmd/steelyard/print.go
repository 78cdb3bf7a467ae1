package main

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"steelyard/lang/limit"
	"steelyard/session/entry"
	"steelyard/session/print"
	"steelyard/session/worksheet"
)

// form is one way of printing.
type form struct {
	name, extension string
	write           func(*print.Document) []byte
}

// forms are the ways of printing, by what --as calls them.
var forms = []form{
	{"html", ".html", print.HTML},
	{"markdown", ".md", print.Markdown},
	{"latex", ".tex", print.LaTeX},
	{"text", ".txt", func(d *print.Document) []byte { return print.Plain(d, 80) }},
}

// printsAs is the way of printing into a file whose name has an extension, or nil.
func printsAs(extension string) *form {
	if i := slices.IndexFunc(forms, func(f form) bool { return f.extension == strings.ToLower(extension) }); i >= 0 {
		return &forms[i]
	}
	return nil
}

// formList lists the ways of printing by their names.
func formList() []string {
	names := make([]string, len(forms))
	for i, f := range forms {
		names[i] = f.name
	}
	return names
}

// formNames says them: html, markdown, latex or text.
func formNames() string {
	names := formList()
	last := len(names) - 1
	return strings.Join(names[:last], ", ") + " or " + names[last]
}

// printing is one printing of worksheets.
type printing struct {
	w       *world
	form    *form
	edition print.Edition
	with    []string // givens replaced
	part    string   // its label, where only one is printed
	drawing int      // its number, where only one is written
	to      string
	folder  bool
	open    bool // what is printed is shown
}

// runPrint prints worksheets as keys or handouts.
func runPrint(w *world, g given, files []string) int {
	p := &printing{w: w, to: g.value("output", ""), open: g.has("open"), with: g["with"], part: g.value("part", "")}
	problem := sheetsNamed(files)
	if problem == "" {
		problem = p.choose(g.value("as", ""), g.value("edition", "key"), files)
	}
	if problem == "" {
		problem = p.chooseDrawing(g.value("drawing", ""), g.value("as", ""))
	}
	if problem != "" {
		return w.usage("print", problem)
	}
	if p.open && p.to == "" {
		dir, err := os.MkdirTemp("", "steelyard-")
		if err != nil {
			w.complain("steelyard: there is no room for a page to be shown; print it to a file with -o.")
			return statusUsage
		}
		p.to, p.folder = dir, true
	}
	return p.all(files, p.print)
}

// all prints worksheets one after the other, each alone.
func (p *printing) all(files []string, print func(file string) int) int {
	status := statusHolds
	for _, file := range files {
		if p.w.ctx.Err() != nil {
			break
		}
		if problem := alone(file, func() { status = max(status, print(file)) }); problem != nil {
			fmt.Fprintln(p.w.stderr, problem.Error())
			status = statusUsage
		}
	}
	return status
}

// choose reads what the options say; it returns what is wrong with them.
func (p *printing) choose(as, edition string, files []string) string {
	ext := filepath.Ext(p.to)
	if p.form = printsAs(ext); as != "" { // without --as the name of the file says it
		p.form = nil
		if i := slices.Index(formList(), as); i >= 0 {
			p.form = &forms[i]
		}
	}
	switch {
	case as == "" && strings.EqualFold(ext, ".pdf"):
		return "PDF can't be printed directly: print html and use a browser, or print latex."
	case as == "" && p.form == nil:
		p.form = &forms[0]
	}
	switch edition {
	case "key":
		p.edition = print.Key
	case "handout":
		p.edition = print.Handout
	default:
		return "there is no edition " + quoted(edition) + ": write key or handout."
	}
	switch {
	case p.form == nil:
		return "worksheets can't be printed as " + quoted(as) + ": write " + formNames() + "."
	case strings.HasPrefix(files[0], "-") && files[0] != stdinName:
		return "there is no option " + quoted(files[0]) + "."
	case len(files) > 1 && p.to == "" && !p.open:
		return "several worksheets are printed into a folder: name it with -o."
	}
	info, err := os.Stat(p.to)
	if err == nil && !info.IsDir() && strings.HasSuffix(p.to, worksheet.Extension) {
		return p.to + " is a worksheet; name another file."
	}
	p.folder = len(files) > 1 || err == nil && info.IsDir() || strings.HasSuffix(p.to, string(filepath.Separator))
	if p.to == "" {
		p.folder = false
	}
	return p.sameName(files)
}

// sameName refuses worksheets that would be printed over each other.
func (p *printing) sameName(files []string) string {
	seen := map[string]string{}
	for _, f := range files {
		name := p.name(f)
		if other, twice := seen[name]; twice && p.folder {
			return other + " and " + f + " would both be printed to " + name + "."
		}
		seen[name] = f
		a, err1 := os.Stat(name)
		b, err2 := os.Stat(f)
		if err1 == nil && err2 == nil && os.SameFile(a, b) {
			return "-o " + p.to + " is the worksheet itself; name another file."
		}
	}
	return ""
}

// name is where a worksheet is printed to.
func (p *printing) name(file string) string {
	if !p.folder {
		return p.to
	}
	base := strings.TrimSuffix(filepath.Base(file), worksheet.Extension)
	if file == stdinName {
		base = "worksheet"
	}
	return filepath.Join(p.to, base+map[print.Edition]string{print.Key: "-key", print.Handout: "-handout"}[p.edition]+p.form.extension)
}

// print prints one worksheet.
func (p *printing) print(file string) int {
	sheet, problem := p.w.load(file)
	if problem != nil {
		fmt.Fprintln(p.w.stderr, problem.Error())
		return statusUsage
	}
	if n := sheet.Count(); n > limit.Printed {
		p.w.complain(fmt.Sprintf("%s: the worksheet has %d statements; the most that are printed is %d.", file, n, limit.Printed))
		return statusUsage
	}
	if len(p.with) > 0 {
		if sheet, problem = sheet.With(p.w.ctx, p.with); problem != nil {
			fmt.Fprintln(p.w.stderr, problem.Error())
			return statusUsage
		}
	}
	entries := worksheet.Work(p.w.ctx, sheet)
	if p.w.ctx.Err() != nil {
		return statusStopped // half a page is none
	}
	text, told, lacks := p.compose(sheet.Title, entries)
	if lacks != "" {
		p.w.complain(file + ": " + lacks)
		return statusUsage
	}
	for _, t := range told {
		p.w.complain(file + ": " + t)
	}
	status := statusHolds
	if print.Flawed(entries) && p.edition == print.Key {
		status = statusFinding
		p.w.complain(file + ": there are findings; `steelyard replay " + file + "` lists them.")
	}
	if p.to == "" || isStdout(p.to) {
		if _, err := p.w.stdout.Write(text); err != nil {
			return p.w.unwritten()
		}
		return status
	}
	if p.folder {
		if err := os.MkdirAll(p.to, 0o755); err != nil {
			p.w.complain("steelyard: the folder " + p.to + " can't be made; nothing was written.")
			return statusUsage
		}
	}
	if problem := worksheet.WriteFile(p.name(file), string(text)); problem != nil {
		fmt.Fprintln(p.w.stderr, problem.Error())
		return statusUsage
	}
	if p.open && !opened(p.name(file)) {
		p.w.complain("steelyard: no program here shows " + p.name(file) + "; open it yourself.")
		return statusUsage
	}
	return status
}

// chooseDrawing reads which drawing is written alone; it returns what is wrong with it.
func (p *printing) chooseDrawing(number, as string) string {
	svg := strings.EqualFold(filepath.Ext(p.to), ".svg")
	if number == "" {
		if svg && as == "" {
			return "a file of SVG has one drawing: name it with --drawing, as in --drawing 1."
		}
		return ""
	}
	n, err := strconv.Atoi(number)
	switch {
	case err != nil || n < 1:
		return "--drawing needs the number of a drawing, such as 1."
	case as != "" || p.folder || p.to != "" && !svg && !isStdout(p.to):
		return "a drawing is SVG: name one file after -o, as in -o graph.svg."
	}
	p.drawing = n
	return ""
}

// compose is a worksheet as it is printed, with what is to be told of it, or what it
// lacks of what is asked for.
func (p *printing) compose(title string, entries []*entry.Entry) (text []byte, told []string, lacks string) {
	doc, told := print.New(title, entries, p.edition)
	if p.part != "" && !doc.Only(p.part) {
		return nil, nil, "there is no part " + quoted(p.part) + "."
	}
	if p.drawing == 0 {
		return p.form.write(doc), told, ""
	}
	svg, of := doc.Drawing(p.drawing)
	if svg == "" {
		return nil, nil, fmt.Sprintf("there is no drawing %d: the page has %d.", p.drawing, of)
	}
	return []byte(svg), told, ""
}

// isStdout tells whether a path names what standard output is, as /dev/stdout does:
// that is written to, and never replaced.
func isStdout(path string) bool {
	named, err1 := os.Stat(path)
	out, err2 := os.Stdout.Stat()
	return err1 == nil && err2 == nil && os.SameFile(named, out)
}
