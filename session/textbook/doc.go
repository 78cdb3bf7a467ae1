// Package textbook holds no code of its own: its tests work through problems
// with published answers, row by row, as worksheets. The givens and the answers
// are those of open textbooks (OpenStax, CC BY, and two others) and, for
// rounding and uncertainty, of published guides; the words are ours. The row,
// the source and the place in it stand above each block of the files in
// testdata. Where a source's answer doesn't follow from its own givens, the
// block says so and checks what the givens yield.
package textbook
