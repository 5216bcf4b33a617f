package front

import (
	"bytes"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"caseleaf/content/diagnose"
)

// TestHostileSizes feeds a million bytes of one pattern each, as nobody writes
// by hand, and asks for an answer in bounded memory with a bounded list. Time is
// not measured: a reading whose cost grew with the square of the size would run
// into the deadline of the whole test.
func TestHostileSizes(t *testing.T) {
	const size = 1_000_000
	for name, unit := range map[string]string{
		"hyphens": "- ", "open lists": "[", "open braces": "{a: ", "closing": "]", "commas": "{a: b, c d, ",
		"newlines in quotes": "\n", "blank lines": " \n", "quotes": "'a' ", "keys": "a: b\n", "flow": "{a: 1, b: 2}, ",
		"flow lines": "- {a: 1, b: 2}\n", "comments": "a: b c #d\n", "empty comments": "#\n", "anchors": "- &a *a\n", "tags": "- !a b\n",
		"hashes": " #", "colons": ": ", "words": "word ", "tabs": "\tx\n", "no-break spaces": "\u00a0x\n", "separators": "\u2028",
		"backslashes": `\`, "questions": "? ", "pipes": "- |\n", "dedents": "    a:\n   b:\n  c:\n d:\n", "escapes": `"\u0020" `, "sentences": "One two, three four, ", "curly": "“a”, ",
	} {
		for prefix, opening := range map[string]string{"": "", "value ": "k: ", "flow ": "k: [", "quoted ": "k: \"", "list ": "k:\n  - "} {
			t.Run(prefix+name, func(t *testing.T) {
				text := opening + strings.Repeat(unit, size/len(unit))
				var before, after runtime.MemStats
				runtime.ReadMemStats(&before)
				_, _, ds := readText(text)
				runtime.ReadMemStats(&after)
				if n := len(ds); n > 3*maxFaults+2 {
					t.Errorf("%d messages", n)
				}
				if used := (after.TotalAlloc - before.TotalAlloc) >> 20; used > 600 {
					t.Errorf("allocated %d MB in all", used)
				}
			})
		}
	}
}

// TestAnchorsCostNothing holds FR-12 to its bound of memory by a wide margin:
// nothing is expanded.
func TestAnchorsCostNothing(t *testing.T) {
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	splitFile(t, reports+"fr-12-anchors.md")
	runtime.ReadMemStats(&after)
	if used := after.TotalAlloc - before.TotalAlloc; used > 4<<20 {
		t.Errorf("allocated %d bytes", used)
	}
}

// BenchmarkSplit reads one written case, whole.
func BenchmarkSplit(b *testing.B) {
	files, err := filepath.Glob("../../casebank/cases/hb-007.md")
	if err != nil || len(files) == 0 {
		b.Skip("no demonstration case")
	}
	data, err := os.ReadFile(files[0])
	if err != nil {
		b.Fatal(err)
	}
	b.SetBytes(int64(len(data)))
	for b.Loop() {
		bag := diagnose.NewBag()
		src, _ := Normalise("hb-007.md", bytes.Clone(data), bag)
		if _, ok := Split(src, bag); !ok {
			b.Fatal("not read")
		}
	}
}
