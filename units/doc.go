// Package units knows dimensions, units, the names of quantities, conversion
// between units, and how a quantity is written.
//
// A dimension is a small comparable array of exact exponents. A unit is an
// exact rational factor, a power of π and, for a temperature scale, an offset;
// beside the exact factor it keeps a double-double one, so that a written
// number converts to any unit of its dimension within one unit in the last
// place. The catalogue is laid out by the compiler: nothing is built when a
// program starts.
//
// The package knows nothing of expressions, worksheets or terminals.
package units
