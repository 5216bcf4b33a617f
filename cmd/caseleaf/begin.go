package main

import (
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"

	"caseleaf/content"
)

type beginCommand struct {
	Folder string `arg:"" help:"Folder of the new bank."`
	Title  string `default:"Cases for teaching" help:"Title of the bank."`
}

// Run lays out a new bank and overwrites nothing.
func (b beginCommand) Run(s streams) error {
	if list, err := os.ReadDir(b.Folder); err == nil && len(list) > 0 {
		return failure{exitUse, fmt.Errorf("%s is not empty; begin a bank in a folder of its own", b.Folder)}
	}
	files := content.Beginning(b.Title)
	for _, name := range slices.Sorted(maps.Keys(files)) {
		if err := writeNew(filepath.Join(b.Folder, filepath.FromSlash(name)), files[name]); err != nil {
			return err
		}
	}
	fmt.Fprintf(s.out, "A bank is laid out in %s. Build it with: caseleaf build %s\n", b.Folder, b.Folder)
	return nil
}

// writeNew writes a file that isn't there yet.
func writeNew(name string, data []byte) error {
	if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
		return failure{exitMachine, err}
	}
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if errors.Is(err, fs.ErrExist) {
		return failure{exitUse, fmt.Errorf("%s is there already and is left as it is", name)}
	}
	if err != nil {
		return failure{exitMachine, err}
	}
	_, err = f.Write(data)
	if err := errors.Join(err, f.Close()); err != nil {
		return failure{exitMachine, err}
	}
	return nil
}
