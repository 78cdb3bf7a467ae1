package main

import (
	"embed"
	"slices"
	"strings"

	"github.com/mattn/go-runewidth"
)

// Each script asks the program itself what may come next, and leaves the names of
// files to the shell where nothing is answered.
//
//go:embed completion
var scripts embed.FS

// shells are those that there is a script for.
var shells = []string{"bash", "zsh", "fish", "powershell"}

// runCompletion writes a shell's script, or answers one.
func runCompletion(w *world, g given, args []string) int {
	if g.has("next") {
		return w.print(following(args, g.value("next", "")))
	}
	if len(args) != 1 || !slices.Contains(shells, args[0]) {
		return w.usage("completion", "name a shell: bash, zsh, fish or powershell.")
	}
	text, err := scripts.ReadFile("completion/" + args[0])
	if err != nil {
		return w.usage("completion", "there is no script for "+args[0]+".")
	}
	return w.print(string(text))
}

// following lists what may come after some words of a command line and begins with a
// prefix: a row for each, with what it means behind a tab. It is empty where that is
// the name of a file, or anything.
func following(words []string, prefix string) string {
	var pairs [][2]string
	if len(words) == 0 {
		for _, c := range commands() {
			pairs = append(pairs, [2]string{c.name, c.summary})
		}
		return tabbed(pairs, prefix)
	}
	c, known := commandNamed(words[0])
	if !known {
		return ""
	}
	for _, o := range c.options {
		if last := words[len(words)-1]; o.takes != "" && (last == "--"+o.name || last == "-"+o.short) {
			for _, choice := range o.choices {
				pairs = append(pairs, [2]string{choice})
			}
			return tabbed(pairs, prefix)
		}
	}
	if strings.HasPrefix(prefix, "-") {
		for _, o := range append(c.options, option{name: "help", help: "tell what the command takes"}) {
			pairs = append(pairs, [2]string{"--" + o.name, o.help})
		}
		return tabbed(pairs, prefix)
	}
	if c.words != nil {
		for _, word := range slices.Sorted(slices.Values(matching(c.words(prefix), prefix))) {
			pairs = append(pairs, [2]string{word})
		}
	}
	return tabbed(pairs, prefix)
}

// tabbed writes those pairs that begin with a prefix.
func tabbed(pairs [][2]string, prefix string) string {
	var b strings.Builder
	for _, p := range pairs {
		if strings.HasPrefix(p[0], prefix) {
			b.WriteString(strings.TrimRight(p[0]+"\t"+runewidth.Truncate(p[1], 60, "…"), "\t") + "\n")
		}
	}
	return b.String()
}
