// Package textbook holds no code of its own: its tests work through problems
// with published answers, row by row, as worksheets. The givens and the answers
// are those of open textbooks (OpenStax, CC BY); the row, the source and the
// place in it stand above each block of the files in testdata.
package textbook
