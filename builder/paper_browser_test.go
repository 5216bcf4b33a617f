package builder_test

import (
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"caseleaf/casebank"
	"caseleaf/content"

	"github.com/chromedp/chromedp"
)

// papers are the sizes that handouts are printed on.
var papers = []struct {
	name string
	size chromedp.PaperSize
}{{"A4", chromedp.PaperA4}, {"Letter", chromedp.PaperLetter}}

// pdfReader finds pdftotext. Without it the test is skipped, and fails where
// CASELEAF_BROWSER=required.
func pdfReader(t *testing.T) string {
	t.Helper()
	path, err := exec.LookPath("pdftotext")
	if err == nil {
		return path
	}
	if os.Getenv("CASELEAF_BROWSER") == "required" {
		t.Fatal("CASELEAF_BROWSER=required and there is no pdftotext on PATH")
	}
	t.Skip("no pdftotext on PATH: paper was not read")
	return ""
}

// printed prints the open page and gives the text of each sheet.
func printed(t *testing.T, ctx context.Context, reader string, size chromedp.PaperSize) []string {
	t.Helper()
	data, err := chromedp.Run(ctx, chromedp.PrintToPDF(chromedp.PDFPaper(size)))
	if err != nil {
		t.Fatal(err)
	}
	name := filepath.Join(t.TempDir(), "page.pdf")
	if err := os.WriteFile(name, data, 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(reader, name, "-").Output()
	if err != nil {
		t.Fatalf("pdftotext: %v", err)
	}
	// A form feed ends each page.
	return strings.Split(strings.TrimSuffix(string(out), "\f"), "\f")
}

// widerFace sets all text in a face that is about a fifth wider than the usual
// ones, as a browser with other fonts might.
const widerFace = `(() => { const s = document.createElement("style");
  s.textContent = '* { font-family: "DejaVu Serif", "DejaVu Sans", serif !important }'; document.head.append(s); })()`

// Every sheet for the evening before is one side of paper, A4 and Letter, in
// the usual faces and in wider ones, for the demonstration bank and for one of
// generated cases with far more to say of each step.
func TestEveningIsOneSheet(t *testing.T) {
	ctx, reader := browser(t), pdfReader(t)
	big := filepath.Join(t.TempDir(), "handout")
	build(t, benchBank(t, 120), big)
	for name, folder := range map[string]string{"demo": demoHandout(t), "generated": big} {
		sheets, err := filepath.Glob(filepath.Join(folder, "evening", "*.html"))
		if err != nil || len(sheets) < 20 {
			t.Fatalf("%s: %v, %d sheets", name, err, len(sheets))
		}
		for _, file := range sheets {
			p := "evening/" + filepath.Base(file)
			open(t, ctx, folder, p, false)
			for _, paper := range papers {
				pages := printed(t, ctx, reader, paper.size)
				if len(pages) != 1 {
					t.Errorf("%s: %s takes %d pages of %s", name, p, len(pages), paper.name)
				}
			}
			open(t, ctx, folder, p, true)
			evaluate[any](t, ctx, widerFace)
			if pages := printed(t, ctx, reader, chromedp.PaperLetter); len(pages) != 1 {
				t.Errorf("%s: %s takes %d pages of Letter in a wide face", name, p, len(pages))
			}
		}
	}
}

var _ = casebank.FS
var _ content.Case
