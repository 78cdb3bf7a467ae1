package main

import (
	"bytes"
	"os"
	"os/exec"
	"strings"

	"steelyard/session/view"
)

// long writes an answer. Where that is longer than the screen, it is read in the program
// that PAGER names, more where that is not set (POSIX); not where PAGER is empty, nor
// where nothing is to be drawn anew.
func (s *scratchpad) long(write func()) {
	pager, set := os.LookupEnv("PAGER")
	if !set {
		pager = "more"
	}
	words := strings.Fields(pager)
	if len(words) == 0 || s.lend == nil || lookOf(os.Getenv).Plain {
		write()
		return
	}
	to := s.w.stdout
	var b bytes.Buffer
	s.w.stdout = &b
	write()
	s.w.stdout = to
	o := s.options()
	if program, err := exec.LookPath(words[0]); err == nil && o.Height > 0 && bytes.Count(b.Bytes(), []byte("\n")) >= o.Height {
		upright := strings.NewReplacer(view.BoldOn, "", view.BoldOff, "").Replace(b.String())
		cmd := exec.Command(program, words[1:]...)
		cmd.Stdout, cmd.Stderr = s.w.out, s.w.out
		if cmd.Stdin = strings.NewReader(clean(upright)); s.lend(cmd.Run) == nil {
			return
		}
	}
	b.WriteTo(to)
}

// clean is a text as it may go to a screen.
func clean(text string) string {
	var b bytes.Buffer
	(&screen{to: &b}).Write([]byte(text))
	return b.String()
}
