package main

import (
	"slices"

	"steelyard/session"
	"steelyard/session/view"
)

// command is one subcommand. The table of them is all that the shell help, the
// completions, the man page and the reading of a command line go by.
type command struct {
	name    string
	takes   string // what comes after the name: "FILE…"
	summary string // in the list of commands
	about   string // what it does, as paragraphs
	options []option
	// examples are command lines that can be typed as they are.
	examples []string
	status   string // the exit status, where it needs more words than all have
	// words are what may come after the options, by what is typed of it; nil if
	// that is the name of a file.
	words func(prefix string) []string
	run   func(w *world, g given, args []string) int
}

// option is one --NAME of a command.
type option struct {
	name    string
	short   string   // one letter that may stand for it: -o
	takes   string   // what its value is called; empty for a switch
	needs   string   // what that is, where it is missing
	choices []string // the values it may have; nil if any
	help    string
}

// commands are the subcommands in the order in which the shell help lists them.
func commands() []command {
	return []command{
		{
			name: "eval", takes: "[STATEMENT…]", run: runEval,
			summary: "work out statements, here or on standard input",
			about:   `Works out statements, one after the other. Each is in quotes, and later ones can use what earlier ones define. Without any, the lines of standard input are the statements; - is the place for them among others. A line that begins with a blank belongs to the one above. At a terminal each line is answered when it is typed. A line that fails does not stop the others.`,
			options: []option{{name: "json", help: jsonHelp}},
			examples: []string{
				`steelyard eval 'm = 0.080 kg' 'v = 3.4 m/s' '1/2*m*v^2 in J'`,
				`steelyard eval '100 km/h in m/s'`,
				`steelyard eval < lines.txt`,
				`steelyard eval 'm = 0.080 kg' - < lines.txt`,
			},
			status: `0 if all holds; 1 if a line has an error, a mismatch or a failed check; 2 if the command line can't be used.`,
		},
		{
			name: "replay", takes: "FILE…", run: runReplay,
			summary: "work worksheets out again and compare every line with its record",
			about:   `Works every line of each worksheet out again and compares the results with those recorded in the file. Differences, findings and a summary are printed. Without --record no file is written. The file - is standard input.`,
			options: []option{
				{name: "with", takes: "'NAME = VALUE'", help: "replace a given, and show every result that moves; can be used several times. Where a name is given twice, NAME@12 means the one in line 12."},
				{name: "record", help: "write the records that are missing or differ; the rest of the file stays byte for byte"},
				{name: "output", short: "o", takes: "FILE", needs: "a worksheet to write", help: "with --record and --with: write a new worksheet, with the other givens and their results, and leave this one as it is"},
				{name: "strict", help: "a result without a record is a failure"},
				{name: "watch", help: "work a file out again each time it is saved, until Ctrl-C"},
				{name: "json", help: jsonHelp},
			},
			examples: []string{
				`steelyard replay examples/pinball-plunger.worked`,
				`steelyard replay pinball-plunger.worked --with 'm = 0.10 kg'`,
				`steelyard replay --record pinball-plunger.worked`,
				`steelyard replay --record pinball-plunger.worked --with 'm = 0.10 kg' -o class-b.worked`,
				`steelyard replay --watch pinball-plunger.worked`,
			},
			status: `0 if all holds; 1 if a result differs from its record, a line has an error, a mismatch or a failed check, or a record is below a line without a result (with --strict also if a record is missing); 2 if a file can't be read or written, or the command line can't be used. With --with, a result that moves is not a difference.`,
		},
		{
			name: "print", takes: "FILE…", run: runPrint,
			summary: "print worksheets: a key, or a handout",
			about:   `Prints worksheets for paper or for a page. A key has the questions, the working, the answers, the checks and the graphs. A handout has the title, the givens, the questions, blank axes and room to answer, and nothing that tells an answer. The file - is standard input.`,
			options: []option{
				{name: "as", takes: "FORM", needs: formNames(), choices: formList(), help: "html: one file without a script, for a browser and a printer (so without --as, unless the name after -o ends in .md, .tex or .txt). markdown: for a page that sets mathematics. latex: for pdflatex. text: for a terminal or a mail."},
				{name: "edition", takes: "EDITION", needs: "key or handout", choices: []string{"key", "handout"}, help: "key: everything (so without --edition), or handout"},
				{name: "drawing", takes: "N", needs: "the number of a drawing, such as 1", help: "write one drawing alone as SVG: the Nth from the top"},
				{name: "part", takes: "LABEL", needs: "the label of a part, such as b", help: "print one part, with what is above the parts"},
				{name: "with", takes: "'NAME = VALUE'", help: "print with another given; can be used several times"},
				{name: "output", short: "o", takes: "FILE", needs: "a file or a folder", help: "write to a file and not to the screen; several worksheets go into a folder, each under its own name"},
				{name: "open", help: "show the printed page in the browser"},
			},
			examples: []string{
				`steelyard print examples/pinball-plunger.worked -o key.html`,
				`steelyard print --edition handout --as latex sheet.worked -o sheet.tex`,
				`steelyard print --open sheet.worked`,
			},
			status: `0 if all holds; 1 if a key has a mismatch, a failed check or an error (it is printed all the same); 2 if a file or the command line can't be used.`,
		},
		{
			name: "help", takes: "[WORD]", words: func(prefix string) []string { return topics(session.New(), prefix) }, run: runHelp,
			summary:  "look up a unit, a quantity, a formula, a statement",
			about:    `Looks up a unit (newton, mile), a quantity (torque), a formula (spring_energy), a topic (oscillation), a statement (check), a function (sqrt), a constant of nature (c) or the identifier of a finding (unit-mismatch). Without a word it shows on one screen how things are written.`,
			examples: []string{`steelyard help newton`, `steelyard help torque`, `steelyard help spring_energy`, `steelyard help check`},
			status:   `0; 2 if there is no help on the word.`,
		},
		{
			name: "completion", takes: "SHELL", words: func(string) []string { return shells }, run: runCompletion,
			summary: "write what makes Tab complete these words in a shell",
			about:   `Writes a script for bash, zsh, fish or powershell, after which Tab completes the commands, their options and the words of help. Each shell reads it in one line of the file that it begins with, as below.`,
			options: []option{{name: "next", takes: "PREFIX", help: "list what may come after the words behind --, as the scripts ask for it"}},
			examples: []string{
				`eval "$(steelyard completion bash)"                                # ~/.bashrc`,
				`eval "$(steelyard completion zsh)"                                 # ~/.zshrc`,
				`steelyard completion fish | source                                 # ~/.config/fish/config.fish`,
				`steelyard completion powershell | Out-String | Invoke-Expression   # $PROFILE`,
			},
			status: `0; 2 if there is no script for the shell.`,
		},
		{
			name: "man", words: nothing, run: runMan,
			summary:  "write the manual page",
			about:    `Writes the manual page, in the form that man reads.`,
			examples: []string{`steelyard man > ~/.local/share/man/man1/steelyard.1`},
		},
		{
			name: "schema", words: nothing, run: func(w *world, _ given, _ []string) int { return w.print(view.Schema) },
			summary:  "write the JSON Schema of what --json prints",
			about:    `Writes the JSON Schema (draft 2020-12) of a line that --json prints. The number that its $id ends in is its version.`,
			examples: []string{`steelyard schema > lines.schema.json`},
		},
		{
			name: "version", words: nothing, run: func(w *world, _ given, _ []string) int { return w.print("steelyard " + version() + "\n") },
			summary:  "tell the version; also --version, -V",
			about:    `Tells the version.`,
			examples: []string{`steelyard version`},
		},
	}
}

const jsonHelp = "print one JSON object a line for each statement"

// nothing comes after the options.
func nothing(string) []string { return []string{} }

// commandNamed finds a command, or tells that there is none.
func commandNamed(name string) (command, bool) {
	all := commands()
	i := slices.IndexFunc(all, func(c command) bool { return c.name == name })
	if i < 0 {
		return command{}, false
	}
	return all[i], true
}
