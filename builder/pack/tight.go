package pack

import (
	"archive/zip"
	"encoding/binary"
	"io"
	"slices"
)

// Signatures of the parts of a zip, little-endian, and the lengths of what is
// fixed of each part.
const (
	localMark       = 0x04034b50
	directoryMark   = 0x02014b50
	endMark         = 0x06054b50
	largeEndMark    = 0x06064b50 // of zips beyond 4 GiB or 65,535 files
	localLength     = 30
	directoryLength = 46
	endLength       = 22
	largeEndLength  = 56 + 20 // with its locator
)

// tight reports whether a zip is its entries and nothing else: each begins where
// the one before it ends, the first at the first byte, the list of all right
// behind the last, and every entry has the same name in both places. What is not
// so may show other unpackers other files, or hide something, or make few bytes
// into many by sharing them.
func tight(r io.ReaderAt, size int64, files []*zip.File) bool {
	type placed struct {
		f    *zip.File
		data int64
	}
	var list []placed
	for _, f := range files {
		at, err := f.DataOffset()
		if err != nil {
			return false
		}
		list = append(list, placed{f, at})
	}
	slices.SortFunc(list, func(a, b placed) int { return int(min(1, max(-1, a.data-b.data))) })
	var at int64
	for _, p := range list {
		head := make([]byte, localLength+len(p.f.Name))
		if _, err := r.ReadAt(head, at); err != nil || binary.LittleEndian.Uint32(head) != localMark {
			return false
		}
		name, extra := binary.LittleEndian.Uint16(head[26:]), binary.LittleEndian.Uint16(head[28:])
		begins := at + localLength + int64(name) + int64(extra)
		if begins != p.data || int(name) != len(p.f.Name) || string(head[localLength:]) != p.f.Name ||
			p.f.CompressedSize64 > uint64(size-begins) {
			return false
		}
		at = begins + int64(p.f.CompressedSize64)
		if p.f.Flags&0x8 != 0 {
			at += descriptor(r, at)
		}
	}
	return ends(r, at, size, files)
}

// ends reports whether the list of all files stands at a place and the zip ends
// with it: no remark, nothing after it.
func ends(r io.ReaderAt, at, size int64, files []*zip.File) bool {
	for _, f := range files {
		if f.Comment != "" {
			return false
		}
		at += directoryLength + int64(len(f.Name)) + int64(len(f.Extra))
	}
	var mark [4]byte
	if _, err := r.ReadAt(mark[:], at); err != nil {
		return false
	}
	switch binary.LittleEndian.Uint32(mark[:]) {
	case endMark:
		return size == at+endLength
	case largeEndMark:
		return size == at+largeEndLength+endLength
	}
	return false
}

// descriptor is how many bytes follow an entry whose sizes stand behind it: a
// check sum and two sizes, of 4 or 8 bytes, with or without a mark before them.
// It is whichever length leads to the next part.
func descriptor(r io.ReaderAt, at int64) int64 {
	for _, length := range []int64{16, 12, 24, 20} {
		var mark [4]byte
		if _, err := r.ReadAt(mark[:], at+length); err != nil {
			continue
		}
		switch binary.LittleEndian.Uint32(mark[:]) {
		case localMark, directoryMark:
			return length
		}
	}
	return 0
}
