// Package worksheet reads, replays, records and saves worksheets: text files
// that hold the statements of a scratchpad and, under each result, a record of
// its value.
//
//	worksheet 1  Pinball plunger
//
//	m = 0.080 kg
//	v = 3.4 m/s
//	W = 1/2*m*v^2
//	  = 0.4624 J
//
// The first line gives the version of the format and the title. A line that
// begins with white space belongs to the line above it; one that then goes on
// with = is a record of the statement directly above. Blank lines and lines
// that begin with # are kept byte for byte. Lines end in LF or in CR LF, and a
// byte order mark may stand in front: both are read without a word and kept as
// they are.
//
// The package touches only the files that it is given, evaluates nothing
// itself (a session.Pad does), and knows nothing of terminals.
package worksheet
