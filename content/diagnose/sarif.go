package diagnose

import (
	"encoding/json"
	"io"
	"net/url"
)

// The objects of SARIF 2.1.0 (OASIS Standard, 27 March 2020) that a list of
// diagnostics fills, under the standard's names; section numbers are those of
// its text.
type (
	sarifLog struct { // 3.13
		Schema  string     `json:"$schema"`
		Version string     `json:"version"`
		Runs    []sarifRun `json:"runs"`
	}
	sarifRun struct { // 3.14
		Tool       sarifTool     `json:"tool"`
		ColumnKind string        `json:"columnKind"`
		Results    []sarifResult `json:"results"`
	}
	sarifTool struct { // 3.18
		Driver sarifDriver `json:"driver"`
	}
	sarifDriver struct { // 3.19
		Name    string      `json:"name"`
		Version string      `json:"version,omitempty"`
		Rules   []sarifRule `json:"rules"`
	}
	sarifRule struct { // 3.49
		ID               string       `json:"id"`
		ShortDescription sarifMessage `json:"shortDescription"`
		FullDescription  sarifMessage `json:"fullDescription"`
		Help             sarifMessage `json:"help"`
	}
	sarifMessage struct { // 3.11, and 3.12 where only text is given
		Text string `json:"text"`
	}
	sarifResult struct { // 3.27
		RuleID    string           `json:"ruleId"`
		RuleIndex int              `json:"ruleIndex"`
		Level     string           `json:"level"`
		Message   sarifMessage     `json:"message"`
		Locations []sarifLocation  `json:"locations"`
		Related   []sarifLocation  `json:"relatedLocations,omitempty"`
		Bag       *sarifProperties `json:"properties,omitempty"`
	}
	sarifProperties struct { // 3.8
		Suggestion string `json:"suggestion"`
	}
	sarifLocation struct { // 3.28
		ID       *int          `json:"id,omitempty"`
		Physical sarifPhysical `json:"physicalLocation"`
		Message  *sarifMessage `json:"message,omitempty"`
	}
	sarifPhysical struct { // 3.29
		Artifact sarifArtifact `json:"artifactLocation"`
		Region   *sarifRegion  `json:"region,omitempty"`
	}
	sarifArtifact struct { // 3.4
		URI string `json:"uri"`
	}
	sarifRegion struct { // 3.30; the end column is the one after the last character
		StartLine   int `json:"startLine"`
		StartColumn int `json:"startColumn"`
		EndColumn   int `json:"endColumn"`
	}
)

const sarifSchema = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/os/schemas/sarif-schema-2.1.0.json"

// WriteSARIF writes the list as a SARIF 2.1.0 log of one run, for tools that
// show results in an editor or beside a change. The rules are the whole table
// of codes; version is that of caseleaf and may be empty. Columns count
// characters, addresses are relative to the bank.
func (ds Diagnostics) WriteSARIF(w io.Writer, version string) error {
	run := sarifRun{ColumnKind: "unicodeCodePoints", Results: []sarifResult{}}
	run.Tool.Driver = sarifDriver{Name: "caseleaf", Version: version, Rules: []sarifRule{}}
	index := map[Code]int{}
	for _, e := range Explanations() {
		index[e.Code] = len(run.Tool.Driver.Rules)
		run.Tool.Driver.Rules = append(run.Tool.Driver.Rules, sarifRule{
			string(e.Code), sarifMessage{e.Title}, sarifMessage{e.Meaning}, sarifMessage{e.Text()},
		})
	}
	for _, d := range ds {
		at, known := index[d.Code]
		if !known {
			at = -1 // the standard's word for a rule that is not in the list
		}
		run.Results = append(run.Results, d.sarif(at))
	}
	encoder := json.NewEncoder(w)
	encoder.SetEscapeHTML(false)
	encoder.SetIndent("", " ")
	return encoder.Encode(sarifLog{sarifSchema, "2.1.0", []sarifRun{run}})
}

func (d *Diagnostic) sarif(rule int) sarifResult {
	result := sarifResult{
		RuleID: string(d.Code), RuleIndex: rule, Level: d.Severity.String(),
		Message: sarifMessage{d.Message}, Locations: []sarifLocation{},
	}
	if right := d.shownSuggestion(); right != "" {
		result.Bag = &sarifProperties{right}
	}
	if place, ok := d.Span.sarif(); ok {
		result.Locations = append(result.Locations, sarifLocation{Physical: place})
	}
	for _, r := range d.Related {
		if place, ok := r.Span.sarif(); ok {
			id := len(result.Related)
			result.Related = append(result.Related, sarifLocation{&id, place, &sarifMessage{r.Message}})
		}
	}
	return result
}

func (p Span) sarif() (sarifPhysical, bool) {
	if p.Source == nil {
		return sarifPhysical{}, false
	}
	address := url.URL{Path: p.Source.Name}
	place := sarifPhysical{Artifact: sarifArtifact{address.String()}}
	if p.Line() > 0 {
		column := max(1, p.Column())
		place.Region = &sarifRegion{p.Line(), column, column + max(0, p.Length())}
	}
	return place, true
}
