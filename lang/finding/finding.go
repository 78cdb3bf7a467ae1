// Package finding holds the one type in which everything that Steelyard has to
// say about a line travels: errors, mismatches, failed checks, cautions and
// notes. It knows nothing of terminals; showing a finding is a view's work.
package finding

// Severity says how much a finding weighs.
type Severity uint8

// The severities, the heaviest first.
const (
	Error    Severity = iota // the line can't be read or worked out
	Mismatch                 // units or dimensions disagree
	Check                    // a check does not hold
	Caution                  // worth a look; the line stands
	Note                     // said once, for information
)

var severityNames = [...]string{"error", "mismatch", "check", "caution", "note"}

// String returns the severity as JSON prints it.
func (s Severity) String() string { return severityNames[s] }

// Fails tells whether a finding of this severity makes the exit status 1.
func (s Severity) Fails() bool { return s <= Check }

// Span is a half-open range of bytes in the text of a statement.
type Span struct{ From, To int }

// Join returns the smallest span that covers both.
func (s Span) Join(o Span) Span {
	return Span{min(s.From, o.From), max(s.To, o.To)}
}

// Finding is one thing found in one statement.
type Finding struct {
	ID       ID
	Severity Severity
	At       Span
	// Message says what was found, in the reader's words. It may hold several
	// sentences, and a newline where a view should begin a new line.
	Message string
	// Hint says what to do or write instead; it may be empty.
	Hint string
	// Readings are the texts the writer may have meant, each able to stand in
	// the place of the span as it is.
	Readings []string
	// Lines are the readings as whole lines, each entered on trial and not
	// refused. The scratchpad finds them; without it there are none, but where
	// a hint without readings has the line that it would have in mind.
	Lines []string
	// Cause is the line of the entry that this finding comes from, or 0. A
	// line that can't be worked out because another has failed names it here.
	Cause int
}

// New returns a finding with the severity that its identifier has.
func New(id ID, at Span, message, hint string, readings ...string) Finding {
	return Finding{ID: id, Severity: id.Severity(), At: at, Message: message, Hint: hint, Readings: readings}
}

// Offers are the texts to choose from: whole lines where they have been tried.
func (f *Finding) Offers() []string {
	if len(f.Lines) > 0 {
		return f.Lines
	}
	return f.Readings
}

// ReadsAs notes that a text is read as print writes it.
func ReadsAs(at Span, text, printed string) Finding {
	return New(ReadAs, at, "`"+text+"` is read as "+printed+".", "")
}

// Worst returns the heaviest severity among the findings, and false for none.
func Worst(fs []Finding) (Severity, bool) {
	worst := Note
	for _, f := range fs {
		worst = min(worst, f.Severity)
	}
	return worst, len(fs) > 0
}
