package main

import (
	"fmt"
	"path/filepath"
	"strings"

	"caseleaf/content"
)

type draftCommand struct {
	Case string `required:"" help:"Id of the new case."`
	Bank string `default:"casebank" help:"Bank to put the case into."`
}

// Run writes an empty, commented case into a bank and overwrites nothing.
func (d draftCommand) Run(s streams) error {
	files, _, err := bankArgument{d.Bank}.open()
	if err != nil {
		return err
	}
	bank, _, err := read(files)
	if err != nil {
		return err
	}
	if err := content.CheckID(d.Case); err != nil {
		return failure{exitUse, err}
	}
	name := filepath.Join(d.Bank, "cases", strings.ToLower(d.Case)+".md")
	if err := writeNew(name, content.DraftCase(d.Case, bank.Vocabulary)); err != nil {
		return err
	}
	fmt.Fprintf(s.out, "An empty case is in %s. It is held back until its release is filled in.\n", name)
	return nil
}
