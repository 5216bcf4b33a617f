package builder

import (
	"archive/zip"
	"bytes"
	"errors"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strings"

	"caseleaf/builder/epub"
	"caseleaf/builder/figure"
	"caseleaf/builder/pack"
	"caseleaf/content"
)

// PackBook is [Pack] for an EPUB: the handout is built afresh and its pages are
// made into a book. The book's files are looked at once more, as a reader will
// see them. Pages counts the book's chapters, its cover and contents among them.
func PackBook(bank *content.Bank, options Options) (Packed, error) {
	options.Charts = nil // a book runs nothing
	chapters := 0
	p, err := packed(bank, options, isOurBook, func(w io.Writer, folder string) error {
		part, _ := releasedOnly(bank, false)
		part, _, err := coursePart(part, options.Course, nil)
		if err != nil {
			return err
		}
		book, err := newBook(part, options, folder)
		if err != nil {
			return err
		}
		files, own, err := book.Files()
		if err != nil {
			return err
		}
		if err := lookAtBook(part, files, own); err != nil {
			return err
		}
		items := make([]pack.Item, len(files))
		for i, f := range files {
			if path.Ext(f.Name) == ".xhtml" {
				chapters++
			}
			items[i] = pack.Item{Name: f.Name, Stored: i == 0, Read: func() ([]byte, error) { return f.Data, nil }}
		}
		return pack.Write(w, items)
	})
	p.Pages = chapters
	return p, err
}

// lookAtBook scans the files of a book. Its package is XML under another name;
// own are the texts in it that no author wrote and that say nothing.
func lookAtBook(bank *content.Bank, files []epub.File, own []string) error {
	return ScanFiles(bank, func(yield func(string, []byte) bool) {
		for _, f := range files {
			name, data := f.Name, f.Data
			if name == epub.PackageName {
				name += ".xml"
				for _, text := range own {
					data = bytes.ReplaceAll(data, []byte(text), nil)
				}
			}
			if !yield(name, data) {
				return
			}
		}
	}, nil).LeaveErr()
}

// bookParts are what of a handout goes into a book and in which order: the
// pages of a folder, or single ones. What is left out is for paper, for tutors,
// or made of what other pages hold.
var bookParts = []struct {
	words string // key of the part's name
	pages []string
}{
	{"book-first", []string{"cautions.html", "since.html", "about.html"}},
	{"courses", []string{"courses/"}},
	{"cases", []string{"cases/"}},
	{"decisions", []string{"decisions/", "questions/"}},
	{"steps", []string{"steps/"}},
	{"complications", []string{"complications/"}},
	{"techniques", []string{"techniques/"}},
	{"frequencies", []string{"frequencies.html"}},
	{"glossary", []string{"glossary.html"}},
}

// newBook reads the pages of a built handout into a book.
func newBook(bank *content.Bank, options Options, folder string) (epub.Book, error) {
	s := &Site{Bank: bank, Options: options}
	w, set := s.words(), bank.Settings
	b := epub.Book{
		Title: set.Title.Value, Language: set.Language.Or("en"), Direction: w.direction,
		Paper: "#ffffff", Pictures: map[string][]byte{}, Foot: w.say("protocol"), Notes: []string{w.say("protocol")},
		Words: epub.Words{Contents: w.say("book-contents"), Cover: w.say("book-cover"), Answers: w.say("book-answers"), Back: w.say("book-back"), Access: w.say("book-access")},
	}
	if set.Edition.Known() {
		b.Edition = w.say("edition-of", set.Edition.Value)
	}
	if set.Invented.Value {
		b.Notices = append(b.Notices, w.say("invented"))
	}
	if course, ok := bank.Course(options.Course); ok {
		b.Subtitle = course.Title.Or(course.ID.Value)
		b.Notices = append(b.Notices, w.say("part-of-course", b.Subtitle))
	}
	var err error
	if b.Style, err = fs.ReadFile(s.theme(), "epub/book.css"); err != nil {
		return b, &ThemeError{err}
	}
	if b.Style, err = light("book.css", append(b.Style, figure.FixedRules()...)); err != nil {
		return b, &ThemeError{err}
	}
	m, err := ReadManifest(folder)
	if err != nil {
		return b, err
	}
	for _, want := range bookParts {
		part := epub.Part{Title: w.say(want.words)}
		for _, name := range filesOf(m, want.pages) {
			data, err := os.ReadFile(filepath.Join(folder, filepath.FromSlash(name)))
			if err != nil {
				return b, err
			}
			if path.Ext(name) == ".html" {
				part.Pages = append(part.Pages, epub.Page{Path: name, HTML: data})
			} else {
				b.Pictures[name] = data
			}
		}
		if len(part.Pages) > 0 {
			b.Parts = append(b.Parts, part)
		}
	}
	return b, nil
}

// filesOf are the files of a handout that are wanted, in the order of wanting.
func filesOf(m Manifest, wanted []string) (names []string) {
	for _, want := range wanted {
		for _, f := range m.Files {
			if inBook(f.Path, want) {
				names = append(names, f.Path)
			}
		}
	}
	return names
}

// inBook reports whether a file is wanted by its own name or by its folder's:
// pages, and the pictures beside them. Booklets are for paper, and what tutors
// hold gives the answers without a cover.
func inBook(file, want string) bool {
	if file == want {
		return true
	}
	name, in := strings.CutPrefix(file, want)
	if !in || !strings.HasSuffix(want, "/") || strings.Contains(name, "booklet") || path.Base(name) == "tutors.html" {
		return false
	}
	switch path.Ext(file) {
	case ".html", ".jpg", ".jpeg", ".png", ".gif", ".webp", ".svg":
		return true
	}
	return false
}

// isOurBook reports whether a file is a book that caseleaf made.
func isOurBook(name string) (bool, error) {
	r, err := zip.OpenReader(name)
	if err != nil {
		if errors.Is(err, fs.ErrPermission) {
			return false, err
		}
		return false, nil
	}
	defer r.Close()
	f, err := r.Open(epub.PackageName)
	if err != nil {
		return false, nil
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, 1<<20))
	return err == nil && bytes.Contains(data, []byte(epub.Maker)), nil
}
