package pack

import (
	"path"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/cases"
	"golang.org/x/text/unicode/norm"
)

// LongestName is the most UTF-16 units that a path in a zip may have. Windows
// allows 260 for the whole path of a file; this leaves room for the folder that
// somebody unpacks into.
const LongestName = 140

// Unsafe says why a path inside a zip can't be stored on every system, or must
// not be followed; "" when it is safe. It holds what Windows, macOS and Linux
// refuse between them, so the answer is the same on each.
func Unsafe(name string) string {
	switch {
	case name == "" || !utf8.ValidString(name):
		return "its name is no text"
	case strings.Contains(name, `\`) || strings.HasPrefix(name, "/") || len(name) > 1 && name[1] == ':':
		return "its name is a path from outside the folder"
	case path.Clean(name) != name || name == "." || name == ".." || strings.HasPrefix(name, "../"):
		return "its name leads out of the folder"
	case units(name) > LongestName:
		return "its name is too long for Windows"
	}
	for part := range strings.SplitSeq(name, "/") {
		if strings.ContainsAny(part, `<>:"|?*`) || strings.ContainsFunc(part, func(r rune) bool { return r < ' ' || r == 0x7f }) {
			return "its name has a sign that Windows can't store"
		}
		if strings.HasSuffix(part, ".") || strings.HasSuffix(part, " ") {
			return "its name ends in a full stop or a space"
		}
		if device(part) {
			return "its name is kept by Windows for a device"
		}
	}
	return ""
}

// units counts a text as Windows does.
func units(s string) int {
	n := 0
	for _, r := range s {
		n++
		if r > 0xffff {
			n++
		}
	}
	return n
}

// device reports the names that Windows keeps, with whatever ending.
func device(part string) bool {
	base, _, _ := strings.Cut(strings.ToLower(part), ".")
	base = strings.TrimRight(base, " ")
	switch base {
	case "con", "prn", "aux", "nul", "conin$", "conout$":
		return true
	}
	number, port := strings.CutPrefix(base, "com")
	if !port {
		number, port = strings.CutPrefix(base, "lpt")
	}
	return port && utf8.RuneCountInString(number) == 1 && strings.Contains("0123456789¹²³", number)
}

// folded is a name as a disk that minds neither capitals nor how a letter is
// stored tells names apart.
func folded(name string) string { return cases.Fold().String(norm.NFC.String(name)) }
