package print

import (
	"bytes"
	"encoding/xml"
	"io"
	"strings"
	"testing"
)

func TestHTMLGoldens(t *testing.T) {
	golden(t, "key.html", HTML(scaleKey()))
	golden(t, "handout.html", HTML(scaleHandout()))
}

// elements reads a page strictly: every tag closed, every attribute in quotes. It
// gives the tags and the attributes that stand there.
func elements(t *testing.T, page []byte) (tags map[string]int, ids map[string]int) {
	t.Helper()
	tags, ids = map[string]int{}, map[string]int{}
	body := page
	for _, open := range [...]string{"meta", "br"} {
		body = closeVoid(body, open)
	}
	d := xml.NewDecoder(bytes.NewReader(body))
	for {
		token, err := d.Token()
		if err == io.EOF {
			return tags, ids
		}
		if err != nil {
			t.Fatalf("not well formed: %v", err)
		}
		start, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		tags[start.Name.Local]++
		for _, a := range start.Attr {
			switch {
			case a.Name.Local == "id":
				ids[a.Value]++
			case strings.HasPrefix(a.Name.Local, "on"), a.Name.Local == "href", a.Name.Local == "src":
				t.Errorf("<%s> has %s=%q", start.Name.Local, a.Name.Local, a.Value)
			}
		}
	}
}

// closeVoid writes <br> as <br/>.
func closeVoid(page []byte, tag string) []byte {
	var out []byte
	for {
		i := bytes.Index(page, []byte("<"+tag))
		if i < 0 {
			return append(out, page...)
		}
		end := i + bytes.IndexByte(page[i:], '>')
		out = append(append(out, page[:end]...), '/', '>')
		page = page[end+1:]
	}
}

func TestHTMLIsWellFormed(t *testing.T) {
	for name, d := range map[string]*Document{"key": scaleKey(), "handout": scaleHandout(), "hostile": hostile(), "empty": {}, "long": tenParts()} {
		t.Run(name, func(t *testing.T) {
			page := HTML(d)
			tags, ids := elements(t, page)
			for _, never := range [...]string{"script", "link", "img", "iframe", "object", "b"} {
				if tags[never] > 0 {
					t.Errorf("the page has <%s>", never)
				}
			}
			if tags["h1"] != 1 || tags["html"] != 1 || tags["title"] < 1 {
				t.Errorf("h1 %d, html %d, title %d", tags["h1"], tags["html"], tags["title"])
			}
			for id, n := range ids {
				if n > 1 {
					t.Errorf("id %q stands %d times", id, n)
				}
			}
			for _, never := range [...]string{"http:", "https:", "url(http", "@import", "\x00", "\x1b", "\u202e"} {
				rest := strings.ReplaceAll(string(page), "http://www.w3.org/", "")
				if strings.Contains(rest, never) {
					t.Errorf("the page has %q", never)
				}
			}
		})
	}
}

func TestHTMLSays(t *testing.T) {
	page := string(HTML(scaleKey()))
	for _, want := range [...]string{
		`<html lang="en">`, `<section class="part" aria-labelledby="part-1">`, `<th scope="col">`, `<th scope="row">`, "<caption>Given</caption>",
		">holds</strong>", `<span class="points">4 points</span>`, "Answer key · 10 points", ">mismatch</strong>",
		`<strong><math>`, "divide both sides by s₀", `id="figure-1-title"`,
	} {
		if !strings.Contains(page, want) {
			t.Errorf("the key lacks %s", want)
		}
	}
	handout := string(HTML(scaleHandout()))
	for _, never := range [...]string{`class="answer"`, "<h3>", `class="check"`} {
		if strings.Contains(handout, never) {
			t.Errorf("the handout has %s", never)
		}
	}
	if strings.Contains(visibleText(handout), "245") {
		t.Error("the handout has 245")
	}
}

func BenchmarkHTML(b *testing.B) {
	d := tenParts()
	b.ReportAllocs()
	for b.Loop() {
		HTML(d)
	}
}

// TestOnlyWhatScrollsTakesFocus gives a region of its own to what is too wide for a phone
// alone.
func TestOnlyWhatScrollsTakesFocus(t *testing.T) {
	short, _ := New("Short", entered("m = 3 kg", "a = 2 m/s^2", "part a: How strong?", "F = m*a"), Key)
	if page := string(HTML(short)); strings.Contains(page, "tabindex") {
		t.Errorf("something takes focus:\n%s", page)
	}
	long, _ := New("Long", entered("m = 3 kg", "g = 9.81 m/s^2", "v = 2 m/s", "h = 3 m", "part a: How much?", "E = 1/2*m*v^2 + m*g*h + 2*m*g*h"), Key)
	if page := string(HTML(long)); strings.Count(page, "tabindex") != 1 {
		t.Errorf("%d things take focus, want the working alone:\n%s", strings.Count(page, "tabindex"), page)
	}
}
