package builder

import (
	"path"
	"strings"
	"testing"

	"caseleaf/themes"
)

func TestLightStyle(t *testing.T) {
	for _, c := range []struct{ reason, css, want string }{
		{"comments and blanks", "/* what */\na { color: red; } /* why */\n\n  b > c, d { margin: 0 1px; }\n", "a{color:red}b>c,d{margin:0 1px}"},
		{"a text in quotes is kept", "b::after { content: \"/* kept */ \\\"; }\"; }", "b::after{content:\"/* kept */ \\\"; }\"}"},
		{"a descendant is no compound", "a\n.b { x: y }", "a .b{x:y}"},
		{"a pseudo class is kept apart from its ancestor", "a :hover { x: y }", "a :hover{x:y}"},
		{"blanks round a sum", "a { width: calc(1px + 2px); }", "a{width:calc(1px + 2px)}"},
		{"queries", "@media print and (min-width: 2px) { a { x: y; } }", "@media print and (min-width:2px){a{x:y}}"},
		{"fractions", "a { margin: 0.5rem -0.25rem 10.5px 0; }", "a{margin:.5rem -.25rem 10.5px 0}"},
		{"open to the end", "a { x: y }\n/* open", "a{x:y}"},
	} {
		if got := strings.TrimSpace(string(lightStyle([]byte(c.css)))); got != c.want {
			t.Errorf("%s: got %q, want %q", c.reason, got, c.want)
		}
	}
}

func TestLightScript(t *testing.T) {
	for _, c := range []struct{ reason, js, want string }{
		{"comments on their own lines", "/* a\n   b */\n// c\n  f(1); // d\n\n", "f(1); // d\n"},
		{"an address is no comment", "x = \"https://e.example\";\n", "x=\"https://e.example\";\n"},
		{"blanks", "if (a === b) return (c + +d) || !e;\n", "if(a===b)return(c + +d)||!e;"},
		{"strings", "a = 'b = \\' c' + \" = \";\n", "a='b = \\' c' + \" = \";"},
		{"a line with a regular expression", "a = b.replace(/ = /g, \"\");\n", "a = b.replace(/ = /g, \"\");"},
		{"a block goes on, a sum may", "f = {\n  a: 1,\n  b: c\n    + d\n};\ng(1); // e;\nh()\n", "f={a:1,b:c\n+ d\n};g(1); // e;\nh()\n"},
		{"a text over two lines", "x = \"a = \\\nb = c\";\n", "x = \"a = \\\nb = c\";\n"},
		{"a template literal", "x = `\n  // kept\n`;\n", "x = `\n  // kept\n`;\n"},
	} {
		if got := string(lightScript([]byte(c.js))); got != c.want {
			t.Errorf("%s: got %q, want %q", c.reason, got, c.want)
		}
	}
}

// What a reader loads is light: the style at most 30 KB, our scripts at most
// 25 KB in all.
func TestAssetsAreLight(t *testing.T) {
	files, err := assets(themes.FS())
	if err != nil {
		t.Fatal(err)
	}
	if n := len(files["assets/style.css"]); n == 0 || n > 30<<10 {
		t.Errorf("the style is %d bytes, want at most %d", n, 30<<10)
	}
	scripts := 0
	for name, data := range files {
		if path.Ext(name) == ".js" {
			scripts += len(data)
		}
	}
	if scripts > 25<<10 {
		t.Errorf("the scripts are %d bytes, want at most %d", scripts, 25<<10)
	}
	t.Logf("style %d bytes, scripts %d", len(files["assets/style.css"]), scripts)
}
