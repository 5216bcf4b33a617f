package diagnose

import (
	"slices"
	"strings"
)

// Explanation is the help page of one code: what it means and how a file that
// draws it looks before and after it is mended. A test runs every example
// through the readers: the wrong one draws the code, the right one draws nothing.
type Explanation struct {
	Code    Code
	Title   string // a few words, no full stop
	Meaning string // what is wrong, what would have come of it, and what to do
	File    string // the sort of file the examples are from, see the constants
	Wrong   string // lines of that file that draw the code
	Right   string // the same, mended; empty where there is nothing to mend
}

// The sorts of files that examples are taken from.
const (
	inCase    = "a case"                       // lines of the front matter
	inBody    = "the story of a case"          // lines after the front matter
	inFile    = "a whole case"                 // a whole file
	inBank    = "bank.yaml"                    // lines of it
	inTerms   = "terms.yaml"                   // the whole file
	inLogbook = "logbook.csv"                  // the whole file
	inCourse  = "a course"                     // lines of courses/lab.yaml
	inBytes   = "a whole case, bytes as \\xNN" // a whole file, \xNN for bytes that cannot be shown
)

var explanations = func() []Explanation {
	all := slices.Concat(layoutCodes, quoteCodes, fileCodes, tableCodes, formCodes, meaningCodes, storyCodes, privacyCodes, courseCodes)
	slices.SortFunc(all, func(a, b Explanation) int { return strings.Compare(string(a.Code), string(b.Code)) })
	return all
}()

// Explanations returns the help pages of all codes, by code.
func Explanations() []Explanation { return slices.Clone(explanations) }

// Explain returns the help page of a code.
func Explain(code Code) (Explanation, bool) {
	i, ok := slices.BinarySearchFunc(explanations, code, func(e Explanation, c Code) int {
		return strings.Compare(string(e.Code), string(c))
	})
	if !ok {
		return Explanation{}, false
	}
	return explanations[i], true
}

// Text lays the page out for a terminal, in lines of at most 78 characters
// except for the examples.
func (e Explanation) Text() string {
	var b strings.Builder
	b.WriteString(string(e.Code) + ": " + e.Title + "\n\n")
	wrap(&b, e.Meaning, 78)
	if e.Wrong != "" {
		word := "Wrong"
		if e.Right == "" {
			word = "Example"
		}
		b.WriteString("\n" + word + ", in " + e.File + ":\n\n" + indent(e.Wrong))
	}
	if e.Right != "" {
		b.WriteString("\nRight:\n\n" + indent(e.Right))
	}
	return b.String()
}

func wrap(b *strings.Builder, text string, width int) {
	column := 0
	for _, word := range strings.Fields(text) {
		n := len([]rune(word))
		if column > 0 && column+1+n > width {
			b.WriteByte('\n')
			column = 0
		}
		if column > 0 {
			b.WriteByte(' ')
			column++
		}
		b.WriteString(word)
		column += n
	}
	b.WriteByte('\n')
}

func indent(text string) string {
	var b strings.Builder
	for line := range strings.Lines(strings.TrimSuffix(text, "\n") + "\n") {
		b.WriteString("    " + line)
	}
	return b.String()
}
