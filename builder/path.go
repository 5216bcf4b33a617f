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

// fileStem makes a file name from an id: lower case, letters outside ASCII and
// full stops at the end as their code in hexadecimal, and an underscore after a
// name that Windows keeps for a device, whatever its ending: aux.1 becomes
// aux_.1. Different ids that content accepts in one bank give different stems,
// since ids hold no underscore.
func fileStem(id string) string {
	id = strings.ToLower(norm.NFC.String(id))
	if isPlain(id) && !reserved(id) {
		return id
	}
	trimmed := strings.TrimRight(id, ".")
	var out strings.Builder
	for i, r := range id {
		switch {
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9', r == '-', r == '.' && i < len(trimmed):
			out.WriteRune(r)
		default:
			fmt.Fprintf(&out, "_%x_", r)
		}
	}
	base, ending, dotted := strings.Cut(out.String(), ".")
	if base == "" || reserved(base) {
		base += "_"
	}
	if dotted {
		return base + "." + ending
	}
	return base
}

// isPlain reports an id, in lower case, that is a file name as it is; most are.
func isPlain(id string) bool {
	for i := range len(id) {
		if c := id[i]; (c < 'a' || c > 'z') && (c < '0' || c > '9') && c != '-' {
			return false
		}
	}
	return id != ""
}

// reserved reports the names of devices, which Windows keeps with any ending.
func reserved(base string) bool {
	switch base {
	case "con", "prn", "aux", "nul":
		return true
	}
	port := strings.HasPrefix(base, "com") || strings.HasPrefix(base, "lpt")
	return port && len(base) == 4 && base[3] >= '0' && base[3] <= '9'
}

// FileStem makes a safe file name from an id, as the handout's own files are
// named.
func FileStem(id string) string { return fileStem(id) }
