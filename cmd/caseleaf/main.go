// Command caseleaf turns a bank of surgical teaching cases into a handout that
// opens offline.
//
// This file parses the command line and turns errors into exit statuses; each
// subcommand has a file of its own and no logic of the trade.
//
// Exit status: 0 done, 1 the bank has errors, 2 wrong use, 3 the machine failed.
package main

import (
	"errors"
	"fmt"
	"io"
	"os"

	"github.com/alecthomas/kong"
)

// Exit statuses.
const (
	exitDone    = 0
	exitBank    = 1
	exitUse     = 2
	exitMachine = 3
)

// cli is the command line.
type cli struct {
	Build   buildCommand     `cmd:"" help:"Read the bank, check it and write the handout."`
	Check   checkCommand     `cmd:"" help:"List everything that is wrong with the bank."`
	Pack    packCommand      `cmd:"" help:"Pack the handout, or one course's part of it, to pass it on."`
	Begin   beginCommand     `cmd:"" help:"Lay out a new bank."`
	Draft   draftCommand     `cmd:"" help:"Write a new case into a bank: empty with --case ID, or drafted from the captions of a narrated operation. Nothing is overwritten."`
	Explain explainCommand   `cmd:"" help:"Explain the code of a message, with an example of wrong and right."`
	Tally   tallyCommand     `cmd:"" help:"Print rates from the logbook and counts from the cases."`
	Preview previewCommand   `cmd:"" help:"Show the bank in a browser while you write; a save is on the screen at once."`
	Schema  schemaCommand    `cmd:"" help:"Print the JSON Schema of a file's keys, for editors."`
	Version kong.VersionFlag `help:"Print the version and stop."`
}

// version is set by the release script.
var version = "development"

// streams are where a command writes.
type streams struct{ out, err io.Writer }

// failure is an error with the exit status it ends the program with.
type failure struct {
	status int
	err    error
}

func (f failure) Error() string { return f.err.Error() }
func (f failure) Unwrap() error { return f.err }

func main() { os.Exit(run(os.Args[1:], streams{os.Stdout, os.Stderr})) }

// run does what the arguments ask and returns the exit status.
func run(args []string, s streams) int {
	var c cli
	status := -1
	parser, err := kong.New(&c,
		kong.Name("caseleaf"),
		kong.Description("Turn a bank of surgical teaching cases into a handout that opens offline."),
		kong.Vars{"version": version},
		kong.Writers(s.out, s.err),
		kong.Exit(func(code int) { status = code }),
		kong.UsageOnError(),
	)
	if err != nil {
		fmt.Fprintln(s.err, "caseleaf:", err)
		return exitUse
	}
	if len(args) == 0 {
		args = []string{"--help"}
	}
	ctx, err := parser.Parse(args)
	if status >= 0 { // --help or --version was asked for and given
		return status
	}
	if err != nil {
		fmt.Fprintf(s.err, "caseleaf: %v\nTry caseleaf --help.\n", err)
		return exitUse
	}
	err = ctx.Run(s)
	var f failure
	switch {
	case err == nil:
		return exitDone
	case errors.As(err, &f):
		if f.err != nil {
			fmt.Fprintln(s.err, "caseleaf:", f.err)
		}
		return f.status
	}
	fmt.Fprintln(s.err, "caseleaf:", err)
	return exitMachine
}
