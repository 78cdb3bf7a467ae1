// Command steelyard carries units through a physics problem: a scratchpad in
// which every value has a dimension, and worksheets that replay.
package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"os/signal"
	"runtime/debug"
	"syscall"

	"github.com/alecthomas/kong"
	"golang.org/x/term"
)

// The exit statuses.
const (
	statusHolds   = 0 // all holds; cautions and notes too
	statusFinding = 1 // a mismatch, a failed check, a difference, a line that fails
	statusUsage   = 2 // the command line or a file as a whole
)

const about = `Carries units through a physics problem.

Without a command it opens the scratchpad; without a terminal it works out the
statements on standard input, as eval does.

A study aid: not for engineering, medical or safety decisions; local codes and
licensed practice come first.`

// commands is the command line; each command has a file of its own.
type commands struct {
	Eval       evalCommand       `cmd:"" help:"Work out statements given as arguments or on standard input."`
	Replay     replayCommand     `cmd:"" help:"Work worksheets out again and compare every line with its record."`
	Help       helpCommand       `cmd:"" help:"Look up a unit, a quantity, a formula, a function or a statement."`
	Scratchpad scratchpadCommand `cmd:"" default:"1" hidden:"" help:"Open the scratchpad."`

	Version versionFlag `help:"Print the version and exit."`
}

// versionFlag prints the version.
type versionFlag bool

// BeforeApply prints the version and ends the program.
func (versionFlag) BeforeApply(app *kong.Kong) error {
	fmt.Fprintln(app.Stdout, "steelyard "+version())
	app.Exit(statusHolds)
	return nil
}

// version is that of the module, if the program was built from a tagged one.
func version() string {
	if info, ok := debug.ReadBuildInfo(); ok && info.Main.Version != "" && info.Main.Version != "(devel)" {
		return info.Main.Version
	}
	return "(built from source)"
}

// world is what a command may touch of its surroundings.
type world struct {
	ctx    context.Context
	stdin  io.Reader
	stdout io.Writer
	stderr io.Writer
	bold   bool
	width  int
}

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	status := run(newWorld(ctx), os.Args[1:])
	stop()
	os.Exit(status)
}

// newWorld looks at the terminal, if there is one.
func newWorld(ctx context.Context) *world {
	w := &world{ctx: ctx, stdin: os.Stdin, stdout: os.Stdout, stderr: os.Stderr, width: 80}
	if fd := int(os.Stdout.Fd()); term.IsTerminal(fd) {
		w.bold = os.Getenv("NO_COLOR") == "" && os.Getenv("TERM") != "dumb"
		if cells, _, err := term.GetSize(fd); err == nil && cells > 0 {
			w.width = cells
		}
	}
	return w
}

// run carries out a command line and returns the exit status.
func run(w *world, args []string) int {
	var cli commands
	exited, status := false, 0
	parser, err := kong.New(&cli, kong.Name("steelyard"), kong.Description(about),
		kong.Writers(w.stdout, w.stderr), kong.Exit(func(code int) { exited, status = true, code }),
		kong.ConfigureHelp(kong.HelpOptions{Compact: true, WrapUpperBound: 80}))
	if err != nil {
		return w.usage("the command line can't be read")
	}
	ctx, err := parser.Parse(args)
	if exited {
		return status
	}
	if err != nil {
		return w.usage(err.Error())
	}
	switch ctx.Selected().Name {
	case "eval":
		return cli.Eval.run(w)
	case "replay":
		return cli.Replay.run(w)
	case "help":
		return cli.Help.run(w)
	}
	return cli.Scratchpad.run(w)
}

// usage says what is wrong with the command line.
func (w *world) usage(problem string) int {
	fmt.Fprintf(w.stderr, "steelyard: %s.\nTry: steelyard --help\n", problem)
	return statusUsage
}
