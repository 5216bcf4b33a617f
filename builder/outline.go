package builder

import (
	"errors"
	"maps"
	"slices"
)

// What a planner plans for pages about many cases rests on facts alone; see keys.
// While the facts are those of the last build, nothing of it has to be planned: its
// files are known by name and carried over.

// outline is what one planner made, by name.
type outline struct {
	Pages []outlinePage
	Files []string // tables, charts and drawings that come with them
}

// outlinePage is a page without what stands on it.
type outlinePage struct{ Path, Template string }

// errFallen says that a file which was to be carried over was not there any more,
// after its pages were left unplanned.
var errFallen = errors.New("a file of the last build has gone meanwhile")

// fallen makes a file that was left unplanned: it can't.
func fallen() ([]byte, error) { return nil, errFallen }

// planBy runs one planner, or takes over what it planned for the last build.
func (s *Site) planBy(number int, planner func(*Site) []Page) {
	if last, stands := s.standing[number]; stands {
		for _, p := range last.Pages {
			s.Pages = append(s.Pages, Page{Path: p.Path, Template: p.Template, standing: true})
		}
		s.stood = append(s.stood, last.Files...)
		s.outlines[number] = last
		return
	}
	drawn := len(s.drawn)
	s.added = nil
	pages := planner(s)
	s.Pages = append(s.Pages, pages...)
	if len(pages) == 0 || slices.ContainsFunc(pages, func(p Page) bool { return p.of != nil || !storyless[p.Template] }) {
		return
	}
	made := outline{Files: s.added}
	for _, p := range pages {
		made.Pages = append(made.Pages, outlinePage{p.Path, p.Template})
	}
	for _, d := range s.drawn[drawn:] {
		made.Files = append(made.Files, d.path)
	}
	s.outlines[number] = made
}

// outlinesOf are the outlines of a site all of whose files can be carried over by
// the next build; nil where one can't.
func outlinesOf(s *Site, files map[string]kept) map[int]outline {
	for _, o := range s.outlines {
		for _, p := range o.Pages {
			if files[p.Path].Key == "" {
				return nil
			}
		}
		for _, path := range o.Files {
			if files[path].Key == "" {
				return nil
			}
		}
	}
	return maps.Clone(s.outlines)
}

// standing are the outlines of the last build that a site with these keys may take
// over: the facts are the same and every file looks as it did. Files are looked at
// again when they are carried over.
func (p *past) standing(k *keys, d disk) map[int]outline {
	if p == nil || k == nil || p.Facts != k.facts {
		return nil
	}
	for _, o := range p.Outlines {
		for _, page := range o.Pages {
			if !p.looksSame(d, page.Path) {
				return nil
			}
		}
		for _, path := range o.Files {
			if !p.looksSame(d, path) {
				return nil
			}
		}
	}
	return p.Outlines
}

// looksSame reports whether a file of the last build has the stamp it had then.
func (p *past) looksSame(d disk, path string) bool {
	stamp, ok := stampIn(d, p.folder, path)
	return ok && stamp == p.Files[path].Stamp
}
