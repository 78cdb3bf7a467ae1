package entry

// Budget is an uncertainty budget: what the standard uncertainty of a result comes from
// (JCGM 100:2008, 5.1.3). Numbers are in coherent SI units.
type Budget struct {
	// Table has a row for each source, the greatest share first, and one for the result.
	Table Table
	// Of is the result, and Sources the same rows as numbers.
	Of      string
	U       float64
	Sources []Source
	// Told are the sentences below the table: what was asked for beside it.
	Told Lines
	// Expanded is the expanded uncertainty and Sampled what draws came to; nil where they
	// were not asked for.
	Expanded *Expanded
	Sampled  *Sampling
}

// Source is a quantity that a result depends on.
type Source struct {
	Name string
	// Estimate is its value, U its standard uncertainty, Sensitivity the slope of the result
	// by it, and Share the part of the square of the result's uncertainty that comes from it.
	Estimate, U, Sensitivity, Share float64
}

// Expanded is the half-width of an interval of a probability (JCGM 100:2008, clause 6): the
// standard uncertainty times the coverage factor. Freedom counts its effective degrees of
// freedom, 0 where there is no end of them.
type Expanded struct {
	Probability, Factor, U, Freedom float64
}

// Sampling is what random draws of the sources came to (JCGM 101:2008): the mean and standard
// deviation of the values, and the ends of the interval of a probability. In Lacking of the
// draws there was no value.
type Sampling struct {
	Draws, Lacking           int
	Mean, U, Lo, Hi, Covered float64
	// Agrees tells that the ends are those of first order, to two figures of the uncertainty.
	Agrees bool
}
