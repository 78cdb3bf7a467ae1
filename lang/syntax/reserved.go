package syntax

// Reserved tells whether a word is never a name.
func Reserved(name string) bool {
	switch name {
	case "in", "for", "to", "from", "by", "and", "where", "within", "against", "at", "with", "that", "pi", "π":
		return true
	}
	return false
}

// endsUnit tells whether a word that is no unit may follow one.
func endsUnit(word string) bool {
	switch word {
	case "figure", "figures", "point", "points", "uniform", "triangular", "normal", "of", "is", "if", "as", "per", "blank", "log", "head", "on", "starting", "through", "north", "east", "south", "west", "above", "below", "along", "across", "left", "right", "up", "down", "upward", "upwards", "downward", "downwards":
		return true
	}
	return Reserved(word)
}
