package worksheet

import (
	"bytes"
	"path/filepath"

	"steelyard/lang/syntax"
	"steelyard/session/disk"
	"steelyard/session/entry"
)

// readsOthers finds a file that these lines read from the folder of one worksheet, and that
// they would not find alike in the folder of another: what is saved there could not be
// replayed, or would have other readings. What can't be read in the first folder either is
// no reason not to save.
func readsOthers(entries []*entry.Entry, from, path string) *FileProblem {
	to := filepath.Dir(path)
	if filepath.Clean(from) == to {
		return nil
	}
	here, there := disk.Folder(from), disk.Folder(to)
	for _, e := range entries {
		data, reads := e.Stmt.(*syntax.Data)
		if !reads || data.File == "" {
			continue
		}
		now, err := here(data.File)
		if err != nil {
			continue
		}
		then, err := there(data.File)
		if err == nil && bytes.Equal(now, then) {
			continue
		}
		why := "which is not in that folder"
		if err == nil {
			why = "and the file of that name in that folder is another one"
		}
		return &FileProblem{Kind: NotWritten, Path: path, Message: "line " + itoa(e.Line) + " reads " + data.File + ", " + why + "; nothing was written.",
			Hint: "Copy " + data.File + " there first, or save where it is: " + filepath.Join(from, filepath.Base(path))}
	}
	return nil
}
