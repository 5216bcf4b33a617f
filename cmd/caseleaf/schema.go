package main

import (
	"fmt"

	"caseleaf/content"
)

type schemaCommand struct {
	Of   string `arg:"" enum:"case,decision,course,bank,terms" default:"case" help:"Which file: case, decision, course, bank or terms."`
	Bank string `help:"Bank whose own terms are to be known."`
}

// Run prints the JSON Schema of one sort of file, for editors.
func (c schemaCommand) Run(s streams) error {
	files, _, err := bankArgument{c.Bank}.open()
	if err != nil {
		return err
	}
	bank, _, err := read(files)
	if err != nil {
		return err
	}
	data, err := content.Schema(c.Of, bank.Vocabulary)
	if err != nil {
		return failure{exitUse, err}
	}
	_, err = s.out.Write(data)
	if err != nil {
		return failure{exitMachine, fmt.Errorf("writing the schema: %w", err)}
	}
	return nil
}
