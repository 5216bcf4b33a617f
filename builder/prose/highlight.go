package prose

import (
	"bytes"
	"strings"

	"github.com/alecthomas/chroma/v2"
	"github.com/alecthomas/chroma/v2/formatters/html"
	"github.com/alecthomas/chroma/v2/lexers"
)

var formatter = html.New(html.WithClasses(true), html.ClassPrefix("c-"), html.TabWidth(2))

// The colours of marked-up code. Each has a contrast of at least 4.5 to 1
// against the page it stands on; print tells by weight and slant alone.
var (
	lightCode = codeStyle("caseleaf-light", "#1f2328", "#7a3e00", "#0b4f6c", "#1d5c2f", "#5b5f66")
	darkCode  = codeStyle("caseleaf-dark", "#e6e3dc", "#f0b46e", "#8fcbe8", "#9fd3a8", "#a9a69e")
	printCode = codeStyle("caseleaf-print", "#000000", "bold #000000", "#000000", "#000000", "italic #333333")
)

func codeStyle(name, text, key, number, quoted, comment string) *chroma.Style {
	return chroma.MustNewStyle(name, chroma.StyleEntries{
		chroma.Text: text, chroma.NameTag: key, chroma.NameAttribute: key, chroma.Keyword: key,
		chroma.LiteralNumber: number, chroma.KeywordConstant: number, chroma.LiteralDate: number,
		chroma.LiteralString: quoted, chroma.Comment: comment, chroma.Error: text,
	})
}

// Highlight marks up code of a language; text of an unknown language stays
// plain.
func Highlight(code, language string) string {
	lexer := lexers.Get(language)
	if lexer == nil {
		return plainCode(code)
	}
	tokens, err := chroma.Coalesce(lexer).Tokenise(nil, code)
	if err != nil {
		return plainCode(code)
	}
	var out bytes.Buffer
	if err := formatter.Format(&out, lightCode, tokens); err != nil {
		return plainCode(code)
	}
	return out.String()
}

func plainCode(code string) string {
	return "<pre class=\"c-chroma\" tabindex=\"0\"><code>" + escape(code) + "</code></pre>\n"
}

// StyleSheet is the one style sheet for marked-up code: light, dark and, in
// black on white whatever the reader prefers, print.
func StyleSheet() []byte {
	var out bytes.Buffer
	for _, part := range []struct {
		media string
		style *chroma.Style
	}{
		{"screen", lightCode},
		{"screen and (prefers-color-scheme: dark)", darkCode},
		{"print", printCode},
	} {
		out.WriteString("@media " + part.media + " {\n")
		writeStyle(&out, part.style)
		out.WriteString("}\n")
	}
	return out.Bytes()
}

// writeStyle writes a style's rules without its page background, which is the
// theme's to choose.
func writeStyle(out *bytes.Buffer, style *chroma.Style) {
	var rules bytes.Buffer
	if err := formatter.WriteCSS(&rules, style); err != nil {
		return // a buffer does not fail
	}
	for line := range strings.Lines(rules.String()) {
		if !strings.Contains(line, ".c-bg {") {
			out.WriteString(line)
		}
	}
}
