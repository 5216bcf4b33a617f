package privacy

import (
	"archive/zip"
	"bytes"
	"cmp"
	"io"
	"path"
	"slices"
	"strings"
	"unsafe"
)

// Output scans the written files of a handout by the rules of texts. What was
// found silent once, a caption or a foot of a page, is not looked at again in
// the next file, so one Output should serve a whole build; nor is front matter
// that the Scanner found silent when the bank was read. It is safe for concurrent
// use.
type Output struct {
	sc     *Scanner
	silent *known
	body   uint64 // way of a body
}

// NewOutput makes an Output with this scanner's words.
func (sc *Scanner) NewOutput() *Output {
	return sc.outputWith(newKnown(knownMost))
}

func (sc *Scanner) outputWith(silent *known) *Output {
	return &Output{sc: sc, silent: silent, body: silent.way(Body, 0)}
}

// ScanOutput scans one written file with the built-in vocabulary.
func ScanOutput(name string, data []byte) []Finding { return builtin().NewOutput().Scan(name, data) }

// maxUnpacked bounds what is read of an archive.
const maxUnpacked = 2 << 30

// Scan finds what may identify somebody in a written file; the extension of
// name says how it is read. HTML and SVG: text and the attributes that people
// write, where an element with data-zone="reference", "front-matter", "authors"
// or "published" follows the rules of that zone. JSON and JavaScript: strings. CSS: strings
// and comments. CSV: cells, where quarters are allowed, since tables are for
// periods. Calendars: all but the times of events. Pictures and clips: a finding if cleaning would take anything out.
// Archives: every entry, with the place of the entry's data as the finding's.
// Other files are read as text. Offsets are bytes of data, sorted. The name
// itself is not scanned; give it to Scan with zone Filename.
func (o *Output) Scan(name string, data []byte) []Finding {
	var out []Finding
	switch ext := strings.ToLower(path.Ext(name)); ext {
	case ".html", ".htm", ".svg", ".xhtml", ".xml":
		out = o.scanMarkup(data)
	case ".json", ".js", ".mjs", ".map", ".webmanifest":
		out = o.scanStrings(data, 0, true)
	case ".css":
		out = o.scanStrings(data, 0, false)
	case ".csv", ".tsv":
		out = o.scanTable(data)
	case ".ics":
		out = o.scanCalendar(data)
	case ".zip":
		out = o.scanArchive(data)
	case ".vtt", ".srt":
		out = o.sc.Scan(Caption, string(data))
	case ".yaml", ".yml":
		out = o.sc.Scan(FrontMatter, string(data))
	case ".jpg", ".jpeg", ".png", ".webp", ".gif", ".mp4", ".m4v", ".mov":
		out = o.scanMedia(name, data)
	case ".woff", ".woff2", ".ttf", ".otf", ".ico":
	default:
		out = o.sc.Scan(Body, string(data))
	}
	slices.SortFunc(out, func(a, b Finding) int { return cmp.Or(cmp.Compare(a.Start, b.Start), cmp.Compare(a.End, b.End)) })
	return out
}

// plainBlock is block by the rules of a body.
func (o *Output) plainBlock(s *stitched) []Finding { return o.block(s, Body, 0, o.body) }

// block scans one run of text unless the same run was silent before; way is the
// sum of zone and base.
func (o *Output) block(s *stitched, zone Zone, base flag, way uint64) []Finding {
	text, lead := trimmed(s.text, zone)
	if len(bytes.TrimSpace(text)) < 3 {
		return nil
	}
	sum := o.silent.sum(text, way)
	if o.silent.has(sum) {
		return nil
	}
	var found []Finding
	if zone != FrontMatter || base != 0 || !o.sc.readSilent(text) {
		// The scan keeps nothing of the text, which need not be copied for it.
		found = o.sc.scanAs(zone, unsafe.String(unsafe.SliceData(text), len(text)), base)
	}
	if len(found) == 0 {
		o.silent.add(sum)
		return nil
	}
	for i := range found {
		end := s.source(lead+found[i].End-1) + 1
		found[i].Start = s.source(lead + found[i].Start)
		found[i].End = max(end, found[i].Start+1)
	}
	return found
}

// trimmed is a text without the blanks round it, and how many stood before it.
// Front matter keeps those: the indentation says what belongs to which key.
func trimmed(text []byte, zone Zone) ([]byte, int) {
	from, to := 0, len(text)
	for to > 0 && trims(text[to-1]) {
		to--
	}
	if zone != FrontMatter {
		for from < to && trims(text[from]) {
			from++
		}
	}
	return text[from:to], from
}

// blanks are what stands round a text and is no part of it.
const blanks = " \n\t\r"

func trims(c byte) bool { return c == ' ' || c == '\n' || c == '\t' || c == '\r' }

// scanMedia wants a published picture to be clean already.
func (o *Output) scanMedia(name string, data []byte) []Finding {
	out, removed, err := o.sc.Clean(name, data)
	if err == nil && len(removed) == 0 && bytes.Equal(out.Data, data) {
		return nil
	}
	return []Finding{{Other, 0, max(1, len(data)), Block, RuleUnclean}}
}

// scanArchive scans the entries of a zip file and its loose fields.
func (o *Output) scanArchive(data []byte) []Finding {
	broken := []Finding{{Other, 0, max(1, len(data)), Block, RuleUnclean}}
	r, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return broken
	}
	out := o.sc.Scan(Body, r.Comment)
	left := uint64(maxUnpacked)
	for _, f := range r.File {
		at, err := f.DataOffset()
		if err != nil || f.UncompressedSize64 > left {
			return broken
		}
		left -= f.UncompressedSize64
		rc, err := f.Open()
		if err != nil {
			return broken
		}
		b, err := io.ReadAll(io.LimitReader(rc, int64(f.UncompressedSize64)+1))
		if rc.Close() != nil || err != nil || strings.EqualFold(path.Ext(f.Name), ".zip") {
			return broken
		}
		found := append(o.sc.Scan(Filename, f.Name), o.Scan(f.Name, b)...)
		found = append(found, o.sc.Scan(Body, f.Comment)...)
		for _, x := range found {
			x.Start, x.End = int(at), int(at)+max(1, int(f.CompressedSize64))
			out = append(out, x)
		}
	}
	return out
}

// Excepted takes out of the findings of a written file those that repeat what
// an exception of the bank covers: the same class, and the exception's match
// in or around the finding. Apply has counted the occurrences in the sources;
// a page may repeat them.
func Excepted(found []Finding, data []byte, exceptions []Exception) []Finding {
	var left []Finding
	for _, f := range found {
		covered := slices.ContainsFunc(exceptions, func(e Exception) bool {
			if e.Class != f.Class || e.Match == "" || AcceptsNone(f) {
				return false
			}
			match, _ := normalise(Body, e.Match)
			around := data[max(0, f.Start-2*len(match)):min(len(data), f.End+2*len(match))]
			text, _ := normalise(Body, string(around))
			return strings.Contains(text, match)
		})
		if !covered {
			left = append(left, f)
		}
	}
	return left
}
