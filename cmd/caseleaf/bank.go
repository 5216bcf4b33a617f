package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"caseleaf/builder"
	"caseleaf/casebank"
	"caseleaf/content"
	"caseleaf/content/diagnose"
)

// bankArgument is the folder of a bank. Without one, the folder casebank of the
// working folder is used, or else the demonstration bank inside the program.
type bankArgument struct {
	Bank string `arg:"" optional:"" help:"Folder of the bank (default: casebank, or the built-in demonstration bank)."`
}

const defaultBank = "casebank"

// open returns the bank's files and what to call them.
func (b bankArgument) open() (fs.FS, string, error) {
	folder := b.Bank
	if folder == "" {
		if _, err := os.Stat(filepath.Join(defaultBank, "bank.yaml")); err != nil {
			return casebank.FS(), "the built-in demonstration bank", nil
		}
		folder = defaultBank
	}
	info, err := os.Stat(folder)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, "", failure{exitUse, fmt.Errorf("there is no folder %s", folder)}
	case err != nil:
		return nil, "", failure{exitMachine, err}
	case !info.IsDir():
		return nil, "", failure{exitUse, fmt.Errorf("%s is not a folder", folder)}
	}
	files, err := inside(folder)
	return files, folder, err
}

// inside gives the files of a bank and of nothing else: a link that leads out of
// the folder can't be followed, wherever it stands.
func inside(folder string) (fs.FS, error) {
	root, err := os.OpenRoot(folder)
	if err != nil {
		return nil, failure{exitMachine, err}
	}
	return root.FS(), nil
}

// openOr opens the bank, or where none is needed and none is there, the
// demonstration bank for its vocabulary.
func (b bankArgument) openOr(needed bool) (fs.FS, string, error) {
	if _, err := os.Stat(b.Bank); err != nil && !needed {
		b.Bank = ""
	}
	return b.open()
}

// read reads a bank and turns a failing disk into an exit status.
func read(files fs.FS) (*content.Bank, diagnose.Diagnostics, error) {
	return readWith(files, content.Options{})
}

// readWith is read with options. What only a worked-out course tells is found
// along with the rest.
func readWith(files fs.FS, options content.Options) (*content.Bank, diagnose.Diagnostics, error) {
	bank, found, err := content.ReadWith(files, options)
	if err != nil {
		return nil, nil, failure{exitMachine, err}
	}
	return bank, found.And(builder.CourseFindings(bank)), nil
}

// plural writes a count with its noun.
func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}
