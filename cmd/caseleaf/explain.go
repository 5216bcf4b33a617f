package main

import (
	"fmt"

	"caseleaf/content/diagnose"
	"caseleaf/content/term"
)

type explainCommand struct {
	Code string `arg:"" optional:"" help:"Code in square brackets at the end of a message; without one, all codes are listed."`
}

// Run prints the help page of a diagnostic's code.
func (c explainCommand) Run(s streams) error {
	if c.Code == "" {
		for _, e := range diagnose.Explanations() {
			fmt.Fprintf(s.out, "%-22s %s\n", e.Code, e.Title)
		}
		return nil
	}
	e, ok := diagnose.Explain(diagnose.Code(c.Code))
	if ok {
		fmt.Fprint(s.out, e.Text())
		return nil
	}
	var codes []string
	for _, e := range diagnose.Explanations() {
		codes = append(codes, string(e.Code))
	}
	err := fmt.Errorf("there is no code %q", c.Code)
	if near, ok := term.Nearest(c.Code, codes); ok {
		err = fmt.Errorf("there is no code %q; did you mean %q?", c.Code, near)
	}
	return failure{exitUse, err}
}
