package disk

import (
	"os"

	"golang.org/x/sys/windows"
)

// beyond is a byte that no file of ours reaches: a lock here keeps nobody from
// reading what is written.
const beyond = 1 << 30

// Lock takes the file for this process alone, without waiting. The system
// gives the lock back when the process ends, however it ends.
func Lock(f *os.File) bool {
	at := windows.Overlapped{OffsetHigh: beyond}
	return windows.LockFileEx(windows.Handle(f.Fd()),
		windows.LOCKFILE_EXCLUSIVE_LOCK|windows.LOCKFILE_FAIL_IMMEDIATELY, 0, 1, 0, &at) == nil
}

// SyncFolder has nothing to do: this system flushes a folder with its files.
func SyncFolder(string) {}

// Private has nothing to look at: this system guards the user's folder by itself.
func Private(os.FileInfo) bool { return true }

// Linked does not know: this system does not say it of a file by its name.
func Linked(os.FileInfo) bool { return false }

// like gives a file the mode of another one.
func like(f *os.File, old os.FileInfo) error { return f.Chmod(old.Mode().Perm()) }
