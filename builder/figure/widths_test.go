package figure

import (
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// faces are places where the three faces of the table are often installed.
var faces = []string{
	"/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf",
	"/usr/share/fonts/truetype/liberation/LiberationSans-Regular.ttf",
	"/usr/share/fonts/opentype/urw-base35/NimbusSans-Regular.otf",
}

// TestWidthsAreConservative compares the table with the faces of this computer.
func TestWidthsAreConservative(t *testing.T) {
	found := 0
	for _, name := range faces {
		b, err := os.ReadFile(name)
		if err != nil {
			continue
		}
		found++
		f, err := sfnt.Parse(b)
		if err != nil {
			t.Fatal(err)
		}
		var buf sfnt.Buffer
		for r, em := range emWidths {
			i, err := f.GlyphIndex(&buf, r)
			if err != nil || i == 0 {
				continue
			}
			advance, err := f.GlyphAdvance(&buf, i, fixed.I(1000), font.HintingNone)
			if err == nil && float64(em*1000) < float64(advance)/64-0.5 {
				t.Errorf("%s: %q is %.0f wide, the table says %.0f", name, r, float64(advance)/64, em*1000)
			}
		}
	}
	if found == 0 {
		t.Skip("SKIPPED: none of the faces is installed; the widths were not compared")
	}
}

func TestWrap(t *testing.T) {
	for _, c := range []struct {
		text  string
		max   Px
		lines int
		want  string
	}{
		{"iris prolapse", 200, 2, "iris prolapse"},
		{"iris prolapse through the wound", 100, 3, "iris prolapse|through the|wound"},
		{"iris prolapse through the wound", 100, 2, "iris prolapse|through the w…"},
		{"pseudoexfoliation", 60, 3, "pseudoex|foliation"},
		{"", 60, 3, ""},
	} {
		got := wrap(c.text, textSize, c.max, c.lines)
		for _, line := range got {
			if textWidth(line, textSize) > c.max {
				t.Errorf("%q at %v: %q is too wide", c.text, c.max, line)
			}
		}
		if strings.Join(got, "|") != c.want {
			t.Errorf("wrap(%q, %v) = %q, want %q", c.text, c.max, strings.Join(got, "|"), c.want)
		}
	}
}

// TestContrast: the colours of stand-alone files on white; 4.5 for text and 3 for lines
// (Web Content Accessibility Guidelines 2.2, 1.4.3 and 1.4.11, from memory).
func TestContrast(t *testing.T) {
	for p, least := range map[Paint]float64{Ink: 4.5, Soft: 4.5, Accent: 4.5, Faint: 3} {
		if got := contrast(t, paints[p].alone, paints[Paper].alone); got < least {
			t.Errorf("%s on white: %.2f, want %.1f", paintNames[p], got, least)
		}
	}
	for _, ground := range []string{"#ffffff", "#14161a", "#000000"} { // faint is the one fixed colour of a page
		if got := contrast(t, "#8a8a8a", ground); got < 3 {
			t.Errorf("faint on %s: %.2f, want 3", ground, got)
		}
	}
}

// contrast gives the ratio of relative luminances, as the guidelines define it.
func contrast(t *testing.T, a, b string) float64 {
	t.Helper()
	la, lb := luminance(t, a), luminance(t, b)
	return (math.Max(la, lb) + 0.05) / (math.Min(la, lb) + 0.05)
}

func luminance(t *testing.T, hex string) float64 {
	t.Helper()
	n, err := strconv.ParseUint(strings.TrimPrefix(hex, "#"), 16, 32)
	if err != nil {
		t.Fatal(err)
	}
	part := func(shift uint, weight float64) float64 {
		c := float64(n>>shift&255) / 255
		if c <= 0.04045 {
			return weight * c / 12.92
		}
		return weight * math.Pow((c+0.055)/1.055, 2.4)
	}
	return part(16, 0.2126) + part(8, 0.7152) + part(0, 0.0722)
}
