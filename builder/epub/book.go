package epub

import (
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"maps"
	"path"
	"regexp"
	"slices"
	"strings"
)

// Book is what a book is made from.
type Book struct {
	Title     string
	Subtitle  string // such as the course
	Edition   string
	Language  string   // BCP 47
	Direction string   // ltr or rtl
	Notices   []string // at the head of every chapter, such as that the data are invented
	Foot      string   // at the end of every chapter
	Notes     []string // on the cover: what the book is and is not
	Words     Words
	Parts     []Part
	Style     []byte            // CSS
	Paper     string            // colour behind drawings; empty for none
	Pictures  map[string][]byte // by path
}

// Part is a part of the contents.
type Part struct {
	Title string
	Pages []Page
}

// Page is one page of the handout.
type Page struct {
	Path string // below the handout, such as cases/hb-007.html
	HTML []byte
}

// Words are what the book says of itself, in its language.
type Words struct {
	Contents, Cover string
	Answers         string // head of what waits behind covers
	Back            string // text of the link back
	Access          string // the accessibility summary
}

// File is one file of a book.
type File struct {
	Name string
	Data []byte
}

// folder is where the book lies in its container.
const folder = "book/"

// PackageName is the file that describes the book.
const PackageName = folder + "package.opf"

// Maker marks a book as caseleaf's, in its package.
const Maker = `<meta name="generator" content="caseleaf"/>`

// Files makes the book. The first file must be stored as it is and come first,
// which is how programs know an EPUB. What the book is told apart by, which is
// made from the content, and its date, which is made from the edition, are
// returned apart: they look like somebody's and say nothing.
func (b Book) Files() (files []File, own []string, err error) {
	chapters, err := b.chapters()
	if err != nil {
		return nil, nil, err
	}
	body := []File{{"style.css", b.Style}, {"cover.xhtml", b.cover()}, {"nav.xhtml", b.nav(chapters)}}
	used := map[string]bool{}
	for _, c := range chapters {
		body = append(body, File{c.path, c.document(b)})
		maps.Copy(used, c.pictures)
	}
	for _, name := range slices.Sorted(maps.Keys(used)) {
		body = append(body, File{name, b.Pictures[name]})
	}
	identifier := named(body)
	files = []File{
		{"mimetype", []byte("application/epub+zip")},
		{"META-INF/container.xml", []byte(container)},
		{PackageName, b.pack(identifier, chapters, body)},
	}
	for _, f := range body {
		files = append(files, File{folder + f.Name, f.Data})
	}
	return files, []string{identifier, b.modified()}, nil
}

const container = `<?xml version="1.0" encoding="UTF-8"?>
<container version="1.0" xmlns="urn:oasis:names:tc:opendocument:xmlns:container">
<rootfiles><rootfile full-path="` + PackageName + `" media-type="application/oebps-package+xml"/></rootfiles>
</container>
`

// named is a UUID of version 8 (RFC 9562) made from the content.
func named(files []File) string {
	h := sha256.New()
	for _, f := range files {
		fmt.Fprintf(h, "%s %d\n", f.Name, len(f.Data))
		h.Write(f.Data)
	}
	sum := h.Sum(nil)[:16]
	sum[6], sum[8] = sum[6]&0x0f|0x80, sum[8]&0x3f|0x80
	text := hex.EncodeToString(sum)
	return "urn:uuid:" + strings.Join([]string{text[:8], text[8:12], text[12:16], text[16:20], text[20:]}, "-")
}

var year = regexp.MustCompile(`\b(19|20)\d\d\b`)

// modified is when the book was changed, which the format wants to the second.
// The same bank gives the same bytes, so it is the first second of the year that
// the edition names, or of 2000.
func (b Book) modified() string {
	return cmp.Or(year.FindString(b.Edition), "2000") + "-01-01T00:00:00Z"
}

// mediaTypes are what a book holds.
var mediaTypes = map[string]string{
	".xhtml": "application/xhtml+xml", ".css": "text/css", ".svg": "image/svg+xml",
	".jpg": "image/jpeg", ".jpeg": "image/jpeg", ".png": "image/png", ".gif": "image/gif", ".webp": "image/webp",
}

// pack writes the package: what the book is, its files, and their order.
func (b Book) pack(identifier string, chapters []*chapter, body []File) []byte {
	var out strings.Builder
	line := func(format string, args ...any) { fmt.Fprintf(&out, format+"\n", args...) }
	line(`<?xml version="1.0" encoding="UTF-8"?>`)
	line(`<package xmlns="http://www.idpf.org/2007/opf" version="3.0" unique-identifier="book" xml:lang="%s" dir="%s">`, escape(b.Language), b.Direction)
	line(`<metadata xmlns:dc="http://purl.org/dc/elements/1.1/">`)
	line(`<dc:identifier id="book">%s</dc:identifier>`, identifier)
	line(`<dc:title>%s</dc:title>`, escape(strings.Join(slices.DeleteFunc([]string{b.Title, b.Subtitle, b.Edition}, func(s string) bool { return s == "" }), ", ")))
	line(`<dc:language>%s</dc:language>`, escape(b.Language))
	line(`<meta property="dcterms:modified">%s</meta>`, b.modified())
	line("%s", Maker)
	for _, a := range [][2]string{
		{"accessMode", "textual"}, {"accessMode", "visual"}, {"accessModeSufficient", "textual"},
		{"accessibilityFeature", "tableOfContents"}, {"accessibilityFeature", "structuralNavigation"}, {"accessibilityFeature", "alternativeText"},
		{"accessibilityFeature", "displayTransformability"}, {"accessibilityFeature", "readingOrder"}, {"accessibilityHazard", "none"},
	} {
		line(`<meta property="schema:%s">%s</meta>`, a[0], a[1])
	}
	line(`<meta property="schema:accessibilitySummary">%s</meta>`, escape(b.Words.Access))
	line("</metadata>\n<manifest>")
	drawn := map[string]bool{}
	for _, c := range chapters {
		drawn[c.path] = c.drawn
	}
	for i, f := range body {
		properties := ""
		switch {
		case f.Name == "nav.xhtml":
			properties = ` properties="nav"`
		case drawn[f.Name]:
			properties = ` properties="svg"`
		}
		line(`<item id="f%d" href="%s" media-type="%s"%s/>`, i, escape(f.Name), mediaTypes[strings.ToLower(path.Ext(f.Name))], properties)
	}
	line("</manifest>")
	line(`<spine page-progression-direction="%s">`, b.Direction)
	for i, f := range body {
		if path.Ext(f.Name) == ".xhtml" {
			line(`<itemref idref="f%d"/>`, i)
		}
	}
	line("</spine>\n</package>")
	return []byte(out.String())
}
