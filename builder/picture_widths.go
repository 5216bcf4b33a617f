package builder

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"image"
	"image/jpeg"
	"image/png"
	"path"
	"strings"
	"sync"

	"golang.org/x/image/draw"

	"caseleaf/builder/prose"
	"caseleaf/content/privacy"
)

// A photograph of a theatre camera has thousands of pixels across, and a phone
// shows hundreds. Beside each large picture lie smaller ones, made of its clean
// copy, and the page lets the browser choose.

// madeWidths are the widths of made pictures in pixels: a phone's, and the text
// column's on a screen with two pixels to each of CSS.
var madeWidths = []int{640, 1280}

// pictureSizes says how wide a page shows a picture: as wide as its window, and
// no wider than the text column.
const pictureSizes = "(min-width: 46rem) 38rem, 92vw"

const madeQuality = 82 // of JPEG, 1 to 100

// sized is a picture as pages show it, and the smaller ones made of it.
type sized struct {
	width, height int // pixels as shown, after any turn; 0 where not known
	made          []madePicture
}

type madePicture struct {
	width int
	data  []byte
}

// madeOnce keeps made pictures for as long as the program runs, by the digest of
// the clean copy: a preview plans the handout anew at every save.
var madeOnce sync.Map // [32]byte to sized

// sizePictures makes the smaller pictures of those that pages show, several at a
// time. A picture that cannot be read has none; [Site.addPictures] says why.
func (s *Site) sizePictures() {
	s.sizes = map[string]sized{}
	if s.Options.BankFiles == nil {
		return
	}
	var mu sync.Mutex
	var jobs []func() error
	for file := range s.pictures {
		clean, err := s.clean(file)
		if err != nil || clean.Width == 0 {
			continue
		}
		jobs = append(jobs, func() error {
			digest := sha256.Sum256(clean.Data)
			known, ok := madeOnce.Load(digest)
			if !ok {
				known, _ = madeOnce.LoadOrStore(digest, sizedOf(clean))
			}
			mu.Lock()
			defer mu.Unlock()
			s.sizes[file] = known.(sized)
			return nil
		})
	}
	_ = parallel(jobs, nil) // no job fails
}

// sizedOf makes the smaller pictures of one: of photographs and of still PNG
// without a palette, never wider than four fifths of it, and none that would be
// more to load. What moves and what is drawn in lines stays alone.
func sizedOf(clean privacy.Cleaned) sized {
	out := sized{width: clean.Width, height: clean.Height}
	if clean.Orientation >= 5 {
		out.width, out.height = out.height, out.width
	}
	if out.width*4 < madeWidths[0]*5 || !canBeMade(clean) {
		return out
	}
	whole, _, err := image.Decode(bytes.NewReader(clean.Data))
	if err != nil {
		return out
	}
	switch whole.(type) {
	case *image.Paletted, *image.CMYK:
		return out
	}
	least := len(clean.Data)
	for i := len(madeWidths) - 1; i >= 0; i-- {
		if width := madeWidths[i]; width*5 <= out.width*4 {
			data, err := encode(turned(scaled(whole, clean.Orientation, width, out), clean.Orientation), clean.Kind)
			if err != nil || len(data) >= least {
				continue
			}
			least = len(data)
			out.made = append([]madePicture{{width, data}}, out.made...)
		}
	}
	return out
}

// canBeMade reports whether a smaller copy would look the same: a picture that
// moves would stand still, and one with colours of its own (cHRM, gAMA, cICP)
// would lose them.
func canBeMade(clean privacy.Cleaned) bool {
	switch clean.Kind {
	case privacy.JPEG:
		return true
	case privacy.PNG:
		head, _, _ := bytes.Cut(clean.Data, []byte("IDAT"))
		for _, chunk := range []string{"acTL", "gAMA", "cHRM", "cICP"} {
			if bytes.Contains(head, []byte(chunk)) {
				return false
			}
		}
		return true
	}
	return false
}

// scaled is a picture, not yet turned, so small that it is as wide as wanted
// once it is turned.
func scaled(whole image.Image, orientation, width int, shown sized) image.Image {
	size := image.Rect(0, 0, width, max(1, (shown.height*width+shown.width/2)/shown.width))
	if orientation >= 5 {
		size.Max.X, size.Max.Y = size.Max.Y, size.Max.X
	}
	var small draw.Image = image.NewRGBA(size)
	switch whole.(type) {
	case *image.Gray, *image.Gray16:
		small = image.NewGray(size)
	case *image.NRGBA, *image.NRGBA64:
		small = image.NewNRGBA(size)
	}
	draw.CatmullRom.Scale(small, size, whole, whole.Bounds(), draw.Src, nil)
	return small
}

// turned bakes an Exif orientation (2 to 8) into the pixels.
func turned(from image.Image, orientation int) image.Image {
	if orientation < 2 || orientation > 8 {
		return from
	}
	b := from.Bounds()
	w, h := b.Dx(), b.Dy()
	to := image.NewRGBA(image.Rect(0, 0, w, h))
	if orientation >= 5 {
		to = image.NewRGBA(image.Rect(0, 0, h, w))
	}
	for y := range h {
		for x := range w {
			tx, ty := shownAt(orientation, x, y, w, h)
			to.Set(tx, ty, from.At(b.Min.X+x, b.Min.Y+y))
		}
	}
	return to
}

// shownAt is where a pixel of a picture of w by h pixels, as stored, is shown:
// Exif 2.32, tag 274, orientation.
func shownAt(orientation, x, y, w, h int) (int, int) {
	switch orientation {
	case 2:
		return w - 1 - x, y
	case 3:
		return w - 1 - x, h - 1 - y
	case 4:
		return x, h - 1 - y
	case 5:
		return y, x
	case 6:
		return h - 1 - y, x
	case 7:
		return h - 1 - y, w - 1 - x
	case 8:
		return y, w - 1 - x
	}
	return x, y
}

func encode(picture image.Image, kind privacy.MediaKind) ([]byte, error) {
	var out bytes.Buffer
	var err error
	if kind == privacy.JPEG {
		err = jpeg.Encode(&out, picture, &jpeg.Options{Quality: madeQuality})
	} else {
		err = (&png.Encoder{CompressionLevel: png.BestCompression}).Encode(&out, picture)
	}
	return out.Bytes(), err
}

// madePath is the path of a smaller picture of a published one:
// cases/hb-007-01-640w.jpg of cases/hb-007-01.jpg.
func madePath(published string, width int) string {
	ext := path.Ext(published)
	return fmt.Sprintf("%s-%dw%s", strings.TrimSuffix(published, ext), width, ext)
}

// shownPicture is what an img needs besides its address; root stands before
// every path of the handout.
func (s *Site) shownPicture(file, root string) prose.Picture {
	size, published := s.sizes[file], s.pictures[file]
	p := prose.Picture{Width: size.width, Height: size.height}
	if len(size.made) == 0 {
		return p
	}
	var set []string
	for _, m := range size.made {
		set = append(set, fmt.Sprintf("%s%s %dw", root, madePath(published, m.width), m.width))
	}
	p.Set = strings.Join(append(set, fmt.Sprintf("%s%s %dw", root, published, size.width)), ", ")
	p.Sizes = pictureSizes
	return p
}
