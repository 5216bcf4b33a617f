package main

import (
	"fmt"
	"io"

	"caseleaf/builder/tally"
	"caseleaf/content"
)

type tallyCommand struct {
	bankArgument
	Format    string `enum:"text,csv,json" default:"text" help:"text for the terminal, csv or json."`
	Published bool   `help:"Hide small counts, as in the handout."`
}

// Run prints the bank's tables: rates from the logbook, counts from the cases.
func (c tallyCommand) Run(s streams) error {
	files, name, err := c.open()
	if err != nil {
		return err
	}
	bank, found, err := read(files)
	if err != nil {
		return err
	}
	if found.Failed() {
		return failure{exitBank, fmt.Errorf("%s: %s; run caseleaf check to see them", name, counts(found))}
	}
	result := tally.Of(bank, bank.Cases)
	if c.Published {
		result = result.Published()
	}
	if err := writeTally(s.out, bank, result, c.Format); err != nil {
		return failure{exitMachine, err}
	}
	return nil
}

func writeTally(w io.Writer, bank *content.Bank, result *tally.Result, format string) error {
	switch format {
	case "csv":
		for i, t := range result.Tables() {
			if i > 0 {
				fmt.Fprint(w, "\r\n")
			}
			if err := t.WriteCSV(w); err != nil {
				return err
			}
		}
		return nil
	case "json":
		return writeJSON(w, result)
	}
	return result.WriteText(w, func(id string) string { return bank.Term(id).Label })
}
