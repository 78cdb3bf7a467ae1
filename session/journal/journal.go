package journal

import (
	"fmt"
	"os"
	"path/filepath"
	"sync"
	"time"

	"github.com/adrg/xdg"

	"steelyard/session/worksheet/oserr"
)

const suffix = ".journal"

// Dir returns the folder in which journals are kept: steelyard in the user's
// state folder.
func Dir() string { return filepath.Join(xdg.StateHome, "steelyard") }

// Journal is the journal of one running scratchpad. A nil Journal keeps
// nothing and reports no problem, for a scratchpad that works without one.
type Journal struct {
	mu   sync.Mutex
	file *os.File
	path string
	good int64 // bytes up to the end of the last whole record
	buf  []byte
}

// Start makes a new journal in the folder, making the folder too. The file can
// be read by the user alone, and is held by this process until it ends.
func Start(dir string) (*Journal, *Problem) {
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return nil, unkept(dir, err)
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
			return nil, &Problem{
				Message: "what you enter is not kept against a crash: a journal in " + dir + " can't be locked.",
				Hint:    "Save your work now and then with save FILE.",
			}
		}
	}
}

// create makes and locks a journal. It returns nil without an error if another
// process took the file away in between.
func create(path string) (*Journal, error) {
	f, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return nil, err
	}
	if !lock(f) || !stillAt(f, path) {
		return nil, closeAfter(f, nil)
	}
	j := &Journal{file: f, path: path}
	if err := j.append([]byte(header + "\n")); err != nil {
		_ = os.Remove(path)
		return nil, closeAfter(f, err)
	}
	syncFolder(filepath.Dir(path))
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

// Accept writes one statement and returns when it is on the disk. The text may
// hold any bytes.
func (j *Journal) Accept(text string) *Problem { return j.AcceptAll([]string{text}) }

// AcceptAll writes statements, flushing once: for those of an opened
// worksheet.
func (j *Journal) AcceptAll(texts []string) *Problem {
	if j == nil || len(texts) == 0 {
		return nil
	}
	j.mu.Lock()
	defer j.mu.Unlock()
	j.buf = j.buf[:0]
	for _, text := range texts {
		j.buf = encode(j.buf, text)
	}
	return j.write(j.buf)
}

// Undo takes back the last statement accepted and not taken back.
func (j *Journal) Undo() *Problem {
	if j == nil {
		return nil
	}
	j.mu.Lock()
	defer j.mu.Unlock()
	return j.write([]byte(undoLine + "\n"))
}

func (j *Journal) write(data []byte) *Problem {
	if j.file == nil {
		return unkept(j.path, os.ErrClosed)
	}
	if err := j.append(data); err != nil {
		return unkept(j.path, err)
	}
	return nil
}

// append writes at the end of the last whole record and flushes. What an
// earlier failure left behind is overwritten, and what this one leaves is cut
// off where the system allows it.
func (j *Journal) append(data []byte) error {
	if _, err := j.file.WriteAt(data, j.good); err != nil {
		_ = j.file.Truncate(j.good)
		return err
	}
	if err := j.file.Sync(); err != nil {
		return err
	}
	j.good += int64(len(data))
	return nil
}

// Close ends the journal. It deletes the file when the work is saved or given
// up, and leaves it for the next start to offer if keep is set.
func (j *Journal) Close(keep bool) *Problem {
	if j == nil {
		return nil
	}
	j.mu.Lock()
	defer j.mu.Unlock()
	if j.file == nil {
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
func release(f *os.File, path string, keep bool) error {
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
