package repl

import (
	"context"
	"sync"
)

// interrupts leads Ctrl-C to where it belongs: while a statement is worked out
// it stops the work, else it clears the line that is being typed. It may come as
// a signal at any moment, or with the keys, in one piece with Enter.
type interrupts struct {
	in *input

	mu     sync.Mutex
	cancel context.CancelFunc // of the work; nil at the prompt
	early  bool               // it came after Enter and before the work began
}

// arrive takes a signal.
func (i *interrupts) arrive() {
	i.mu.Lock()
	defer i.mu.Unlock()
	if i.cancel != nil {
		i.cancel()
		return
	}
	i.early = true
	i.in.drop()
}

// behindEnter takes a Ctrl-C that was typed behind Enter: it is meant for the
// work that Enter begins.
func (i *interrupts) behindEnter() {
	i.mu.Lock()
	defer i.mu.Unlock()
	i.early = true
}

// prompt begins a line: what came before it has been answered.
func (i *interrupts) prompt() {
	i.mu.Lock()
	defer i.mu.Unlock()
	i.early = false
}

// work begins the work on a statement. The work is over when the function that
// is returned has been called.
func (i *interrupts) work(ctx context.Context) (context.Context, context.CancelFunc) {
	ctx, cancel := context.WithCancel(ctx)
	i.mu.Lock()
	defer i.mu.Unlock()
	if i.early {
		i.early = false
		i.in.undrop()
		cancel()
	}
	i.cancel = cancel
	return ctx, func() {
		i.mu.Lock()
		defer i.mu.Unlock()
		i.cancel = nil
		cancel()
	}
}
