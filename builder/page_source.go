package builder

import (
	"html/template"

	"caseleaf/content"
)

// SourcePage is what pages/source.tmpl lays out: the front matter of a case,
// for those who write cases. It is a page of its own, so that readers of the
// case need not carry it.
type SourcePage struct {
	Heading
	Case    Link
	File    string // in the bank
	Listing template.HTML
}

func sourcePath(id string) string { return "sources/" + fileStem(id) + ".html" }

func (s *Site) showsSource() bool { return s.Bank.Settings.ShowSource.Or(false) }

// sourcePages makes a page for the source of every case, when the bank asks.
func (s *Site) sourcePages() []Page {
	if !s.showsSource() {
		return nil
	}
	var pages []Page
	for _, c := range s.Bank.Cases {
		pages = append(pages, s.pageOfSource(c))
	}
	return pages
}

// pageOfSource is the page of a case's front matter, not planned yet.
func (s *Site) pageOfSource(c *content.Case) Page {
	return Page{Path: sourcePath(c.ID.Value), Template: "source", of: c, plan: func() any { return s.sourcePage(c) }}
}

func (s *Site) sourcePage(c *content.Case) *SourcePage {
	h := s.headingBelow(casesPage, caseTitle(c))
	h.Kicker, h.Protocol = s.words().say("source-kicker"), true
	h.Trail = append(h.Trail, caseLink(c))
	return &SourcePage{Heading: h, Case: caseLink(c), File: c.File, Listing: s.SourceListing(c.Source)}
}
