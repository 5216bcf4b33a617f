package builder_test

import (
	"bytes"
	"image"
	"image/jpeg"
	"math/rand/v2"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/chromedp/chromedp"
)

// photoBank is a bank of one case that shows a photograph of 1800 by 900 pixels.
func photoBank(t *testing.T) fstest.MapFS {
	t.Helper()
	photo := image.NewGray(image.Rect(0, 0, 1800, 900))
	grain := rand.New(rand.NewPCG(3, 4))
	for i := range photo.Pix {
		photo.Pix[i] = byte(i/1800/8 + grain.IntN(40))
	}
	var data bytes.Buffer
	if err := jpeg.Encode(&data, photo, nil); err != nil {
		t.Fatal(err)
	}
	return fstest.MapFS{
		"bank.yaml":     {Data: []byte("title: One photograph\n")},
		"cases/ab-1.md": smallCase("AB-1", attested, "![What is to be seen](<eye.jpg>)"),
		"cases/eye.jpg": {Data: data.Bytes()},
	}
}

// A large photograph is published with smaller ones beside it; the page says how
// large it is, so that nothing shifts, and lets the browser choose.
func TestPictureWidths(t *testing.T) {
	bank := photoBank(t)
	out := filepath.Join(t.TempDir(), "handout")
	build(t, bank, out)
	files := filesOf(t, out)
	page := string(files["cases/ab-1.html"])
	for _, want := range []string{
		`<img src="../cases/ab-1-01.jpg" alt="What is to be seen" loading="lazy" decoding="async" width="1800" height="900"`,
		`srcset="../cases/ab-1-01-640w.jpg 640w, ../cases/ab-1-01-1280w.jpg 1280w, ../cases/ab-1-01.jpg 1800w" sizes=`,
	} {
		if !strings.Contains(page, want) {
			t.Errorf("the page does not have %s", want)
		}
	}
	last := 0
	for _, name := range []string{"cases/ab-1-01-640w.jpg", "cases/ab-1-01-1280w.jpg", "cases/ab-1-01.jpg"} {
		if n := len(files[name]); n <= last {
			t.Errorf("%s has %d bytes, a smaller one %d", name, n, last)
		} else {
			last = n
		}
	}
}

// A browser with a narrow window loads the small picture, and nothing of the
// page moves when it comes.
func TestNarrowWindowLoadsSmallPicture(t *testing.T) {
	ctx := browser(t)
	out := filepath.Join(t.TempDir(), "handout")
	build(t, photoBank(t), out)
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(390, 800)); err != nil {
		t.Fatal(err)
	}
	open(t, ctx, out, "cases/ab-1.html", true)
	evaluate[bool](t, ctx, `(document.querySelectorAll("details").forEach(d => d.open = true), document.querySelector("main img").scrollIntoView(), true)`)
	soon(t, ctx, "the small picture", `document.querySelector("main img").currentSrc.endsWith("/ab-1-01-640w.jpg")`)
	soon(t, ctx, "its shape", `(r => Math.abs(r.width / r.height - 2) < 0.02)(document.querySelector("main img").getBoundingClientRect())`)
}
