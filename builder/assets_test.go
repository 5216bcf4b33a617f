package builder

import (
	"errors"
	"path"
	"strings"
	"testing"
	"testing/fstest"

	"caseleaf/themes"
)

// The sheet and the scripts mean what their authors wrote: texts in quotes, sums
// and selectors are kept. What a library leaves out is its own affair.
func TestLight(t *testing.T) {
	for _, c := range []struct{ reason, name, data, want string }{
		{"comments and blanks", "a.css", "/* what */\na { color: red; } /* why */\n\n  b > c, d { margin: 0 1px; }\n", "a{color:red}b>c,d{margin:0 1px}"},
		{"a text in quotes is kept", "a.css", "b::after { content: \"/* kept */ \\\"; }\"; }", "b::after{content:\"/* kept */ \\\"; }\"}"},
		{"a pseudo class is kept apart from its ancestor", "a.css", "a :hover { x: y }", "a :hover{x:y}"},
		{"blanks round a sum", "a.css", "a { width: calc(1rem + 2%); }", "a{width:calc(1rem + 2%)}"},
		{"open to the end", "a.css", "a { x: y }\n/* open", "a{x:y}"},
		{"comments, and names within a function", "a.js", "/* a\n   b */\n(() => { const long = f(1); g(long, long); })(); // d\n", "(()=>{const e=f(1);g(e,e)})()"},
		{"names that other scripts use", "a.js", "window.shared = 1;\nvar other = window.shared;", "window.shared=1;var other=window.shared"},
		{"texts", "a.js", "a = 'b = \\' c' + d + \" = // e\";\n", "a=\"b = ' c\"+d+\" = // e\""},
	} {
		got, err := light(c.name, []byte(c.data))
		if err != nil || string(got) != c.want {
			t.Errorf("%s: got %q, %v, want %q", c.reason, got, err, c.want)
		}
	}
}

// A script of a theme that is none is told with its file, line and column.
func TestFaultInScript(t *testing.T) {
	theme := fstest.MapFS{"scripts/own.js": {Data: []byte("const a = 1;\nif (a {\n")}}
	_, err := assets(theme)
	var fault *ThemeError
	if !errors.As(err, &fault) || !strings.Contains(err.Error(), "own.js") || !strings.Contains(err.Error(), "line 2") {
		t.Errorf("got %v", err)
	}
}

// What a reader loads is light: the style at most 30,000 bytes, our scripts at most
// 25,000 bytes in all, those of interactive figures too.
func TestAssetsAreLight(t *testing.T) {
	files, err := assets(themes.FS())
	if err != nil {
		t.Fatal(err)
	}
	if err := (&Site{Options: Options{Charts: &Library{}}}).addCharts(files, themes.FS()); err != nil {
		t.Fatal(err)
	}
	if n := len(files["assets/style.css"]); n == 0 || n > 30_000 {
		t.Errorf("the style is %d bytes, want at most %d", n, 30_000)
	}
	scripts := 0
	for name, data := range files {
		if path.Ext(name) == ".js" && path.Base(name) != libraryScript {
			scripts += len(data)
		}
	}
	if scripts > 25_000 {
		t.Errorf("the scripts are %d bytes, want at most %d", scripts, 25_000)
	}
	t.Logf("style %d bytes, scripts %d", len(files["assets/style.css"]), scripts)
}
