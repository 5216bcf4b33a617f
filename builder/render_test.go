package builder

import (
	"testing"

	"caseleaf/themes"
)

func TestLightStyle(t *testing.T) {
	const css = "/* what */\na { color: red; } /* why */\n\n  b::after { content: \"/* kept */ \\\"\"; }\n/* open"
	const want = "a { color: red; } \nb::after { content: \"/* kept */ \\\"\"; }\n"
	if got := string(lightStyle([]byte(css))); got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

// What a reader loads is light: styles at most 30 KB, our scripts 25 KB.
func TestAssetsAreLight(t *testing.T) {
	files, err := assets(themes.FS())
	if err != nil {
		t.Fatal(err)
	}
	if n := len(files["assets/style.css"]); n == 0 || n > 30<<10 {
		t.Errorf("the style is %d bytes, want at most %d", n, 30<<10)
	}
	if n := len(files["assets/handout.js"]); n > 25<<10 {
		t.Errorf("the script is %d bytes, want at most %d", n, 25<<10)
	}
}
