package diagnose

import (
	"bufio"
	"encoding/json"
	"io"
)

// jsonLine is one diagnostic as a program reads it. Every key is always there.
type jsonLine struct {
	File       string `json:"file"`   // path inside the bank, "" when the diagnostic has no place
	Line       int    `json:"line"`   // from 1, 0 for a whole file
	Column     int    `json:"column"` // from 1, in characters, 0 for a whole file
	Severity   string `json:"severity"`
	Code       Code   `json:"code"`
	Message    string `json:"message"`
	Suggestion string `json:"suggestion"` // the right spelling, "" when none is near
}

// WriteJSON writes one JSON object a line, in the order of the list.
func (ds Diagnostics) WriteJSON(w io.Writer) error {
	out := bufio.NewWriter(w)
	encoder := json.NewEncoder(out)
	encoder.SetEscapeHTML(false)
	for _, d := range ds {
		line := jsonLine{d.Span.File(), d.Span.Line(), d.Span.Column(), d.Severity.String(), d.Code, d.Message, d.shownSuggestion()}
		if d.Span.Line() == 0 {
			line.Column = 0
		}
		if err := encoder.Encode(line); err != nil {
			return err
		}
	}
	return out.Flush()
}
