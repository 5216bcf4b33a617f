package privacy

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"math/rand/v2"
	"testing"
)

// TestMutatedFiles damages the shared set at random (fixed seed) and wants
// either a refusal or a clean file: nothing planted in it that a raw search
// finds, and no further change when it is cleaned again.
func TestMutatedFiles(t *testing.T) {
	m := maker{rand.New(rand.NewPCG(4, 26))}
	small := DefaultLimits
	small.Pixels = 1 << 16
	sets := readPlanted(t)
	cleaned := 0
	for range 4000 {
		p := sets[m.IntN(len(sets))]
		data := m.damage(readImage(t, p.File))
		kind, _ := sniff(data)
		if kind == "" {
			continue
		}
		if kind == PNG {
			mendCRC(data)
		}
		out, _, err := small.Clean("x"+extensions[kind][0], data)
		if err != nil {
			continue
		}
		cleaned++
		again, _, err := small.Clean("x"+extensions[kind][0], out.Data)
		if err != nil || !bytes.Equal(again.Data, out.Data) {
			t.Fatalf("%s: not clean after cleaning: %v", p.File, err)
		}
		if kind == SVG {
			continue // a damaged name in its text is another name
		}
		for _, s := range p.Planted {
			if bytes.Contains(out.Data, []byte(s)) {
				t.Fatalf("%s: %q is left", p.File, s)
			}
		}
	}
	if cleaned < 500 {
		t.Errorf("only %d of 4000 were cleaned: the damage is too heavy to test anything", cleaned)
	}
}

// damage changes, drops or doubles a few bytes.
func (m maker) damage(b []byte) []byte {
	for range 1 + m.IntN(5) {
		i := m.IntN(len(b))
		switch m.IntN(3) {
		case 0:
			b[i] ^= 1 << m.IntN(8)
		case 1:
			b = append(b[:i:i], b[min(len(b), i+1+m.IntN(6)):]...)
		default:
			b = append(b[:i:i], append([]byte{byte(m.IntN(256))}, b[i:]...)...)
		}
		if len(b) == 0 {
			return []byte{0}
		}
	}
	return b
}

// mendCRC puts the checksums right, so that the damage gets past them.
func mendCRC(b []byte) {
	for i := len(pngMagic); i+12 <= len(b); {
		size := int(binary.BigEndian.Uint32(b[i:]))
		if size < 0 || size > len(b)-i-12 {
			return
		}
		binary.BigEndian.PutUint32(b[i+8+size:], crc32.ChecksumIEEE(b[i+4:i+8+size]))
		i += 12 + size
	}
}
