package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"caseleaf/builder/pack"
)

// mostNamed is how many differences check prints before it counts the rest.
const mostNamed = 100

// isCopy reports whether what check was given is a handout, or a file that may be
// one in a zip, and not a bank.
func isCopy(name string) bool {
	info, err := os.Stat(name)
	if name == "" || err != nil {
		return false
	}
	if !info.IsDir() {
		return true
	}
	if _, err := os.Stat(filepath.Join(name, "bank.yaml")); err == nil {
		return false
	}
	_, err = os.Stat(filepath.Join(name, pack.ManifestName))
	return err == nil
}

// checkCopy holds a zip or a handout's folder to its manifest and names what
// differs.
func checkCopy(s streams, name string) error {
	report, err := pack.Verify(name)
	switch {
	case errors.Is(err, pack.ErrNotHandout):
		return failure{exitUse, err}
	case err != nil:
		return failure{exitMachine, err}
	}
	for i, d := range report.Differences {
		if i == mostNamed {
			fmt.Fprintf(s.out, "… and %d more\n", len(report.Differences)-i)
			break
		}
		fmt.Fprintln(s.out, said(d))
	}
	if len(report.Left) > 0 {
		fmt.Fprintf(s.out, "left by the system, no difference: %s\n", printable(strings.Join(report.Left, ", ")))
	}
	if n := len(report.Differences); n > 0 {
		return failure{exitBank, fmt.Errorf("%s: %s; this copy is not what was sent. Get it again from whoever made it", name, plural(n, "difference", "differences"))}
	}
	m := report.Manifest
	fmt.Fprintf(s.out, "%s: %s, %.1f MB, every byte as its manifest lists it: %s", name, plural(report.Files, "file", "files"), float64(report.Bytes)/1e6, printable(m.Title))
	if m.Edition != "" {
		fmt.Fprintf(s.out, ", edition %s", printable(m.Edition))
	}
	if m.Course != "" {
		fmt.Fprintf(s.out, ", course %s", printable(m.Course))
	}
	fmt.Fprintln(s.out)
	if report.SHA256 != "" {
		fmt.Fprintf(s.out, "SHA-256 %s\nWho made it, the manifest can't tell: compare this SHA-256 with the one that its maker got.\n", report.SHA256)
	}
	return nil
}

// said is a difference in a line.
func said(d pack.Difference) string {
	if d.Path == "" {
		if d.Kind == pack.Damaged {
			return "damaged: the zip is cut short or can't be read as one"
		}
		return "hidden: the zip holds bytes that belong to no file, or files that share bytes"
	}
	line := fmt.Sprintf("%s: %s", d.Kind, printable(d.Path))
	switch d.Kind {
	case pack.Unsafely:
		if why := pack.Unsafe(d.Path); why != "" {
			line += " (" + why + ")"
		}
	case pack.Twice:
		line += " (another entry has this name, or one that some disks take for it)"
	case pack.Damaged:
		line += " (it can't be read, or its check sum is wrong)"
	}
	return line
}

// printable is a text that a stranger wrote, safe to show in a terminal: signs
// that would steer it are shown as their codes.
func printable(text string) string {
	quoted := fmt.Sprintf("%+q", text)
	plain := strings.TrimSuffix(strings.TrimPrefix(quoted, `"`), `"`)
	if plain == text || !strings.ContainsFunc(text, steers) {
		return text
	}
	return plain
}

// steers reports characters that a terminal obeys in place of showing them.
func steers(r rune) bool {
	return r < ' ' || r == 0x7f || r >= 0x80 && r < 0xa0 || r >= 0x202a && r <= 0x202e || r >= 0x2066 && r <= 0x2069 || r == '\ufffd'
}
