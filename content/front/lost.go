package front

import (
	"bytes"
	"regexp"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"

	"caseleaf/content/diagnose"
)

// twiceForm finds letters that were saved as UTF-8, read as Windows-1252 and
// saved as UTF-8 again: Ã¼ for ü, Â½ for ½, â€™ for a curly apostrophe.
var twiceForm = regexp.MustCompile(`[ÂÃ][\x{80}-\x{bf}]|â€.`)

// lostLetters looks for text that an earlier saving has spoilt. The file itself
// is sound UTF-8, so no reader would say anything.
func lostLetters(src *diagnose.Source, bag *diagnose.Bag) {
	if first := bytes.IndexRune(src.Data, utf8.RuneError); first >= 0 {
		count := bytes.Count(src.Data, []byte(string(utf8.RuneError)))
		bag.Error("lost-letter", src.SpanAt(first, len(string(utf8.RuneError))),
			"a letter was lost here when the file was saved with another encoding%s; type it anew", moreInFile(count, "such place"))
	}
	// The regular expression is slow on a large table, and its letters are rare.
	if !bytes.Contains(src.Data, []byte("Ã")) && !bytes.Contains(src.Data, []byte("Â")) && !bytes.Contains(src.Data, []byte("â€")) {
		return
	}
	places := twiceForm.FindAllIndex(src.Data, maxFaults)
	if len(places) == 0 {
		return
	}
	found := src.Data[places[0][0]:places[0][1]]
	bag.Warn("twice-coded", src.SpanAt(places[0][0], len(found)),
		"%s was probably %s before the file was saved with a wrong encoding%s; type it anew", found, onceCoded(found), moreInFile(len(places), "such place"))
}

// onceCoded takes one of the two codings off, where that gives text.
func onceCoded(text []byte) string {
	var out []byte
	for _, r := range string(text) {
		b, ok := charmap.Windows1252.EncodeRune(r)
		if !ok && r > 0xff {
			return "another letter"
		}
		if !ok {
			b = byte(r)
		}
		out = append(out, b)
	}
	if !utf8.Valid(out) {
		return "another letter"
	}
	return string(out)
}

// moreInFile says how many there are, when there is more than one.
func moreInFile(count int, noun string) string {
	if count < 2 {
		return ""
	}
	return " (there are " + plural(count, noun) + " in the file)"
}
