package syntax

// The statements that are part of the language but not worked out by this
// version.
var (
	varyWord     = StatementWord{Word: "vary", Form: "vary NAME from A to B by STEP", Summary: "Sets a range for versions of a test.", Example: "vary m from 0.06 kg to 0.10 kg by 0.005 kg", Stored: true}
	markingWord  = StatementWord{Word: "marking", Form: "marking: RULE", Summary: "How answers are marked.", Example: "marking: 1 point off for a wrong unit", Stored: true, prose: true, colon: true}
	diagnoseWord = StatementWord{Word: "diagnose", Form: "diagnose ANSWER as NAME", Summary: "Looks for the slip that explains an answer.", Example: "diagnose 128 N as k", prose: true}
)
