package pack

import (
	"archive/zip"
	"bytes"
	"compress/flate"
	"fmt"
	"hash/crc32"
	"io"
)

// Item is one file on its way into a zip. Files are read one at a time, so a
// large handout needs no more memory than its largest file.
type Item struct {
	Name   string // slash-separated, safe by [Unsafe]
	Read   func() ([]byte, error)
	Stored bool // kept as it is, not compressed
}

const (
	utf8Names = 0x800            // general purpose bit 11: names are UTF-8
	firstDay  = 1<<5 | 1         // 1 January 1980 in the format's own date; its first
	unixMade  = 3 << 8           // made by: Unix, so that the permissions below count
	version   = 20               // needed to unpack: deflate, folders
	plainFile = uint32(0o100644) // a file that everybody may read
	level     = flate.BestCompression
)

// Write writes the items as a zip, in their order. The same items give the same
// bytes: every file has the same date, permissions and compression, and the
// sizes stand before the data, where every unpacker finds them.
//
// An unsafe name, or two that some disk takes for one, is an error, and so is
// what w or an item's Read returns.
func Write(w io.Writer, items []Item) error {
	taken := map[string]string{}
	out := zip.NewWriter(w)
	var d deflater
	for _, item := range items {
		if why := Unsafe(item.Name); why != "" {
			return fmt.Errorf("%q can't go into a zip: %s", item.Name, why)
		}
		if other, clash := taken[folded(item.Name)]; clash {
			return fmt.Errorf("%q and %q are one name on some disks", other, item.Name)
		}
		taken[folded(item.Name)] = item.Name
		data, err := item.Read()
		if err != nil {
			return err
		}
		if err := d.add(out, item, data); err != nil {
			return fmt.Errorf("%s: %w", item.Name, err)
		}
	}
	return out.Close()
}

// deflater compresses one file after another.
type deflater struct {
	out bytes.Buffer
	w   *flate.Writer
}

// add writes one entry; what compression doesn't make smaller is stored.
func (d *deflater) add(out *zip.Writer, item Item, data []byte) error {
	packed, method := data, zip.Store
	if !item.Stored {
		small, err := d.deflate(data)
		if err != nil {
			return err
		}
		if len(small) < len(data) {
			packed, method = small, zip.Deflate
		}
	}
	entry, err := out.CreateRaw(&zip.FileHeader{
		Name: item.Name, Method: method, Flags: utf8Names,
		//lint:ignore SA1019 CreateRaw writes the old field and passes Modified over
		ModifiedDate:   firstDay,
		CreatorVersion: unixMade | version, ReaderVersion: version, ExternalAttrs: plainFile << 16,
		CRC32: crc32.ChecksumIEEE(data), CompressedSize64: uint64(len(packed)), UncompressedSize64: uint64(len(data)),
	})
	if err != nil {
		return err
	}
	_, err = entry.Write(packed)
	return err
}

// deflate returns data compressed; the slice is good until the next call.
func (d *deflater) deflate(data []byte) ([]byte, error) {
	d.out.Reset()
	if d.w == nil {
		w, err := flate.NewWriter(&d.out, level)
		if err != nil {
			return nil, err
		}
		d.w = w
	}
	d.w.Reset(&d.out)
	if _, err := d.w.Write(data); err != nil {
		return nil, err
	}
	err := d.w.Close() // writes what is left
	return d.out.Bytes(), err
}
