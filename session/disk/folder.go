package disk

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io"
	"os"

	"steelyard/lang/limit"
)

// Folder reads files of a folder and of those in it, and of no other, whatever links
// there are.
func Folder(dir string) func(name string) ([]byte, error) {
	return func(name string) ([]byte, error) {
		root, err := os.OpenRoot(dir)
		if err != nil {
			return nil, err
		}
		defer root.Close()
		// A pipe would be waited for, and a device never ends.
		is, err := root.Stat(name)
		switch {
		case err != nil || !is.Mode().IsRegular():
			return nil, cmp.Or(err, errors.New("it is no file"))
		case is.Size() > limit.DataFile:
			return nil, fmt.Errorf("it has more than %d MiB", limit.DataFile>>20)
		}
		f, err := root.Open(name)
		if err != nil {
			return nil, err
		}
		defer f.Close()
		var out bytes.Buffer
		out.Grow(int(is.Size()) + bytes.MinRead)
		_, err = out.ReadFrom(io.LimitReader(f, is.Size()))
		return out.Bytes(), err
	}
}
