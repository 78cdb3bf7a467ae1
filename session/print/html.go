package print

import (
	_ "embed"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"steelyard/lang/typeset"
	"steelyard/session/entry"
)

//go:embed style.css
var style string

// HTML writes a document as one page without scripts or anything from outside:
// the style, the formulas (MathML) and the graphs (SVG) are part of it.
func HTML(d *Document) []byte {
	p := page{out: make([]byte, 0, usual+eachPart*len(d.Parts)), handout: d.Edition == Handout, set: d.set, regions: map[string]int{}}
	write(d, &p)
	return p.out
}

// page is a document on its way to HTML.
//
// All goes into one slice: drawings and formulas append to it, and nothing is copied.
type page struct {
	out     []byte
	handout bool
	parts   int
	figures int
	regions map[string]int // how often each name of a region was wanted
	where   string         // "part a", for the names of regions
	set     *setter
}

func (p *page) text(all ...string) {
	for _, s := range all {
		p.out = append(p.out, s...)
	}
}

// formula writes a formula in the text.
func (p *page) formula(set typeset.Box) {
	if !set.IsEmpty() {
		p.math("<math>", set)
	}
}

// MathML is read aloud and can be enlarged; a picture of a formula is neither.
func (p *page) math(tag string, set typeset.Box) {
	p.text(tag)
	p.out = set.MathML(p.out)
	p.text("</math>")
}

// prose writes a line of text, with mathematics set.
func (p *page) prose(text string) { p.say(entry.Written(text)) }

// say writes what the program says.
func (p *page) say(said entry.Said) { p.pieces(p.set.say(said)) }

func (p *page) pieces(all []piece) {
	for _, one := range all {
		p.unbroken(escapeLines(one.words))
		p.formula(one.set)
		if one.code != "" {
			p.text("<code>", escapeLines(one.code), "</code>")
		}
	}
}

// unbroken writes words of which those with a no-break space between them stay on one
// line: the fonts of a page have such spaces of any width, and the blank of the line is
// right.
func (p *page) unbroken(words string) {
	for {
		at := strings.IndexRune(words, '\u00a0')
		if at < 0 {
			p.text(words)
			return
		}
		from := strings.LastIndexAny(words[:at], " \n") + 1
		to := len(words)
		if n := strings.IndexAny(words[at:], " \n"); n >= 0 {
			to = at + n
		}
		p.text(words[:from], `<span class="one">`, strings.ReplaceAll(words[from:to], "\u00a0", " "), "</span>")
		words = words[to:]
	}
}

// begin writes what stands above the first part.
func (p *page) begin(d *Document) {
	title := escapeHTML(d.title())
	p.text("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n",
		`<meta name="viewport" content="width=device-width, initial-scale=1">`, "\n",
		"<title>", title, "</title>\n<style>\n", style, heads(d.title()), "</style>\n</head>\n<body class=\"", d.Edition.class(), "\">\n<header>\n")
	p.text(`<p class="edition">`, d.edition(), "</p>\n<h1>")
	p.prose(d.title())
	p.text("</h1>\n")
	if p.handout {
		p.text(`<p class="who"><span>Name</span> <span>Date</span></p>`, "\n")
	}
	if p.handout && d.Caution != "" { // at the foot it could take a sheet of its own
		p.text(`<p class="caution">`, escapeHTML(d.Caution), "</p>\n")
	}
	p.text("</header>\n<main>\n")
}

// heads are the heads of the pages on paper: the title, and which page it is.
//
// The title is a string of CSS there, in which all that is no letter or digit is written by its
// code: a title can't end the style sheet.
func heads(title string) string {
	var quoted strings.Builder
	for _, r := range title {
		if unicode.IsLetter(r) || unicode.IsDigit(r) || r == ' ' {
			quoted.WriteRune(r)
		} else {
			quoted.WriteString(`\` + strconv.FormatInt(int64(r), 16) + " ")
		}
	}
	return "@page { @top-left { content: \"" + quoted.String() + "\"; font-size: 9pt; } @top-right { content: counter(page) \" / \" counter(pages); font-size: 9pt; } }\n" +
		"@page :first { @top-left { content: none; } }\n"
}

// class is the edition for the style.
func (e Edition) class() string {
	if e == Handout {
		return "handout"
	}
	return "key"
}

func (p *page) end(d *Document) {
	p.text("</main>\n")
	if d.Caution != "" && !p.handout {
		p.text("<footer>", escapeHTML(d.Caution), "</footer>\n")
	}
	p.text("</body>\n</html>\n")
}

// A section that is named by its heading is a landmark, from which one can jump to the next.
func (p *page) part(part *part, number int) {
	p.parts = number
	id, where := "part-"+strconv.Itoa(number), "part "+strconv.Itoa(number)
	label, question := part.head(number)
	p.where = where
	if label != "" {
		p.where = "part " + escapeHTML(label)
	}
	p.text(`<section class="part" aria-labelledby="`, id, "\">\n<h2 id=\"", id, `">`)
	if oneLine(part.Label+part.Question) == "" {
		p.text(question, "</h2>\n")
		return
	}
	p.text(framed(`<span class="label">`, escapeHTML(label), "</span> "), `<span class="question">`)
	p.prose(question)
	p.text("</span>")
	p.text(framed(` <span class="points">`, points(part.Points), "</span>"), "</h2>\n")
}

func (p *page) endPart() { p.text("</section>\n") }

func (p *page) note(lines []string) {
	p.text("<p>")
	for i, line := range lines {
		if i > 0 {
			p.text("<br>\n")
		}
		p.prose(line)
	}
	p.text("</p>\n")
}

func (p *page) cases(c *cases) {
	wide := 0
	for i := range c.Rows {
		wide = max(wide, breadth(c.Of)+breadth(c.Rows[i].X)+4+utf8.RuneCountInString(when(&c.Rows[i]).Text()))
	}
	p.region("cases", "Definition", wide)
	p.formula(c.box())
	p.text("\n</div>\n")
}

func (p *page) told(lines []entry.Said) {
	p.text(`<p class="told">`)
	for i, line := range lines {
		if i > 0 {
			p.text("\n")
		}
		p.say(line)
	}
	p.text("</p>\n")
}

// room writes lines to answer on. They are elements, since backgrounds are not
// printed.
func (p *page) room(r *room) {
	p.text(`<div class="room"><p class="unseen">Room for an answer</p>`)
	for range r.Lines {
		p.text("<div></div>")
	}
	p.text("</div>\n")
	for _, x := range r.Answers {
		p.text(`<p class="fill"><span class="unseen">Answer: </span>`)
		p.roomy(typeset.Relation(typeset.Expr(x), "=", typeset.Box{}), breadth(x))
		p.text("<span></span></p>\n")
	}
}

func (p *page) flaw(f *flaw) {
	class := "flaw"
	if f.Severity.Fails() {
		class += " standout"
	}
	p.text(`<div class="`, class, `" role="note">`, "\n<p><strong class=\"word\">", f.Severity.String(), `</strong> <span class="line">in line `, strconv.Itoa(f.Line), "</span></p>\n")
	p.text(framed("<p><code>", escapeHTML(f.Source), "</code></p>\n"))
	for _, says := range f.Says {
		if len(says) > 0 {
			p.text("<p>")
			p.pieces(says)
			p.text("</p>\n")
		}
	}
	p.text("</div>\n")
}
