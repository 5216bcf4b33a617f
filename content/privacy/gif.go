package privacy

import (
	"bytes"
	"encoding/binary"
	"image/gif"
)

// cleanGIF copies header, colour tables, frames, graphic controls and the loop
// block; comments, plain text and other application blocks go.
func (l Limits) cleanGIF(data []byte) (Cleaned, []Removed, error) {
	out := Cleaned{Kind: GIF}
	if len(data) < 13 {
		return out, nil, refuse("damaged: it ends in its header")
	}
	out.Width, out.Height = int(binary.LittleEndian.Uint16(data[6:])), int(binary.LittleEndian.Uint16(data[8:]))
	if err := l.pixels(out.Width, out.Height); err != nil {
		return out, nil, err
	}
	i := 13 + gifTable(data[10])
	if i > len(data) {
		return out, nil, refuse("damaged: it ends in a colour table")
	}
	kept := bytes.Clone(data[:i])
	var removed []Removed
	frames, area := 0, 0
	for {
		if i >= len(data) {
			return out, nil, refuse("damaged: it has no end")
		}
		from := i
		switch data[i] {
		case 0x3B:
			if i+1 < len(data) {
				removed = append(removed, Removed{"data after the end", "trailer", len(data) - i - 1})
			}
			out.Data = append(kept, 0x3B)
			if frames == 0 {
				return out, nil, refuse("damaged: it holds no picture")
			}
			if _, err := gif.DecodeAll(bytes.NewReader(out.Data)); err != nil {
				return out, nil, err
			}
			return out, removed, nil
		case 0x2C:
			if i+10 > len(data) {
				return out, nil, refuse("damaged: it ends in a frame")
			}
			frames++
			w, h := int(binary.LittleEndian.Uint16(data[i+5:])), int(binary.LittleEndian.Uint16(data[i+7:]))
			if area += w * h; area > l.Pixels || frames > l.Frames {
				return out, nil, refuse("%d frames of %d pixels in all", frames, area)
			}
			i = gifBlocks(data, i+11+gifTable(data[i+9]))
			if i < 0 {
				return out, nil, refuse("damaged: it ends in a frame")
			}
			kept = append(kept, data[from:i]...)
		case 0x21:
			if i = gifBlocks(data, i+2); i < 0 {
				return out, nil, refuse("damaged: it ends in an extension")
			}
			if gifKeeps(data[from:i]) {
				kept = append(kept, data[from:i]...)
			} else {
				removed = append(removed, removedExtension(data[from:i])...)
			}
		default:
			return out, nil, refuse("damaged: block %02X at byte %d", data[i], i)
		}
	}
}

// gifTable is the length of the colour table that packed flags announce.
func gifTable(flags byte) int {
	if flags&0x80 == 0 {
		return 0
	}
	return 3 << (flags&7 + 1)
}

// gifBlocks returns the offset after the data blocks at i, or -1.
func gifBlocks(data []byte, i int) int {
	for i < len(data) {
		n := int(data[i])
		i += 1 + n
		if n == 0 {
			return i
		}
	}
	return -1
}

// gifKeeps says whether an extension is a graphic control or the loop block of
// exactly the known form.
func gifKeeps(ext []byte) bool {
	return ext[1] == 0xF9 && len(ext) == 8 || ext[1] == 0xFF && len(ext) == 19 && string(ext[3:14]) == "NETSCAPE2.0"
}

func removedExtension(ext []byte) []Removed {
	switch {
	case ext[1] == 0xFE:
		return []Removed{{"names or remarks", "comment", len(ext)}}
	case ext[1] == 0xFF && bytes.Contains(ext, []byte("XMP Data")):
		return removedXMP(ext)
	}
	return []Removed{{"unknown data", "extension", len(ext)}}
}
