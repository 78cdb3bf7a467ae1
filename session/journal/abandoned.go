package journal

import (
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"steelyard/lang/limit"
	"steelyard/session/disk"
	"steelyard/session/worksheet/oserr"
)

const (
	// keepNewest is how many journals are kept, however old they are.
	keepNewest = 20
	// keepFor is how long any journal is kept.
	keepFor = 30 * 24 * time.Hour
)

// Recovered is what a journal keeps that no running scratchpad holds.
type Recovered struct {
	path string
	// Statements are those accepted and not taken back, in order.
	Statements []string
	// Title is that of the worksheet, or empty.
	Title string
	// Reads is what the files came to that the statements read; see Journal.Reads.
	Reads string
	// Last is when the last entry was written.
	Last time.Time
	// damaged tells that an entry in the file could not be read and is left out.
	// One that was cut off before it was accepted does not count.
	damaged bool
}

// Abandoned returns the journals in the folder that hold statements which were
// not saved, and whose scratchpad has ended, oldest first. Those that hold nothing
// of the kind are deleted, and those that are old and have been followed by many.
func Abandoned(dir string) []*Recovered {
	if info, err := os.Stat(dir); err != nil || !disk.Private(info) {
		return nil
	}
	names, err := filepath.Glob(filepath.Join(escape(dir), "*"+suffix))
	if err != nil {
		return nil
	}
	var found []*Recovered
	for _, path := range names {
		c := claim(path)
		if c == nil {
			continue
		}
		if len(c.statements) == 0 && !c.damaged || c.saved {
			_ = release(c.file, path, false)
			continue
		}
		_ = c.file.Close()
		found = append(found, c.recovered())
	}
	slices.SortStableFunc(found, func(a, b *Recovered) int { return a.Last.Compare(b.Last) })
	return keepSome(found, time.Now())
}

// keepSome deletes the journals that are no longer kept, and returns the others.
func keepSome(found []*Recovered, now time.Time) []*Recovered {
	for len(found) > keepNewest && now.Sub(found[0].Last) > keepFor {
		if c := claim(found[0].path); c != nil {
			_ = release(c.file, c.path, false)
		}
		found = found[1:]
	}
	return found
}

// escape makes a folder's name safe in a pattern.
func escape(dir string) string {
	if os.PathSeparator == '\\' {
		return dir
	}
	return strings.NewReplacer(`\`, `\\`, `*`, `\*`, `?`, `\?`, `[`, `\[`).Replace(dir)
}

// claimed is a journal that this process holds, with what it says.
type claimed struct {
	decoder
	file *os.File
	path string
	time time.Time
}

// claim locks and reads one journal; nil if it is in use or no journal.
func claim(path string) *claimed {
	info, err := os.Lstat(path)
	if err != nil || !info.Mode().IsRegular() || info.Size() > limit.File {
		return nil
	}
	f, err := os.OpenFile(path, os.O_RDWR, 0)
	if err != nil {
		return nil
	}
	c := &claimed{file: f, path: path, time: info.ModTime()}
	if !disk.Lock(f) || !stillAt(f, path) || !c.read() {
		_ = f.Close()
		return nil
	}
	return c
}

func (c *claimed) read() bool {
	data, err := io.ReadAll(io.LimitReader(c.file, limit.File))
	if err != nil {
		return false
	}
	var ok bool
	c.decoder, ok = decode(string(data))
	return ok
}

func (c *claimed) recovered() *Recovered {
	return &Recovered{path: c.path, Statements: c.statements, Title: c.title, Reads: c.reads, Last: c.time, damaged: c.damaged}
}

// Forget deletes the journal.
func (r *Recovered) Forget() *Problem {
	c := claim(r.path)
	if c == nil {
		return r.taken()
	}
	if err := release(c.file, c.path, false); err != nil {
		return &Problem{Message: r.path + " can't be deleted, because " + oserr.Words(err) + "."}
	}
	return nil
}

// taken is the problem of a journal that another scratchpad has.
func (r *Recovered) taken() *Problem {
	return &Problem{Message: "another scratchpad has brought back what " + r.path + " holds."}
}

// Resume goes on with the journal: what the scratchpad accepts from here on is
// added to the same file, so that at no moment are the statements in two files
// or in none. What is recovered is read again, since another scratchpad may have
// gone on with it in between.
func (r *Recovered) Resume() (*Journal, *Problem) {
	c := claim(r.path)
	if c == nil {
		return nil, r.taken()
	}
	j := &Journal{file: c.file, path: c.path, good: int64(c.good), last: c.last, numbers: c.numbers}
	if c.good == 0 { // cut off within its first line
		j.late = []byte(header + "\n")
	}
	err := c.file.Truncate(j.good)
	if err == nil {
		err = j.write()
	}
	if err != nil {
		_ = c.file.Close()
		return nil, unkept(r.path, err)
	}
	*r = *c.recovered()
	return j, nil
}
