// Command steelyard carries units through a physics problem: a scratchpad in
// which every value has a dimension, and worksheets that replay.
//
// Each subcommand has a file of its own and turns its options into calls of
// the packages below session; nothing is worked out here.
package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"runtime/debug"
	"strings"

	"golang.org/x/term"

	"steelyard/units/writing"
)

// The exit statuses.
const (
	statusHolds   = 0   // all holds; cautions and notes too
	statusFinding = 1   // a mismatch, a failed check, a difference, a line that fails
	statusUsage   = 2   // the command line or a file as a whole
	statusStopped = 130 // Ctrl-C, as shells have it
)

// world is what a command may touch of its surroundings.
type world struct {
	ctx    context.Context
	stdin  io.Reader
	stdout io.Writer
	stderr io.Writer
	// in and out are the terminal, for the scratchpad; nil if there is none.
	in, out *os.File
	bold    bool
	width   int
	height  int
	// ascii draws graphs with bytes below 128.
	ascii bool
}

// softMemory is how many bytes the program tries not to go beyond: what is let go is
// collected sooner from there on, though the largest worksheets take more.
const softMemory = 280 << 20

func main() {
	debug.SetMemoryLimit(softMemory)
	os.Exit(run(newWorld(), os.Args[1:]))
}

// newWorld looks at the terminal, if there is one. Bold type is left out where
// the user or the terminal asks for plain text.
func newWorld() *world {
	w := &world{ctx: context.Background(), stdin: os.Stdin, width: 80, ascii: true}
	if fd := int(os.Stdout.Fd()); term.IsTerminal(fd) {
		w.bold = os.Getenv("NO_COLOR") == "" && os.Getenv("TERM") != "dumb"
		w.ascii = plainTerminal()
		if cells, rows, err := term.GetSize(fd); err == nil && cells > 0 {
			w.width, w.height = cells, rows
		}
		if term.IsTerminal(int(os.Stdin.Fd())) {
			w.in, w.out = os.Stdin, os.Stdout
		}
	}
	w.stdout, w.stderr = &screen{to: os.Stdout, bold: w.bold}, &screen{to: os.Stderr}
	return w
}

// plainTerminal tells whether a terminal may not show more than ASCII: where it
// is called dumb, or the locale names a character set other than UTF-8.
func plainTerminal() bool {
	if term := os.Getenv("TERM"); term == "dumb" || term == "linux" || term == "vt100" {
		return true
	}
	for _, name := range []string{"LC_ALL", "LC_CTYPE", "LANG"} {
		if v := strings.ToUpper(os.Getenv(name)); v != "" {
			return strings.Contains(v, ".") && !strings.Contains(v, "UTF-8") && !strings.Contains(v, "UTF8")
		}
	}
	return false
}

// command is one subcommand.
type command struct {
	name string
	help string // what --help prints
	run  func(w *world, args []string) int
}

// commands are the subcommands in the order in which the shell help lists
// them.
func commands() []command {
	return []command{
		{"eval", evalHelp, runEval},
		{"replay", replayHelp, runReplay},
		{"print", printHelp, runPrint},
		{"help", helpHelp, runHelp},
	}
}

// run carries out a command line and returns the exit status.
func run(w *world, args []string) int {
	if len(args) == 0 {
		return runScratchpad(w)
	}
	for _, c := range commands() {
		if c.name != args[0] {
			continue
		}
		if asksForHelp(args[1:]) {
			return w.print(c.help + caution)
		}
		return w.stoppable(func(w *world) int { return c.run(w, args[1:]) })
	}
	switch args[0] {
	case "--help", "-h":
		return w.print(about + caution)
	case "--version":
		return w.print("steelyard " + version() + "\n")
	}
	return w.unknownCommand(args[0])
}

// print writes a text that was asked for.
func (w *world) print(text string) int {
	if _, err := io.WriteString(w.stdout, text); err != nil {
		return w.unwritten()
	}
	return statusHolds
}

// unwritten says that what was worked out can't be shown.
func (w *world) unwritten() int {
	w.complain("steelyard: the output can't be written; the disk may be full, or its reader is gone.")
	return statusUsage
}

// complain writes one row to standard error, whatever names are in it.
func (w *world) complain(row string) { fmt.Fprintln(w.stderr, writing.Clean(row, writing.Screen)) }

// usage says what is wrong with the command line of a subcommand, or of the
// program if the name is empty.
func (w *world) usage(command, problem string) int {
	if command != "" {
		command += " "
	}
	w.complain("steelyard: " + problem)
	fmt.Fprintf(w.stderr, "Try: steelyard %s--help\n", command)
	return statusUsage
}

// version is that of the module, if the program was built from a known one.
func version() string {
	if info, ok := debug.ReadBuildInfo(); ok && info.Main.Version != "" && info.Main.Version != "(devel)" {
		return info.Main.Version
	}
	return "built from source"
}
