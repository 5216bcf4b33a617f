package themes

import (
	"fmt"
	"io/fs"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// sheets returns every style sheet by name.
func sheets(t *testing.T) map[string]string {
	t.Helper()
	names, err := fs.Glob(FS(), "styles/*.css")
	if err != nil || len(names) == 0 {
		t.Fatalf("no style sheets: %v", err)
	}
	paper, err := fs.Glob(FS(), "paper/*.css")
	if err != nil || len(paper) == 0 {
		t.Fatalf("no style sheets for paper: %v", err)
	}
	names = append(names, paper...)
	out := map[string]string{}
	for _, name := range names {
		data, err := fs.ReadFile(FS(), name)
		if err != nil {
			t.Fatal(err)
		}
		out[strings.TrimPrefix(name, "styles/")] = string(data)
	}
	return out
}

var declaration = regexp.MustCompile(`(--[a-z0-9-]+):\s*([^;]+);`)

// modes reads the intents of each mode, resolved to palette colours: the first
// block is light; each block after it changes some of them.
func modes(t *testing.T) map[string]map[string]string {
	t.Helper()
	all := sheets(t)
	palette := map[string]string{}
	for _, m := range declaration.FindAllStringSubmatch(all["10-palette.css"], -1) {
		palette["var("+m[1]+")"] = m[2]
	}
	out := map[string]map[string]string{}
	blocks := strings.Split(all["20-intent.css"], "@media")
	names := []string{"light", "dark", "print", "forced"}
	if len(blocks) != len(names) {
		t.Fatalf("%d blocks of intents, want %d", len(blocks), len(names))
	}
	for i, name := range names {
		out[name] = map[string]string{}
		for k, v := range out["light"] {
			out[name][k] = v
		}
		for _, m := range declaration.FindAllStringSubmatch(blocks[i], -1) {
			value := m[2]
			if colour, ok := palette[value]; ok {
				value = colour
			}
			out[name][m[1]] = value
		}
	}
	return out
}

// luminance is the relative luminance of WCAG 2.2.
func luminance(t *testing.T, hex string) float64 {
	t.Helper()
	v, err := strconv.ParseUint(strings.TrimPrefix(hex, "#"), 16, 32)
	if err != nil || len(hex) != 7 {
		t.Fatalf("%q is no colour of six digits", hex)
	}
	linear := func(c uint64) float64 {
		s := float64(c&0xff) / 255
		if s <= 0.04045 {
			return s / 12.92
		}
		return math.Pow((s+0.055)/1.055, 2.4)
	}
	return 0.2126*linear(v>>16) + 0.7152*linear(v>>8) + 0.0722*linear(v)
}

// contrast is (L1 + 0.05) / (L2 + 0.05), the lighter one first (WCAG 2.2).
func contrast(t *testing.T, a, b string) float64 {
	x, y := luminance(t, a), luminance(t, b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

// Black on white is 21 and a colour on itself 1 (WCAG 2.2, definition of
// contrast ratio); #767676 on white is 4.54, the well-known lightest passing
// grey (from memory).
func TestContrastItself(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want float64
	}{{"#000000", "#ffffff", 21}, {"#123456", "#123456", 1}, {"#767676", "#ffffff", 4.54}} {
		if got := contrast(t, c.a, c.b); math.Abs(got-c.want) > 0.005 {
			t.Errorf("%s on %s: got %.3f, want %.2f", c.a, c.b, got, c.want)
		}
	}
}

// Text has 4.5 to 1 (WCAG 2.2, 1.4.3), controls and marks 3 to 1 (1.4.11), and
// text on paper 7 to 1.
func TestContrastOfIntents(t *testing.T) {
	pairs := []struct {
		on, under string
		least     float64
	}{
		{"--color-text", "--color-page", 7}, {"--color-text", "--color-raised", 7}, {"--color-text", "--color-marked", 7},
		{"--color-quiet", "--color-page", 4.5}, {"--color-quiet", "--color-raised", 4.5}, {"--color-quiet", "--color-marked", 4.5},
		{"--color-accent", "--color-page", 4.5}, {"--color-accent", "--color-marked", 4.5},
		{"--color-on-accent", "--color-accent", 4.5},
		{"--color-edge", "--color-page", 3},
	}
	for mode, intents := range modes(t) {
		if mode == "forced" {
			continue // the reader's own colours
		}
		for _, p := range pairs {
			least := p.least
			if mode == "print" && p.on != "--color-edge" {
				least = 7
			}
			if got := contrast(t, intents[p.on], intents[p.under]); got < least {
				t.Errorf("%s: %s on %s is %.2f, want at least %.1f", mode, p.on, p.under, got, least)
			}
		}
	}
}

var (
	colourLiteral = regexp.MustCompile(`#[0-9a-fA-F]{3,8}\b|\brgba?\(|\bhsla?\(`)
	physical      = regexp.MustCompile(`\b(?:margin|padding|border)-(?:left|right|top|bottom)\b|[{;]\s*(?:left|right|top|bottom|width|height|max-width|min-width)\s*:`)
	variable      = regexp.MustCompile(`var\((--[a-z0-9-]+)`)
)

// Below the two layers, sheets take colours from intents only, know every
// variable they use, and lay out along the direction of the text.
func TestSheetsKeepTheLayers(t *testing.T) {
	all := sheets(t)
	intents := modes(t)["light"]
	for name, css := range all {
		if name == "10-palette.css" || name == "20-intent.css" {
			continue
		}
		if hit := colourLiteral.FindString(css); hit != "" {
			t.Errorf("%s: colour %q outside the palette", name, hit)
		}
		if hit := physical.FindString(css); hit != "" {
			t.Errorf("%s: %q is physical; write the logical property", name, hit)
		}
		for _, m := range variable.FindAllStringSubmatch(css, -1) {
			if _, ok := intents[m[1]]; !ok {
				t.Errorf("%s: %s is no intent", name, m[1])
			}
		}
		if open, shut := strings.Count(css, "{"), strings.Count(css, "}"); open != shut {
			t.Errorf("%s: %d { and %d }", name, open, shut)
		}
	}
}

// Every rule of a class is for one that some template writes: a sheet and its
// markup cannot part unseen.
func TestClassesMeetTheirRules(t *testing.T) {
	written := map[string]bool{}
	names, err := fs.Glob(FS(), "pages/*.tmpl")
	if err != nil {
		t.Fatal(err)
	}
	attribute := regexp.MustCompile(`class="([^"]+)"`)
	for _, name := range append(names, "layout.tmpl") {
		data, err := fs.ReadFile(FS(), name)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range attribute.FindAllStringSubmatch(string(data), -1) {
			for _, class := range strings.Fields(m[1]) {
				if !strings.Contains(class, "{{") {
					written[class] = true
				}
			}
		}
	}
	// Some are written by scripts.
	scripts, err := fs.Glob(FS(), "scripts/*.js")
	if err != nil {
		t.Fatal(err)
	}
	quoted := regexp.MustCompile(`"([A-Z][A-Za-z -]*)"`)
	for _, name := range scripts {
		data, err := fs.ReadFile(FS(), name)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range quoted.FindAllStringSubmatch(string(data), -1) {
			for _, class := range strings.Fields(m[1]) {
				written[class] = true
			}
		}
	}
	// Made from a value, see _timeline.tmpl; the drawings' own are of builder/figure.
	for _, kind := range []string{"step", "event", "finding", "decision"} {
		written["Entry--"+kind] = true
	}
	written["Addresses"], written["Address-call"] = true, true // by builder and builder/prose
	ruled := map[string]bool{}
	selector := regexp.MustCompile(`\.([A-Z][A-Za-z0-9]*(?:--?[a-z]+)*)`)
	for _, css := range sheets(t) {
		for _, m := range selector.FindAllStringSubmatch(css, -1) {
			ruled[m[1]] = true
		}
	}
	for class := range ruled {
		if !written[class] && len(class) > 1 { // one letter: of a drawing (builder/figure)
			t.Errorf("rules for .%s, which no template writes", class)
		}
	}
}

func ExampleFS() {
	data, err := fs.ReadFile(FS(), "layout.tmpl")
	fmt.Println(err == nil, strings.HasPrefix(string(data), "<!doctype html>"))
	// Output: true true
}
