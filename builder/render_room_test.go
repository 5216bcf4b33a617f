package builder

import "testing"

// A page about all cases has room for each: ten thousand took twice the 32 MB that
// a small bank's page may have. A template that writes without end is stopped in
// any bank (testdata/script/build_theme.txtar).
func TestRoomGrowsWithCases(t *testing.T) {
	for _, tt := range []struct{ cases, bytes int }{{0, 1 << 20}, {300, 1880 << 10}, {10000, 63 << 20}} {
		b := pageBuffer{room: roomFor(tt.cases)}
		if _, err := b.Write(make([]byte, tt.bytes)); err != nil {
			t.Errorf("%d cases, %d bytes: %v", tt.cases, tt.bytes, err)
		}
		if _, err := b.Write(make([]byte, roomFor(tt.cases))); err == nil {
			t.Errorf("%d cases: a page without end is let through", tt.cases)
		}
	}
}
