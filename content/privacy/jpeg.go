package privacy

import (
	"bytes"
	"encoding/binary"
	"image/jpeg"
)

// cleanJPEG keeps the start, JFIF without thumbnail, APP14 (which says how the
// colours are coded), tables, frames and scans, and the end. Scan data are
// copied byte for byte. A turn is kept in an Exif block of its own.
func (l Limits) cleanJPEG(data []byte) (Cleaned, []Removed, error) {
	out := Cleaned{Kind: JPEG}
	cfg, err := jpeg.DecodeConfig(bytes.NewReader(data))
	if err != nil {
		return out, nil, err
	}
	if err := l.pixels(cfg.Width, cfg.Height); err != nil {
		return out, nil, err
	}
	out.Width, out.Height = cfg.Width, cfg.Height
	var kept bytes.Buffer // all after SOI and JFIF
	var jfif []byte
	var removed []Removed
	i, frame, ended := 2, false, false
	for i+1 < len(data) && !ended {
		if data[i] != 0xFF {
			return out, nil, refuse("damaged: no marker at byte %d", i)
		}
		marker := data[i+1]
		switch {
		case marker == 0xFF: // fill byte
			i++
			continue
		case marker == 0xD9:
			ended = true
			i += 2
			continue
		case marker >= 0xD0 && marker <= 0xD8, marker == 0x01, marker == 0x00:
			return out, nil, refuse("damaged: marker %02X at byte %d", marker, i)
		}
		if i+4 > len(data) {
			return out, nil, refuse("damaged: it ends in a header")
		}
		end := i + 2 + int(binary.BigEndian.Uint16(data[i+2:]))
		if end > len(data) || end < i+4 {
			return out, nil, refuse("damaged: a segment runs past the end")
		}
		segment, body := data[i:end], data[i+4:end]
		switch {
		case marker == 0xE0 && bytes.HasPrefix(body, []byte("JFIF\x00")) && len(body) >= 14:
			jfif = append([]byte{0xFF, 0xE0, 0, 16}, body[:14]...)
			jfif[16], jfif[17] = 0, 0 // no thumbnail
			if len(body) > 14 {
				removed = append(removed, Removed{"thumbnail", "JFIF", len(body) - 14})
			}
		case marker == 0xEE && bytes.HasPrefix(body, []byte("Adobe")) && len(body) >= 12:
			kept.Write([]byte{0xFF, 0xEE, 0, 14})
			kept.Write(body[:12])
		case marker >= 0xE0 && marker <= 0xEF, marker == 0xFE:
			r, turn := removedSegment(marker, body)
			removed = append(removed, r...)
			out.Orientation = max(out.Orientation, turn)
		case marker == 0xDA:
			kept.Write(segment)
			end = scanEnd(data, end)
			kept.Write(data[i+len(segment) : end])
		default:
			frame = frame || marker >= 0xC0 && marker <= 0xCF && marker != 0xC4 && marker != 0xC8 && marker != 0xCC
			kept.Write(segment)
		}
		i = end
	}
	if !frame || !ended {
		return out, nil, refuse("damaged: it has no frame or no end")
	}
	if i < len(data) {
		removed = append(removed, Removed{"data after the end", "trailer", len(data) - i})
	}
	out.Data = assembleJPEG(jfif, out.Orientation, kept.Bytes())
	if _, err := jpeg.Decode(bytes.NewReader(out.Data)); err != nil {
		return out, nil, err
	}
	return out, removed, nil
}

// scanEnd is the offset of the first marker after entropy-coded data that ends
// them: not a stuffed zero, not a restart.
func scanEnd(data []byte, i int) int {
	for i+1 < len(data) {
		k := bytes.IndexByte(data[i:], 0xFF)
		if k < 0 || i+k+1 >= len(data) {
			return len(data)
		}
		i += k
		if m := data[i+1]; m != 0 && (m < 0xD0 || m > 0xD7) && m != 0xFF {
			return i
		}
		i++
	}
	return len(data)
}

// removedSegment reports an application segment or comment, and the turn that
// an Exif segment asks for.
func removedSegment(marker byte, body []byte) ([]Removed, int) {
	switch {
	case marker == 0xFE:
		return []Removed{{"names or remarks", "comment", len(body)}}, 0
	case marker == 0xE1 && bytes.HasPrefix(body, []byte("Exif\x00")) && len(body) > 6:
		turn, kinds := readExif(body[6:])
		if turn > 0 && bytes.Equal(body[6:], orientationExif(turn)) {
			return nil, turn // the turn alone, as we keep it
		}
		return removedExif("Exif", len(body), kinds), turn
	case marker == 0xE1 && bytes.HasPrefix(body, []byte("http://ns.adobe.com/")):
		return removedXMP(body), 0
	case marker == 0xE2 && bytes.HasPrefix(body, []byte("ICC_PROFILE")):
		return []Removed{{"colour profile", "ICC", len(body)}}, 0
	case marker == 0xE2 && bytes.HasPrefix(body, []byte("MPF")):
		return []Removed{{"further pictures", "MPF", len(body)}}, 0
	case marker == 0xED:
		return []Removed{{"names or remarks", "IPTC", len(body)}}, 0
	case marker == 0xE0:
		return []Removed{{"thumbnail", "JFIF", len(body)}}, 0
	}
	return []Removed{{"unknown data", "application segment", len(body)}}, 0
}

// assembleJPEG puts the parts together.
func assembleJPEG(jfif []byte, orientation int, rest []byte) []byte {
	out := append([]byte{0xFF, 0xD8}, jfif...)
	if orientation > 0 {
		exif := append([]byte("Exif\x00\x00"), orientationExif(orientation)...)
		out = append(out, 0xFF, 0xE1, byte((len(exif)+2)>>8), byte(len(exif)+2))
		out = append(out, exif...)
	}
	out = append(out, rest...)
	return append(out, 0xFF, 0xD9)
}
