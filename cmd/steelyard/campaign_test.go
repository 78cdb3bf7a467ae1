package main

import "os"

// times is how often a random trial is made: a few times in every run of the
// tests, and many times in a campaign (STEELYARD_CAMPAIGN, see DEVELOPERS.md).
func times(few, many int) int {
	if os.Getenv("STEELYARD_CAMPAIGN") != "" {
		return many
	}
	return few
}
