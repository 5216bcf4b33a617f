package builder

import (
	"maps"
	"slices"

	"caseleaf/builder/figure"
)

// file is one file of a handout and how its bytes are made.
type file struct {
	path  string
	key   string // see keys; "" for a file that every build makes
	light bool   // it keeps next to nothing in memory until it is made
	make  func() ([]byte, error)
}

// rounds hands every file but the manifest on to add: those that are there
// already, then what each planner plans, in the order of the planners. What was
// handed on is let go, so that one planner's pages are in memory at a time.
func (p prepared) rounds(add func([]file) error) error {
	if p.listed != nil {
		return add(p.listed)
	}
	r := round{prepared: p, taken: map[string]bool{}}
	if err := add(r.fixedFiles()); err != nil {
		return err
	}
	s := p.site
	s.met.index()
	for number, planner := range planners {
		r.pages, r.drawn, r.stood = len(s.Pages), len(s.drawn), len(s.stood)
		s.planBy(number, planner)
		if len(s.faults) > 0 {
			return s.faults[0]
		}
		if err := add(r.planned(number)); err != nil {
			return err
		}
		r.letGo()
	}
	return nil
}

// round is what one planner has planned: what the site has from these places on.
type round struct {
	prepared
	pages, drawn, stood int
	taken               map[string]bool // paths; the first file of two with one path is written
}

// free drops files whose path is taken.
func (r *round) free(files []file) []file {
	return slices.DeleteFunc(files, func(f file) bool {
		was := r.taken[f.path]
		r.taken[f.path] = true
		return was
	})
}

// fixedFiles are those that nobody has to plan.
func (r *round) fixedFiles() []file {
	var list []file
	for _, path := range slices.Sorted(maps.Keys(r.fixed)) {
		list = append(list, file{path: path, light: true, make: func() ([]byte, error) { return r.fixed[path], nil }})
	}
	return r.free(list)
}

// planned are the files of the planner of a number.
func (r *round) planned(number int) []file {
	var list []file
	s := r.site
	for _, page := range s.Pages[r.pages:] {
		f := file{page.Path, s.keys.ofPage(page), page.plan != nil, func() ([]byte, error) { return r.render.render(page) }}
		if page.standing {
			f.light, f.make = true, fallen
		}
		list = append(list, f)
	}
	_, onFacts := s.outlines[number]
	for _, path := range slices.Sorted(maps.Keys(s.files)) {
		key, data := "", s.files[path]
		if onFacts {
			key = s.keys.ofFile(path)
		}
		list = append(list, file{path: path, key: key, make: func() ([]byte, error) { return data, nil }})
	}
	for _, path := range s.stood[r.stood:] {
		list = append(list, file{path, s.past.Files[path].Key, true, fallen})
	}
	for _, d := range s.drawn[r.drawn:] {
		list = append(list, file{d.path, s.keys.ofFigure(d), d.figure == nil, func() ([]byte, error) { return figure.Alone(s.figureOf(d)), nil }})
	}
	return r.free(list)
}

// letGo forgets what was handed on, but for what later planners list.
func (r *round) letGo() {
	s := r.site
	for i := range s.Pages[r.pages:] {
		s.Pages[r.pages+i].Data = nil
	}
	for i := range s.drawn[r.drawn:] {
		s.drawn[r.drawn+i].figure = nil
	}
	s.files = nil
}
