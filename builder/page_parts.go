package builder

import "slices"

// onOnePage is how many cases or cards are laid out on one page. Where there are
// more, the page leads to parts of itself, so that an old machine can open them.
const onOnePage = 200

// parting is the pages that hold what would be too long for one.
type parting struct {
	whole          Heading // of the page that leads to them
	path, template string  // its own, and their, template
	pages          []Page
	headings       []*Heading
	links          []Link
}

// add adds a part. Its struct is made when it is laid out, so that no more than one
// of them is in memory for each processor.
func (p *parting) add(path, title, note string, data func(Heading) any) {
	h := &Heading{Title: title, Menu: p.whole.Menu, Trail: append(slices.Clone(p.whole.Trail), Link{Text: p.whole.Title, Path: p.path})}
	p.pages = append(p.pages, Page{Path: path, Template: p.template, plan: func() any { return data(*h) }})
	p.headings = append(p.headings, h)
	p.links = append(p.links, Link{Text: title, Path: path, Note: note})
}

// after gives the page that leads to the parts, then the parts, each linked to the
// one before and the one after it.
func (p *parting) after(first any) []Page {
	turn(p.pages, p.headings)
	return append([]Page{{Path: p.path, Template: p.template, Data: first}}, p.pages...)
}
