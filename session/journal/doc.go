// Package journal keeps what has been entered in a scratchpad safe from a
// crash: every accepted statement is written to a file of its own in the
// user's state folder and flushed to disk before its result is shown. The
// next start finds journals that no running scratchpad holds and offers them.
//
// A journal is text that a person can read:
//
//	steelyard journal 3
//	  m = 0.080 kg
//	statement 1 6d0a5a5e
//	  v = 3.4 m/s
//	statement 2 0c9d3f3b
//	  without 2
//	change 3 1b2c3d4e
//	  Pinball plunger
//	title 4 90d2f00b
//
// An entry is some text, two blanks in, byte for byte, and a line that ends it:
// its kind, its number, and the CRC-32 of all three, so that an entry cut off is
// told from a whole one. A change names statements by their numbers (change.go); an
// undo is a change too. "saved"
// says that all before it stands in a worksheet with this title. "reads" holds a
// digest of what each file that the lines read came to: the files themselves are not kept.
//
// What can't be written is written with the next entry, so that a journal is at
// all times what was entered up to some moment, without gaps.
//
// The package knows nothing of what the statements mean.
package journal
