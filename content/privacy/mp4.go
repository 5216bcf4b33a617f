package privacy

import (
	"encoding/binary"
	"slices"
)

// mp4Clean walks the boxes of a copy and blanks in place, so that every offset
// into the film stays right and the file keeps its length.
type mp4Clean struct {
	data    []byte
	limits  Limits
	removed []Removed
	sound   bool
	films   int
	err     error
}

// mp4Open are the boxes to look into.
var mp4Open = map[string]bool{"moov": true, "trak": true, "mdia": true, "minf": true, "stbl": true, "dinf": true, "edts": true, "moof": true, "traf": true, "mvex": true, "mfra": true}

// mp4Keep are the boxes that play the film.
var mp4Keep = map[string]bool{
	"ftyp": true, "mdat": true, "styp": true, "sidx": true, "mvhd": true, "tkhd": true, "mdhd": true, "hdlr": true, "vmhd": true, "smhd": true, "nmhd": true, "gmhd": true, "hmhd": true,
	"dref": true, "stsd": true, "stts": true, "stss": true, "ctts": true, "cslg": true, "stsc": true, "stsz": true, "stz2": true, "stco": true, "co64": true, "sgpd": true, "sbgp": true, "sdtp": true, "subs": true, "saiz": true, "saio": true,
	"elst": true, "mfhd": true, "tfhd": true, "tfdt": true, "trun": true, "trex": true, "mehd": true, "tfra": true, "mfro": true, "tref": true, "iods": true, "tapt": true, "clef": true, "prof": true, "enof": true, "load": true, "wide": true,
}

// cleanMP4 keeps the structure; turns udta, meta, uuid and unknown boxes into
// free space of equal size filled with zeros; zeroes free and skip; sets the
// times of mvhd, tkhd and mdhd to 0 (they count seconds since 1904); blanks
// handler names. Text, timed metadata and place tracks are refused. A sound
// track is a finding: voices identify, and names are spoken.
func (l Limits) cleanMP4(data []byte) (Cleaned, []Removed, error) {
	m := mp4Clean{data: slices.Clone(data), limits: l}
	m.boxes(0, len(data), 0)
	out := Cleaned{Kind: MP4, Data: m.data, Sound: m.sound}
	if m.err != nil {
		return out, nil, m.err
	}
	if m.films == 0 {
		return out, nil, refuse("it has no film (no moov box)")
	}
	if m.sound {
		out.Findings = []Finding{{Biometric, 0, len(data), Block, RuleSound}}
	}
	return out, m.removed, nil
}

// boxes walks the boxes in data[i:end].
func (m *mp4Clean) boxes(i, end, depth int) {
	if depth > m.limits.Nesting {
		m.err = refuse("boxes nested more than %d deep", m.limits.Nesting)
	}
	for i < end && m.err == nil {
		if end-i < 8 {
			m.wipe(i, end, "unknown data", "loose bytes")
			return
		}
		size, head := int(binary.BigEndian.Uint32(m.data[i:])), 8
		switch size {
		case 0:
			size = end - i
		case 1:
			if end-i < 16 || binary.BigEndian.Uint64(m.data[i+8:]) > uint64(end-i) {
				m.err = refuse("damaged: a box runs past the end")
				return
			}
			size, head = int(binary.BigEndian.Uint64(m.data[i+8:])), 16
		}
		if size < head || size > end-i {
			m.err = refuse("damaged: a box runs past the end")
			return
		}
		m.box(string(m.data[i+4:i+8]), i, i+head, i+size, depth)
		i += size
	}
}

// box deals with one box whose name stands at i+4 and whose body is body:end.
func (m *mp4Clean) box(name string, i, body, end, depth int) {
	switch {
	case mp4Open[name]:
		if name == "moov" {
			m.films++
		}
		m.boxes(body, end, depth+1)
	case name == "mvhd" || name == "tkhd" || name == "mdhd":
		m.times(body, end)
	case name == "hdlr":
		m.handler(body, end)
	case name == "free" || name == "skip":
		m.wipe(body, end, "", "")
	case name == "stsd":
		m.samples(body, end)
	case name == "dref":
		m.references(body, end)
	case mp4Keep[name]:
	default:
		kind := "unknown data"
		switch name {
		case "udta", "meta":
			kind = "names, place or date"
		case "uuid":
			kind = "names or remarks"
		}
		m.wipe(body, end, kind, name)
		copy(m.data[i+4:], "free")
	}
}

// wipe zeroes bytes and reports it where something was there.
func (m *mp4Clean) wipe(i, end int, kind, block string) {
	used := false
	for k := i; k < end; k++ {
		used = used || m.data[k] != 0
		m.data[k] = 0
	}
	if used {
		if kind == "" {
			kind, block = "unknown data", "free space"
		}
		m.removed = append(m.removed, Removed{kind, block, end - i})
	}
}

// times zeroes the creation and modification time of a header.
func (m *mp4Clean) times(i, end int) {
	n := 8
	if i < end && m.data[i] == 1 {
		n = 16
	}
	if end-i < 4+n {
		m.err = refuse("damaged: a header is too short")
		return
	}
	m.wipe(i+4, i+4+n, "date", "film header")
}

// handler looks at the kind of a track and blanks its name.
func (m *mp4Clean) handler(i, end int) {
	if end-i < 24 {
		m.err = refuse("damaged: a handler is too short")
		return
	}
	switch kind := string(m.data[i+8 : i+12]); kind {
	case "vide", "url ", "alis":
	case "soun":
		m.sound = true
	case "text", "sbtl", "subt", "clcp":
		m.err = refuse("it holds a text track; take it out and add captions as a WebVTT file")
	case "meta", "mdta", "mdir", "tmcd", "gpmd", "camm":
		m.err = refuse("it holds a track of timed data (%q), which may carry place or date; export the film again without it", kind)
	default:
		m.err = refuse("it holds a track of unknown kind %q", kind)
	}
	m.wipe(i+24, end, "names or remarks", "handler name")
}

// samples blanks the compressor's name in video sample entries; names of
// cameras stand there.
func (m *mp4Clean) samples(i, end int) {
	if end-i < 16 {
		return
	}
	for at := i + 8; at+86 <= end; {
		size := int(binary.BigEndian.Uint32(m.data[at:]))
		if size < 86 || size > end-at {
			return
		}
		if w := binary.BigEndian.Uint16(m.data[at+32:]); w > 0 && w < 16384 && m.data[at+50] < 32 {
			m.wipe(at+50, at+82, "camera or device", "compressor name")
		}
		at += size
	}
}

// references refuses a film whose data lie in another file, by a path or
// address.
func (m *mp4Clean) references(i, end int) {
	for at := i + 8; at+12 <= end; {
		size := int(binary.BigEndian.Uint32(m.data[at:]))
		if size < 12 || size > end-at {
			return
		}
		if m.data[at+11]&1 == 0 {
			m.err = refuse("its film data lie in another file")
			return
		}
		if size > 12 {
			m.wipe(at+12, at+size, "file path", "data reference")
		}
		at += size
	}
}
