package main

import (
	"os"
	"path/filepath"
	"slices"
	"strings"

	"steelyard/session/spreadsheet"
	"steelyard/session/worksheet"
)

// stdinName names standard input among files and statements.
const stdinName = "-"

// load reads a worksheet that is to be worked out, with the files of its folder.
func (w *world) load(name string) (sheet *worksheet.Sheet, problem *worksheet.FileProblem) {
	if name == stdinName {
		sheet, problem = worksheet.Read("standard input", w.stdin)
	} else if sheet, problem = worksheet.Load(name); problem == nil {
		keepMemory(len(sheet.Statements))
	}
	if problem == nil {
		sheet.Files = spreadsheet.Folder(filepath.Dir(name))
	}
	return sheet, problem
}

// sheetsNamed tells what is wrong with the names of worksheets on a command line.
func sheetsNamed(files []string) string {
	switch {
	case len(files) == 0:
		return "name a worksheet, such as examples/pinball-plunger.worked."
	case len(files)-len(slices.DeleteFunc(slices.Clone(files), func(f string) bool { return f == stdinName })) > 1:
		return "standard input can be read once only."
	}
	return ""
}

func namesStdin(files []string) bool { return slices.Contains(files, stdinName) }

// isWorksheet tells whether a word of the command line is a worksheet's name.
func isWorksheet(word string) bool {
	if strings.HasSuffix(word, worksheet.Extension) {
		return true
	}
	info, err := os.Stat(word)
	return err == nil && info.Mode().IsRegular()
}
