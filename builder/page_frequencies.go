package builder

import (
	"html/template"

	"caseleaf/builder/chart"
	"caseleaf/builder/figure"
	"caseleaf/builder/tally"
	"caseleaf/content"
)

// frequenciesPage is the page of rates by technique.
const frequenciesPage = "frequencies.html"

// caseCountsPage is the page of what the cases tell, which are no rates.
const caseCountsPage = "frequencies/from-cases.html"

// frequencyPath is the page that looks at one complication closer.
func frequencyPath(id string) string { return "frequencies/" + fileStem(id) + ".html" }

// FrequenciesPage is what pages/frequencies.tmpl lays out.
type FrequenciesPage struct {
	Heading
	Logbook       []string // what was counted, in sentences; empty without a logbook
	Reading       []string // what to know before reading a rate
	Mix           MixTable
	Periods       []PeriodLine
	Overview      *RateFigure // nil where no rate can be drawn
	Complications []*Frequency
	FromCases     *Link // to the counts of the cases
	Downloads     []Download
	Layer         *ChartLayer // nil without the interactive layer
}

// FrequencyPage is what pages/frequency.tmpl lays out: one complication split by
// risk, grade, period and unit.
type FrequencyPage struct {
	Heading
	Complication Link
	Back         Link
	Definition   string
	Rate         *Frequency // by technique, and compared
	Splits       []Split
	Layer        *ChartLayer
}

// Frequency is one complication by technique.
type Frequency struct {
	ID           string // of its part of the page
	Complication Link
	Definition   string
	Finding      string
	Figure       *RateFigure // nil where no rate can be drawn
	Rates        RateTable
	Against      string // the head of the comparison
	Caption      string // of the comparison
	Comparisons  []ComparisonLine
	Between      bool // a range stands in place of a figure
	Warnings     []string
	NotCompared  string // why there is no comparison
	Closer       Link
	Data         string // path of the table as CSV

	plot *ratePlot
}

// CaseCountsPage is what pages/case_counts.tmpl lays out: what the cases tell, as
// counts and times.
type CaseCountsPage struct {
	Heading
	Back    Link
	Figures []RateFigure
	Layer   *ChartLayer
}

// RateFigure is a figure with its words: what it shows, and what it doesn't.
type RateFigure struct {
	Title   string // of its own part of the page; empty where the part has one
	Drawing template.HTML
	Small   bool // as high as it is wide, so it does not take the whole width
	Caption string
	Not     string        // what may not be concluded
	Chart   string        // id of the interactive one; empty without the layer
	Table   *figure.Table // beside a figure that has no other table
	Data    string        // path of the table as CSV
	File    Link          // the drawing that stands alone
}

// RateTable is a table of rates; its groups have a line of their own above.
type RateTable struct {
	Caption string
	Of      string // head of the first column
	Groups  []RateGroup
	Limits  bool // the lines have control limits
}

// RateGroup is lines below one head, which may be empty.
type RateGroup struct {
	Name  string
	Lines []RateLine
}

// RateLine is one rate. Without one, Missing says why.
type RateLine struct {
	Name           Link
	Counts         string
	Rate, Interval string
	Missing        string
	Limits         string
	Outside        string
}

// ComparisonLine is one technique against the reference.
type ComparisonLine struct {
	Name                 Link
	Crude, Strata, Odds  string
	CrudeGap, StrataGap  string // why there is none
	StrataOpen, OddsOpen bool   // a range left open by hidden counts
}

// MixTable says how many operations of each stratum each technique had.
type MixTable struct {
	Strata []string
	Lines  []MixLine
}

// MixLine is one technique; Cells are as many as the strata.
type MixLine struct {
	ID    string
	Name  Link
	Cells []string
	All   string
}

// PeriodLine is how many operations a period had; none is no data.
type PeriodLine struct {
	Period, Operations string
	Gap                bool
}

// Split is one way of splitting a complication's operations.
type Split struct {
	ID, Title string
	Figure    *RateFigure
	Table     RateTable
	Not       string // where there is no figure to say it beside
	Note      string
	Data      string
}

// ChartLayer is what a page with interactive charts loads.
type ChartLayer struct {
	Library string // path of the chart library, fetched when a reader asks
	Data    string // path of the options
	Script  string // path of the page's own script
	Style   string // path of the layer's own style
}

// rateBook is the published result with what the pages of rates say of it.
type rateBook struct {
	site   *Site
	words  *words
	met    *met
	result *tally.Result
	strata map[string]string // labels
	charts []chart.Chart     // of the page at hand
	data   map[string]string // paths of the tables as CSV
	source struct{ from, to, operations, followed string }
}

// planFrequencies makes the page of rates and one page for each complication of
// the logbook, and files the tables and the charts' options with the site.
func planFrequencies(s *Site) []Page {
	b := s.rates()
	p := &FrequenciesPage{Heading: s.heading(frequenciesPage, b.words.say("frequencies"))}
	p.Summary = b.words.say("frequencies-summary")
	p.Downloads = b.downloads()
	p.Logbook = b.logbook()
	if len(p.Logbook) > 0 {
		p.Reading = b.reading()
		p.Mix, p.Periods = b.mix(), b.periodLines()
		p.Complications = b.frequencies()
		p.Overview = b.overview(p.Complications)
	}
	p.Layer = b.layer("frequencies")
	pages := []Page{{Path: frequenciesPage, Template: "frequencies", Data: p}}
	if n := b.result.Source.Cases; n > 0 {
		counts := b.caseCounts(n)
		p.FromCases = &Link{Text: counts.Title, Path: caseCountsPage}
		pages = append(pages, Page{Path: caseCountsPage, Template: "case_counts", Data: counts})
	}
	var headings []*Heading
	var closer []Page
	for _, f := range p.Complications {
		page := b.closer(f)
		headings = append(headings, &page.Heading)
		closer = append(closer, Page{Path: f.Closer.Path, Template: "frequency", Data: page})
	}
	turn(closer, headings)
	return append(pages, closer...)
}

// rates is the published result, computed once for all pages.
func (s *Site) rates() *rateBook {
	if s.book == nil {
		s.book = newRateBook(s)
	}
	return s.book
}

func newRateBook(s *Site) *rateBook {
	b := &rateBook{
		site: s, words: s.words(), met: s.met, strata: map[string]string{}, data: map[string]string{},
		result: s.published(),
	}
	for _, t := range s.Bank.Settings.Strata {
		b.strata[t.ID.Value] = t.Label.Or(t.ID.Value)
	}
	src := b.result.Source
	b.source.from, b.source.to = string(src.From), string(src.To)
	b.source.operations = b.count(src.Operations)
	b.source.followed = b.followed()
	return b
}

// published counts the bank once, as it may be printed.
func (s *Site) published() *tally.Result {
	if s.counted == nil {
		s.counted = tally.Of(s.Bank, s.Bank.Cases).Published()
	}
	return s.counted
}

// count prints a count with its thousands parted, or how it is hidden.
func (b *rateBook) count(c tally.Count) string {
	switch c.Hidden {
	case tally.Small:
		return c.Text(b.result.Source.Threshold)
	case tally.Withheld:
		return b.words.say("count-withheld")
	}
	return b.words.number(c.N)
}

// followed says for how many operations the acuity at follow-up is recorded.
// Few of them, and all but few, are hidden like every small count.
func (b *rateBook) followed() string {
	n, all, threshold := 0, b.site.Bank.Logbook.Len(), b.result.Source.Threshold
	for o := range b.site.Bank.Logbook.All() {
		if o.After.Known() {
			n++
		}
	}
	switch {
	case n > 0 && n < threshold:
		return b.words.say("count-fewer", threshold)
	case n < all && all-n < threshold:
		return b.words.say("count-all-but", threshold)
	}
	return b.words.number(n)
}

// sourced are the arguments of a phrase that begins with the logbook’s period,
// its operations and its follow-up.
func (b *rateBook) sourced(more ...any) []any {
	s := b.source
	return append([]any{s.from, s.to, s.operations, s.followed}, more...)
}

// logbook says what was counted.
func (b *rateBook) logbook() []string {
	src, w := b.result.Source, b.words
	if b.site.Bank.Logbook.Len() == 0 {
		return nil
	}
	list := []string{w.say("logbook-what", b.source.operations, b.source.from, b.source.to, b.source.followed)}
	if src.WithoutRisk.Hidden != tally.Shown || src.WithoutRisk.N > 0 {
		list = append(list, w.say("logbook-no-risk", b.count(src.WithoutRisk)))
	}
	if src.LeftOut > 0 {
		list = append(list, w.say("logbook-left-out", src.LeftOut))
	}
	return list
}

func (b *rateBook) reading() []string {
	w := b.words
	return []string{
		w.say("read-chance"), w.say("read-mix"), w.say("read-small", b.result.Source.Threshold-1),
		w.say("read-follow"), w.say("read-not-advice"),
	}
}

// stratum and grade name what operations are split by.
func (b *rateBook) stratum(id tally.Word) string {
	if id == "" {
		return b.words.say("stratum-none")
	}
	if label, ok := b.strata[string(id)]; ok {
		return label
	}
	return string(id)
}

func (b *rateBook) grade(id tally.Word) string {
	if id == "" {
		return b.words.say("grade-none")
	}
	return b.words.grade(content.Grade(id))
}
