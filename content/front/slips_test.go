package front

import (
	"bytes"
	"fmt"
	"math/rand"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"gopkg.in/yaml.v3"
)

// TestSingleSlips makes single slips in the front matter of good cases (a
// character, line or indent taken away, doubled or swapped; a quote, colon or
// dash changed) and asks that each ends in the same tree, in a tree that is
// handed on (package content then judges its keys and values), or in messages
// of which one is at or next to the slip. The reader's last resort, a message
// that cannot say what is wrong, must not be needed.
func TestSingleSlips(t *testing.T) {
	files, err := filepath.Glob("../../casebank/*/*.md")
	if err != nil || len(files) == 0 {
		t.Fatal("no cases to make slips in")
	}
	random := rand.New(rand.NewSource(7))
	const slips = 1000
	several := 0
	for range slips {
		file := files[random.Intn(len(files))]
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		end := bytes.Index(data, []byte("\n---")) + 1
		slipped, line, kind := slip(random, data, len("---\n"), end)
		good, _, _ := readText(string(data[4:end]))
		doc, ok, ds := readText(string(slipped[4 : len(slipped)-len(data)+end]))
		if ok && treeText(doc.Root) == treeText(good.Root) || len(ds) == 0 {
			continue
		}
		if len(ds) > 1 {
			several++
		}
		near := false
		for _, d := range ds {
			if d.Code == "layout" {
				t.Errorf("%s, %s in line %d: the fault is not named", file, kind, line)
			}
			near = near || distance(d.Span.Line(), line) <= 2
			for _, r := range d.Related {
				near = near || distance(r.Span.Line(), line) <= 2
			}
		}
		if !near {
			var text strings.Builder
			ds.WriteText(&text)
			t.Errorf("%s, %s in line %d: no message near it:\n%s", file, kind, line, text.String())
		}
	}
	// Measured when written: 1 in 100 gave more than one message.
	if several > slips/33 {
		t.Errorf("%d of %d slips gave several messages; one slip should give one", several, slips)
	}
}

func distance(a, b int) int { return max(a-b, b-a) }

// treeText gives kinds and values of a tree, without places.
func treeText(n *yaml.Node) string {
	if n == nil {
		return "-"
	}
	var b strings.Builder
	writeNode(&b, n)
	return b.String()
}

// writeNode writes kinds and values of a node, which two equal entries share.
func writeNode(b *strings.Builder, n *yaml.Node) {
	fmt.Fprintf(b, "(%d%d %s", n.Kind, len(n.Value), n.Value) // its length, so that no two values read alike
	for _, c := range n.Content {
		writeNode(b, c)
	}
	b.WriteByte(')')
}

// slip changes data between two offsets in one place. A swap of lines counts as
// a slip in the second.
func slip(random *rand.Rand, data []byte, from, to int) (out []byte, line int, kind string) {
	at := from + random.Intn(to-from-1)
	start := bytes.LastIndexByte(data[:at], '\n') + 1
	end := at + bytes.IndexByte(data[at:], '\n') + 1
	next := min(to, end+bytes.IndexByte(data[end:], '\n')+1)
	line = bytes.Count(data[:at], []byte("\n")) + 1
	splice := func(i, j int, middle ...[]byte) []byte {
		return bytes.Join(append(append([][]byte{data[:i]}, middle...), data[j:]), nil)
	}
	switch random.Intn(9) {
	case 0:
		return splice(at, at+1), line, "a character taken away"
	case 1:
		return splice(at, at, data[at:at+1]), line, "a character doubled"
	case 2:
		return splice(at, at+2, data[at+1:at+2], data[at:at+1]), line, "two characters swapped"
	case 3:
		return splice(start, end), line, "a line taken away"
	case 4:
		return splice(end, end, data[start:end]), line, "a line doubled"
	case 5:
		return splice(start, next, data[end:next], data[start:end]), line + 1, "two lines swapped"
	case 6:
		return splice(start, start, []byte("   ")[:1+random.Intn(3)]), line, "an indent too deep"
	case 7:
		if data[start] != ' ' {
			return splice(start, start, []byte(" ")), line, "an indent too deep"
		}
		return splice(start, start+1+random.Intn(2)), line, "an indent too shallow"
	}
	return signs(random, data, from, to)
}

// signs changes one quote, colon or dash into a sign that is taken for it.
func signs(random *rand.Rand, data []byte, from, to int) ([]byte, int, string) {
	for {
		at := from + random.Intn(to-from)
		others := map[byte][]string{'"': {"'", "“", "”"}, '\'': {`"`, "’"}, ':': {";", "."}, '-': {"–", "_"}}[data[at]]
		if others == nil {
			continue
		}
		other := others[random.Intn(len(others))]
		line := bytes.Count(data[:at], []byte("\n")) + 1
		return bytes.Join([][]byte{data[:at], []byte(other), data[at+1:]}, nil), line, "a sign changed"
	}
}
