//go:build !windows

package worksheet

import (
	"os"
	"path/filepath"

	"github.com/google/renameio/v2"
)

// putInPlace writes a file beside the one meant, flushes it and renames it.
// When any step fails, the file beside it is removed again.
func putInPlace(path string, data []byte, mode os.FileMode) error {
	return renameio.WriteFile(path, data, mode, renameio.WithTempDir(filepath.Dir(path)))
}
