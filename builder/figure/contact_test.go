package figure

import (
	"bytes"
	"flag"
	"html"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// contactSheet is where the contact sheet goes:
//
//	go test ./builder/figure -run ContactSheet -contact-sheet /tmp/sheet
//
// writes one page for each group of figures, to be looked at wide, narrow, printed, light
// and dark.
var contactSheet = flag.String("contact-sheet", "", "folder to write contact sheets of all figures to")

// samples are the figures by group.
func samples() map[string][]Figure {
	return map[string][]Figure{
		"strip":  {sampleStrip(), generatedStrip(3, 30, 40), generatedStrip(9, 60, 120)},
		"counts": {sampleForest(), sampleRatios(), sampleDelays(), sampleTornado(), sampleOnset(), sampleDelayGroups()},
		"plots":  {sampleFunnel(), sampleCusum(), sampleAcuity()},
		"eye":    {sampleFace(), sampleFaces(), sampleSection()},
		"days":   sampleDays(),
		"trees":  {sampleTree(), sampleMap(), sampleChains(), bigTree()},
	}
}

func TestContactSheet(t *testing.T) {
	if *contactSheet == "" {
		t.Skip("no -contact-sheet folder given")
	}
	for name, figures := range samples() {
		page := sheet(figures)
		if err := os.WriteFile(filepath.Join(*contactSheet, name+".html"), page, 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// sheet puts figures on a page that follows the reader's mode.
func sheet(figures []Figure) []byte {
	var b bytes.Buffer
	b.WriteString(`<!doctype html><html lang="en"><meta charset="utf-8"><title>Contact sheet</title><style>
:root { color-scheme: light dark; }
body { margin: 16px; font-family: system-ui, sans-serif; color: #1a1a1a; background: #fff; --figure-accent: #1d4f7a; }
figcaption { font-size: 13px; max-width: 680px; } figure { margin: 0 0 24px; border-bottom: 1px solid #8a8a8a; }
@media (prefers-color-scheme: dark) { body { color: #e8e8e8; background: #14161a; --figure-accent: #8ab8e6; --figure-paper: #14161a; } }
@media print { body { color: #000; background: #fff; --figure-accent: #1d4f7a; --figure-paper: #fff; } }
` + StyleSheet() + "</style>\n")
	for _, f := range figures {
		b.WriteString("<figure>")
		b.Write(SVG(f))
		b.WriteString("<figcaption>" + html.EscapeString(strings.TrimSpace(f.Caption())) + "</figcaption></figure>\n")
	}
	return b.Bytes()
}
