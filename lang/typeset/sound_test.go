package typeset

import (
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"strings"
)

// arity lists the elements of W3C's recommendation MathML Core, section 3, that
// are used here, with how many children each takes; -1 is any number, 0 is text.
var arity = map[string]int{
	"math": -1, "mrow": -1, "msqrt": -1, "mi": 0, "mn": 0, "mo": 0, "mtext": 0, "mspace": 0,
	"mfrac": 2, "mroot": 2, "msub": 2, "msup": 2, "msubsup": 3,
}

// soundMathML tells what is wrong with a piece of MathML: it is one element or
// nothing, made of known elements with as many parts as each takes.
func soundMathML(s string) error {
	n, err := readMathML(s)
	if err != nil || s == "" {
		return err
	}
	if len(n.kids) != 1 {
		return fmt.Errorf("%d elements, not one", len(n.kids))
	}
	return n.check()
}

// node is an element of MathML.
type node struct {
	tag, text string
	kids      []*node
}

func (n *node) check() error {
	want, known := arity[n.tag]
	switch {
	case !known:
		return fmt.Errorf("<%s> is not in MathML Core", n.tag)
	case want >= 0 && want != len(n.kids):
		return fmt.Errorf("<%s> has %d parts, not %d", n.tag, len(n.kids), want)
	case want != 0 && strings.TrimSpace(n.text) != "":
		return fmt.Errorf("<%s> holds bare text %q", n.tag, n.text)
	}
	for _, k := range n.kids {
		if err := k.check(); err != nil {
			return err
		}
	}
	return nil
}

func readMathML(s string) (*node, error) {
	d := xml.NewDecoder(strings.NewReader("<math>" + s + "</math>"))
	root := &node{}
	stack := []*node{root}
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return root.kids[0], nil
		}
		if err != nil {
			return nil, err
		}
		top := stack[len(stack)-1]
		switch t := token.(type) {
		case xml.StartElement:
			n := &node{tag: t.Name.Local}
			top.kids = append(top.kids, n)
			stack = append(stack, n)
		case xml.EndElement:
			stack = stack[:len(stack)-1]
		case xml.CharData:
			top.text += string(t)
		default:
			return nil, fmt.Errorf("%T in the text", t)
		}
	}
}

// soundLaTeX tells what is wrong with a piece of LaTeX: it is plain ASCII on one
// line, its groups and its brackets close, and no character of it is special that
// should not be.
func soundLaTeX(s string) error {
	var depth, left int
	for i := 0; i < len(s); i++ {
		switch c := s[i]; {
		case c < ' ' || c > '~':
			return fmt.Errorf("byte %#x", c)
		case c == '\\':
			i++
			if i == len(s) {
				return errors.New("a lone backslash")
			}
			from := i
			for i < len(s) && isLetter(s[i]) {
				i++
			}
			switch s[from:i] {
			case "":
				continue
			case "left":
				left++
			case "right":
				left--
			case "end", "begin", "input", "def":
				return fmt.Errorf("the command %s", s[from:i])
			}
			i--
		case c == '{':
			depth++
		case c == '}':
			depth--
		case strings.IndexByte("$%#&~", c) >= 0:
			return fmt.Errorf("a bare %c", c)
		}
		if depth < 0 || left < 0 {
			return errors.New("closed before it is opened")
		}
	}
	if depth != 0 || left != 0 {
		return errors.New("not closed")
	}
	return nil
}
