package main

import (
	"cmp"
	"slices"
	"strings"
	"unicode/utf8"

	"steelyard/units/writing"
)

// given are the options of a command line: the values of each, by its name. A
// switch has an empty one.
type given map[string][]string

// has tells whether an option is there.
func (g given) has(name string) bool { return len(g[name]) > 0 }

// value is that of an option, the last where there are several; or else what is so
// without it.
func (g given) value(name, without string) string {
	if all := g[name]; len(all) > 0 {
		return all[len(all)-1]
	}
	return without
}

// readOptions takes the options out of the arguments; they may stand anywhere
// before a --. What is no option is returned in order. The problem is empty if
// all of it can be read.
//
// They are read here and not by a library because starting up is a budget, and
// because a statement such as -5 °C must not be taken for one.
func readOptions(args []string, options []option) (g given, rest []string, problem string) {
	g = given{}
	for i := 0; i < len(args); i++ {
		if args[i] == "--" {
			return g, append(rest, args[i+1:]...), ""
		}
		arg := args[i]
		for _, o := range options {
			if o.short != "" && arg == "-"+o.short {
				arg = "--" + o.name
			}
		}
		if !isOption(arg) {
			rest = append(rest, arg)
			continue
		}
		name, value, filled := strings.Cut(arg[2:], "=")
		at := slices.IndexFunc(options, func(o option) bool { return o.name == name })
		if at < 0 {
			return nil, nil, "there is no option --" + name + "." + didYouMean("--"+name, optionNames(options))
		}
		o := &options[at]
		switch {
		case o.takes == "" && filled:
			return nil, nil, "--" + name + " takes no value."
		case o.takes != "" && !filled:
			i++
			if i == len(args) {
				return nil, nil, "--" + name + " needs " + cmp.Or(o.needs, o.takes) + " after it."
			}
			value = args[i]
		}
		g[name] = append(g[name], value)
	}
	return g, rest, ""
}

// isOption tells an option, --json, from a statement or a file's name.
func isOption(arg string) bool {
	return len(arg) > 2 && arg[0] == '-' && arg[1] == '-' && arg[2] >= 'a' && arg[2] <= 'z'
}

// optionNames lists the options as they are typed.
func optionNames(options []option) []string {
	names := make([]string, len(options))
	for i, o := range options {
		names[i] = "--" + o.name
	}
	return names
}

// didYouMean asks whether the nearest of some words was meant, if one is near.
func didYouMean(word string, words []string) string {
	if near := writing.Nearest(word, slices.Values(words)); len(near) > 0 {
		return " Did you mean " + near[0] + "?"
	}
	return ""
}

// asksForHelp tells whether --help or -h stands before a --.
func asksForHelp(args []string) bool {
	for _, a := range args {
		switch a {
		case "--":
			return false
		case "--help", "-h":
			return true
		}
	}
	return false
}

// unknownCommand says that there is no such subcommand, and what was perhaps
// meant.
func (w *world) unknownCommand(word string) int {
	hint := ""
	switch {
	case isOption(word):
		return w.usage("", "there is no option "+word+".")
	case strings.ContainsAny(word, "=+*/^ ") || word != "" && !isLetter(word):
		hint = " To work out a statement: steelyard eval '" + word + "'"
	default:
		names := make([]string, 0, 8)
		for _, c := range commands() {
			names = append(names, c.name)
		}
		hint = didYouMean(word, names)
	}
	return w.usage("", "there is no command "+quoted(word)+"."+hint)
}

func isLetter(word string) bool {
	return word[0]|0x20 >= 'a' && word[0]|0x20 <= 'z'
}

// quoted puts a word of the command line into a message, cut if it is long.
func quoted(word string) string {
	if utf8.RuneCountInString(word) > 40 {
		word = string([]rune(word)[:40]) + "…"
	}
	return "`" + writing.Clean(word, writing.Screen) + "`"
}
