package limit

import (
	"context"
	"testing"
)

// TestBudget spends N steps and one more, in steps and in leaps.
func TestBudget(t *testing.T) {
	for _, n := range []int64{0, 1, lookEvery, lookEvery + 1, 3*lookEvery + 7} {
		for _, leap := range []int64{1, 5, lookEvery + 3} {
			b := NewBudget(t.Context(), n*leap)
			for i := range n {
				if !b.Spend(leap) {
					t.Fatalf("%d leaps of %d: ended at %d", n, leap, i)
				}
			}
			if b.Ended() != Going || b.Spend(1) || b.Ended() != Spent || b.Spend(0) {
				t.Errorf("%d leaps of %d: %v", n, leap, b.Ended())
			}
		}
	}
}

// TestBudgetStops looks at the context after so many steps.
func TestBudgetStops(t *testing.T) {
	ctx, stop := context.WithCancel(t.Context())
	b := NewBudget(ctx, Steps)
	b.Spend(1)
	stop()
	for range lookEvery + 1 {
		b.Spend(1)
	}
	if b.Ended() != Stopped {
		t.Errorf("%v", b.Ended())
	}
}

// TestBudgetParts takes a part out and gives back what is left of it.
func TestBudgetParts(t *testing.T) {
	b := NewBudget(t.Context(), 100)
	b.Spend(20)
	part := b.Part(4)
	for range 20 {
		if !part.Spend(1) {
			t.Fatal("a part of 20 steps has fewer")
		}
	}
	if part.Spend(1) {
		t.Error("a part of 20 steps has more")
	}
	b.Join(part)
	part = b.Part(2)
	part.Spend(10)
	b.Join(part)
	if !b.Spend(50) || b.Spend(1) {
		t.Error("80 steps less 20 and 10 are 50")
	}
	ctx, stop := context.WithCancel(t.Context())
	stop()
	b = NewBudget(ctx, 100)
	part = b.Part(2)
	part.Spend(1)
	if b.Join(part); b.Ended() != Stopped {
		t.Error("a part that was stopped stops the whole")
	}
}
