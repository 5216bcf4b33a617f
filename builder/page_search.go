package builder

import "caseleaf/builder/search"

// searchPage is where the handout is searched. Its form is in the head of every
// page, and the page itself says where to look without a script.
const searchPage = "search.html"

// SearchPage is what pages/search.tmpl lays out.
type SearchPage struct {
	Heading
	Letters []Link // the A to Z of the glossary: the way without a script
}

// planSearch makes the page and the files of the index. The index is made of
// the bank as it is published, so what is not released is in none of them.
func planSearch(s *Site) []Page {
	index := search.NewBuilder(s.Bank.Vocabulary.All())
	s.eachDocument(index.Add)
	files, _ := index.Files()
	for _, f := range files {
		s.file(f.Path, f.Data)
	}
	p := &SearchPage{Heading: s.heading(searchPage, s.words().say("search"))}
	p.Summary = s.words().say("search-summary")
	for _, l := range s.glossaryLetters() {
		p.Letters = append(p.Letters, Link{Text: l.Letter, Path: glossaryPage + "#" + l.ID})
	}
	return []Page{{Path: searchPage, Template: "search", Data: p}}
}
