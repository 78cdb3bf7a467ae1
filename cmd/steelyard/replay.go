package main

func runReplay(w *world, args []string) int { return w.usage("replay", "name a file.") }
