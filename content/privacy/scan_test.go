package privacy

import (
	"strings"
	"testing"
	"unicode/utf8"
)

// FuzzScan wants no panic, offsets inside the text and in order, and the same
// answer twice.
func FuzzScan(f *testing.F) {
	for _, r := range ruleTable {
		f.Add(string(r.Zone), r.Example)
	}
	f.Add("body", "14/**03**/2021 &#49;4 M&auml;rz <b>2021</b>\n\n## References\n")
	f.Add("front-matter", "a:\n - {b: [c, \"d\"]} # e\n\t- f: |\n  g\n")
	f.Add("filename", "../a%20b/\xff\xfe.png")
	f.Fuzz(func(t *testing.T, zone, text string) {
		got := Scan(Zone(zone), text)
		last := 0
		for _, g := range got {
			if g.Start < last || g.End <= g.Start || g.End > len(text) {
				t.Fatalf("%v out of order or outside %d bytes", g, len(text))
			}
			last = g.End
			if utf8.ValidString(text) && !utf8.ValidString(text[g.Start:g.End]) {
				t.Fatalf("%v cuts a character", g)
			}
			if m := g.Message(text, false); m == "" {
				t.Fatal("empty message")
			}
		}
		again := Scan(Zone(zone), text)
		if len(again) != len(got) {
			t.Fatalf("%d findings, then %d", len(got), len(again))
		}
	})
}

// BenchmarkScan gives the speed on clean trade prose, in pieces of the size of
// a case.
func BenchmarkScan(b *testing.B) {
	text := strings.ReplaceAll(strings.Join(cleanProse(b), "\n\n"), "\n%%\n", "\n\n")
	piece := text[:6000]
	b.SetBytes(int64(len(piece)))
	b.ReportAllocs()
	for b.Loop() {
		Scan(Body, piece)
	}
}

// BenchmarkScanLong shows that the time grows with the text and no faster: the
// bytes per second must not fall.
func BenchmarkScanLong(b *testing.B) {
	for _, size := range []int{10_000, 100_000, 1_000_000} {
		dense := strings.Repeat("Mrs O 14/03/2021 07700 900318 a@b.co @ at [at] :: x.y/ ", size/55)
		b.Run(map[int]string{10_000: "10kB", 100_000: "100kB", 1_000_000: "1MB"}[size], func(b *testing.B) {
			b.SetBytes(int64(len(dense)))
			for b.Loop() {
				Scan(Body, dense)
			}
		})
	}
}

// A title in small letters, as captions write it, takes both names with it,
// whatever their case, and no word of the sentence after them.
func TestTitleInCaptionTakesBothNames(t *testing.T) {
	for text, want := range map[string]string{
		"then doctor Wetherby Crumb took the cutter": "doctor Wetherby Crumb",
		"then doctor wetherby crumb took the cutter": "doctor wetherby crumb",
		"then doctor wetherby took the cutter":       "doctor wetherby",
	} {
		var got []string
		for _, f := range Scan(Caption, text) {
			got = append(got, text[f.Start:f.End])
		}
		if len(got) != 1 || got[0] != want {
			t.Errorf("%s: found %q, want %q", text, got, want)
		}
	}
}
