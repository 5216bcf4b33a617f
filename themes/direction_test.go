package themes

import (
	"io/fs"
	"regexp"
	"slices"
	"strings"
	"testing"
)

var (
	cssComment = regexp.MustCompile(`(?s)/\*.*?\*/`)
	// sideNamed finds properties and values that name a side of the window, where they should
	// name a side of the text.
	sideNamed = regexp.MustCompile(`[;{\s](?:(?:margin|padding|border|inset|scroll-margin|scroll-padding)-(?:left|right)[a-z-]*|left|right|border-(?:top|bottom)-(?:left|right)-radius)\s*:|(?:text-align|float|clear|caption-side|background-position|transform-origin|object-position|justify-content|justify-self)\s*:[^;}]*\b(?:left|right)\b|translateX|skew`)
	// shorthand finds four values, the second and the fourth of which are the right and the left.
	shorthand = regexp.MustCompile(`(?:margin|padding|inset|border-width|border-style|border-color|border-radius|scroll-margin|scroll-padding)\s*:\s*([^\s;}]+)\s+([^\s;}]+)\s+([^\s;}]+)\s+([^\s;}]+)\s*[;}]`)
)

// physicalAllowed are rules that may name a side, and why.
var physicalAllowed = map[string]string{}

// Styles speak of the start and the end of a line, so that a page which runs from right to
// left is the mirror of one which runs from left to right. The boxes in the margin of a sheet
// (@bottom-right) have physical names only, and no property of theirs is meant here.
func TestStylesHaveNoSides(t *testing.T) {
	all := sheets(t)
	charts, err := fs.ReadFile(FS(), "charts/charts.css")
	if err != nil {
		t.Fatal(err)
	}
	all["charts.css"] = string(charts)
	for name, css := range all {
		for _, fault := range sided(css) {
			if physicalAllowed[name+" "+fault] == "" {
				t.Errorf("%s: %q names a side of the window", name, fault)
			}
		}
	}
}

func sided(css string) []string {
	css = cssComment.ReplaceAllString(css, "")
	var out []string
	for _, m := range sideNamed.FindAllString(css, -1) {
		out = append(out, strings.Trim(m, "{; \n:"))
	}
	for _, m := range shorthand.FindAllStringSubmatch(css, -1) {
		if m[2] != m[4] {
			out = append(out, strings.TrimSpace(m[0]))
		}
	}
	slices.Sort(out)
	return out
}

// The check itself finds what it is for, and no more.
func TestSided(t *testing.T) {
	for css, want := range map[string]int{
		"a { margin-left: 1px; }":         1,
		"a{padding-right:0}":              1,
		"a { text-align: right; }":        1,
		"a { float: left }":               1,
		"a { position: fixed; left: 0; }": 1,
		"a { padding: 1px 2px 1px 0; }":   1,
		"a { border-radius: 1px 0 0 1px}": 1,
		"a { transform: translateX(1em)}": 1,
		"a { margin-inline-start: 1px; text-align: start; padding: 1px 2px; inset-inline-end: 0; }": 0,
		"a { padding: 1px 2px 3px 2px; }":                   0,
		"/* left: 0 */ .Eye-left { content: \"left\"; }":    0,
		"@page { @bottom-right { content: counter(page) }}": 0,
	} {
		if got := sided(css); len(got) != want {
			t.Errorf("%q: found %q, want %d", css, got, want)
		}
	}
}
