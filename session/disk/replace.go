// Package disk holds what this program asks of file systems, on every system:
// replacing a file in one step, holding one, and who may write where. It knows
// nothing of what stands in the files, and puts no error into words.
package disk

import (
	"errors"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strconv"
	"strings"
)

// ErrOwner says that a file was not replaced because it belongs to someone else,
// and the new one would not.
var ErrOwner = errors.New("the owner would change")

// leftover is the name of a file that is still being written.
const leftover = ".saving-*.steelyard"

// Replace puts a file in the place of another one in one step: at no time does
// half a file stand there. It is written beside it, flushed and renamed, and has
// the owner and the mode of the old one, if there is one. What killed programs
// have left in the folder is removed.
func Replace(path string, data []byte, old os.FileInfo) error {
	dir := filepath.Dir(path)
	sweep(dir)
	mode := os.FileMode(0o644) // less what the user takes away from all new files
	if old != nil {
		mode = 0o600 // until it gets that of the old one
	}
	f, err := beside(dir, mode)
	if err != nil {
		return err
	}
	err = fill(f, data, old)
	// Renamed while it is held, where the system allows it, so that no one sweeps it.
	renamed := err == nil && os.Rename(f.Name(), path) == nil
	shut := f.Close()
	if err == nil && !renamed {
		err = shut
		if err == nil {
			err = os.Rename(f.Name(), path)
		}
	}
	if err != nil {
		_ = os.Remove(f.Name())
		return err
	}
	SyncFolder(dir)
	return nil
}

// fill writes a file and flushes it.
func fill(f *os.File, data []byte, old os.FileInfo) error {
	_, err := f.Write(data)
	if err == nil && old != nil {
		err = like(f, old)
	}
	if err == nil {
		err = f.Sync()
	}
	return err
}

// beside makes the file that is written first, and holds it. Another program that
// sweeps may take it away before it is held; then there is another.
func beside(dir string, mode os.FileMode) (*os.File, error) {
	for try := 0; ; try++ {
		name := strings.Replace(leftover, "*", strconv.FormatUint(rand.Uint64(), 36), 1)
		f, err := os.OpenFile(filepath.Join(dir, name), os.O_RDWR|os.O_CREATE|os.O_EXCL, mode)
		if err != nil {
			return nil, err
		}
		held := Lock(f)
		if _, err := os.Lstat(f.Name()); err == nil && held || try == 10 {
			return f, nil
		}
		_ = f.Close()
		_ = os.Remove(f.Name())
	}
}

// sweep removes the files of a folder that were being written by a program which
// has ended.
func sweep(dir string) {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return
	}
	for _, e := range entries {
		if match, _ := filepath.Match(leftover, e.Name()); !match || !e.Type().IsRegular() {
			continue
		}
		f, err := os.OpenFile(filepath.Join(dir, e.Name()), os.O_RDWR, 0)
		if err != nil {
			continue
		}
		if !Lock(f) {
			_ = f.Close()
			continue
		}
		early := os.Remove(f.Name())
		_ = f.Close()
		if early != nil {
			_ = os.Remove(f.Name())
		}
	}
}
