package figure

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// english are the handout's own words. This package may not import the builder, so its tests
// read them from the builder's table.
var english = readWords("../words_en_figures.go")

// phraseBook holds the one or two forms of each phrase.
type phraseBook map[string][]string

// Say fills a phrase in as the builder does.
func (b phraseBook) Say(key string, args ...any) string {
	forms := b[key]
	if len(forms) == 0 {
		return "no words for " + key
	}
	form := forms[len(forms)-1]
	if len(forms) == 2 && len(args) > 0 && args[0] == 1 {
		form = forms[0]
	}
	if len(args) == 0 {
		return strings.ReplaceAll(form, "%%", "%")
	}
	text, _, _ := strings.Cut(fmt.Sprintf(form, args...), "%!(EXTRA")
	return text
}

// readWords takes the said("…") and counted("…", "…") of a table of words.
func readWords(path string) phraseBook {
	book := phraseBook{}
	file, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
	if err != nil {
		return book
	}
	ast.Inspect(file, func(n ast.Node) bool {
		pair, ok := n.(*ast.KeyValueExpr)
		if !ok {
			return true
		}
		call, ok := pair.Value.(*ast.CallExpr)
		if !ok {
			return true
		}
		key := literal(pair.Key)
		for _, arg := range call.Args {
			book[key] = append(book[key], literal(arg))
		}
		return false
	})
	return book
}

func literal(e ast.Expr) string {
	lit, ok := e.(*ast.BasicLit)
	if !ok {
		return ""
	}
	s, err := strconv.Unquote(lit.Value)
	if err != nil {
		return ""
	}
	return s
}

// englishWords finds words in a text of the code, outside keys, classes and SVG.
var englishWords = regexp.MustCompile(`"[^"\n]*\b(the|of|not|and|with|to|by|in|event|case|step|eye)\b[^"\n]*"`)

// TestNoWordsInCode holds every word that is drawn to the table, which is what a translator
// sees.
func TestNoWordsInCode(t *testing.T) {
	if len(english) < 100 {
		t.Fatalf("only %d phrases were read", len(english))
	}
	files, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		code, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, line := range strings.Split(string(code), "\n") {
			line, _, _ = strings.Cut(line, "//")
			for _, s := range englishWords.FindAllString(line, -1) {
				if !strings.HasPrefix(s, `"draw-`) && name != "record.go" && !strings.Contains(line, "[...]string") {
					t.Errorf("%s: %s is not in the table of words", name, s)
				}
			}
		}
	}
}

// TestFiguresHaveWords looks for a phrase that the table does not have in any figure.
func TestFiguresHaveWords(t *testing.T) {
	for name, f := range everyFigure() {
		texts := []string{f.Caption(), fmt.Sprint(f.Table())}
		for _, width := range []Px{Wide, Narrow} {
			for _, text := range f.Draw(width).texts() {
				texts = append(texts, text.s)
			}
		}
		for _, s := range texts {
			if strings.Contains(s, "no words for") || strings.Contains(s, "draw-") || strings.Contains(s, "%!") {
				t.Errorf("%s: %q", name, s)
			}
		}
	}
}
