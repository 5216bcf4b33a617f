package builder

import (
	"errors"
	"io/fs"
	"maps"
	"slices"
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
	first map[string]file
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
	next := &Proof{site: site, gate: newOutputGate(site.Bank), first: map[string]file{}, made: map[string]func() ([]byte, error){}}
	next.gate.pinned = options.Charts.paths()
	next.gate.dates = options.CourseDates
	if next.theme, err = site.layTheme(last); err != nil {
		return nil, err
	}
	for path, data := range next.theme.assets {
		next.first[path] = file{path: path, make: func() ([]byte, error) { return data, nil }}
	}
	for _, page := range append(site.casePages(), site.sourcePages()...) {
		next.first[page.Path] = file{path: page.Path, make: func() ([]byte, error) { return next.theme.render.render(page) }}
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
	f, ok := p.first[path]
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
