package privacy

import (
	"bytes"
	"encoding/binary"

	"golang.org/x/image/webp"
)

// The flags of a WebP VP8X header that announce what is removed.
const (
	webpICC  = 0x20
	webpExif = 0x08
	webpXMP  = 0x04
)

// cleanWebP copies VP8X, VP8, VP8L, ALPH, ANIM and ANMF, the last with the same
// list inside, clears the flags of what goes and mends the size.
func (l Limits) cleanWebP(data []byte) (Cleaned, []Removed, error) {
	out := Cleaned{Kind: WebP}
	size := int(binary.LittleEndian.Uint32(data[4:])) + 8
	if size > len(data) || size < 20 {
		return out, nil, refuse("damaged: its size does not agree with its header")
	}
	var removed []Removed
	if size < len(data) {
		removed = append(removed, Removed{"data after the end", "trailer", len(data) - size})
	}
	w := webpCopy{limits: l}
	body, err := w.chunks(data[12:size], false)
	if err != nil {
		return out, nil, err
	}
	removed = append(removed, w.removed...)
	if w.width == 0 {
		return out, nil, refuse("damaged: it holds no picture")
	}
	if err := l.pixels(w.width, w.height); err != nil {
		return out, nil, err
	}
	if w.frames > l.Frames || w.frames > 0 && w.area > l.Pixels {
		return out, nil, refuse("%d frames of %d pixels in all", w.frames, w.area)
	}
	out.Width, out.Height, out.Orientation = w.width, w.height, w.orientation
	if w.orientation > 0 && len(body) > 18 && string(body[:4]) == "VP8X" {
		body[8] |= webpExif
		body = append(body, webpChunk("EXIF", orientationExif(w.orientation))...)
	}
	out.Data = binary.LittleEndian.AppendUint32([]byte("RIFF"), uint32(len(body)+4))
	out.Data = append(append(out.Data, "WEBP"...), body...)
	if w.frames == 0 {
		if _, err := webp.Decode(bytes.NewReader(out.Data)); err != nil {
			return out, nil, err
		}
	}
	return out, removed, nil
}

// webpCopy walks chunks and keeps the known ones.
type webpCopy struct {
	limits                      Limits
	removed                     []Removed
	width, height, frames, area int
	orientation                 int
}

func (w *webpCopy) chunks(data []byte, inner bool) ([]byte, error) {
	var out []byte
	for i := 0; i < len(data); {
		if i+8 > len(data) {
			return nil, refuse("damaged: it ends in a chunk")
		}
		name, size := string(data[i:i+4]), int(binary.LittleEndian.Uint32(data[i+4:]))
		if size < 0 || size > len(data)-i-8 {
			return nil, refuse("damaged: a chunk runs past the end")
		}
		body := bytes.Clone(data[i+8 : i+8+size])
		i += 8 + size + size%2
		switch {
		case name == "VP8X" && len(body) >= 10 && !inner:
			body[0] &^= webpICC | webpExif | webpXMP
			body = body[:10]
			body[1], body[2], body[3] = 0, 0, 0
			w.width, w.height = 1+u24(body[4:]), 1+u24(body[7:])
		case name == "ANMF" && len(body) >= 16 && !inner:
			w.frames++
			w.area += (1 + u24(body[6:])) * (1 + u24(body[9:]))
			frame, err := w.chunks(body[16:], true)
			if err != nil {
				return nil, err
			}
			body = append(body[:16:16], frame...)
		case name == "VP8 " || name == "VP8L":
			w.picture(name, body, inner)
		case name == "ALPH", name == "ANIM" && !inner:
		default:
			w.drop(name, body)
			continue
		}
		out = append(out, webpChunk(name, body)...)
	}
	return out, nil
}

// picture reads the size of a frame's own header.
func (w *webpCopy) picture(name string, body []byte, inner bool) {
	pw, ph := 0, 0
	switch {
	case name == "VP8 " && len(body) >= 10:
		pw, ph = int(binary.LittleEndian.Uint16(body[6:])&0x3FFF), int(binary.LittleEndian.Uint16(body[8:])&0x3FFF)
	case name == "VP8L" && len(body) >= 5:
		bits := binary.LittleEndian.Uint32(body[1:])
		pw, ph = int(bits&0x3FFF)+1, int(bits>>14&0x3FFF)+1
	}
	if !inner || pw*ph > w.width*w.height {
		w.width, w.height = pw, ph
	}
}

func (w *webpCopy) drop(name string, body []byte) {
	switch name {
	case "EXIF":
		tiff := bytes.TrimPrefix(body, []byte("Exif\x00\x00"))
		turn, kinds := readExif(tiff)
		w.orientation = turn
		if turn > 0 && bytes.Equal(tiff, orientationExif(turn)) {
			return
		}
		w.removed = append(w.removed, removedExif("Exif", len(body), kinds)...)
	case "XMP ":
		w.removed = append(w.removed, removedXMP(body)...)
	case "ICCP":
		w.removed = append(w.removed, Removed{"colour profile", "ICC", len(body)})
	default:
		w.removed = append(w.removed, Removed{"unknown data", "private chunk", len(body)})
	}
}

func u24(b []byte) int { return int(b[0]) | int(b[1])<<8 | int(b[2])<<16 }

func webpChunk(name string, body []byte) []byte {
	out := binary.LittleEndian.AppendUint32([]byte(name), uint32(len(body)))
	out = append(out, body...)
	if len(body)%2 == 1 {
		out = append(out, 0)
	}
	return out
}
