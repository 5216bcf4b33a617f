package main

import (
	"fmt"

	"caseleaf/content/diagnose"
)

type checkCommand struct {
	bankArgument
	Guidelines bool `help:"List, case by case, which items of published reporting guidelines are answered."`
}

// Run prints every diagnostic and a last line that counts them.
func (c checkCommand) Run(s streams) error {
	files, name, err := c.open()
	if err != nil {
		return err
	}
	bank, found, err := read(files)
	if err != nil {
		return err
	}
	if err := found.WriteText(s.out); err != nil {
		return failure{exitMachine, err}
	}
	if c.Guidelines {
		writeGuidelines(s.out, bank)
	}
	fmt.Fprintf(s.out, "%s: %s, %s, %s; %s\n", name,
		plural(len(bank.Cases), "case", "cases"), plural(len(bank.Decisions), "decision", "decisions"),
		plural(bank.Logbook.Len(), "operation", "operations"), counts(found))
	if found.Failed() {
		return failure{status: exitBank}
	}
	return nil
}

func counts(found diagnose.Diagnostics) string {
	errs, warnings := found.Count(diagnose.Error), found.Count(diagnose.Warning)
	if errs == 0 && warnings == 0 {
		return "nothing to mend"
	}
	return plural(errs, "error", "errors") + ", " + plural(warnings, "warning", "warnings")
}
