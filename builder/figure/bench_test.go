package figure

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/yuin/goldmark"
)

// BenchmarkStrip draws one strip for a page, wide and narrow.
func BenchmarkStrip(b *testing.B) {
	s := sampleStrip()
	for b.Loop() {
		s.SVG()
	}
}

// BenchmarkAllKinds draws one figure of each sample for a page.
func BenchmarkAllKinds(b *testing.B) {
	all := kinds()
	for b.Loop() {
		for _, f := range all {
			SVG(f)
		}
	}
}

// kinds lists one figure of every kind.
func kinds() []Figure {
	return []Figure{sampleStrip(), sampleForest(), sampleDelays(), sampleTornado(), sampleOnset(), sampleFunnel(), sampleCusum(),
		sampleAcuity(), sampleFace(), sampleSection(), sampleTree(), sampleMap(), sampleChains()}
}

// BenchmarkAgainstMarkdown draws 1,000 figures and converts 3,000 case bodies in the same
// run, by turns so that other work on the computer slows both alike, and reports both times
// and their ratio: once for one drawing of each figure, once for the two that a page holds.
func BenchmarkAgainstMarkdown(b *testing.B) {
	b.Run("drawing", func(b *testing.B) { againstMarkdown(b, Alone) })
	b.Run("page", func(b *testing.B) { againstMarkdown(b, SVG) })
}

func againstMarkdown(b *testing.B, draw func(Figure) []byte) {
	bodies := caseBodies(b)
	all := kinds()
	var figures, markdown time.Duration
	for b.Loop() {
		for i := range 1000 {
			began := time.Now()
			draw(all[i%len(all)])
			drawn := time.Now()
			for j := range 3 {
				var out bytes.Buffer
				if err := goldmark.Convert(bodies[(3*i+j)%len(bodies)], &out); err != nil {
					b.Fatal(err)
				}
			}
			figures += drawn.Sub(began)
			markdown += time.Since(drawn)
		}
	}
	b.ReportMetric(float64(figures.Milliseconds())/float64(b.N), "figures-ms")
	b.ReportMetric(float64(markdown.Milliseconds())/float64(b.N), "markdown-ms")
	b.ReportMetric(float64(figures)/float64(markdown), "ratio")
}

// caseBodies reads the demonstration bank's narratives, without front matter.
func caseBodies(b *testing.B) [][]byte {
	b.Helper()
	files, err := filepath.Glob("../../casebank/cases/*.md")
	if err != nil || len(files) == 0 {
		b.Skipf("SKIPPED: no demonstration cases to compare with: %v", err)
	}
	var bodies [][]byte
	for _, name := range files {
		text, err := os.ReadFile(name)
		if err != nil {
			b.Fatal(err)
		}
		if _, rest, found := bytes.Cut(text[min(3, len(text)):], []byte("\n---\n")); found {
			bodies = append(bodies, rest)
		}
	}
	return bodies
}
