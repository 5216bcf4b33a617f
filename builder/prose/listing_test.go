package prose

import (
	"html"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// Classes: nt a key, m a number, s a quoted text, c a comment (chroma's names).
func TestFrontMatter(t *testing.T) {
	for _, c := range []struct{ yaml, want string }{
		{"case: HB-007\n", `<nt>case</>: HB-007`},
		{"# a remark\n", `<c># a remark</>`},
		{"title: \"Small: pupil\" # why\n", `<nt>title</>: <s>&#34;Small: pupil&#34;</> <c># why</>`},
		{"note: grade#3 of 4\n", `<nt>note</>: grade#3 of 4`},
		{"  - {at: 0:40, step: main-incision, width: 2.4 mm}\n", `  - {<nt>at</>: <m>0:40</>, <nt>step</>: main-incision, <nt>width</>: <m>2.4</> mm}`},
		{"kit:\n", `<nt>kit</>:`},
		{"sign: 'surgeon''s view'\n", `<nt>sign</>: <s>'surgeon''s view'</>`},
		{"note: <b>\n", `<nt>note</>: &lt;b&gt;`},
		{"open: \"no end\n", `<nt>open</>: <s>&#34;no end</>`},
	} {
		got := strings.TrimSuffix(strings.TrimPrefix(FrontMatter(c.yaml), `<pre class="c-chroma" tabindex="0"><code>`), "\n</code></pre>\n")
		got = strings.NewReplacer(`<span class="c-`, "<", `">`, ">", "</span>", "</>").Replace(got)
		if diff := cmp.Diff(c.want, strings.ReplaceAll(got, "&quot;", "&#34;")); diff != "" {
			t.Errorf("%q (-want +got):\n%s", c.yaml, diff)
		}
	}
}

var tag = regexp.MustCompile(`</?(pre|code|span)[^>]*>`)

// Whatever is listed is what was written, and nothing of it is an element.
func FuzzFrontMatter(f *testing.F) {
	for _, seed := range []string{"case: HB-007\n", "a: {b: [1, \"2\"]}", "'", "\"\\", "#", ": :\n-\n", "a: <script>"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, code string) {
		got := strings.TrimSuffix(html.UnescapeString(tag.ReplaceAllString(FrontMatter(code), "")), "\n")
		if want := html.UnescapeString(escape(code)); got != want {
			t.Errorf("%q lists as %q", want, got)
		}
	})
}
