package builder_test

import (
	"os"
	"path/filepath"
	"regexp"
	"testing"
)

// inlineDrawing is a picture that stands in the page itself.
var inlineDrawing = regexp.MustCompile(`(?s)<svg\b.*?</svg>`)

// A page of a case is at most 60 KB before its pictures, of which its drawings
// are some. The limit for the whole, drawings too, is one of our own.
func TestCasePagesAreLight(t *testing.T) {
	const most, mostWhole = 60_000, 90_000
	pages, err := filepath.Glob(filepath.Join(demoHandout(t), "cases", "*.html"))
	if err != nil || len(pages) < 20 {
		t.Fatalf("%v, %d pages", err, len(pages))
	}
	var heaviest, heaviestWhole int
	for _, name := range pages {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		bare := len(inlineDrawing.ReplaceAll(data, nil))
		heaviest, heaviestWhole = max(heaviest, bare), max(heaviestWhole, len(data))
		if bare > most || len(data) > mostWhole {
			t.Errorf("%s: %d bytes before its drawings, want at most %d; %d with them, want at most %d", filepath.Base(name), bare, most, len(data), mostWhole)
		}
	}
	t.Logf("the heaviest of %d: %d bytes before its drawings, %d with them", len(pages), heaviest, heaviestWhole)
}
