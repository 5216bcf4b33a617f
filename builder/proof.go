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
type Proof struct {
	gate  *outputGate
	files map[string]file
	paths []string

	mu   sync.Mutex
	made map[string]func() ([]byte, error) // each lays its file out once
}

// NewProof plans the handout of a bank. The bank must have no errors. Errors
// are those of the machine or of a theme's templates.
func NewProof(bank *content.Bank, options Options) (*Proof, error) {
	made, err := prepare(bank, options)
	if err != nil {
		return nil, err
	}
	p := &Proof{gate: newOutputGate(made.site.Bank), files: map[string]file{}, made: map[string]func() ([]byte, error){}}
	p.gate.pinned = options.Charts.paths()
	p.gate.dates = options.CourseDates
	for _, f := range made.files() {
		p.files[f.path] = f
		p.paths = append(p.paths, f.path)
	}
	slices.Sort(p.paths)
	return p, nil
}

// Paths lists the files of the handout, sorted, with slashes.
func (p *Proof) Paths() []string { return slices.Clone(p.paths) }

// File returns one file of the handout by its exact path. The error is
// [fs.ErrNotExist] where the handout has no such file, a [ThemeError], or an
// [IdentifyingError] where the file may not be shown.
func (p *Proof) File(path string) ([]byte, error) {
	f, ok := p.files[path]
	if !ok {
		return nil, fs.ErrNotExist
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

// prepared is a planned site and what lays it out.
type prepared struct {
	site     *Site
	render   *renderer
	fixed    map[string][]byte
	heldBack []string // ids of cases that are not released
}

// file is one file of a handout and how its bytes are made.
type file struct {
	path string
	key  string // see keys; "" for a file that every build makes
	make func() ([]byte, error)
}

// files lists every file but the manifest: pages first, in the order of the plan.
func (p prepared) files() []file {
	var list []file
	for _, page := range p.site.Pages {
		list = append(list, file{page.Path, p.site.keys.ofPage(page), func() ([]byte, error) { return p.render.render(page) }})
	}
	for _, path := range slices.Sorted(maps.Keys(p.fixed)) {
		list = append(list, file{path, "", func() ([]byte, error) { return p.fixed[path], nil }})
	}
	for _, path := range slices.Sorted(maps.Keys(p.site.later)) {
		if _, taken := p.fixed[path]; !taken {
			list = append(list, file{path, p.site.keys.ofFigure(p.site.later[path]), func() ([]byte, error) { return p.site.later[path].file(), nil }})
		}
	}
	return list
}

// prepare plans the handout of a bank, with released cases only unless the
// options ask for all.
func prepare(bank *content.Bank, options Options) (prepared, error) {
	if err := checkSince(options); err != nil {
		return prepared{}, err
	}
	released, heldBack := releasedOnly(bank, options.WithUnreleased)
	released, heldBack, err := coursePart(released, options.Course, heldBack)
	if err != nil {
		return prepared{}, err
	}
	site := Plan(released, options)
	site.Masthead.Unreleased = options.WithUnreleased && len(heldBack) > 0
	theme := site.theme()
	render, err := newRenderer(theme, site.Masthead)
	if err != nil {
		return prepared{}, err
	}
	fixed, err := site.fixedFiles(theme)
	return prepared{site, render, fixed, heldBack}, err
}

// Explained reports whether an error of a proof or a build is the bank's to
// mend (its theme, its texts) and not the machine's.
func Explained(err error) bool {
	var identifying *IdentifyingError
	var theme *ThemeError
	return errors.As(err, &identifying) || errors.As(err, &theme)
}
