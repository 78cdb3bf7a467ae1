// Package writing holds what every room needs to know of written text: raised
// and lowered digits, Greek letters and their names, the nearest word to one
// that is misspelt, and the characters that a screen or a file must not be sent.
//
// It knows nothing of units, names or statements.
package writing
