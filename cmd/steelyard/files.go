package main

import "context"

// openFile is the worksheet file that the scratchpad saves to.
type openFile struct{}

func (s *scratchpad) save(arg string)                      {}
func (s *scratchpad) open(ctx context.Context, arg string) {}
func (s *scratchpad) replay(ctx context.Context)           {}
