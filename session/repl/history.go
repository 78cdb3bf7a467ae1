package repl

import (
	"bufio"
	"io"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"steelyard/session/disk"
)

const (
	// historyKeep is how many statements a history is cut back to.
	historyKeep = 2000
	// historyMost is how many it may hold before it is cut back.
	historyMost = 4000
	// historyBytes is the most that is read of a history file.
	historyBytes = 8 << 20
)

// history keeps the statements of earlier runs in a file that only its owner
// can read, one entry for each statement, however many lines it has.
type history struct {
	path string
}

// load returns the statements, the oldest first. A file that can't be read is
// no history; a damaged line is skipped.
func (h history) load() []string {
	if h.path == "" {
		return nil
	}
	f, err := os.Open(h.path)
	if err != nil {
		return nil
	}
	defer f.Close()
	var out []string
	in := bufio.NewScanner(io.LimitReader(f, historyBytes))
	in.Buffer(nil, 1<<20)
	for in.Scan() {
		if s, err := strconv.Unquote(in.Text()); err == nil && s != "" {
			out = append(out, s)
		}
	}
	if len(out) > historyMost {
		out = out[len(out)-historyKeep:]
		h.rewrite(out)
	}
	return out
}

// rewrite replaces the file by fewer statements.
func (h history) rewrite(all []string) {
	var b strings.Builder
	for _, s := range all {
		b.WriteString(strconv.Quote(s) + "\n")
	}
	// A history that can't be shortened is left as it is.
	old, err := os.Stat(h.path)
	if err == nil {
		_ = disk.Replace(h.path, []byte(b.String()), old)
	}
}

// add appends a statement. Two runs at once do not mix within a line, since
// each statement is one write.
func (h history) add(statement string) {
	if h.path == "" || strings.TrimSpace(statement) == "" {
		return
	}
	// Without a history the scratchpad still works.
	if err := os.MkdirAll(filepath.Dir(h.path), 0o700); err != nil {
		return
	}
	f, err := os.OpenFile(h.path, os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o600)
	if err != nil {
		return
	}
	defer f.Close()
	_ = f.Chmod(0o600)
	_, _ = f.WriteString(strconv.Quote(statement) + "\n")
}
