// Package referee holds no code of its own: its tests judge what the scratchpad
// claims. They build pages whose answers are known from how they were built, let
// the scratchpad work them out, and read the answers as a student would: values,
// roots, signs, verdicts, areas, slopes, and what is said to be absent. A claim is
// true, or the test fails and prints the page.
//
// The referee knows nothing of how the scratchpad works: it reads the tree of each
// statement by itself, over intervals of 200-bit numbers that are rounded outward,
// and takes only the factors of units from elsewhere. That a page has the answers
// it was built with is itself tested by those intervals.
package referee
