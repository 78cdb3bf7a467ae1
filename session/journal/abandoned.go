package journal

import (
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"steelyard/lang/limit"
)

// Recovered is a journal that no running scratchpad holds, with the statements
// that it keeps. It is held by this process until Resume, Discard or Leave.
type Recovered struct {
	Path string
	// Statements are those accepted and not taken back, in order.
	Statements []string
	// Last is when the last of them was written.
	Last time.Time
	// Damaged tells that a statement in the file could not be read and is left
	// out. One that was cut off before it was accepted does not count.
	Damaged bool

	file *os.File
	good int64
}

// Abandoned returns the journals in the folder that hold statements and whose
// scratchpad has ended, oldest first. Those without a statement are deleted.
// Two processes that ask at once never get the same journal.
func Abandoned(dir string) []*Recovered {
	names, err := filepath.Glob(filepath.Join(escape(dir), "*"+suffix))
	if err != nil {
		return nil
	}
	var found []*Recovered
	for _, path := range names {
		if r := claim(path); r != nil {
			found = append(found, r)
		}
	}
	slices.SortStableFunc(found, func(a, b *Recovered) int { return a.Last.Compare(b.Last) })
	return found
}

// escape makes a folder's name safe in a pattern.
func escape(dir string) string {
	if os.PathSeparator == '\\' {
		return dir
	}
	return strings.NewReplacer(`\`, `\\`, `*`, `\*`, `?`, `\?`, `[`, `\[`).Replace(dir)
}

// claim locks and reads one journal; nil if it is in use, empty or no journal.
func claim(path string) *Recovered {
	info, err := os.Lstat(path)
	if err != nil || !info.Mode().IsRegular() || info.Size() > limit.File {
		return nil
	}
	f, err := os.OpenFile(path, os.O_RDWR, 0)
	if err != nil {
		return nil
	}
	if !lock(f) || !stillAt(f, path) {
		_ = f.Close()
		return nil
	}
	r := read(f, path)
	if r == nil {
		_ = f.Close()
		return nil
	}
	if len(r.Statements) == 0 && !r.Damaged {
		_ = release(f, path, false)
		return nil
	}
	return r
}

func read(f *os.File, path string) *Recovered {
	info, err := f.Stat()
	if err != nil {
		return nil
	}
	data, err := io.ReadAll(io.LimitReader(f, limit.File))
	if err != nil {
		return nil
	}
	c, ok := decode(string(data))
	if !ok {
		return nil
	}
	return &Recovered{Path: path, Statements: c.statements, Last: info.ModTime(), Damaged: c.damaged, file: f, good: int64(c.good)}
}

// Resume goes on with the journal: what the scratchpad accepts from here on is
// added to the same file, so that at no moment are the statements in two files
// or in none.
func (r *Recovered) Resume() (*Journal, *Problem) {
	j := &Journal{file: r.file, path: r.Path, good: r.good}
	if err := j.rewrite(r); err != nil {
		return nil, unkept(r.Path, err)
	}
	r.file = nil
	return j, nil
}

// rewrite cuts off what could not be read at the end. A journal cut off within
// its first line gets that line again.
func (j *Journal) rewrite(r *Recovered) error {
	if r.file == nil {
		return os.ErrClosed
	}
	if err := r.file.Truncate(r.good); err != nil {
		return err
	}
	if r.good > 0 {
		return nil
	}
	return j.append([]byte(header + "\n"))
}
