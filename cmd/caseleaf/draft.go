package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"

	"caseleaf/content"
	"caseleaf/content/caption"
)

type draftCommand struct {
	File      string `arg:"" optional:"" help:"Captions of a narrated operation (.vtt, .srt or a timed transcript) to draft from."`
	Case      string `help:"Id of the new case."`
	Bank      string `default:"casebank" help:"Bank to put the case into."`
	Procedure string `help:"The operation, where the narration doesn't tell."`
	Format    string `enum:"text,json" default:"text" help:"Form of the report on the captions: text or json."`
	Review    string `help:"Also write a page on which heard and read stand side by side, to print or tick." placeholder:"FILE.html"`
}

// Run writes a new case into a bank, empty or drafted from captions, and
// overwrites nothing. Captions without --case are only reported on.
func (d draftCommand) Run(s streams) error {
	if d.File == "" && d.Case == "" {
		return failure{exitUse, fmt.Errorf("name a caption file to draft from, or --case ID for an empty case")}
	}
	if d.Case != "" {
		if err := content.CheckID(d.Case); err != nil {
			return failure{exitUse, err}
		}
	}
	files, _, err := bankArgument{d.Bank}.openOr(d.Case != "")
	if err != nil {
		return err
	}
	bank, _, err := read(files)
	if err != nil {
		return err
	}
	if c, taken := sameID(bank, d.Case); taken {
		return failure{exitUse, fmt.Errorf("the bank has a case %s already, in %s, which is left as it is; give the new one another id", c.ID.Value, c.File)}
	}
	if d.File == "" {
		return d.write(s, content.DraftCase(d.Case, bank.Vocabulary), "An empty case")
	}
	return d.fromCaptions(s, bank)
}

// sameID finds the case that has an id already; capitals make no other id,
// since they make no other file everywhere.
func sameID(bank *content.Bank, id string) (*content.Case, bool) {
	for _, c := range bank.Cases {
		if id != "" && strings.EqualFold(c.ID.Value, id) {
			return c, true
		}
	}
	return nil, false
}

func (d draftCommand) fromCaptions(s streams, bank *content.Bank) error {
	data, err := os.ReadFile(d.File)
	if err != nil {
		return failure{exitUse, err}
	}
	v := bank.Vocabulary
	report := caption.File(d.File, data, v, caption.Options{Procedure: d.Procedure})
	if d.Review != "" {
		var page bytes.Buffer
		if err := caption.WriteReview(&page, report, v); err != nil {
			return failure{exitMachine, err}
		}
		if err := writeNew(d.Review, page.Bytes()); err != nil {
			return err
		}
	}
	if d.Format == "json" {
		err = writeJSON(s.out, report)
	} else {
		err = caption.WriteText(s.out, report, v)
	}
	if err != nil {
		return failure{exitMachine, err}
	}
	if d.Case == "" {
		fmt.Fprintln(s.err, "Nothing was written into the bank; --case ID writes the draft.")
		return nil
	}
	return d.write(s, withID(caption.WriteCase(report, v), d.Case), "The draft")
}

var idLine = regexp.MustCompile(`(?m)^case: TODO .*$`)

// withID puts the id of a case into its draft.
func withID(draft []byte, id string) []byte {
	return idLine.ReplaceAllLiteral(draft, []byte("case: "+id))
}

func (d draftCommand) write(s streams, data []byte, what string) error {
	name := filepath.Join(d.Bank, "cases", strings.ToLower(d.Case)+".md")
	if err := writeNew(name, data); err != nil {
		return err
	}
	fmt.Fprintf(s.err, "%s is in %s. It is held back until its release is filled in.\n", what, name)
	return nil
}
