package main

import (
	"context"
	"os"
	"time"
)

// watchEvery is how often files are looked at. A change is seen within two looks.
const watchEvery = 150 * time.Millisecond

// watch calls work with all files, and then with those that have been saved, until
// the work is stopped.
//
// The files are looked at by their names, and not followed by the system's news of
// changes: an editor that writes another file and renames it, or a disk across a
// network, is seen like any other. A file that is being written is waited for, until
// it has not changed between two looks.
func watch(ctx context.Context, files []string, work func(changed []string)) {
	seen := make([]os.FileInfo, len(files)) // at the last look
	done := make([]os.FileInfo, len(files)) // as it was worked out
	for i, file := range files {
		seen[i] = look(file)
		done[i] = seen[i]
	}
	work(files)
	again := time.NewTicker(watchEvery)
	defer again.Stop()
	for {
		select {
		case <-ctx.Done():
			return
		case <-again.C:
		}
		var changed []string
		for i, file := range files {
			now := look(file)
			if now != nil && same(now, seen[i]) && !same(now, done[i]) {
				done[i] = now
				changed = append(changed, file)
			}
			seen[i] = now
		}
		if len(changed) > 0 {
			work(changed)
		}
	}
}

// look returns what is told of a file, or nil while there is none.
func look(file string) os.FileInfo {
	info, err := os.Stat(file)
	if err != nil {
		return nil
	}
	return info
}

// same tells whether a file has not been written between two looks.
func same(a, b os.FileInfo) bool {
	return a != nil && b != nil && os.SameFile(a, b) && a.Size() == b.Size() && a.ModTime().Equal(b.ModTime())
}
