package builder

import (
	"bytes"
	"errors"
	"fmt"
	"html/template"
	"io/fs"
	"path"
	"slices"
	"strings"
	"sync"
	"sync/atomic"

	"caseleaf/builder/bidi"
	"caseleaf/builder/layout"
	"caseleaf/themes"
)

// renderer lays pages out with a theme's templates, each compiled once.
type renderer struct {
	masthead Masthead
	pages    map[string]*pageTemplate // by the page's file stem
	room     int                      // the most bytes that a page may have
}

// pageTemplate is the template of one page, and what lays most pages out in its place.
type pageTemplate struct {
	whole   *template.Template
	compile sync.Once
	quick   *layout.Template // nil where package layout does not know all that the template holds
	size    atomic.Int64     // of the largest page so far
}

// execute lays a page out.
func (t *pageTemplate) execute(f *Frame, room int) ([]byte, error) {
	t.compile.Do(func() { t.quick = layout.Compile(t.whole) })
	out := pageBuffer{room: room}
	out.Grow(int(t.size.Load()))
	if t.quick == nil || t.quick.Execute(&out, f) != nil {
		out.Reset()
		if err := t.whole.Execute(&out, f); err != nil {
			return nil, err
		}
	}
	t.size.Store(max(t.size.Load(), int64(out.Len())))
	return out.Bytes(), nil
}

// overlay is the built-in theme with a bank's own files laid over it.
type overlay struct{ over, under fs.FS }

// Open opens the bank's file where there is one, else the built-in one. A
// bank's file that can't be read is an error, not a reason to do without it.
func (o overlay) Open(name string) (fs.File, error) {
	if o.over != nil {
		if f, err := o.over.Open(name); !errors.Is(err, fs.ErrNotExist) {
			return f, err
		}
	}
	return o.under.Open(name)
}

// ReadDir lists the files of both, each name once.
func (o overlay) ReadDir(name string) ([]fs.DirEntry, error) {
	list, err := fs.ReadDir(o.under, name)
	if o.over == nil {
		return list, err
	}
	over, overErr := fs.ReadDir(o.over, name)
	if overErr != nil && !errors.Is(overErr, fs.ErrNotExist) {
		return nil, overErr
	}
	for _, e := range over {
		i := slices.IndexFunc(list, func(d fs.DirEntry) bool { return d.Name() == e.Name() })
		if i >= 0 {
			list[i] = e
		} else if !strings.HasPrefix(e.Name(), ".") {
			list = append(list, e)
		}
	}
	slices.SortFunc(list, func(a, b fs.DirEntry) int { return strings.Compare(a.Name(), b.Name()) })
	if len(list) > 0 {
		err = nil
	}
	return list, err
}

// theme returns the files that a site is laid out with.
func (s *Site) theme() fs.FS {
	o := overlay{under: themes.FS()}
	if folder, ok := s.Bank.Settings.Theme.Get(); ok && s.Options.BankFiles != nil {
		if over, err := fs.Sub(s.Options.BankFiles, path.Clean(folder)); err == nil {
			o.over = over
		}
	}
	return o
}

// newRenderer compiles layout.tmpl, the partials and one template a page.
func newRenderer(theme fs.FS, m Masthead) (*renderer, error) {
	base, err := template.New("layout.tmpl").ParseFS(theme, "layout.tmpl")
	if err != nil {
		return nil, &ThemeError{err}
	}
	files, err := fs.ReadDir(theme, "pages")
	if err != nil {
		return nil, &ThemeError{err}
	}
	var pages []string
	for _, f := range files {
		switch name := f.Name(); {
		case path.Ext(name) != ".tmpl":
		case strings.HasPrefix(name, "_"):
			if _, err := base.ParseFS(theme, "pages/"+name); err != nil {
				return nil, &ThemeError{err}
			}
		default:
			pages = append(pages, name)
		}
	}
	r := &renderer{masthead: m, pages: map[string]*pageTemplate{}, room: roomFor(0)}
	for _, name := range pages {
		t, err := template.Must(base.Clone()).ParseFS(theme, "pages/"+name)
		if err != nil {
			return nil, &ThemeError{err}
		}
		r.pages[strings.TrimSuffix(name, ".tmpl")] = &pageTemplate{whole: t}
	}
	return r, nil
}

// with is the renderer for a masthead and a number of cases.
func (r *renderer) with(m Masthead, cases int) *renderer {
	return &renderer{masthead: m, pages: r.pages, room: roomFor(cases)}
}

// titled is what the data of every page can tell.
type titled interface{ PageTitle() string }

// frame is what a page's template is executed with.
func (r *renderer) frame(p Page) *Frame {
	f := &Frame{Site: &r.masthead, Root: rootOf(p.Path), Path: p.Path, Data: p.data()}
	if d, ok := f.Data.(titled); ok {
		f.Title = d.PageTitle()
	}
	return f
}

// render lays one page out.
func (r *renderer) render(p Page) ([]byte, error) {
	t, ok := r.pages[p.Template]
	if !ok {
		return nil, &ThemeError{fmt.Errorf("there is no pages/%s.tmpl for %s", p.Template, p.Path)}
	}
	f := r.frame(p)
	out, err := t.execute(f, r.room)
	if err != nil {
		return nil, &ThemeError{fmt.Errorf("%s: %w", p.Path, err)}
	}
	if f.Direction() == "rtl" {
		return bidi.Page(out), nil
	}
	return out, nil
}

// ThemeError is a fault in a theme's files: the bank's to mend, not the
// machine's.
type ThemeError struct{ Err error }

func (e *ThemeError) Error() string { return "theme: " + e.Err.Error() }

// Unwrap returns the fault itself.
func (e *ThemeError) Unwrap() error { return e.Err }

// pageRoom is the most bytes that a page may have in a bank without cases, and
// caseRoom what each case adds, since some pages are about all of them; a template
// that writes without end is stopped there.
const (
	pageRoom = 32 << 20
	caseRoom = 32 << 10
)

func roomFor(cases int) int { return pageRoom + caseRoom*cases }

// pageBuffer holds a page while it is laid out.
type pageBuffer struct {
	bytes.Buffer
	room int
}

// Write refuses more than a page can hold.
func (b *pageBuffer) Write(p []byte) (int, error) {
	if b.Len()+len(p) > b.room {
		return 0, fmt.Errorf("the page grows beyond %d MB", b.room>>20)
	}
	return b.Buffer.Write(p)
}
