package session

import (
	"context"
	"testing"
)

// TestHalfASolve enters a solve that lacks its left side and what it is for, with names that
// have no value.
func TestHalfASolve(t *testing.T) {
	if e := New().Enter(context.Background(), "solve =F =  19.8kx"); !e.Failed() || len(e.Findings) == 0 {
		t.Errorf("it is accepted: %v", e.Findings)
	}
}
