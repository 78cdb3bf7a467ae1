//go:build !windows

package journal

import (
	"os"
	"syscall"
)

// lock takes the file for this process alone, without waiting. The system
// gives the lock back when the process ends, however it ends.
func lock(f *os.File) bool {
	for {
		err := syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB)
		if err != syscall.EINTR {
			return err == nil
		}
	}
}

// syncFolder flushes a folder, so that a new file in it outlives a loss of
// power. Not every file system can; the file itself is flushed in any case.
func syncFolder(dir string) {
	if d, err := os.Open(dir); err == nil {
		_ = d.Sync()
		_ = d.Close()
	}
}

// private tells whether nobody but the user can put files into a folder.
func private(dir os.FileInfo) bool {
	owner, ok := dir.Sys().(*syscall.Stat_t)
	return dir.Mode().Perm()&0o022 == 0 && (!ok || int(owner.Uid) == os.Geteuid())
}
