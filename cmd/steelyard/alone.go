package main

import (
	"context"
	"os"
	"runtime"
	"slices"

	"steelyard/session/worksheet"
)

// alone works on one file of several. Where that fails by a fault of ours, the
// fault is reported as the file's problem, and the other files are worked out
// all the same: a stranger's file must not take them with it. It is the one
// place in the program that recovers.
func alone(path string, work func()) (problem *worksheet.FileProblem) {
	defer func() {
		if recover() != nil {
			problem = worksheet.Fault(path)
		}
	}()
	work()
	return nil
}

// replayAll replays several worksheets at once, each alone, and reports them in
// order. No more of them are held at a time than run at once. Those that are not
// begun when the work is stopped are left out.
func replayAll(ctx context.Context, paths []string, replay func(path string) *worksheet.Report, emit func(*worksheet.Report)) {
	reports := make([]chan *worksheet.Report, len(paths))
	for i := range reports {
		reports[i] = make(chan *worksheet.Report, 1)
	}
	free := make(chan struct{}, runtime.GOMAXPROCS(0))
	go func() {
		for i, path := range paths {
			free <- struct{}{}
			go func() {
				var r *worksheet.Report
				if ctx.Err() != nil {
					reports[i] <- nil
					return
				}
				if problem := alone(path, func() { r = replay(path) }); problem != nil {
					r = &worksheet.Report{Path: path, Problem: problem}
				}
				reports[i] <- r
			}()
		}
	}()
	for _, report := range reports {
		if r := <-report; r != nil {
			emit(r)
		}
		<-free
	}
}

// distinct leaves out the files that were named before, in whatever spelling, so
// that no two write to one.
func distinct(paths []string) []string {
	var seen []os.FileInfo
	return slices.DeleteFunc(slices.Clone(paths), func(path string) bool {
		info, err := os.Stat(path)
		if err != nil {
			return false // reported when it is read
		}
		again := slices.ContainsFunc(seen, func(other os.FileInfo) bool { return os.SameFile(info, other) })
		seen = append(seen, info)
		return again
	})
}
