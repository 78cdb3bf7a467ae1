//go:build !windows

package disk

import (
	"os"
	"syscall"
)

// Lock takes the file for this process alone, without waiting. The system
// gives the lock back when the process ends, however it ends.
func Lock(f *os.File) bool {
	for {
		err := syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB)
		if err != syscall.EINTR {
			return err == nil
		}
	}
}

// SyncFolder flushes a folder, so that a new file in it outlives a loss of
// power. Not every file system can; the file itself is flushed in any case.
func SyncFolder(dir string) {
	if d, err := os.Open(dir); err == nil {
		_ = d.Sync()
		_ = d.Close()
	}
}

// Private tells whether nobody but the user can put files into a folder.
func Private(dir os.FileInfo) bool {
	owner, ok := dir.Sys().(*syscall.Stat_t)
	return dir.Mode().Perm()&0o022 == 0 && (!ok || int(owner.Uid) == os.Geteuid())
}

// Linked tells whether a file has more than one name.
func Linked(info os.FileInfo) bool {
	stat, ok := info.Sys().(*syscall.Stat_t)
	return ok && stat.Nlink > 1
}

// like gives a file the owner and the mode of another one.
func like(f *os.File, old os.FileInfo) error {
	is, err := f.Stat()
	if err != nil {
		return err
	}
	a, ok1 := is.Sys().(*syscall.Stat_t)
	b, ok2 := old.Sys().(*syscall.Stat_t)
	if ok1 && ok2 && (a.Uid != b.Uid || a.Gid != b.Gid) {
		if err := f.Chown(int(b.Uid), int(b.Gid)); err != nil {
			return ErrOwner
		}
	}
	return f.Chmod(old.Mode().Perm())
}
