package builder

import (
	"fmt"
	"strings"

	"golang.org/x/text/unicode/norm"
)

// Addresses inside a handout: slash-separated, lower case, ASCII, safe on every
// file system, always naming a file.

func casePath(id string) string         { return "cases/" + fileStem(id) + ".html" }
func stepPath(id string) string         { return "steps/" + fileStem(id) + ".html" }
func complicationPath(id string) string { return "complications/" + fileStem(id) + ".html" }
func techniquePath(id string) string    { return "techniques/" + fileStem(id) + ".html" }
func decisionPath(id string) string     { return "decisions/" + fileStem(id) + ".html" }
func coursePath(id string) string       { return "courses/" + fileStem(id) + ".html" }
func glossaryPath(id string) string     { return "glossary.html#" + id }

// rootOf returns what leads from a page back to the handout's folder.
func rootOf(path string) string { return strings.Repeat("../", strings.Count(path, "/")) }

// fileStem makes a file name from an id: lower case, letters outside ASCII as
// their code in hexadecimal, names that Windows reserves marked with a hyphen.
// Different ids that content accepts in one bank give different stems.
func fileStem(id string) string {
	var out strings.Builder
	for _, r := range strings.ToLower(norm.NFC.String(id)) {
		switch {
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9', r == '-', r == '.':
			out.WriteRune(r)
		default:
			fmt.Fprintf(&out, "_%x_", r)
		}
	}
	stem := strings.TrimRight(out.String(), ".")
	if reserved(stem) || stem != out.String() || stem == "" {
		stem += "_"
	}
	return stem
}

// reserved reports names of devices, which Windows keeps with any ending.
func reserved(stem string) bool {
	base, _, _ := strings.Cut(stem, ".")
	switch base {
	case "con", "prn", "aux", "nul":
		return true
	}
	if rest, ok := strings.CutPrefix(base, "com"); ok || strings.HasPrefix(base, "lpt") {
		if !ok {
			rest = strings.TrimPrefix(base, "lpt")
		}
		return len(rest) == 1 && rest[0] >= '0' && rest[0] <= '9'
	}
	return false
}
