// Package ops is the table of operations: one row says all that is known of
// one. How a line calls it and what dimension its arguments and its result
// have; its value in float64 and why it may have none; its slopes, from which
// derivatives and error bounds follow; its enclosure over intervals; its
// inverses; how it is set in print. The planner, the runner, algebra and
// typesetting read the table and know no operation by themselves.
//
// The package knows nothing of dimensions, names or text: numbers are in
// coherent SI units, angles in radians.
package ops
