package units

// Prefixed takes a symbol apart of which the prefix is a unit too: mK is the
// millikelvin, and may be meant as a metre and a kelvin. Word is the one unit by its
// name. The metre and the tesla are all such units that a product begins with; mm is
// no metre times a metre, which is m^2.
func (t *Table) Prefixed(symbol string) (head, rest, word string, ok bool) {
	if len(symbol) < 2 || symbol[0] != 'm' && symbol[0] != 'T' || symbol == "mm" || t.own[symbol] != nil {
		return "", "", "", false
	}
	if _, whole := findWord(symbol); whole {
		return "", "", "", false
	}
	a, ok := prefixed(symbol, true)
	if !ok {
		return "", "", "", false
	}
	name := "milli"
	if symbol[0] == 'T' {
		name = "tera"
	}
	return symbol[:1], symbol[1:], name + a.row.name(), true
}
