// Package journal keeps what has been entered in a scratchpad safe from a
// crash: every accepted statement is written to a file of its own in the
// user's state folder and flushed to disk before the prompt comes back. The
// next start finds journals that no running scratchpad holds and offers them.
//
// A journal is text that a person can read:
//
//	steelyard journal 1
//	  m = 0.080 kg
//	+ 4be1c3a7
//	  v = 3.4 m/s
//	+ 90d2f00b
//	- undo
//
// The lines of a statement stand two blanks in, byte for byte; the line that
// begins with + ends the statement and holds the CRC-32 of its bytes, so that
// a statement cut off by a loss of power is told from a whole one. "- undo"
// takes back the last statement before it.
//
// The package knows nothing of what the statements mean, and never decides to
// throw a journal away: its caller does.
package journal
