package print

import (
	"bytes"
	_ "embed"
	"strconv"
	"strings"

	"steelyard/lang/typeset"
)

//go:embed style.css
var style string

// HTML writes a document as one page without scripts or anything from outside:
// the style, the formulas (MathML) and the graphs (SVG) are part of it.
func HTML(d *Document) []byte {
	p := page{handout: d.Edition == Handout, regions: map[string]int{}}
	p.open(d)
	p.blocks(d.Blocks)
	for i := range d.Parts {
		p.part(&d.Parts[i])
	}
	p.text("</main>\n")
	if d.Caution != "" && !p.handout {
		p.text("<footer>", escapeHTML(oneLine(d.Caution)), "</footer>\n")
	}
	p.text("</body>\n</html>\n")
	return p.b.Bytes()
}

// page is a document on its way to HTML.
type page struct {
	b       bytes.Buffer
	handout bool
	parts   int
	figures int
	regions map[string]int // how often each name of a region was wanted
	several bool           // this part has more than one working
	where   string         // "part a", for the names of regions
}

func (p *page) text(all ...string) {
	for _, s := range all {
		p.b.WriteString(s)
	}
}

// formula writes a formula in the text.
func (p *page) formula(set typeset.Box) {
	if !set.IsEmpty() {
		p.text("<math>", set.MathML(), "</math>")
	}
}

// open writes what stands above the first part.
func (p *page) open(d *Document) {
	title := oneLine(d.Title)
	if title == "" {
		title = "Worksheet"
	}
	title = escapeHTML(title)
	p.text("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n",
		`<meta name="viewport" content="width=device-width, initial-scale=1">`, "\n",
		"<title>", title, "</title>\n<style>\n", style, "</style>\n</head>\n<body>\n<header>\n")
	p.text(`<p class="edition">`, d.edition(), "</p>\n<h1>", title, "</h1>\n")
	if p.handout {
		p.text(`<p class="who"><span>Name</span> <span>Date</span></p>`, "\n")
	}
	if p.handout && d.Caution != "" { // at the foot it could take a sheet of its own
		p.text(`<p class="caution">`, escapeHTML(oneLine(d.Caution)), "</p>\n")
	}
	p.text("</header>\n<main>\n")
}

// edition says for whom the document is, and how many points there are.
func (d *Document) edition() string {
	s := "Answer key"
	if d.Edition == Handout {
		s = "Handout"
	}
	if n := d.points(); n > 0 {
		s += " · " + points(n)
	}
	return s
}

// points adds up the points of the parts.
func (d *Document) points() int {
	n := 0
	for _, p := range d.Parts {
		n += max(0, p.Points)
	}
	return n
}

func points(n int) string {
	if n == 1 {
		return "1 point"
	}
	return strconv.Itoa(n) + " points"
}

// part writes one part of the question.
func (p *page) part(part *Part) {
	p.parts++
	id := "part-" + strconv.Itoa(p.parts)
	label, question := escapeHTML(oneLine(part.Label)), escapeHTML(oneLine(part.Question))
	p.where, p.several = "part "+label, part.several()
	p.text(`<section class="part" aria-labelledby="`, id, "\">\n")
	switch {
	case label == "" && question == "":
		p.where = "part " + strconv.Itoa(p.parts)
		p.text(`<h2 id="`, id, `">Part `, strconv.Itoa(p.parts), "</h2>\n")
	default:
		p.text(`<h2 id="`, id, `">`)
		if label != "" {
			p.text(`<span class="label">`, label, "</span> ")
		} else {
			p.where = "part " + strconv.Itoa(p.parts)
		}
		p.text(`<span class="question">`, question, "</span>")
		if part.Points > 0 {
			p.text(` <span class="points">`, points(part.Points), "</span>")
		}
		p.text("</h2>\n")
	}
	p.blocks(part.Blocks)
	p.text("</section>\n")
}

// several tells whether a part has more than one working, which then need names.
func (part *Part) several() bool {
	n := 0
	for _, b := range part.Blocks {
		if w, ok := b.(Working); ok && !w.Definitions {
			n++
		}
	}
	return n > 1
}

func (p *page) blocks(all []Block) {
	for _, b := range all {
		p.block(b)
	}
}

func (p *page) block(b Block) {
	switch b := b.(type) {
	case Note:
		p.note(b.Text)
	case Givens:
		p.givens(b.Rows)
	case Working:
		p.working(&b)
	case Answer:
		p.answer(&b)
	case Check:
		p.check(&b)
	case Graph:
		p.graph(&b)
	case EnergyBars:
		p.bars(&b)
	case Table:
		p.table(&b)
	case Text:
		p.told(b.Lines)
	case Flaw:
		p.flaw(&b)
	case Room:
		p.room(b.Lines)
	}
}

func (p *page) note(text string) {
	for _, lines := range prose(text) {
		p.text("<p>")
		p.lines(lines)
		p.text("</p>\n")
	}
}

// lines writes lines one under the other.
func (p *page) lines(lines []string) {
	for i, line := range lines {
		if i > 0 {
			p.text("<br>\n")
		}
		p.text(escapeHTML(line))
	}
}

func (p *page) told(lines []string) {
	if len(lines) == 0 {
		return
	}
	p.text(`<p class="told">`, escapeHTML(strings.Join(lines, "\n")), "</p>\n")
}

// mostRoom bounds the lines to write on, so that no document is all room.
const mostRoom = 60

// room writes lines to answer on. They are elements, since backgrounds are not
// printed.
func (p *page) room(lines int) {
	lines = max(1, min(lines, mostRoom))
	p.text(`<div class="room"><p class="unseen">Room for an answer</p>`)
	for range lines {
		p.text("<div></div>")
	}
	p.text("</div>\n")
}

func (p *page) flaw(f *Flaw) {
	class := "flaw"
	if f.Standout {
		class += " standout"
	}
	p.text(`<div class="`, class, `" role="note">`, "\n<p><strong class=\"word\">", escapeHTML(oneLine(f.Word)), "</strong>")
	if f.Line > 0 {
		p.text(` <span class="line">in line `, strconv.Itoa(f.Line), "</span>")
	}
	p.text("</p>\n")
	if source := oneLine(f.Source); source != "" {
		p.text("<p><code>", escapeHTML(source), "</code></p>\n")
	}
	for _, s := range [...]string{f.Message, f.Hint} {
		if s != "" {
			p.text("<p>", escapeHTML(s), "</p>\n")
		}
	}
	p.text("</div>\n")
}
