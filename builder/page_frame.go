package builder

// Link is a link to a page of the handout, or plain text where Path is empty.
type Link struct {
	Text    string
	Path    string // below the handout, with its fragment
	Note    string // a few quiet words behind the link
	Current bool   // in a menu: this page, or the part of the handout it is in
}

// Heading is what the data of every page embed: what the page is called, where
// it stands in the handout, and what lies before and after it.
type Heading struct {
	Title    string
	Summary  string // one or two sentences, printed below the title
	Kicker   string // what sort of page it is, printed above the title
	Menu     []Link
	Trail    []Link // from the start to the page above this one
	Previous *Link
	Next     *Link
	// Protocol asks for the sentence that defers to the local protocol: set
	// wherever an action, a drug or a number is shown.
	Protocol bool
	// Held keeps the summary from the head of a page, where it would tell what
	// the page asks.
	Held bool
}

// PageTitle is the title of the page.
func (h Heading) PageTitle() string { return h.Title }

// PageDescription is the page in a sentence, for the head of the document.
func (h Heading) PageDescription() string { return h.Description() }

// Description is PageDescription under the name templates use.
func (h Heading) Description() string { return h.Summary }

// With is the frame with other data, for a template that calls a partial.
func (f Frame) With(data any) Frame {
	f.Data = data
	return f
}

// Word is the interface's phrase for a key in the handout's language; an
// unknown key stops the template.
func (f Frame) Word(key string, args ...any) (string, error) {
	return wordsIn(f.Site.Language).look(key, args...)
}

// Call calls With and Word for package layout, without reflection.
func (f *Frame) Call(method string, args []any) (result any, known bool, err error) {
	switch {
	case method == "With" && len(args) == 1:
		with := f.With(args[0])
		return &with, true, nil
	case method == "Word" && len(args) > 0:
		if key, ok := args[0].(string); ok {
			word, err := f.Word(key, args[1:]...)
			return word, true, err
		}
	}
	return nil, false, nil
}

// Direction is the way the handout's language is written: ltr or rtl.
func (f Frame) Direction() string { return wordsIn(f.Site.Language).direction }

// Pages of the handout's top folder.
const (
	startPage         = "index.html"
	casesPage         = "cases.html"
	stepsPage         = "steps.html"
	complicationsPage = "complications.html"
	techniquesPage    = "techniques.html"
	decisionsPage     = "decisions.html"
	risksPage         = "risk-factors.html"
	coursesPage       = "courses.html"
	glossaryPage      = "glossary.html"
	aboutPage         = "about.html"
	cautionsPage      = "cautions.html"
)

// menu lists the parts of the handout, with the part at current marked.
func (s *Site) menu(current string) []Link {
	w := s.words()
	links := []Link{
		{Text: w.say("cases"), Path: casesPage},
		{Text: w.say("steps"), Path: stepsPage},
		{Text: w.say("complications"), Path: complicationsPage},
		{Text: w.say("techniques"), Path: techniquesPage},
		{Text: w.say("decisions"), Path: decisionsPage},
		{Text: w.say("frequencies"), Path: frequenciesPage},
		{Text: w.say("risks"), Path: risksPage},
	}
	if len(s.Bank.Courses) > 0 {
		links = append(links, Link{Text: w.say("courses"), Path: coursesPage})
	}
	links = append(links, Link{Text: w.say("glossary"), Path: glossaryPage})
	for i := range links {
		links[i].Current = links[i].Path == current
	}
	return links
}

// heading is the heading of an index page: one step below the start.
func (s *Site) heading(path, title string) Heading {
	return Heading{
		Title: title,
		Menu:  s.menu(path),
		Trail: []Link{{Text: s.words().say("start"), Path: startPage}},
	}
}

// headingBelow is the heading of a page that stands below the index page at
// part.
func (s *Site) headingBelow(part, title string) Heading {
	h := s.heading(part, title)
	for _, l := range h.Menu {
		if l.Current {
			h.Trail = append(h.Trail, Link{Text: l.Text, Path: part})
		}
	}
	return h
}

// turn links pages that follow one another, in their order.
func turn(pages []Page, headings []*Heading) {
	for i, h := range headings {
		if i > 0 {
			h.Previous = &Link{Text: headings[i-1].Title, Path: pages[i-1].Path}
		}
		if i+1 < len(headings) {
			h.Next = &Link{Text: headings[i+1].Title, Path: pages[i+1].Path}
		}
	}
}
