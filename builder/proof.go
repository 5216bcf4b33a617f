package builder

import (
	"errors"
	"io/fs"
	"maps"
	"path"
	"slices"
	"strings"
	"sync"

	"caseleaf/content"
)

// Proof is a handout that is looked at and not published: a page is laid out
// when it is first asked for, scanned as [Build] would scan it, and kept. It is
// safe for concurrent use.
//
// The pages of cases, and what all pages share, are at hand at once; everything
// else is planned when the first of it is asked for.
type Proof struct {
	site  *Site
	theme laidTheme
	gate  *outputGate
	cases func() map[string]int // places of the cases by the stems of their pages
	rest  func() (map[string]file, error)

	mu   sync.Mutex
	made map[string]func() ([]byte, error) // each lays its file out once
}

// NewProof begins the handout of a bank. The bank must have no errors. Errors
// are those of the machine or of a theme's templates.
func NewProof(bank *content.Bank, options Options) (*Proof, error) {
	return (*Proof)(nil).Next(bank, options)
}

// Next is NewProof for the bank after an edit: it takes over from the last proof,
// which may be nil, what the edit can't have changed.
func (p *Proof) Next(bank *content.Bank, options Options) (*Proof, error) {
	var last laidTheme
	var lastSite *Site
	if p != nil {
		last, lastSite = p.theme, p.site
	}
	site, heldBack, err := begin(bank, options, lastSite)
	if err != nil {
		return nil, err
	}
	next := &Proof{site: site, gate: newOutputGate(site.Bank), cases: sync.OnceValue(site.byStem), made: map[string]func() ([]byte, error){}}
	next.gate.pinned = options.Charts.paths()
	next.gate.dates = options.CourseDates
	if next.theme, err = site.layTheme(last); err != nil {
		return nil, err
	}
	next.rest = sync.OnceValues(func() (map[string]file, error) {
		files := map[string]file{}
		made, err := ready(site, next.theme, heldBack)
		if err != nil {
			return nil, err
		}
		return files, made.rounds(func(list []file) error {
			for _, f := range list {
				files[f.path] = f
			}
			return nil
		})
	})
	return next, nil
}

// Paths lists the files of the handout, sorted, with slashes. It plans them all.
func (p *Proof) Paths() ([]string, error) {
	files, err := p.rest()
	return slices.Sorted(maps.Keys(files)), err
}

// Shared lists the files that all pages share, sorted.
func (p *Proof) Shared() []string { return slices.Sorted(maps.Keys(p.theme.assets)) }

// File returns one file of the handout by its exact path. The error is
// [fs.ErrNotExist] where the handout has no such file, a [ThemeError], or an
// [IdentifyingError] where the file may not be shown.
func (p *Proof) File(path string) ([]byte, error) {
	f, ok := p.first(path)
	if !ok {
		files, err := p.rest()
		if err != nil {
			return nil, err
		}
		if f, ok = files[path]; !ok {
			return nil, fs.ErrNotExist
		}
	}
	p.mu.Lock()
	once, ok := p.made[path]
	if !ok {
		once = sync.OnceValues(func() ([]byte, error) {
			data, err := f.make()
			if err != nil {
				return nil, err
			}
			return p.seen(path, data)
		})
		p.made[path] = once
	}
	p.mu.Unlock()
	return once()
}

// first is a file that needs nothing else to be planned: what all pages share, the
// page of a case, or that of its source.
func (p *Proof) first(name string) (f file, ok bool) {
	if data, ok := p.theme.assets[name]; ok {
		return file{path: name, make: func() ([]byte, error) { return data, nil }}, true
	}
	at, ok := p.cases()[strings.TrimSuffix(path.Base(name), ".html")]
	if !ok {
		return f, false
	}
	pages := []Page{p.site.pageOfCase(at)}
	if p.site.showsSource() {
		pages = append(pages, p.site.pageOfSource(p.site.Bank.Cases[at]))
	}
	for _, page := range pages {
		if page.Path == name {
			return file{path: name, make: func() ([]byte, error) { return p.theme.render.render(page) }}, true
		}
	}
	return f, false
}

// byStem gives the places of cases by the stems of their file names.
func (s *Site) byStem() map[string]int {
	places := make(map[string]int, len(s.Bank.Cases))
	for i, c := range s.Bank.Cases {
		places[fileStem(c.ID.Value)] = i
	}
	return places
}

// seen passes one file through a gate of its own, so that a finding stops that
// file and no other.
func (p *Proof) seen(path string, data []byte) ([]byte, error) {
	gate := p.gate.fresh()
	gate.look(path, data)
	if err := gate.result().Err(); err != nil {
		return nil, err
	}
	return data, nil
}

// prepared is a site that is ready to be planned, and what lays it out.
type prepared struct {
	site     *Site
	render   *renderer
	fixed    map[string][]byte
	heldBack []string // ids of cases that are not released
	listed   []file   // of a handout that a test has planned; nil for what the planners plan
}

// prepare makes the handout of a bank ready to be planned, with released cases
// only unless the options ask for all.
func prepare(bank *content.Bank, options Options) (prepared, error) {
	site, heldBack, err := begin(bank, options, nil)
	if err != nil {
		return prepared{}, err
	}
	theme, err := site.layTheme(laidTheme{})
	if err != nil {
		return prepared{}, err
	}
	site.past = options.Memory.last()
	if options.Memory != nil {
		site.keys = newKeys(site)
	}
	if !options.planAll {
		site.standing = site.past.standing(site.keys, options.onDisk())
	}
	return ready(site, theme, heldBack)
}

// begin makes the site of what is published of a bank, with no page planned yet,
// and the ids of cases that are held back. See newSite for the last site.
func begin(bank *content.Bank, options Options, last *Site) (*Site, []string, error) {
	if err := checkSince(options); err != nil {
		return nil, nil, err
	}
	released, heldBack := releasedOnly(bank, options.WithUnreleased)
	released, heldBack, err := coursePart(released, options.Course, heldBack)
	if err != nil {
		return nil, nil, err
	}
	site := newSite(released, options, last)
	site.Masthead.Unreleased = options.WithUnreleased && len(heldBack) > 0
	return site, heldBack, nil
}

// ready adds the files that need no planning.
func ready(site *Site, theme laidTheme, heldBack []string) (prepared, error) {
	fixed, err := site.fixedFiles(theme)
	return prepared{site: site, render: theme.render, fixed: fixed, heldBack: heldBack}, err
}

// Explained reports whether an error of a proof or a build is the bank's to
// mend (its theme, its texts) and not the machine's.
func Explained(err error) bool {
	var identifying *IdentifyingError
	var theme *ThemeError
	return errors.As(err, &identifying) || errors.As(err, &theme)
}
