package typeset

import (
	"math"
	"strconv"
)

// readRow works out what a row of MathML says by the rules of print: products
// before sums, a sign before its term, brackets and fractions as one thing.
func readRow(kids []*node) float64 {
	r := rowReader{kids: kids}
	v := r.sum()
	if r.at < len(r.kids) {
		return math.NaN()
	}
	return v
}

type rowReader struct {
	kids []*node
	at   int
}

// sign takes one of the signs given, or returns "".
func (r *rowReader) sign(signs ...string) string {
	if r.at == len(r.kids) || r.kids[r.at].tag != "mo" {
		return ""
	}
	for _, s := range signs {
		if r.kids[r.at].text == s {
			r.at++
			return s
		}
	}
	return ""
}

func (r *rowReader) sum() float64 {
	first := r.sign("−", "+")
	v := r.product()
	if first == "−" {
		v = -v
	}
	for {
		switch r.sign("−", "+") {
		case "−":
			v -= r.product()
		case "+":
			v += r.product()
		default:
			return v
		}
	}
}

func (r *rowReader) product() float64 {
	v := r.factor()
	for {
		switch r.sign("⋅", "×", "\u2062", "/") {
		case "":
			return v
		case "/":
			v /= r.factor()
		default:
			v *= r.factor()
		}
	}
}

func (r *rowReader) factor() float64 {
	if r.at == len(r.kids) {
		return math.NaN()
	}
	n := r.kids[r.at]
	r.at++
	if n.tag == "mspace" {
		return r.factor()
	}
	return n.value()
}

func (n *node) value() float64 {
	switch n.tag {
	case "mi":
		return values[n.text]
	case "mn":
		v, _ := strconv.ParseFloat(n.text, 64)
		return v
	case "mfrac":
		return n.kids[0].value() / n.kids[1].value()
	case "msup":
		return math.Pow(n.kids[0].value(), n.kids[1].value())
	case "msqrt":
		return math.Sqrt(readRow(n.kids))
	case "mrow":
		kids := n.kids
		if len(kids) > 2 && kids[0].tag == "mo" {
			switch kids[0].text {
			case "(":
				return readRow(kids[1 : len(kids)-1])
			case "|":
				return math.Abs(readRow(kids[1 : len(kids)-1]))
			}
		}
		return readRow(kids)
	}
	return math.NaN()
}
