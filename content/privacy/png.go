package privacy

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image/png"
)

const pngMagic = "\x89PNG\r\n\x1a\n"

// pngKeep are the chunks a picture is shown with; all others go.
var pngKeep = map[string]bool{
	"IHDR": true, "PLTE": true, "IDAT": true, "IEND": true, "tRNS": true, "gAMA": true, "cHRM": true, "sRGB": true,
	"sBIT": true, "bKGD": true, "pHYs": true, "cICP": true, "acTL": true, "fcTL": true, "fdAT": true,
}

var pngKinds = map[string]Removed{
	"tEXt": {Kind: "names or remarks", Block: "text"}, "zTXt": {Kind: "names or remarks", Block: "text"}, "iTXt": {Kind: "names or remarks", Block: "text"},
	"tIME": {Kind: "date", Block: "tIME"}, "iCCP": {Kind: "colour profile", Block: "ICC"},
}

// cleanPNG copies the known chunks after checking every CRC. A turn asked for
// by eXIf is kept in an eXIf of its own.
func (l Limits) cleanPNG(data []byte) (Cleaned, []Removed, error) {
	out := Cleaned{Kind: PNG}
	cfg, err := png.DecodeConfig(bytes.NewReader(data))
	if err != nil {
		return out, nil, err
	}
	if err := l.pixels(cfg.Width, cfg.Height); err != nil {
		return out, nil, err
	}
	out.Width, out.Height = cfg.Width, cfg.Height
	var kept bytes.Buffer
	kept.WriteString(pngMagic)
	var removed []Removed
	i, frames, turned, ended := len(pngMagic), 1, false, false
	for !ended {
		if i+12 > len(data) {
			return out, nil, refuse("damaged: it ends without IEND")
		}
		size := int(binary.BigEndian.Uint32(data[i:]))
		if size < 0 || size > len(data)-i-12 {
			return out, nil, refuse("damaged: a chunk runs past the end")
		}
		name, body, chunk := string(data[i+4:i+8]), data[i+8:i+8+size], data[i:i+12+size]
		if crc32.ChecksumIEEE(chunk[4:8+size]) != binary.BigEndian.Uint32(chunk[8+size:]) {
			return out, nil, refuse("damaged: checksum of chunk %q", name)
		}
		switch {
		case (name == "IDAT" || name == "IEND") && !turned && out.Orientation > 0:
			turned = true
			kept.Write(pngChunk("eXIf", orientationExif(out.Orientation)))
			kept.Write(chunk)
		case name == "fcTL":
			frames++
			if frames > l.Frames || frames > l.Pixels/max(1, cfg.Width*cfg.Height)*4 {
				return out, nil, refuse("more than %d frames", l.Frames)
			}
			kept.Write(chunk)
		case pngKeep[name]:
			kept.Write(chunk)
		default:
			removed = append(removed, removedChunk(name, body)...)
			if name == "eXIf" && !turned {
				out.Orientation, _ = readExif(body)
			}
		}
		ended = name == "IEND"
		i += 12 + size
	}
	if i < len(data) {
		removed = append(removed, Removed{"data after the end", "trailer", len(data) - i})
	}
	out.Data = kept.Bytes()
	if _, err := png.Decode(bytes.NewReader(out.Data)); err != nil {
		return out, nil, err
	}
	return out, removed, nil
}

// removedChunk reports a chunk; compressed text is not unpacked for it.
func removedChunk(name string, body []byte) []Removed {
	if name == "eXIf" {
		turn, kinds := readExif(body)
		if turn > 0 && bytes.Equal(body, orientationExif(turn)) {
			return nil
		}
		return removedExif("Exif", len(body), kinds)
	}
	if name == "iTXt" && bytes.HasPrefix(body, []byte("XML:com.adobe.xmp\x00")) {
		return removedXMP(body)
	}
	if r, ok := pngKinds[name]; ok {
		r.Bytes = len(body)
		return []Removed{r}
	}
	return []Removed{{"unknown data", "private chunk", len(body)}}
}

func pngChunk(name string, body []byte) []byte {
	out := binary.BigEndian.AppendUint32(nil, uint32(len(body)))
	out = append(append(out, name...), body...)
	return binary.BigEndian.AppendUint32(out, crc32.ChecksumIEEE(out[4:]))
}
