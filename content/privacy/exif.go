package privacy

import (
	"bytes"
	"encoding/binary"
)

// exifKinds say what an Exif tag tells, for the report.
var exifKinds = map[uint16]string{
	0x010E: "names or remarks", 0x013B: "names or remarks", 0x8298: "names or remarks", 0x9286: "names or remarks", 0xA430: "names or remarks",
	0x9C9B: "names or remarks", 0x9C9C: "names or remarks", 0x9C9D: "names or remarks", 0x9C9E: "names or remarks", 0x9C9F: "names or remarks",
	0x0132: "date", 0x9003: "date", 0x9004: "date", 0x9010: "date", 0x9011: "date", 0x9291: "date",
	0x010F: "camera or device", 0x0110: "camera or device", 0x0131: "camera or device", 0xA431: "camera or device", 0xA433: "camera or device", 0xA434: "camera or device", 0xA435: "camera or device", 0xA420: "camera or device", 0x013C: "camera or device",
	0x927C: "maker's note",
}

// readExif walks a TIFF structure and returns the orientation (0 for none) and
// the kinds of what is in it. Damage ends the walk; nothing is kept anyway.
func readExif(tiff []byte) (orientation int, kinds []string) {
	var order binary.ByteOrder = binary.LittleEndian
	switch {
	case len(tiff) < 8:
		return 0, nil
	case bytes.HasPrefix(tiff, []byte("MM")):
		order = binary.BigEndian
	case !bytes.HasPrefix(tiff, []byte("II")):
		return 0, nil
	}
	seen := map[uint32]bool{}
	var walk func(at uint32, depth int)
	walk = func(at uint32, depth int) {
		if depth > 4 || seen[at] || len(seen) > 16 || uint64(at)+2 > uint64(len(tiff)) {
			return
		}
		seen[at] = true
		n := int(order.Uint16(tiff[at:]))
		for i := range n {
			e := int(at) + 2 + 12*i
			if e+12 > len(tiff) {
				return
			}
			tag, value := order.Uint16(tiff[e:]), order.Uint32(tiff[e+8:])
			switch {
			case tag == 0x0112 && depth == 0 && order.Uint16(tiff[e+2:]) == 3:
				orientation = int(order.Uint16(tiff[e+8:]))
			case tag == 0x8825:
				kinds = append(kinds, "place")
			case tag == 0x8769 || tag == 0xA005:
				walk(value, depth+1)
			case exifKinds[tag] != "":
				kinds = append(kinds, exifKinds[tag])
			}
		}
		if next := int(at) + 2 + 12*n; depth == 0 && next+4 <= len(tiff) {
			if v := order.Uint32(tiff[next:]); v != 0 {
				kinds = append(kinds, "thumbnail")
			}
		}
	}
	walk(order.Uint32(tiff[4:]), 0)
	if orientation < 2 || orientation > 8 {
		orientation = 0
	}
	return orientation, kinds
}

// orientationExif is the smallest TIFF structure that says how to turn a
// picture and nothing else.
func orientationExif(orientation int) []byte {
	return []byte{'M', 'M', 0, 42, 0, 0, 0, 8, 0, 1, 0x01, 0x12, 0, 3, 0, 0, 0, 1, 0, byte(orientation), 0, 0, 0, 0, 0, 0}
}

// removedExif reports an Exif block by what it told.
func removedExif(block string, size int, kinds []string) []Removed {
	out := []Removed{{"technical data", block, size}}
	for _, k := range kinds {
		out = append(out, Removed{k, block, 0})
	}
	return out
}

// removedXMP reports an XMP packet by the properties that occur in it.
func removedXMP(xmp []byte) []Removed {
	out := []Removed{{"technical data", "XMP", len(xmp)}}
	for _, p := range []struct{ mark, kind string }{
		{"GPS", "place"}, {"Location", "place"}, {"City", "place"}, {"Date", "date"}, {"creator", "names or remarks"},
		{"description", "names or remarks"}, {"title", "names or remarks"}, {"Person", "names or remarks"}, {"Serial", "camera or device"}, {"DocumentID", "file history"},
	} {
		if bytes.Contains(xmp, []byte(p.mark)) {
			out = append(out, Removed{p.kind, "XMP", 0})
		}
	}
	return out
}
