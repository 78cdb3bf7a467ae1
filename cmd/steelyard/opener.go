package main

import (
	"os/exec"
	"runtime"
	"time"
)

// openWait is how long the program that shows a page may take to say that it can't.
const openWait = 2 * time.Second

// opened has the system show a file in the program that it keeps for such files, and
// tells whether there is one.
func opened(file string) bool {
	show := exec.Command("xdg-open", file)
	switch runtime.GOOS {
	case "windows":
		show = exec.Command("rundll32", "url.dll,FileProtocolHandler", file)
	case "darwin":
		show = exec.Command("open", file)
	}
	if show.Start() != nil {
		return false
	}
	failed := make(chan error, 1)
	go func() { failed <- show.Wait() }()
	select {
	case err := <-failed:
		return err == nil
	case <-time.After(openWait):
		return true // it may stay as long as the page is looked at
	}
}
