package repl

import (
	"errors"
	"os"
	"os/exec"
	"strings"
)

// edit opens the line in the editor that the user has named (POSIX: VISUAL, then EDITOR)
// and takes what was written there for it; Enter enters it.
func (ed *editor) edit() {
	program := os.Getenv("VISUAL")
	if program == "" {
		program = os.Getenv("EDITOR")
	}
	if program == "" {
		ed.told = "No editor is set. Set EDITOR to the command that starts yours."
		return
	}
	ed.screen.erase()
	text, err := edited(program, ed.buf.String(), ed.term)
	if err != nil {
		ed.told = "The editor could not be used; the line is as it was."
		return
	}
	if text = clean(strings.TrimRight(text, " \t\n")); text != ed.buf.String() {
		ed.buf.set(text)
	}
	ed.whole, ed.offer.open = true, false
}

// edited is a text as an editor leaves it, which has the terminal meanwhile.
func edited(program, text string, t *terminal) (string, error) {
	f, err := os.CreateTemp("", "line-*.worked")
	if err != nil {
		return "", err
	}
	defer os.Remove(f.Name())
	_, err = f.WriteString(text + "\n")
	if err = errors.Join(err, f.Close()); err != nil {
		return "", err
	}
	words := append(strings.Fields(program), f.Name())
	cmd := exec.Command(words[0], words[1:]...)
	cmd.Stdin, cmd.Stdout, cmd.Stderr = os.Stdin, t.out, t.out
	if err := t.lend(cmd.Run); err != nil {
		return "", err
	}
	data, err := os.ReadFile(f.Name())
	return strings.ReplaceAll(string(data), "\r\n", "\n"), err
}
