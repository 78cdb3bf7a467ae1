package journal

import (
	"fmt"
	"os"
	"path/filepath"
	"time"

	"github.com/adrg/xdg"

	"steelyard/session/disk"
	"steelyard/session/worksheet/oserr"
)

const suffix = ".journal"

// Dir returns the folder in which journals are kept: steelyard in the user's
// state folder. It is empty where the user has no such folder.
func Dir() string {
	if _, err := os.UserHomeDir(); err != nil && os.Getenv("XDG_STATE_HOME") == "" {
		return ""
	}
	return filepath.Join(xdg.StateHome, "steelyard")
}

// Journal is the journal of one running scratchpad, which alone uses it: it is
// not safe for use by several goroutines. A nil Journal keeps nothing and reports
// no problem, for a scratchpad that works without one.
type Journal struct {
	file file
	path string
	good int64 // bytes up to the end of the last whole entry
	// late are the entries that are not on the disk yet, of which so many bytes are written
	// to the file. Held, they are flushed later.
	late    []byte
	written int
	held    bool
	last    int   // the number of the last entry
	numbers []int // of the statements not taken back
}

// file is what a journal is written to.
type file interface {
	WriteAt(data []byte, at int64) (int, error)
	Truncate(size int64) error
	Sync() error
	Close() error
}

// Start makes a new journal in the folder, making the folder too. The file can
// be read by the user alone, and is held by this process until it ends.
func Start(dir string) (*Journal, *Problem) {
	if problem := unfit(dir); problem != nil {
		return nil, problem
	}
	stamp := time.Now().UTC().Format("20060102-150405")
	for try := 0; ; try++ {
		path := filepath.Join(dir, fmt.Sprintf("%s-%d-%d%s", stamp, os.Getpid(), try, suffix))
		j, err := create(path)
		switch {
		case err == nil && j != nil:
			return j, nil
		case err != nil && !os.IsExist(err):
			return nil, unkept(path, err)
		case try >= 100:
			return nil, notKept("a journal in " + dir + " can't be locked")
		}
	}
}

// unfit makes the folder, and says why it can't be used: others could read what is
// entered, or put there what the next start would offer.
func unfit(dir string) *Problem {
	if dir == "" {
		return notKept("no home folder is known, since HOME is not set")
	}
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return unkept(dir, err)
	}
	info, err := os.Stat(dir)
	if err != nil {
		return unkept(dir, err)
	}
	if !disk.Private(info) {
		return notKept("others can write to the folder " + dir)
	}
	return nil
}

// create makes and locks a journal. It returns nil without an error if another
// process took the file away in between.
func create(path string) (*Journal, error) {
	f, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return nil, err
	}
	if !disk.Lock(f) || !stillAt(f, path) {
		return nil, closeAfter(f, nil)
	}
	j := &Journal{file: f, path: path, late: []byte(header + "\n")}
	if err := j.write(); err != nil {
		_ = os.Remove(path)
		return nil, closeAfter(f, err)
	}
	disk.SyncFolder(filepath.Dir(path))
	return j, nil
}

func closeAfter(f *os.File, err error) error {
	_ = f.Close()
	return err
}

// stillAt tells whether the path still names the open file.
func stillAt(f *os.File, path string) bool {
	open, err := f.Stat()
	if err != nil {
		return false
	}
	named, err := os.Lstat(path)
	return err == nil && os.SameFile(open, named)
}

// Accept writes statements and returns when they are on the disk, or held. A text may hold
// any bytes.
func (j *Journal) Accept(texts ...string) *Problem {
	if j == nil || len(texts) == 0 {
		return nil
	}
	for _, text := range texts {
		j.add(statement, text)
		j.numbers = append(j.numbers, j.last)
	}
	return j.flush()
}

// Title gives the worksheet a title.
func (j *Journal) Title(text string) *Problem {
	if j == nil {
		return nil
	}
	j.add(title, text)
	return j.flush()
}

// Reads notes what the files came to that the lines read, in a row for each of them.
func (j *Journal) Reads(rows string) *Problem {
	if j == nil {
		return nil
	}
	j.add(reads, rows)
	return j.flush()
}

// Saved notes that all of it stands in a worksheet with a title, so that it need not
// be offered.
func (j *Journal) Saved(title string) *Problem {
	if j == nil {
		return nil
	}
	j.add(saved, title)
	return j.flush()
}

// Whole tells whether all that was entered is on the disk.
func (j *Journal) Whole() bool { return j != nil && len(j.late) == 0 }

// add puts an entry behind those that are to be written.
func (j *Journal) add(k kind, text string) {
	j.last++
	j.late = encode(j.late, k, j.last, text)
}

// Hold lets entries be written from here on without waiting until they are on the disk:
// the end of this process loses none of them, that of the system may.
func (j *Journal) Hold() {
	if j != nil {
		j.held = true
	}
}

// Flush ends that, and returns when all entries are on the disk.
func (j *Journal) Flush() *Problem {
	if j == nil || !j.held {
		return nil
	}
	j.held = false
	if len(j.late) == 0 {
		return nil
	}
	return j.flush()
}

func (j *Journal) flush() *Problem {
	if j.file == nil {
		return unkept(j.path, os.ErrClosed)
	}
	if err := j.write(); err != nil {
		return unkept(j.path, err)
	}
	return nil
}

// write writes what is to be written behind the last whole entry, and flushes it: all of it
// anew, as a flush that failed may have lost some. What an earlier failure left behind is
// overwritten, and what this one leaves is cut off where the system allows it.
func (j *Journal) write() error {
	from := 0
	if j.held {
		from = j.written
	}
	if _, err := j.file.WriteAt(j.late[from:], j.good+int64(from)); err != nil {
		_ = j.file.Truncate(j.good + int64(j.written))
		return err
	}
	if j.written = len(j.late); j.held {
		return nil
	}
	if err := j.file.Sync(); err != nil {
		return err
	}
	j.good += int64(len(j.late))
	j.late, j.written = j.late[:0], 0
	return nil
}

// Close ends the journal. It deletes the file when the work is saved or given
// up, and leaves it for the next start to offer if keep is set.
func (j *Journal) Close(keep bool) *Problem {
	if j == nil || j.file == nil {
		return nil
	}
	if err := release(j.file, j.path, keep); err != nil {
		return &Problem{Message: "the journal " + j.path + " can't be closed, because " + oserr.Words(err) + "."}
	}
	j.file = nil
	return nil
}

// release gives a journal back, deleting it unless it is kept. Deleting comes
// first where the system allows it, so that no other start can find the file
// without its owner.
func release(f file, path string, keep bool) error {
	if keep {
		return f.Close()
	}
	early := os.Remove(path)
	err := f.Close()
	if early != nil && !os.IsNotExist(early) {
		err = os.Remove(path)
	}
	if os.IsNotExist(err) {
		return nil
	}
	return err
}
