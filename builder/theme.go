package builder

import (
	"crypto/sha256"
	"fmt"
	"io/fs"
	"sync"

	"caseleaf/themes"
)

// laidTheme is a theme that is ready to lay pages out: templates compiled, styles
// and scripts made light.
type laidTheme struct {
	files  fs.FS
	sum    [sha256.Size]byte // of all its files
	render *renderer
	assets map[string][]byte // what all pages share; not to be changed
}

// layTheme makes the site's theme ready, or takes that of an earlier site whose
// theme has the same files. Errors are [ThemeError].
func (s *Site) layTheme(last laidTheme) (laidTheme, error) {
	t := laidTheme{files: s.theme()}
	var err error
	if t.sum, err = sumOfTheme(t.files); err != nil {
		return t, &ThemeError{err}
	}
	if last.render != nil && last.sum == t.sum {
		t.render, t.assets = last.render.with(s.Masthead, len(s.Bank.Cases)), last.assets
		return t, nil
	}
	render, err := newRenderer(t.files, s.Masthead)
	if err != nil {
		return t, err
	}
	t.render = render.with(s.Masthead, len(s.Bank.Cases))
	t.assets, err = assets(t.files)
	return t, err
}

// builtIn is the sum of the theme that lies in the program.
var builtIn = sync.OnceValues(func() ([sha256.Size]byte, error) { return sumAllOf(overlay{under: themes.FS()}) })

// sumOfTheme sums a theme up; the one that can't change, once.
func sumOfTheme(theme fs.FS) ([sha256.Size]byte, error) {
	if o, ok := theme.(overlay); ok && o.over == nil {
		return builtIn()
	}
	return sumAllOf(theme)
}

// sumAllOf sums up every file of a theme.
func sumAllOf(theme fs.FS) (sum [sha256.Size]byte, err error) {
	h := sha256.New()
	take := func(name string) error {
		data, err := fs.ReadFile(theme, name)
		fmt.Fprintf(h, "%q %d\n", name, len(data))
		h.Write(data)
		return err
	}
	if err := take("layout.tmpl"); err != nil {
		return sum, err
	}
	for _, folder := range []string{"pages", "styles", "paper", "scripts"} {
		list, err := fs.ReadDir(theme, folder)
		if err != nil {
			continue // a theme needs no such folder, and its reader says so if it does
		}
		for _, f := range list {
			if f.IsDir() {
				continue
			}
			if err := take(folder + "/" + f.Name()); err != nil {
				return sum, err
			}
		}
	}
	return [sha256.Size]byte(h.Sum(nil)), nil
}
