// Command generate draws the demonstration logbook: invented consecutive
// operations of an invented eye unit, from rates that it states.
//
//	go run ./generate -o logbook.csv     (in the folder casebank)
//
// assumed.go holds every number that the draw rests on, as tables with a word of
// why. draw.go turns the tables and one seed into rows. A test beside them draws
// the logbook again and compares it byte for byte with the committed file, and
// does the arithmetic of the comparisons that the logbook is there to teach.
package main

import (
	"flag"
	"fmt"
	"os"
)

func main() {
	out := flag.String("o", "logbook.csv", "file to write")
	flag.Parse()
	if flag.NArg() > 0 {
		fmt.Fprintln(os.Stderr, "generate: takes no arguments, only -o FILE")
		os.Exit(2)
	}
	if err := os.WriteFile(*out, logbook(seed), 0o644); err != nil {
		fmt.Fprintln(os.Stderr, "generate:", err)
		os.Exit(3)
	}
}
