package entry

import "steelyard/lang/syntax"

// Meaning is what the line says in words of the names that it gives: mass of the frog.
func (e *Entry) Meaning() string {
	if e.Stmt != nil {
		if names := e.Stmt.Defines(); len(names) > 0 {
			return names[0].Meaning
		}
	}
	return ""
}

// Meanings knows the words for the names of a page. A line that has none for its name
// has those of a `let` for it.
type Meanings map[string]string

// NewMeanings gathers what the `let` lines among entries say.
func NewMeanings(all []*Entry) Meanings {
	m := Meanings{}
	for _, e := range all {
		if let, ok := e.Stmt.(*syntax.Let); ok {
			for _, n := range let.Symbols {
				m[n.Name] = n.Meaning
			}
		}
	}
	return m
}

// Of is the meaning of a name that an entry gives; the entry may be nil.
func (m Meanings) Of(name string, e *Entry) string {
	if e != nil && e.Meaning() != "" {
		return e.Meaning()
	}
	return m[name]
}
