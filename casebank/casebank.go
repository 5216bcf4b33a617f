// Package casebank holds the demonstration bank: an invented teaching eye unit,
// its written-up cases, its decisions, its wet lab and its logbook. Nothing in
// it happened to anybody.
//
// The bank is embedded, so that the command builds a handout in a folder that
// has no bank of its own:
//
//	bank, found, err := content.Read(casebank.FS())
//
// What lies where (the same layout as any author's bank):
//
//	bank.yaml        title, edition, strata, cautions
//	terms.yaml       words this unit adds to the built-in vocabulary
//	cases/*.md       one written-up operation a file, chosen for teaching
//	decisions/*.md   the trees the cases' decision points refer to
//	courses/*.yaml   a wet lab made from the cases
//	logbook.csv      consecutive operations: the only source of rates
//
// The logbook is made by the program in generate, which states the rates it
// assumes; a test draws it again and compares it byte for byte. To change the
// logbook, change the generator and run go generate in this folder.
package casebank

import (
	"embed"
	"io/fs"
)

//go:generate go run ./generate -o logbook.csv

// The patterns name what a bank holds, so that the generator and this file are
// not part of the bank.
//
//go:embed bank.yaml terms.yaml logbook.csv cases decisions courses
var bank embed.FS

// FS returns the demonstration bank, read only, with bank.yaml at its root.
func FS() fs.FS {
	return bank
}
