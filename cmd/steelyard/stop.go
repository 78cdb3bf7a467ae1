package main

import (
	"context"
	"io"
	"os"
	"os/signal"
)

// stoppable carries out a command without a scratchpad. The first Ctrl-C stops
// the work where it is; a second ends the program at once, whatever it waits for.
func (w *world) stoppable(work func(w *world) int) int {
	ctx, stop := signal.NotifyContext(w.ctx, os.Interrupt)
	defer stop()
	context.AfterFunc(ctx, stop)
	within := *w
	within.ctx, within.stdin = ctx, &stoppableReader{ctx: ctx, from: w.stdin}
	status := work(&within)
	if ctx.Err() != nil {
		w.complain("steelyard: stopped.")
		return statusStopped
	}
	return status
}

// stoppableReader reads until the work is stopped, and then no more, though a read
// may still wait for what is never typed.
type stoppableReader struct {
	ctx  context.Context
	from io.Reader
	got  chan []byte
	left []byte
	err  error // set before got is closed
}

// Read returns what is read next, or io.EOF once the work is stopped.
func (r *stoppableReader) Read(p []byte) (int, error) {
	if r.got == nil {
		r.got = make(chan []byte)
		go r.serve()
	}
	if len(r.left) == 0 {
		select {
		case piece, more := <-r.got:
			if !more {
				return 0, r.err
			}
			r.left = piece
		case <-r.ctx.Done():
			return 0, io.EOF
		}
	}
	n := copy(p, r.left)
	r.left = r.left[n:]
	return n, nil
}

// serve reads on its own: a read that nothing ends ends with the program.
func (r *stoppableReader) serve() {
	defer close(r.got)
	for r.err == nil {
		buf := make([]byte, 64<<10)
		var n int
		n, r.err = r.from.Read(buf)
		if n > 0 {
			select {
			case r.got <- buf[:n]:
			case <-r.ctx.Done():
				return
			}
		}
	}
}
