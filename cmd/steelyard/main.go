// Command steelyard carries units through a physics problem: a scratchpad in
// which every value has a dimension, and worksheets that replay.
//
// Each subcommand has a file of its own and turns its options into calls of
// the packages below session; nothing is worked out here.
package main

import (
	"context"
	"io"
	"os"
	"runtime/debug"
	"strings"

	"golang.org/x/term"
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
	// typed tells that standard input is a terminal.
	typed  bool
	bold   bool
	width  int
	height int
	// ascii draws graphs with bytes below 128.
	ascii bool
	// folds tells that rows of a terminal may be filled up.
	folds bool
}

// softMemory is how many bytes the program tries not to go beyond, unless its
// surroundings say how many (GOMEMLIMIT): what is let go is collected sooner from there
// on. Of a long worksheet it is so many for each statement, as that many are used: to stay
// below less, all of them would be gone through again and again.
const (
	softMemory   = 190 << 20
	perStatement = 1900
)

// keepMemory sets that limit for a worksheet of some statements.
func keepMemory(statements int) {
	if os.Getenv("GOMEMLIMIT") == "" {
		debug.SetMemoryLimit(max(softMemory, int64(statements)*perStatement))
	}
}

// heapGrowth is by how many percent the memory in use may grow before what is let go is
// collected, unless its surroundings say so (GOGC): a worksheet of the usual length is
// printed and gone before.
const heapGrowth = 400

func main() {
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(heapGrowth)
	}
	keepMemory(0)
	os.Exit(run(newWorld(), os.Args[1:]))
}

// newWorld looks at the terminal, if there is one. Bold type is left out where
// the user or the terminal asks for plain text.
func newWorld() *world {
	w := &world{ctx: context.Background(), stdin: os.Stdin, width: 80, ascii: true, typed: term.IsTerminal(int(os.Stdin.Fd()))}
	if fd := int(os.Stdout.Fd()); term.IsTerminal(fd) {
		w.bold = os.Getenv("NO_COLOR") == "" && os.Getenv("TERM") != "dumb"
		w.ascii, w.folds = plainTerminal(), !lookOf(os.Getenv).Plain
		if cells, rows, err := term.GetSize(fd); err == nil && cells > 0 {
			w.width, w.height = cells, rows
		}
		if w.typed {
			w.in, w.out = os.Stdin, os.Stdout
		}
	}
	w.stdout, w.stderr = &screen{to: os.Stdout, bold: w.bold}, &screen{to: os.Stderr}
	return w
}

// plainTerminal tells whether a terminal may not show more than ASCII: where it
// is called dumb, or the locale is C or names a character set other than UTF-8.
func plainTerminal() bool {
	if term := os.Getenv("TERM"); term == "dumb" || term == "linux" || term == "vt100" {
		return true
	}
	for _, name := range []string{"LC_ALL", "LC_CTYPE", "LANG"} {
		if v := strings.ToUpper(os.Getenv(name)); v != "" {
			return v == "C" || v == "POSIX" || strings.Contains(v, ".") && !strings.Contains(v, "UTF-8") && !strings.Contains(v, "UTF8")
		}
	}
	return false
}

// run carries out a command line and returns the exit status.
func run(w *world, args []string) int {
	if len(args) == 0 {
		return runScratchpad(w, "")
	}
	if c, known := commandNamed(args[0]); known {
		if asksForHelp(args[1:]) {
			return w.print(c.help(w.width))
		}
		g, rest, problem := readOptions(args[1:], c.options)
		if problem != "" {
			return w.usage(c.name, problem)
		}
		return w.stoppable(func(w *world) int { return c.run(w, g, rest) })
	}
	switch args[0] {
	case "--help", "-h":
		return w.print(w.about())
	case "--version", "-V":
		return run(w, []string{"version"})
	}
	if isWorksheet(args[0]) {
		return w.openPage(args)
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

// stamp is the version of a release, which the linker puts in: -X main.stamp=1.2.3.
var stamp string

// version is that of the release, else of the module, if the program was built from
// a known one.
func version() string {
	if stamp != "" {
		return stamp
	}
	if info, ok := debug.ReadBuildInfo(); ok && info.Main.Version != "" && info.Main.Version != "(devel)" {
		return info.Main.Version
	}
	return "built from source"
}
