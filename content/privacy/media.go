package privacy

import (
	"bytes"
	"cmp"
	"fmt"
	"path"
	"slices"
	"strings"
)

// MediaKind is a kind of picture or clip, told from its bytes.
type MediaKind string

// The kinds that can be cleaned and published.
const (
	JPEG MediaKind = "jpeg"
	PNG  MediaKind = "png"
	WebP MediaKind = "webp"
	GIF  MediaKind = "gif"
	SVG  MediaKind = "svg"
	MP4  MediaKind = "mp4" // MOV too
)

// Limits bound what Clean accepts, so that a hostile file costs no more than
// its size. All are checked before anything is decompressed.
type Limits struct {
	ImageBytes int // a picture's file
	ClipBytes  int // a clip's file
	SVGBytes   int // a drawing's file
	Pixels     int // width x height, summed over the frames of an animation
	Frames     int // frames of an animation
	Nesting    int // elements or boxes inside one another

	scanner *Scanner // reads what is written in a drawing; nil for the built-in one
}

// DefaultLimits suit photographs of 50 megapixels and clips of 512 MiB.
var DefaultLimits = Limits{ImageBytes: 40 << 20, ClipBytes: 512 << 20, SVGBytes: 4 << 20, Pixels: 50_000_000, Frames: 1000, Nesting: 64}

// Cleaned is a picture or clip that may be published.
type Cleaned struct {
	Kind        MediaKind
	Data        []byte    // the clean file
	Width       int       // pixels as stored, before any turn; 0 for SVG and clips
	Height      int       //
	Orientation int       // Exif orientation 1 to 8 that was kept, alone; 0 for none
	Sound       bool      // the clip has a sound track: it needs a review
	Findings    []Finding // sound, and what was found in a drawing's text; offsets into the source
}

// Removed tells one thing that was taken out, by kind and never by value.
type Removed struct {
	Kind  string // place, date, names or remarks, camera or device, thumbnail …
	Block string // the part of the file it stood in: Exif, XMP, comment …
	Bytes int    // length of that part
}

// String gives "place (Exif)".
func (r Removed) String() string { return r.Kind + " (" + r.Block + ")" }

// RefusedError says why a file cannot be published, in words for its author.
type RefusedError struct {
	Name string
	Why  string
}

func (e *RefusedError) Error() string { return fmt.Sprintf("%s: not published: %s", e.Name, e.Why) }

func refuse(why string, args ...any) error { return &RefusedError{Why: fmt.Sprintf(why, args...)} }

// Clean copies what is known to be needed of a picture or clip and drops the
// rest: metadata, thumbnails, comments, private blocks, bytes after the end.
// Pixels are not touched; a JPEG's scan data stay byte for byte. The type is
// read from the bytes, and the extension of name must agree. Files of other
// kinds, damaged files and files beyond the limits are refused with a
// *RefusedError. It does not look at pixels: text and faces in a picture need
// a person.
func Clean(name string, data []byte) (Cleaned, []Removed, error) {
	return DefaultLimits.Clean(name, data)
}

// Clean is like the function Clean, by the words and hosts of this scanner; nil
// stands for the built-in one.
func (sc *Scanner) Clean(name string, data []byte) (Cleaned, []Removed, error) {
	l := DefaultLimits
	l.scanner = sc
	return l.Clean(name, data)
}

// Clean is like the function Clean with other limits.
func (l Limits) Clean(name string, data []byte) (Cleaned, []Removed, error) {
	out, removed, err := l.clean(name, data)
	if err != nil {
		if r, ok := err.(*RefusedError); ok {
			r.Name = name
		} else {
			err = &RefusedError{name, "damaged: " + err.Error()}
		}
		return Cleaned{}, nil, err
	}
	return out, merge(removed), nil
}

func (l Limits) clean(name string, data []byte) (Cleaned, []Removed, error) {
	kind, words := sniff(data)
	if kind == "" {
		return Cleaned{}, nil, refuse("%s", words)
	}
	if ext := strings.ToLower(path.Ext(name)); !slices.Contains(extensions[kind], ext) {
		return Cleaned{}, nil, refuse("it is a %s by its bytes, but its name ends in %q", kind, ext)
	}
	limit := l.ImageBytes
	switch kind {
	case MP4:
		limit = l.ClipBytes
	case SVG:
		limit = l.SVGBytes
	}
	if len(data) > limit {
		return Cleaned{}, nil, refuse("%d bytes; a %s may have %d", len(data), kind, limit)
	}
	switch kind {
	case JPEG:
		return l.cleanJPEG(data)
	case PNG:
		return l.cleanPNG(data)
	case WebP:
		return l.cleanWebP(data)
	case GIF:
		return l.cleanGIF(data)
	case SVG:
		return l.cleanSVG(data)
	default:
		return l.cleanMP4(data)
	}
}

var extensions = map[MediaKind][]string{
	JPEG: {".jpg", ".jpeg"}, PNG: {".png"}, WebP: {".webp"}, GIF: {".gif"}, SVG: {".svg"}, MP4: {".mp4", ".m4v", ".mov"},
}

// refusals are kinds known by their first bytes that are never published.
var refusals = []struct {
	at    int
	magic string
	words string
}{
	{128, "DICM", "a DICOM file; export the frame as PNG or JPEG without overlays"},
	{0, "\x08\x00", "it begins like a DICOM file; export the frame as PNG or JPEG"},
	{0, "\x02\x00", "it begins like a DICOM file; export the frame as PNG or JPEG"},
	{0, "II*\x00", "a TIFF file; export as PNG"},
	{0, "MM\x00*", "a TIFF file; export as PNG"},
	{0, "II+\x00", "a TIFF file; export as PNG"},
	{0, "PK\x03\x04", "an archive or an office file; take the pictures out"},
	{0, "PK\x05\x06", "an archive; take the pictures out"},
	{0, "\xD0\xCF\x11\xE0", "an office file; take the pictures out"},
	{0, "{\\rtf", "a text document; paste its words into the case"},
	{0, "Rar!", "an archive; take the pictures out"},
	{0, "7z\xBC\xAF", "an archive; take the pictures out"},
	{0, "\x1F\x8B", "an archive; take the pictures out"},
	{0, "BZh", "an archive; take the pictures out"},
	{0, "\xFD7zXZ", "an archive; take the pictures out"},
	{257, "ustar", "an archive; take the pictures out"},
	{0, "BM", "a BMP file; export as PNG"},
	{0, "8BPS", "a layered picture; export as PNG"},
	{0, "\x1A\x45\xDF\xA3", "a Matroska or WebM clip; convert it to MP4 without sound"},
	{0, "OggS", "an Ogg file; convert it to MP4 without sound"},
	{8, "AVI ", "an AVI clip; convert it to MP4 without sound"},
	{0, "ID3", "a sound file"},
	{8, "WAVE", "a sound file"},
	{0, "fLaC", "a sound file"},
}

// sniff tells the kind by the bytes, or says in words what a file is that
// cannot be published.
func sniff(data []byte) (MediaKind, string) {
	if bytes.Contains(data[:min(len(data), 1024)], []byte("%PDF-")) {
		return "", "a PDF; export the page as PNG and look at it"
	}
	for _, r := range refusals {
		if len(data) >= r.at+len(r.magic) && string(data[r.at:r.at+len(r.magic)]) == r.magic {
			return "", r.words
		}
	}
	switch {
	case len(data) == 0:
		return "", "it is empty"
	case bytes.HasPrefix(data, []byte("\xFF\xD8\xFF")):
		return JPEG, ""
	case bytes.HasPrefix(data, []byte(pngMagic)):
		return PNG, ""
	case len(data) > 12 && string(data[:4]) == "RIFF" && string(data[8:12]) == "WEBP":
		return WebP, ""
	case bytes.HasPrefix(data, []byte("GIF87a")), bytes.HasPrefix(data, []byte("GIF89a")):
		return GIF, ""
	case len(data) > 12 && string(data[4:8]) == "ftyp":
		switch brand := string(data[8:12]); {
		case strings.HasPrefix(brand, "hei"), strings.HasPrefix(brand, "hev"), brand == "mif1", brand == "msf1":
			return "", "a HEIC picture; export as JPEG"
		case brand == "avif", brand == "avis":
			return "", "an AVIF picture; export as PNG or JPEG"
		case brand == "M4A ", brand == "M4B ":
			return "", "a sound file"
		}
		return MP4, ""
	case len(data) > 8 && (string(data[4:8]) == "moov" || string(data[4:8]) == "mdat" || string(data[4:8]) == "wide" || string(data[4:8]) == "free"):
		return MP4, ""
	case looksSVG(data):
		return SVG, ""
	}
	return "", "of an unknown kind; pictures may be JPEG, PNG, WebP, GIF or SVG, clips MP4 or MOV"
}

// looksSVG says whether text begins, after declarations and comments, with an
// svg element.
func looksSVG(data []byte) bool {
	head := bytes.TrimPrefix(data[:min(len(data), 4096)], []byte("\xEF\xBB\xBF"))
	head = bytes.TrimLeft(head, " \t\r\n")
	return bytes.HasPrefix(head, []byte("<")) && bytes.Contains(head, []byte("<svg"))
}

// merge adds up what was removed, by kind and block, sorted.
func merge(list []Removed) []Removed {
	var out []Removed
	for _, r := range list {
		k := slices.IndexFunc(out, func(o Removed) bool { return o.Kind == r.Kind && o.Block == r.Block })
		if k < 0 {
			out = append(out, r)
		} else {
			out[k].Bytes += r.Bytes
		}
	}
	slices.SortFunc(out, func(a, b Removed) int { return cmp.Or(cmp.Compare(a.Block, b.Block), cmp.Compare(a.Kind, b.Kind)) })
	return out
}

// pixels checks a picture's size before it is decoded.
func (l Limits) pixels(w, h int) error {
	if w <= 0 || h <= 0 || w > l.Pixels/h {
		return refuse("%d x %d pixels; a picture may have %d in all", w, h, l.Pixels)
	}
	return nil
}
