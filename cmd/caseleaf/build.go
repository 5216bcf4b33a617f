package main

import (
	"fmt"
	"io"
	"io/fs"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"time"

	"caseleaf/builder"
	"caseleaf/content/diagnose"
)

type buildCommand struct {
	bankArgument
	Out   string `short:"o" default:"handout" help:"Folder of the handout."`
	Since string `placeholder:"OLD" help:"Add a page of what changed since an earlier edition: its zip, folder or manifest.json."`
	courseDates
	Offline bool `env:"CASELEAF_OFFLINE" help:"Never try to get the chart library through npm."`
	Fresh   bool `help:"Build everything anew, whatever earlier builds left in your cache folder."`
}

// Run builds the handout of a bank without errors; of one with errors it says
// what is wrong and leaves an earlier handout as it was.
func (b buildCommand) Run(s streams) error {
	started := time.Now()
	files, name, err := b.open()
	if err != nil {
		return err
	}
	old, err := since(b.Since)
	if err != nil {
		return err
	}
	library, note := b.library(files)
	options := builder.Options{Out: b.Out, BankFiles: files, Charts: library, Since: old}
	memory := b.memory(name, options)
	past, unchanged := memory.Unchanged()
	if !unchanged {
		if past, err = b.build(s, files, name, options, memory); err != nil {
			return err
		}
		memory.Keep(past)
	} else if _, err := io.WriteString(s.err, past.Said); err != nil {
		return failure{exitMachine, err}
	}
	if note != "" {
		fmt.Fprintln(s.out, note)
	}
	if n := past.Warnings; n > 0 {
		fmt.Fprintf(s.out, "%s above; they stop nothing here, but read them before the handout leaves the house.\n", plural(n, "warning", "warnings"))
	}
	reread(s, past.Summary.Warnings)
	if unchanged {
		fmt.Fprintln(s.out, "Nothing has changed since the last build; the handout stands as it was.")
	}
	b.report(s, past.Summary, time.Since(started))
	return nil
}

// memory is what earlier builds of the bank left; nil where they are not to be
// asked. Dates of courses are read against the bank, which is not read then.
func (b buildCommand) memory(name string, options builder.Options) *builder.Memory {
	if b.Fresh || len(b.CourseDate) > 0 {
		return nil
	}
	folder := name
	if _, err := os.Stat(folder); err != nil {
		folder = "" // the demonstration bank lies in the program
	}
	return builder.OpenMemory(builder.CacheFolder(), folder, options)
}

// build reads the bank and writes the handout.
func (b buildCommand) build(s streams, files fs.FS, name string, options builder.Options, memory *builder.Memory) (builder.Past, error) {
	bankIsRead := aimForMemory()
	bank, found, err := read(files)
	if err != nil {
		return builder.Past{}, err
	}
	bankIsRead()
	var said strings.Builder
	if err := withoutNotes(found).WriteText(io.MultiWriter(s.err, &said)); err != nil {
		return builder.Past{}, err
	}
	if found.Failed() {
		return builder.Past{}, failure{exitBank, fmt.Errorf("%s: %s; nothing was written", name, counts(found))}
	}
	if options.CourseDates, err = b.courseDates.of(bank); err != nil {
		return builder.Past{}, err
	}
	options.Memory = memory
	show, done := progress(s.err)
	options.Progress = show
	summary, err := builder.Build(bank, options)
	done()
	if err != nil {
		return builder.Past{}, buildFailure(err)
	}
	return builder.Past{Summary: summary, Said: said.String(), Warnings: found.Count(diagnose.Warning)}, nil
}

// library finds the chart library, or says in one line why there is none.
func (b buildCommand) library(files fs.FS) (*builder.Library, string) {
	search := builder.LibrarySearch{Bank: files}
	if cache, err := os.UserCacheDir(); err == nil {
		search.Cache = filepath.Join(cache, "caseleaf")
	}
	if !b.Offline {
		search.Fetch = builder.NpmPack
	}
	return search.Find()
}

func withoutNotes(found diagnose.Diagnostics) diagnose.Diagnostics {
	var out diagnose.Diagnostics
	for _, d := range found {
		if d.Severity != diagnose.Note {
			out = append(out, d)
		}
	}
	return out
}

// mostReread is how many places of the written files build names.
const mostReread = 30

// reread lists what the last look at the written files warns of.
func reread(s streams, places []builder.Place) {
	if len(places) == 0 {
		return
	}
	fmt.Fprintf(s.out, "The written files were scanned again: %s that may identify somebody.\n", plural(len(places), "place", "places"))
	for _, p := range places[:min(len(places), mostReread)] {
		fmt.Fprintf(s.out, "  %s\n", p)
	}
	if more := len(places) - mostReread; more > 0 {
		fmt.Fprintf(s.out, "  and %d more\n", more)
	}
}

// report prints what was held back and the one line that sums the build up.
func (b buildCommand) report(s streams, sum builder.Summary, took time.Duration) {
	if n := len(sum.HeldBack); n > 0 {
		fmt.Fprintf(s.out, "Held back, not released: %s\n", strings.Join(sum.HeldBack, ", "))
	}
	fmt.Fprintf(s.out, "%s, %s, %s: %s, %.1f MB in %.1f s. Open %s\n",
		plural(sum.Cases, "case", "cases"), plural(sum.Operations, "operation", "operations"),
		plural(sum.Decisions, "decision", "decisions"), plural(sum.Pages, "page", "pages"),
		float64(sum.Bytes)/1e6, took.Seconds(), fileURL(sum.Start))
}

// fileURL is the address by which a browser opens a file.
func fileURL(file string) string {
	abs, err := filepath.Abs(file)
	if err != nil {
		abs = file
	}
	slashed := filepath.ToSlash(abs)
	if !strings.HasPrefix(slashed, "/") {
		slashed = "/" + slashed
	}
	return (&url.URL{Scheme: "file", Path: slashed}).String()
}
