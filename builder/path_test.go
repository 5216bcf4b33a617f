package builder

import (
	"path"
	"regexp"
	"strings"
	"testing"
)

// File stems are safe on every file system and differ where ids do. Expected
// values: field reports FR-21 and FR-22; the form of the stems is our own.
func TestFileStem(t *testing.T) {
	for id, want := range map[string]string{
		"HB-007": "hb-007", "1.10": "1.10", "CON": "con_", "aux.1": "aux_.1", "AUX.1.b": "aux_.1.b", "Com1": "com1_", "com10": "com10",
		"HB-021.": "hb-021_2e_", "HB-021..": "hb-021_2e__2e_", "con.": "con_2e_", "Étude-1": "_e9_tude-1", "007": "007", "12E4": "12e4",
		"comma": "comma", "COM¹": "com_b9_", "lpt9.x": "lpt9_.x", "nul": "nul_", "null": "null",
	} {
		if got := fileStem(id); got != want {
			t.Errorf("fileStem(%q) = %q, want %q", id, got, want)
		}
	}
}

var (
	// What no name on Windows may be, and what makes a name unsafe elsewhere.
	deviceName = regexp.MustCompile(`(?i)^(con|prn|aux|nul|com[0-9¹²³]|lpt[0-9¹²³])(\.|$)`)
	unsafeName = regexp.MustCompile("[<>:\"/\\\\|?*\x00-\x1f]|[. ]$")
)

// FR-21: whatever an id is, its pages have names that every system can store,
// in the folder they belong to, and two ids never share one.
func TestFileStemsOfOddIDs(t *testing.T) {
	ids := []string{
		"CON", "aux.1", "HB/021", "HB:021?", "HB-021.", "HB-021 ", "..", ".", "", "COM¹", "*first*", "n<u>l", "prn.txt.x", "LPT0", "com²",
		"HB-021", "HB-021..", "con-", "con.", "a.b.", "_e9_", "é", "e\u0301-", "\x00", "a\\b", "nul ",
	}
	taken := map[string]string{}
	for _, id := range ids {
		stem := fileStem(id)
		for _, name := range []string{stem, stem + ".html"} {
			if deviceName.MatchString(name) || unsafeName.MatchString(name) || path.Base(path.Clean("cases/"+name)) != name {
				t.Errorf("the id %q gives the name %q", id, name)
			}
		}
		if strings.ToLower(stem) != stem {
			t.Errorf("the id %q gives %q, with capitals", id, stem)
		}
		if other, clash := taken[stem]; clash {
			t.Errorf("the ids %q and %q share the name %q", id, other, stem)
		}
		taken[stem] = id
	}
}
