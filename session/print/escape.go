package print

import (
	"strings"
	"unicode"

	"steelyard/lang/typeset"
	"steelyard/units/writing"
)

// clean takes out of a text what has no place in a document. Line breaks and tabs
// stay.
func clean(text string) string { return writing.Clean(text, writing.Page) }

// oneLine makes a single line of a text.
//
// A title with a line end in it would end a heading of Markdown, or a row of a table.
func oneLine(text string) string {
	text = clean(text)
	blank := true // before it
	for _, r := range text {
		was := blank
		if blank = unicode.IsSpace(r); blank && (was || r != ' ') {
			return strings.Join(strings.Fields(text), " ")
		}
	}
	return strings.TrimSuffix(text, " ") // it is one line, as most are
}

// paragraphs splits a text at its empty lines, and each paragraph into its lines.
func paragraphs(text string) [][]string {
	var all [][]string
	var one []string
	for line := range strings.SplitSeq(clean(text), "\n") {
		line = strings.TrimRight(line, " \t")
		if strings.TrimSpace(line) != "" {
			one = append(one, line)
			continue
		}
		if len(one) > 0 {
			all, one = append(all, one), nil
		}
	}
	if len(one) > 0 {
		all = append(all, one)
	}
	return all
}

// prose is paragraphs with their lines joined, as they were only broken to fit the
// worksheet. Lines that begin as an item of a list or are indented stay apart.
func prose(text string) [][]string {
	all := paragraphs(text)
	for i, lines := range all {
		joined := lines[:0]
		for j, line := range lines {
			if j == 0 || apart(line) {
				joined = append(joined, line)
			} else {
				joined[len(joined)-1] += " " + strings.TrimSpace(line)
			}
		}
		all[i] = joined
	}
	return all
}

// apart tells whether a line of prose begins something of its own.
func apart(line string) bool {
	if line[0] == ' ' || line[0] == '\t' {
		return true
	}
	first, _, found := strings.Cut(line, " ")
	return found && (first == "-" || first == "*" || first == "•" ||
		len(first) <= 4 && strings.Trim(first, "0123456789") == "." || len(first) <= 3 && strings.HasSuffix(first, ")"))
}

// framed is a text with what opens and what shuts it; where there is no text there is no
// frame.
//
// Most of what a document says of something is there or not: points, a label, a tail, a reason.
// This way each place says once how it looks, and a bracket never stays empty.
func framed(open, text, shut string) string {
	if text == "" {
		return ""
	}
	return open + text + shut
}

var htmlEscapes = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&quot;", "'", "&#39;")

// escapeHTML writes a line of text so that no part of it is markup, inside an
// element or an attribute in quotes.
func escapeHTML(text string) string { return htmlEscapes.Replace(oneLine(text)) }

// escapeLines is escapeHTML for text whose blanks and line ends count.
func escapeLines(text string) string { return htmlEscapes.Replace(clean(text)) }

// escapeMarkdown writes text so that no part of it is Markdown or HTML, for one
// line of a paragraph, a heading or a cell.
//
// Only signs that mean something to CommonMark get a stroke, as source is read by people too.
func escapeMarkdown(text string) string { return markedText(oneLine(text), true) }

// markedText is escapeMarkdown for a piece of such a line, which may be the first.
func markedText(text string, first bool) string {
	if !strings.ContainsAny(text, "\\`*_[]<>#|~$&!") && !(first && strings.ContainsAny(text[:min(1, len(text))], "-+=:0123456789")) {
		return text
	}
	var b strings.Builder
	for i, r := range text {
		switch {
		case strings.ContainsRune("\\`*_[]<>#|~$&!", r), first && i == 0 && strings.ContainsRune("-+=:", r):
			b.WriteByte('\\')
		case (r == '.' || r == ')') && first && i > 0 && i < 10 && strings.Trim(text[:i], "0123456789") == "" && (i+1 == len(text) || text[i+1] == ' '):
			b.WriteByte('\\') // else a numbered list begins
		}
		b.WriteRune(r)
	}
	return b.String()
}

// longestRun gives how often a byte stands in a row.
func longestRun(text string, c byte) int {
	most, n := 0, 0
	for i := range len(text) {
		if n++; text[i] != c {
			n = 0
		}
		most = max(most, n)
	}
	return most
}

// codeSpan writes text in typewriter letters, as it is.
//
// The fence is longer than any run of such marks within, as CommonMark asks for.
func codeSpan(text string) string {
	text = oneLine(text)
	if text == "" {
		return ""
	}
	fence := strings.Repeat("`", longestRun(text, '`')+1)
	if strings.HasPrefix(text, "`") || strings.HasSuffix(text, "`") {
		text = " " + text + " "
	}
	return fence + text + fence
}

// escapeTeX writes a line of text so that no part of it is a command to LaTeX.
func escapeTeX(text string) string { return typeset.TeXText(oneLine(text)) }
