package main

import (
	"errors"
	"fmt"
	"path/filepath"
	"strings"

	"caseleaf/builder"
	"caseleaf/content"
	"caseleaf/content/diagnose"
)

type packCommand struct {
	bankArgument
	Out    string `short:"o" placeholder:"FILE" help:"The file to write (default: handout.zip, or the course's id; with --epub, .epub)."`
	Course string `placeholder:"ID" help:"Pack only what this course needs."`
	Epub   bool   `help:"Write an EPUB 3.3, for phones and readers, in place of a zip."`
	Since  string `placeholder:"OLD" help:"Add a page of what changed since an earlier edition: its zip, folder or manifest.json."`
	courseDates
	Offline bool `env:"CASELEAF_OFFLINE" help:"Never try to get the chart library through npm."`
}

// Run packs a bank that has no errors and draws no privacy warning; otherwise it
// says what to mend and writes nothing.
func (p packCommand) Run(s streams) error {
	out, err := p.out()
	if err != nil {
		return err
	}
	old, err := since(p.Since)
	if err != nil {
		return err
	}
	files, name, err := p.open()
	if err != nil {
		return err
	}
	bank, found, err := read(files)
	if err != nil {
		return err
	}
	if err := withoutNotes(found).WriteText(s.err); err != nil {
		return failure{exitMachine, err}
	}
	if found.Failed() {
		return failure{exitBank, fmt.Errorf("%s: %s; nothing was written", name, counts(found))}
	}
	if n := stopping(bank, p.Course, found); n > 0 {
		return failure{exitBank, fmt.Errorf("%s: %s about privacy above; %s leaves the house, so nothing was written. "+
			"Mend each, or have it reviewed and except it under privacy_exceptions (caseleaf explain identifying)", name, plural(n, "warning", "warnings"), p.kind())}
	}
	dates, err := p.courseDates.of(bank)
	if err != nil {
		return err
	}
	options := builder.Options{Out: out, BankFiles: files, Course: p.Course, Since: old, CourseDates: dates}
	write, note := builder.PackBook, ""
	if !p.Epub {
		write = builder.Pack
		options.Charts, note = buildCommand{Offline: p.Offline}.library(files)
	}
	show, done := progress(s.err)
	options.Progress = show
	packed, err := write(bank, options)
	done()
	if err != nil {
		return buildFailure(err)
	}
	if note != "" {
		fmt.Fprintln(s.out, note)
	}
	p.report(s, packed)
	return nil
}

// out is the name of the file to write; its ending says what it is.
func (p packCommand) out() (string, error) {
	ending := ".zip"
	if p.Epub {
		ending = ".epub"
	}
	name := p.Out
	if name == "" {
		name = "handout" + ending
		if p.Course != "" {
			name = builder.FileStem(p.Course) + ending
		}
	}
	if !strings.EqualFold(filepath.Ext(name), ending) {
		return "", failure{exitUse, fmt.Errorf("%s: name a file that ends in %s", name, ending)}
	}
	return name, nil
}

// kind is what is written, in words.
func (p packCommand) kind() string {
	if p.Epub {
		return "an EPUB"
	}
	return "a zip"
}

// stopping counts the privacy warnings of what would be packed. Warnings of a
// case that is held back, or that is not in the course, stop nothing: it stays
// in the house.
func stopping(bank *content.Bank, course string, found diagnose.Diagnostics) int {
	packs := builder.Packs(bank, course)
	n := 0
	for _, d := range found {
		if d.Severity == diagnose.Warning && diagnose.IsPrivacy(d.Code) && packs(d.Span.File()) {
			n++
		}
	}
	return n
}

// report says what was packed, what was held back, and by what a receiver tells
// the file.
func (p packCommand) report(s streams, packed builder.Packed) {
	if len(packed.HeldBack) > 0 {
		fmt.Fprintf(s.out, "Held back, not released: %s\n", strings.Join(packed.HeldBack, ", "))
	}
	fmt.Fprintf(s.out, "%s, %s, %s: %s, %.1f MB\nSHA-256 %s\n", plural(packed.Cases, "case", "cases"),
		plural(packed.Decisions, "decision", "decisions"), plural(packed.Pages, "page", "pages"), packed.File, float64(packed.Size)/1e6, packed.SHA256)
}

// buildFailure gives what a build or a zip failed on its exit status.
func buildFailure(err error) error {
	var noCourse *builder.NoCourseError
	switch {
	case builder.Explained(err):
		return failure{exitBank, err}
	case errors.As(err, &noCourse), errors.Is(err, builder.ErrForeignFolder), errors.Is(err, builder.ErrWontReplace),
		errors.Is(err, builder.ErrNoRecord), errors.Is(err, builder.ErrOtherPart):
		return failure{exitUse, err}
	}
	return failure{exitMachine, err}
}
