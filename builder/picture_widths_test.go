package builder

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"math/rand/v2"
	"testing"

	"caseleaf/content/privacy"
)

// photograph is a picture with a red corner at the top left of what is stored,
// and grain as of a camera, so that it does not pack to nothing.
func photograph(w, h int) *image.RGBA {
	grain := rand.New(rand.NewPCG(1, 2))
	p := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			c := color.RGBA{uint8(40 + grain.IntN(30)), uint8(90 + y*60/h), uint8(120 + x*60/w), 255}
			if x < w/4 && y < h/4 {
				c = color.RGBA{230, 20, 20, 255}
			}
			p.SetRGBA(x, y, c)
		}
	}
	return p
}

func asJPEG(t *testing.T, p image.Image) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := jpeg.Encode(&out, p, &jpeg.Options{Quality: 95}); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func asPNG(t *testing.T, p image.Image) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := png.Encode(&out, p); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// Of photographs and still pictures smaller ones are made, the same ones every
// time, turned as they are to be shown, with nothing in them but pixels.
func TestMadePictures(t *testing.T) {
	palette := image.NewPaletted(image.Rect(0, 0, 2000, 900), color.Palette{color.White, color.Black})
	moving := bytes.Replace(asPNG(t, photograph(1000, 500)), []byte("IDAT"), []byte("acTL"), 1)
	for _, c := range []struct {
		reason string
		clean  privacy.Cleaned
		shown  [2]int
		made   [][2]int
	}{
		{"a photograph", privacy.Cleaned{Kind: privacy.JPEG, Data: asJPEG(t, photograph(1800, 900)), Width: 1800, Height: 900},
			[2]int{1800, 900}, [][2]int{{640, 320}, {1280, 640}}},
		{"lies on its side", privacy.Cleaned{Kind: privacy.JPEG, Data: asJPEG(t, photograph(900, 1800)), Width: 900, Height: 1800, Orientation: 6},
			[2]int{1800, 900}, [][2]int{{640, 320}, {1280, 640}}},
		{"a still PNG", privacy.Cleaned{Kind: privacy.PNG, Data: asPNG(t, photograph(1000, 500)), Width: 1000, Height: 500},
			[2]int{1000, 500}, [][2]int{{640, 320}}},
		{"1280 is more than four fifths of it", privacy.Cleaned{Kind: privacy.JPEG, Data: asJPEG(t, photograph(1500, 300)), Width: 1500, Height: 300},
			[2]int{1500, 300}, [][2]int{{640, 128}}},
		{"never made larger", privacy.Cleaned{Kind: privacy.JPEG, Data: asJPEG(t, photograph(600, 300)), Width: 600, Height: 300}, [2]int{600, 300}, nil},
		{"few colours: the whole is the smallest", privacy.Cleaned{Kind: privacy.PNG, Data: asPNG(t, palette), Width: 2000, Height: 900}, [2]int{2000, 900}, nil},
		{"it moves", privacy.Cleaned{Kind: privacy.PNG, Data: moving, Width: 1000, Height: 500}, [2]int{1000, 500}, nil},
		{"GIF may move", privacy.Cleaned{Kind: privacy.GIF, Width: 2000, Height: 900}, [2]int{2000, 900}, nil},
		{"drawn in lines", privacy.Cleaned{Kind: privacy.SVG}, [2]int{0, 0}, nil},
	} {
		got, again := sizedOf(c.clean), sizedOf(c.clean)
		if got.width != c.shown[0] || got.height != c.shown[1] || len(got.made) != len(c.made) {
			t.Errorf("%s: %d x %d with %d made, want %v with %d", c.reason, got.width, got.height, len(got.made), c.shown, len(c.made))
			continue
		}
		for i, m := range got.made {
			picture, _, err := image.Decode(bytes.NewReader(m.data))
			if err != nil {
				t.Fatal(err)
			}
			if b := picture.Bounds(); b.Dx() != c.made[i][0] || b.Dy() != c.made[i][1] || m.width != b.Dx() {
				t.Errorf("%s: %v, want %v", c.reason, b, c.made[i])
			}
			if len(m.data) >= len(c.clean.Data) || !bytes.Equal(m.data, again.made[i].data) {
				t.Errorf("%s: %d bytes of %d, or other bytes the second time", c.reason, len(m.data), len(c.clean.Data))
			}
			redCorner(t, c.reason, picture, c.clean.Orientation == 6)
			name := fmt.Sprintf("a.%s", map[privacy.MediaKind]string{privacy.JPEG: "jpg", privacy.PNG: "png"}[c.clean.Kind])
			if _, removed, err := privacy.Clean(name, m.data); err != nil || len(removed) > 0 {
				t.Errorf("%s: the made picture holds %v (%v)", c.reason, removed, err)
			}
		}
	}
}

// redCorner fails unless the red corner is at the left, or at the right where the
// picture was turned.
func redCorner(t *testing.T, reason string, p image.Image, right bool) {
	t.Helper()
	b := p.Bounds()
	red := func(x int) bool {
		r, g, _, _ := p.At(x, b.Dy()/10).RGBA()
		return r>>8 > 180 && g>>8 < 80
	}
	if red(b.Dx()/10) == right || red(b.Dx()-b.Dx()/10) != right {
		t.Errorf("%s: the red corner is on the wrong side", reason)
	}
}

// Where the first pixel of the first row is shown, of a picture of 3 by 2:
// Exif 2.32, tag 274 (row 0 and column 0 in words).
func TestShownAt(t *testing.T) {
	for orientation, want := range map[int][2]int{
		1: {0, 0}, 2: {2, 0}, 3: {2, 1}, 4: {0, 1}, 5: {0, 0}, 6: {1, 0}, 7: {1, 2}, 8: {0, 2},
	} {
		if x, y := shownAt(orientation, 0, 0, 3, 2); [2]int{x, y} != want {
			t.Errorf("%d: %d, %d, want %v", orientation, x, y, want)
		}
	}
}
