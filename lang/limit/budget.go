package limit

import (
	"context"
	"math"
)

// Steps is the most elementary steps that one line may take, whatever they are
// taken for: about a second's worth. A step is what one operation on plain
// numbers takes, some ten nanoseconds; a sine takes three times as long.
const Steps = 100_000_000

// lookEvery is how many steps lie between two looks at the context: a small part
// of a millisecond.
const lookEvery = 4096

// Ending is why a budget has ended.
type Ending uint8

// The endings.
const (
	Going   Ending = iota
	Spent          // its steps are used up
	Stopped        // its context is done
)

// Budget is what a line may still cost. Every work that may grow with what was
// written spends from it, and ends where it has ended. It is not safe for
// concurrent use.
type Budget struct {
	ctx   context.Context
	next  int64 // steps until the context is looked at
	left  int64 // steps after those
	ended Ending
}

// NewBudget is a budget of so many steps, which ends too when ctx is done.
func NewBudget(ctx context.Context, steps int64) *Budget {
	return &Budget{ctx: ctx, left: steps}
}

// Boundless is a budget that never ends, for work that nobody waits for.
func Boundless() *Budget { return NewBudget(context.Background(), math.MaxInt64) }

// Spend takes steps from the budget; false if it has ended.
func (b *Budget) Spend(steps int64) bool {
	if b.next -= steps; b.next >= 0 {
		return true
	}
	return b.look()
}

// look finds out whether the budget has ended, and sets when to look again.
func (b *Budget) look() bool {
	switch {
	case b.ended != Going:
	case b.ctx.Err() != nil:
		b.ended = Stopped
	case b.left+b.next < 0:
		b.ended = Spent
	default:
		b.left += b.next
		b.next = min(lookEvery, b.left)
		b.left -= b.next
		return true
	}
	b.next = -1
	return false
}

// Left is how many steps it has left.
func (b *Budget) Left() int64 { return max(b.left+max(b.next, 0), 0) }

// Ended tells whether the budget has ended, and why.
func (b *Budget) Ended() Ending { return b.ended }

// Part takes one of n parts of the steps that are left out, as the budget of a
// work after which there is another way. What that does not need is given back
// by Join.
func (b *Budget) Part(n int64) *Budget {
	steps := b.Left() / n
	part := &Budget{ctx: b.ctx, left: steps, ended: b.ended}
	b.left, b.next = b.left+max(b.next, 0)-steps, 0
	if b.ended != Going {
		part.next, b.next = -1, -1
	}
	return part
}

// Join gives back what is left of a part. A part that was stopped stops the
// whole.
func (b *Budget) Join(part *Budget) {
	switch {
	case part.ended == Stopped && b.ended == Going:
		b.ended, b.next = Stopped, -1
	case part.ended == Going && b.ended == Going:
		b.left += part.left + part.next
	}
}
