package caption

import (
	"bytes"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
)

// decode returns the text of a caption file and the encoding it was found in.
// A byte order mark decides; without one, zero bytes betray UTF-16 and bytes
// that are no UTF-8 mean Windows-1252, which is said.
func decode(data []byte) (text, encoding string, problems []Problem) {
	switch {
	case bytes.HasPrefix(data, []byte("\xef\xbb\xbf")):
		data = data[3:]
	case bytes.HasPrefix(data, []byte("\xff\xfe")):
		return decodeUTF16(data, unicode.LittleEndian)
	case bytes.HasPrefix(data, []byte("\xfe\xff")):
		return decodeUTF16(data, unicode.BigEndian)
	default:
		if order, ok := unmarkedUTF16(data); ok {
			return decodeUTF16(data, order)
		}
	}
	if utf8.Valid(data) {
		return string(data), "utf-8", nil
	}
	out, err := charmap.Windows1252.NewDecoder().Bytes(data)
	if err != nil { // cannot happen: every byte has a meaning there
		out = bytes.ToValidUTF8(data, []byte("\uFFFD"))
	}
	return string(out), "windows-1252", []Problem{{Line: 1, Message: "not UTF-8; read as Windows-1252"}}
}

func decodeUTF16(data []byte, order unicode.Endianness) (string, string, []Problem) {
	name := "utf-16le"
	if order == unicode.BigEndian {
		name = "utf-16be"
	}
	out, err := unicode.UTF16(order, unicode.UseBOM).NewDecoder().Bytes(data)
	if err != nil {
		out, _ = unicode.UTF16(order, unicode.IgnoreBOM).NewDecoder().Bytes(data)
	}
	problems := []Problem{{Line: 1, Message: "read as " + strings.ToUpper(name)}}
	if len(data)%2 != 0 {
		problems[0].Message += "; the last byte is half a character"
	}
	return strings.TrimPrefix(string(out), "\uFEFF"), name, problems
}

// unmarkedUTF16 recognises UTF-16 without a mark: in mostly Latin text every
// second byte is zero.
func unmarkedUTF16(data []byte) (unicode.Endianness, bool) {
	n := min(len(data), 512) &^ 1
	if n < 8 {
		return unicode.LittleEndian, false
	}
	even, odd := 0, 0
	for i := 0; i < n; i += 2 {
		if data[i] == 0 {
			even++
		}
		if data[i+1] == 0 {
			odd++
		}
	}
	switch {
	case odd*10 > n/2*7 && even == 0:
		return unicode.LittleEndian, true
	case even*10 > n/2*7 && odd == 0:
		return unicode.BigEndian, true
	}
	return unicode.LittleEndian, false
}

// splitLines splits at any line end: LF, CRLF or CR.
func splitLines(text string) []string {
	text = strings.ReplaceAll(text, "\r\n", "\n")
	text = strings.ReplaceAll(text, "\r", "\n")
	text = strings.ReplaceAll(text, "\x00", "\uFFFD")
	return strings.Split(text, "\n")
}
