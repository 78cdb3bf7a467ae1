package repl

import (
	"errors"
	"io"
	"sync/atomic"
	"time"
)

// errQuiet says that nothing was typed for as long as was to be waited, and errWoken that
// there is something else to look after.
var (
	errQuiet = errors.New("quiet")
	errWoken = errors.New("woken")
)

// source is where bytes typed come from. It waits for some, for ever if the
// patience is 0, else until errQuiet.
type source interface {
	next(patience time.Duration) ([]byte, error)
}

// input reads the terminal only when it is asked to, so that what is typed while
// a statement is worked out waits in the terminal. A read can be ended from
// elsewhere: by Ctrl-C that came as a signal, and for good.
type input struct {
	asked   chan struct{} // one read is wanted
	read    chan piece    // what it brought
	dropped chan struct{} // Ctrl-C as a signal; holds one
	woken   chan struct{} // the screen has changed; holds one
	over    chan struct{} // closed at the end
	waiting bool          // a read was asked for and has brought nothing yet
	ended   atomic.Bool   // nothing more will come
}

// piece is what one read brought.
type piece struct {
	data []byte
	err  error
}

func newInput(in io.Reader) *input {
	i := &input{asked: make(chan struct{}), read: make(chan piece), dropped: make(chan struct{}, 1), woken: make(chan struct{}, 1), over: make(chan struct{})}
	go i.serve(in)
	return i
}

// serve makes the reads that are asked for. One that the terminal never answers
// ends with the program.
func (i *input) serve(in io.Reader) {
	buf := make([]byte, 4096)
	for {
		select {
		case <-i.asked:
		case <-i.over:
			return
		}
		n, err := in.Read(buf)
		select {
		case i.read <- piece{append([]byte(nil), buf[:n]...), err}:
		case <-i.over:
			return
		}
	}
}

// next returns what is typed next.
func (i *input) next(patience time.Duration) ([]byte, error) {
	var quiet <-chan time.Time
	if patience > 0 {
		quiet = time.After(patience)
	}
	for {
		ask := i.asked
		if i.waiting {
			ask = nil
		}
		select {
		case <-i.over:
			return nil, io.EOF
		case <-i.dropped:
			return []byte(dropKey), nil
		case <-i.woken:
			return nil, errWoken
		case <-quiet:
			return nil, errQuiet
		case ask <- struct{}{}:
			i.waiting = true
		case p := <-i.read:
			i.waiting = false
			if p.err != nil {
				i.ended.Store(true)
			}
			return p.data, p.err
		}
	}
}

// drop makes the read that goes on, or the next, bring Ctrl-C.
func (i *input) drop() { once(i.dropped) }

// wake ends the read that goes on, or the next; what is typed comes with one after it.
func (i *input) wake() { once(i.woken) }

// once puts a token into a channel that holds one: one is enough.
func once(c chan struct{}) {
	select {
	case c <- struct{}{}:
	default:
	}
}

// undrop takes that back, where no read has brought it yet.
func (i *input) undrop() {
	select {
	case <-i.dropped:
	default:
	}
}

// end ends this read and all later ones. It is called once.
func (i *input) end() {
	i.ended.Store(true)
	close(i.over)
}
