package privacy

import (
	"html"
	"sort"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

// seg maps a stretch of the normalised copy to the raw text. With atom == 0
// bytes correspond one to one from raw on; otherwise the whole stretch stands
// for the atom raw bytes there.
type seg struct{ norm, raw, atom int32 }

// offsets turns places in the normalised copy into places in the raw text.
// Nil means that the two are the same.
type offsets []seg

func (o offsets) find(n int) seg {
	i := sort.Search(len(o), func(i int) bool { return int(o[i].norm) > n }) - 1
	return o[max(i, 0)]
}

// start is the raw offset of the piece that normalised byte n came from.
func (o offsets) start(n int) int {
	if o == nil {
		return n
	}
	s := o.find(n)
	if s.atom > 0 {
		return int(s.raw)
	}
	return int(s.raw) + n - int(s.norm)
}

// end is the raw offset just after the piece of normalised byte n-1.
func (o offsets) end(n int) int {
	if o == nil {
		return n
	}
	s := o.find(n - 1)
	if s.atom > 0 {
		return int(s.raw + s.atom)
	}
	return int(s.raw) + n - int(s.norm)
}

// normaliser writes the copy that the rules read: entities decoded, NFKC,
// invisible characters dropped, every decimal digit to 0-9, dashes, quotes and
// spaces folded, marks of emphasis inside text dropped, lines that an editor
// has wrapped joined. Offsets stay known.
type normaliser struct {
	zone Zone
	raw  string
	out  []byte
	segs offsets
	done int // raw bytes before this are written
}

// unusual marks the bytes that may need work; all others are copied in runs.
var unusual = func() (t [256]bool) {
	for _, c := range []byte(" \n\r\t\v\f&*`_~<\\%[\x00") {
		t[c] = true
	}
	for c := 0x80; c < 256; c++ {
		t[c] = true
	}
	return
}()

// blankBytes are those that one space stands for where several follow one another.
var blankBytes = [256]bool{' ': true, '\t': true, '\r': true, '\n': true, '\v': true, '\f': true}

// normalise returns the copy and the way back.
func normalise(zone Zone, raw string) (string, offsets) {
	var n normaliser
	return n.normalise(zone, raw)
}

// normalise is the function of that name. The way back stands until the next call.
func (n *normaliser) normalise(zone Zone, raw string) (string, offsets) {
	*n = normaliser{zone: zone, raw: raw, out: n.out[:0], segs: n.segs[:0]}
	for i := 0; i < len(raw); {
		switch c := raw[i]; {
		case !unusual[c], c == ' ' && (i+1 == len(raw) || !blankBytes[raw[i+1]]):
			i++
		default:
			i = n.step(i)
		}
	}
	if n.done == 0 {
		return raw, nil
	}
	n.flush(len(raw))
	n.segs = append(n.segs, seg{int32(len(n.out)), int32(len(raw)), 0})
	return string(n.out), n.segs
}

// flush copies raw text up to i as it is.
func (n *normaliser) flush(i int) {
	if i <= n.done {
		return
	}
	n.segs = append(n.segs, seg{int32(len(n.out)), int32(n.done), 0})
	n.out = append(n.out, n.raw[n.done:i]...)
	n.done = i
}

// replace writes s for raw[i:j] and returns j.
func (n *normaliser) replace(i, j int, s string) int {
	n.flush(i)
	if s != "" {
		n.segs = append(n.segs, seg{int32(len(n.out)), int32(i), int32(j - i)})
		n.out = append(n.out, s...)
	}
	n.done = j
	return j
}

// step deals with the unusual byte at i and returns where to go on.
func (n *normaliser) step(i int) int {
	switch c := n.raw[i]; {
	case blankBytes[c]:
		return n.space(i)
	case c >= utf8.RuneSelf:
		return n.wide(i)
	case c == '&':
		return n.entity(i)
	case c == '<':
		return n.tag(i)
	case c == '%':
		return n.percent(i)
	case c == '\\':
		if i+1 < len(n.raw) && isPunct(n.raw[i+1]) && n.zone != Filename {
			return n.replace(i, i+1, "")
		}
	case c == '[' && strings.HasPrefix(n.raw[i:], "[.]"): // an address made harmless
		return n.replace(i, i+3, ".")
	case n.zone == Filename:
	case c == '*' || c == '`' || c == '~' && i+1 < len(n.raw) && n.raw[i+1] == '~':
		return n.replace(i, i+1, "")
	case c == '_':
		before := i > 0 && isWordByte(n.raw[i-1])
		after := i+1 < len(n.raw) && isWordByte(n.raw[i+1])
		if !before || !after {
			return n.replace(i, i+1, "")
		}
	}
	return i + 1
}

// space folds a run of blanks to one space, or to one line end where a block
// ends there.
func (n *normaliser) space(i int) int {
	j, lines := i, 0
	for j < len(n.raw) && blankBytes[n.raw[j]] {
		if n.raw[j] == '\n' {
			lines++
		}
		j++
	}
	switch {
	case lines == 0 && j == i+1 && n.raw[i] == ' ':
		return j
	case lines == 0:
		return n.replace(i, j, " ")
	case lines > 1 || breaksHere(n.zone, n.raw, i, j):
		if j == i+1 || n.zone == FrontMatter { // the indentation says what belongs to which key
			return j
		}
		return n.replace(i, j, "\n")
	case i > 1 && n.raw[i-1] == '-' && isWordByte(n.raw[i-2]):
		return n.replace(i, j, "")
	default:
		return n.replace(i, j, " ")
	}
}

// wide deals with one character beyond ASCII, with the marks that follow it.
func (n *normaliser) wide(i int) int {
	r, size := utf8.DecodeRuneInString(n.raw[i:])
	if r == utf8.RuneError && size <= 1 {
		return i + 1
	}
	if s, ok := foldRune(r); ok {
		return n.replace(i, i+size, s)
	}
	if (r == 0xB7 || r == 0x2022 || r == 0x2219 || r == 0x22C5) && i > 0 && isDigit(n.raw[i-1]) && i+size < len(n.raw) && isDigit(n.raw[i+size]) {
		return n.replace(i, i+size, ".") // a raised point between figures
	}
	start := i
	if unicode.Is(unicode.Mn, r) && i > n.done && i > 0 && n.raw[i-1] < utf8.RuneSelf {
		start = i - 1
	}
	j := i + size
	for k := 0; j < len(n.raw) && k < 8; k++ {
		m, w := utf8.DecodeRuneInString(n.raw[j:])
		if !unicode.Is(unicode.Mn, m) {
			break
		}
		j += w
	}
	piece := n.raw[start:j]
	if norm.NFKC.IsNormalString(piece) {
		return j
	}
	var b strings.Builder
	for _, r := range norm.NFKC.String(piece) {
		if s, ok := foldRune(r); ok {
			b.WriteString(s)
		} else {
			b.WriteRune(r)
		}
	}
	return n.replace(start, j, b.String())
}

// entity decodes an HTML character reference.
func (n *normaliser) entity(i int) int {
	j := strings.IndexByte(n.raw[i:min(len(n.raw), i+34)], ';')
	if j < 2 {
		return i + 1
	}
	j += i + 1
	s := html.UnescapeString(n.raw[i:j])
	if s == n.raw[i:j] {
		return i + 1
	}
	var b strings.Builder
	for _, r := range norm.NFKC.String(s) {
		if f, ok := foldRune(r); ok {
			b.WriteString(f)
		} else {
			b.WriteRune(r)
		}
	}
	return n.replace(i, j, b.String())
}

// inlineTags are the tags that may stand inside a word; they are dropped so
// that they do not hide it. br and wbr part and join.
var inlineTags = map[string]string{
	"b": "", "i": "", "em": "", "strong": "", "u": "", "s": "", "span": "", "sup": "", "sub": "", "mark": "",
	"small": "", "ins": "", "del": "", "c": "", "font": "", "ruby": "", "tt": "", "q": "", "wbr": "", "br": " ",
}

// tag drops an inline tag without attributes, a caption's class tag and a
// caption's inner time stamp.
func (n *normaliser) tag(i int) int {
	j := strings.IndexByte(n.raw[i:min(len(n.raw), i+40)], '>')
	if j < 2 {
		return i + 1
	}
	name := strings.Trim(n.raw[i+1:i+j], "/ ")
	s, ok := inlineTags[strings.ToLower(name)]
	if !ok && n.zone == Caption {
		ok = strings.HasPrefix(name, "c.") || strings.Trim(name, "0123456789:.") == ""
	}
	if !ok {
		return i + 1
	}
	return n.replace(i, i+j+1, s)
}

// percent decodes %20, and in file names every printable %XX.
func (n *normaliser) percent(i int) int {
	if i+2 >= len(n.raw) {
		return i + 1
	}
	hi, ok1 := hexValue(n.raw[i+1])
	lo, ok2 := hexValue(n.raw[i+2])
	c := hi<<4 | lo
	if !ok1 || !ok2 || c < ' ' || c >= 0x7F || n.zone != Filename && c != ' ' {
		return i + 1
	}
	return n.replace(i, i+3, string(rune(c)))
}

func hexValue(c byte) (byte, bool) {
	switch {
	case c >= '0' && c <= '9':
		return c - '0', true
	case c >= 'a' && c <= 'f':
		return c - 'a' + 10, true
	case c >= 'A' && c <= 'F':
		return c - 'A' + 10, true
	}
	return 0, false
}

func isPunct(c byte) bool {
	return c >= '!' && c <= '/' || c >= ':' && c <= '@' || c >= '[' && c <= '`' || c >= '{' && c <= '~'
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

func isWordByte(c byte) bool {
	return c >= '0' && c <= '9' || c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= utf8.RuneSelf
}
