// Package run works out programs: flat codes over float64 whose dimensions were
// settled while they were planned. One walker runs a code over plain numbers,
// over numbers with their slope, over intervals and over numbers with a bound of
// their error; searches for roots, areas and slopes stand on it.
//
// The package knows no names and reads no text. What an operation means is said
// by the table in lang/ops alone.
package run
