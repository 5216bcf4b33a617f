package diagnose

import (
	"bufio"
	"fmt"
	"io"
	"strings"
)

// WriteText prints every diagnostic in compiler style: place, severity, words
// and suggestion, then the line itself with a marker below it.
func (ds Diagnostics) WriteText(w io.Writer) error {
	out := bufio.NewWriter(w)
	for _, d := range ds {
		d.writeText(out)
	}
	return out.Flush()
}

func (d *Diagnostic) writeText(w *bufio.Writer) {
	fmt.Fprintf(w, "%s%s: %s", d.Span.prefix(), d.Severity, d.Message)
	switch right := d.shownSuggestion(); {
	case strings.Contains(right, `"`):
		fmt.Fprintf(w, "; write %s", right)
	case right != "":
		fmt.Fprintf(w, "; did you mean %q?", right)
	}
	fmt.Fprintf(w, " [%s]\n", d.Code)
	if !d.Hidden {
		d.Span.writeExcerpt(w)
	}
	for _, r := range d.Related {
		fmt.Fprintf(w, "%snote: %s\n", r.Span.prefix(), r.Message)
		if !d.Hidden {
			r.Span.writeExcerpt(w)
		}
	}
}

// shownSuggestion is the suggestion where the line may be shown: a suggestion
// often repeats it.
func (d *Diagnostic) shownSuggestion() string {
	if d.Hidden {
		return ""
	}
	return d.Suggestion
}

func (p Span) prefix() string {
	switch {
	case p.Source == nil:
		return ""
	case p.Line() == 0:
		return p.Source.Name + ": "
	}
	return fmt.Sprintf("%s:%d:%d: ", p.Source.Name, p.Line(), p.Column())
}

// excerptWidth is the most characters of a source line that are printed.
const excerptWidth = 96

func (p Span) writeExcerpt(w *bufio.Writer) {
	if p.Source == nil || p.Line() == 0 {
		return
	}
	line := []rune(strings.ReplaceAll(p.Source.Line(p.Line()), "\t", " "))
	column, length := p.Column(), p.Length()
	if column > excerptWidth*3/4 {
		cut := column - excerptWidth/2
		line = append([]rune("…"), line[min(cut, len(line)):]...)
		column -= cut - 1
	}
	if len(line) > excerptWidth {
		line = append(line[:excerptWidth:excerptWidth], '…')
	}
	length = max(1, min(length, len(line)-column+1))
	fmt.Fprintf(w, "    %s\n    %s%s\n", string(line), strings.Repeat(" ", max(0, column-1)), strings.Repeat("^", length))
}
