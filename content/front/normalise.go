package front

import (
	"bytes"
	"encoding/binary"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"

	"caseleaf/content/diagnose"
)

var byteOrderMark = []byte("\ufeff")

// Normalise makes a Source of a file's bytes: a leading byte order mark is
// dropped and line ends become \n, so the same case saved in another editor
// gives the same pages. It reports false, with an error in the bag, when the
// bytes are not text in UTF-8; the check is made on all bytes, comments and
// body included, before any reader sees them.
func Normalise(name string, data []byte, bag *diagnose.Bag) (*diagnose.Source, bool) {
	most := maxFile
	if strings.HasSuffix(name, ".csv") {
		most = maxTable
	}
	if len(data) > most {
		src := diagnose.NewSource(name, nil)
		bag.Error("too-large", src.Span(1, 1, 0), "the file is larger than %d MB, so it is not read; is it a text file?", most>>20)
		return src, false
	}
	if wide := utf16Name(data); wide != "" {
		src := diagnose.NewSource(name, nil)
		bag.Error("not-utf8", src.Span(1, 1, 0),
			"the file is not UTF-8 but %s (some editors call that Unicode); save it again as UTF-8", wide)
		return src, false
	}
	data = bytes.TrimPrefix(data, byteOrderMark)
	data = lineEnds(data)
	src := diagnose.NewSource(name, data)
	if !utf8.Valid(data) {
		notUTF8(src, bag)
		return src, false
	}
	if !isASCII(data) {
		lostLetters(src, bag)
	}
	return src, controls(src, bag)
}

func isASCII(data []byte) bool {
	for ; len(data) >= 8; data = data[8:] {
		if binary.LittleEndian.Uint64(data)&0x8080808080808080 != 0 {
			return false
		}
	}
	for _, c := range data {
		if c >= 0x80 {
			return false
		}
	}
	return true
}

// lineEnds returns data with \r\n and \r turned into \n. The input is left as
// it is; without \r it is returned itself.
func lineEnds(data []byte) []byte {
	if bytes.IndexByte(data, '\r') < 0 {
		return data
	}
	out := make([]byte, 0, len(data))
	for i, c := range data {
		switch {
		case c != '\r':
			out = append(out, c)
		case i+1 == len(data) || data[i+1] != '\n':
			out = append(out, '\n')
		}
	}
	return out
}

// utf16Name names the coding of two bytes a letter that data is in, or "".
func utf16Name(data []byte) string {
	switch {
	case bytes.HasPrefix(data, []byte{0xff, 0xfe}):
		return "UTF-16LE"
	case bytes.HasPrefix(data, []byte{0xfe, 0xff}):
		return "UTF-16BE"
	case len(data) >= 8 && data[0] != 0 && data[1] == 0 && data[2] != 0 && data[3] == 0:
		return "UTF-16LE"
	case len(data) >= 8 && data[0] == 0 && data[1] != 0 && data[2] == 0 && data[3] != 0:
		return "UTF-16BE"
	}
	return ""
}

// notUTF8 reports the first bad byte, and how many there are, in one message.
func notUTF8(src *diagnose.Source, bag *diagnose.Bag) {
	first, count := -1, 0
	for at := 0; at < len(src.Data); {
		r, size := utf8.DecodeRune(src.Data[at:])
		if r == utf8.RuneError && size == 1 {
			if first < 0 {
				first = at
			}
			count++
		}
		at += size
	}
	bad := src.Data[first]
	likely := ""
	if r := charmap.Windows1252.DecodeByte(bad); r != utf8.RuneError && r >= 0xa0 {
		likely = ", which an older Windows editor writes for " + string(r) + ","
	}
	bag.Error("not-utf8", src.SpanAt(first, 1),
		"the file is not UTF-8: byte %02X%s stands here%s; save the file again with the encoding UTF-8", bad, likely, moreInFile(count, "such byte"))
}

// mayControl marks the bytes that control characters are made of or begin with.
var mayControl = [256]bool{0x7f: true, 0xc2: true, 0xef: true}

func init() {
	for c := range 0x20 {
		mayControl[c] = c != '\t' && c != '\n'
	}
}

// controls refuses control characters, which no author types and YAML does not
// take: the first is reported with a count. The data are sound UTF-8.
func controls(src *diagnose.Source, bag *diagnose.Bag) bool {
	first, count := -1, 0
	note := func(at int) {
		if first < 0 {
			first = at
		}
		count++
	}
	data := src.Data
	for i, c := range data {
		if !mayControl[c] {
			continue
		}
		switch {
		case c < 0x20 && c != '\t' && c != '\n' || c == 0x7f:
			note(i)
		case c == 0xc2 && data[i+1] < 0xa0 && data[i+1] != 0x85: // U+0080 to U+009F but the line end U+0085
			note(i)
		case c == 0xef && data[i+1] == 0xbf && data[i+2] >= 0xbe: // U+FFFE and U+FFFF, which are no characters
			note(i)
		}
	}
	if first < 0 {
		return true
	}
	r, size := utf8.DecodeRune(src.Data[first:])
	bag.Error("control-character", src.SpanAt(first, size),
		"an invisible control character (U+%04X) stands here%s; delete it, or is this not a text file?", r, moreInFile(count, "such character"))
	return false
}
