package front

import (
	"bytes"
	"math/rand"
	"strings"
	"testing"

	"gopkg.in/yaml.v3"
)

// pieces are texts that a writer of YAML must quote with care, and some that
// need none.
var pieces = []string{
	"a", "iris hooks", "Wait: it may dilate", "quadrant #3", "# 3", "6 o'clock", `the 6" ring`, "- x", "-0.50", "4:12", "{a}", "[b], c", "yes", "007", "~5 mm",
	"a\nb\n", "a\n\n  b: c\n", "“x”", "é\u00a0mm", "> 5 mm", "| x", "@a", "*b", "&c", "!d", "%e", "`f`", "?", "? g", ": h", "i:", "---", "...", "\tj", "k ", "", "null", "<<",
	"http://x.y/z#w", "comma, space", "back\\slash", "long " + strings.Repeat("word ", 40),
}

// randomNode builds a mapping or list as a bank holds them.
func randomNode(random *rand.Rand, depth int, list bool) *yaml.Node {
	n := &yaml.Node{Kind: yaml.MappingNode}
	if list {
		n.Kind = yaml.SequenceNode
	}
	if random.Intn(3) == 0 {
		n.Style = yaml.FlowStyle
	}
	for i := range 1 + random.Intn(4) {
		if !list {
			n.Content = append(n.Content, &yaml.Node{Kind: yaml.ScalarNode, Value: string(rune('a'+i)) + "_key"})
		}
		if depth > 0 && random.Intn(3) == 0 {
			n.Content = append(n.Content, randomNode(random, depth-1, random.Intn(2) == 0))
			continue
		}
		value := &yaml.Node{}
		value.SetString(pieces[random.Intn(len(pieces))] + strings.Repeat("z", i)) // no two alike in a list
		n.Content = append(n.Content, value)
	}
	return n
}

// TestWhatTheLibraryWritesIsGood reads back what yaml.v3 writes: the scanner
// must find no fault in it, and the tree must be the one written.
func TestWhatTheLibraryWritesIsGood(t *testing.T) {
	random := rand.New(rand.NewSource(13))
	read := 0
	for range 4000 {
		root := randomNode(random, 3, false)
		root.Style = 0
		var out bytes.Buffer
		encoder := yaml.NewEncoder(&out)
		encoder.SetIndent(2)
		if err := encoder.Encode(root); err != nil {
			t.Fatal(err)
		}
		var again yaml.Node
		if err := yaml.Unmarshal(out.Bytes(), &again); err != nil {
			continue // the library does not read what it wrote
		}
		doc, ok, ds := readText(out.String())
		if !ok || ds.Failed() {
			var text strings.Builder
			ds.WriteText(&text)
			t.Fatalf("refused:\n%s\n%s", out.String(), text.String())
		}
		if got, want := treeText(doc.Root), treeText(again.Content[0]); got != want {
			t.Fatalf("read %s, written %s:\n%s", got, want, out.String())
		}
		read++
	}
	if read < 3500 {
		t.Errorf("only %d of 4000 were compared", read)
	}
}
