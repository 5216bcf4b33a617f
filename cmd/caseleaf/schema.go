package main

import (
	"encoding/json"
	"io"

	"caseleaf/builder/tally"
	"caseleaf/content"
)

type schemaCommand struct {
	Of   string `arg:"" enum:"case,decision,course,bank,terms,tally" default:"case" help:"Of which file: case, decision, course, bank or terms; or of what tally prints as JSON."`
	Bank string `help:"Bank whose own terms are to be known."`
}

// Run prints the JSON Schema of one sort of file, for editors.
func (c schemaCommand) Run(s streams) error {
	if c.Of == "tally" {
		return writeJSON(s.out, tally.Schema())
	}
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
	if _, err = s.out.Write(data); err != nil {
		return failure{exitMachine, err}
	}
	return nil
}

func writeJSON(w io.Writer, v any) error {
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	if err := e.Encode(v); err != nil {
		return failure{exitMachine, err}
	}
	return nil
}
