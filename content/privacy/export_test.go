package privacy

import (
	"math/rand/v2"
	"path/filepath"
	"testing"
)

// MadeIdentifier makes one identifier of the class, and the sentence around it,
// for the tests that put them into whole cases.
func MadeIdentifier(r *rand.Rand, class Class) (sentence, id string) {
	return makers[class](maker{r})
}

// PlainOutput is an Output that remembers nothing: every text is scanned as if
// it were the first.
func (sc *Scanner) PlainOutput() *Output { return sc.outputWith(newKnown(0)) }

// ForgetfulOutput is one that has room for few texts.
func (sc *Scanner) ForgetfulOutput() *Output { return sc.outputWith(newKnown(knownWays)) }

// LabelledTexts are the texts of the labelled cases and the examples of the
// rules.
func LabelledTexts(t testing.TB) []string {
	var texts []string
	paths, err := filepath.Glob(filepath.Join(dataDir, "*.jsonl"))
	if err != nil || len(paths) == 0 {
		t.Fatalf("no cases: %v", err)
	}
	for _, path := range paths {
		for _, c := range readCases(t, path) {
			texts = append(texts, c.Text)
		}
	}
	for _, r := range ruleTable {
		texts = append(texts, r.Example)
	}
	return texts
}

// LexedText is what the lexer of pages takes for text, and TextOf what x/net/html does.
func LexedText(page []byte) string { return plainText(page) }
func TextOf(page []byte) string    { return textOf(string(page)) }
