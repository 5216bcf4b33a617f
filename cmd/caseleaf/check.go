package main

import (
	"errors"
	"fmt"
	"io"
	"os"

	"caseleaf/content"
	"caseleaf/content/diagnose"
	"caseleaf/content/privacy"
)

type checkCommand struct {
	bankArgument
	Format     string `enum:"text,json,sarif" default:"text" help:"text for people, json (one object a line) or sarif (2.1.0) for programs."`
	Reveal     bool   `help:"Show identifiers that were found in full. For the author's own eyes."`
	Text       string `enum:",body,front-matter,caption,reference,filename" default:"" placeholder:"ZONE" help:"Scan a text from standard input for what could identify somebody, by the rules of body, front-matter, caption, reference or filename; the bank gives the vocabulary."`
	Guidelines bool   `help:"List, case by case, which items of published reporting guidelines are answered."`
}

// Run prints every diagnostic and, for people, a last line that counts them.
func (c checkCommand) Run(s streams) error {
	if c.Guidelines && (c.Format != "text" || c.Text != "") {
		return failure{exitUse, errors.New("--guidelines prints text about a bank; leave out --format and --text")}
	}
	if isCopy(c.Bank) {
		if c.Guidelines || c.Format != "text" || c.Text != "" || c.Reveal {
			return failure{exitUse, errors.New("a handout is only held to its manifest: leave out the other options")}
		}
		return checkCopy(s, c.Bank)
	}
	files, name, err := c.open()
	if err != nil {
		return err
	}
	bank, found, err := readWith(files, content.Options{Reveal: c.Reveal})
	if err != nil {
		return err
	}
	if c.Text != "" {
		return c.text(s, bank)
	}
	if err := c.write(s, found); err != nil {
		return err
	}
	if c.Guidelines {
		writeGuidelines(s.out, bank)
	}
	if c.Format == "text" {
		fmt.Fprintf(s.out, "%s: %s, %s, %s; %s\n", name,
			plural(len(bank.Cases), "case", "cases"), plural(len(bank.Decisions), "decision", "decisions"),
			plural(bank.Logbook.Len(), "operation", "operations"), counts(found))
	}
	return status(found)
}

// maxText is the most bytes that check reads from standard input.
const maxText = 4 << 20

// text scans standard input.
func (c checkCommand) text(s streams, bank *content.Bank) error {
	data, err := io.ReadAll(io.LimitReader(os.Stdin, maxText+1))
	if err != nil {
		return failure{exitMachine, err}
	}
	if len(data) > maxText {
		return failure{exitUse, fmt.Errorf("the text is longer than %d bytes", maxText)}
	}
	found := content.CheckText(bank, "stdin", privacy.Zone(c.Text), data, c.Reveal)
	if err := c.write(s, found); err != nil {
		return err
	}
	if c.Format == "text" {
		if len(found) == 0 {
			fmt.Fprintln(s.out, "No finding. That is not the same as nobody identifiable: a person must read it.")
		} else {
			fmt.Fprintf(s.out, "%s\n", counts(found))
		}
	}
	return status(found)
}

// write prints what was found in the form asked for, all of it.
func (c checkCommand) write(s streams, found diagnose.Diagnostics) error {
	var err error
	switch c.Format {
	case "json":
		err = found.WriteJSON(s.out)
	case "sarif":
		err = found.WriteSARIF(s.out, version)
	default:
		err = found.WriteText(s.out)
	}
	if err != nil {
		return failure{exitMachine, err}
	}
	return nil
}

// status is 1 where anything is an error.
func status(found diagnose.Diagnostics) error {
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
