// Package rank finds what would be at a place if values were in order, without putting
// them in order.
package rank

import (
	"math"
	"slices"
)

// Value is the value that has so many others below it in rising order: the order
// statistic of that rank, counted from 0. It moves the values about, those below before it;
// none may be NaN (C. A. R. Hoare, Communications of the ACM 4, 1961, p. 321; from memory).
func Value(values []float64, n int) float64 {
	for lo, hi := 0, len(values)-1; lo < hi; {
		pivot, i, j := polled(values[lo:hi+1], n-lo), lo, hi
		for i <= j {
			for values[i] < pivot {
				i++
			}
			for values[j] > pivot {
				j--
			}
			if i <= j {
				values[i], values[j] = values[j], values[i]
				i, j = i+1, j-1
			}
		}
		switch {
		case n <= j:
			hi = j
		case n >= i:
			lo = i
		default:
			return values[n]
		}
	}
	return values[n]
}

// pollOf is how many of many values are looked at to find one that is near the rank.
const pollOf = 256

// polled is a value that has about as many others below it as the rank says, and a few more
// of the longer side: where a fortieth of a million values is asked for, nearly all lie on
// one side of it, and are passed over once (R. W. Floyd and R. L. Rivest, Communications of
// the ACM 18, 1975, p. 165; from memory).
func polled(values []float64, n int) float64 {
	if len(values) < 16*pollOf {
		return values[len(values)/2]
	}
	var poll [pollOf]float64
	for i := range poll {
		poll[i] = values[i*(len(values)/pollOf)]
	}
	slices.Sort(poll[:])
	at := float64(n) / float64(len(values)) * pollOf
	if 2*n < len(values) {
		at += 2 * math.Sqrt(at)
	} else {
		at -= 2 * math.Sqrt(pollOf-at)
	}
	return poll[min(max(int(at), 0), pollOf-1)]
}
