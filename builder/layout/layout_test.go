package layout

import (
	"bytes"
	"html/template"
	"strings"
	"testing"
)

type inner struct {
	Name string
	N    int
}

func (i inner) Shout() string               { return strings.ToUpper(i.Name) }
func (i *inner) Whisper() string            { return strings.ToLower(i.Name) }
func (i inner) Twice(s string) string       { return s + s }
func (i inner) Fails() (string, error)      { return "", errUnknown }
func (i inner) Many(s ...string) string     { return strings.Join(s, "") }
func (i inner) MayFail() (string, error)    { return i.Name, nil }
func (i inner) String() string              { return "<" + i.Name + ">" }
func (i inner) unseen() template.HTML       { return "" }
func (i inner) Markup() template.HTML       { return template.HTML("<b>" + i.unseen() + "</b>") }
func (i inner) Address() template.URL       { return "javascript:a" }
func (i inner) Attribute() template.JS      { return "x" }
func (i inner) Script() template.JSStr      { return "<x>" }
func (i inner) Sheet() template.CSS         { return "a{}" }
func (i inner) Set() template.Srcset        { return "a 1x" }
func (i inner) Attr() template.HTMLAttr     { return ` a="b"` }
func (i inner) Nothing() (x *inner)         { return nil }
func (i inner) Self() any                   { return i }
func (i inner) Pair() (inner, error)        { return i, nil }
func (i inner) Call3(a, b, c string) string { return a + b + c }

type named string

func (n named) String() string { return "named <" + string(n) + ">" }

type outer struct {
	inner
	P      *inner
	Nil    *inner
	Any    any
	None   any
	List   []inner
	Texts  []string
	Empty  []string
	Map    map[string]string
	Yes    bool
	Float  float64
	Named  named
	HTML   template.HTML
	Text   string
	Big    int64
	hidden string
}

func newOuter() *outer {
	return &outer{
		inner: inner{"Embedded <>", 3}, P: &inner{"Pointed & so", -1}, Any: inner{"In any 'x'", 0}, List: []inner{{"one", 1}, {"", 0}, {"+three", 300}},
		Texts: []string{"a", "<", `"`}, Map: map[string]string{"k": "v<"}, Yes: true, Float: 1.5, Named: "n", HTML: "<i>x</i>", Text: "javascript:x'\"<>&+\x00 ü\xff",
		Big: 1 << 40, hidden: "no",
	}
}

// Whatever a template holds, it comes out as by html/template, or is left to it.
func TestAlike(t *testing.T) {
	const known, left = true, false
	for source, want := range map[string]bool{
		`{{.Text}}{{.Name}}{{.N}}{{.HTML}}{{.Named}}{{.Big}}{{.Float}}{{.Yes}}{{.P}}{{.List}}{{.Texts}}`:                                                     known,
		`<p title="{{.Text}}{{.HTML}}{{.N}}{{.Named}}{{.P}}"><title>{{.Text}}{{.HTML}}</title>`:                                                              known,
		`<a href="{{.Text}}{{.P.Name}}">{{.Shout}}{{.Whisper}}{{.P.Whisper}}{{.P.Shout}}</a>`:                                                                known,
		`<a href="#{{.Text}}"></a><a href="/{{.Text}}/x"></a><a href="/?q={{.Text}}&amp;{{.N}}"></a>`:                                                        known,
		`<a href="{{.Address}}"></a>{{.Address}}<a href="/{{.HTML}}">{{.Script}}{{.Sheet}}{{.Set}}</a>`:                                                      known,
		`{{.Twice "x<"}}{{.MayFail}}{{.Markup}}{{.Attr}}{{.Attribute}}<p title="{{.Markup}}{{.Attr}}">`:                                                      known,
		`{{with .P}}{{.Name}}{{else}}no{{end}}{{with .Nil}}yes{{else}}{{.Name}}{{end}}`:                                                                      known,
		`{{with $x := .P}}{{$x.Name}}{{.N}}{{$.Text}}{{end}}{{if $y := .Yes}}{{$y}}{{end}}`:                                                                  known,
		`{{if and .Yes .Text}}1{{end}}{{if or .Nil .Empty}}2{{else}}3{{end}}{{if not .None}}4{{end}}`:                                                        known,
		`{{and .Yes .N}}{{or .Empty .Text}}{{not .Yes}}{{len .Texts}}{{len .Text}}{{len .Map}}`:                                                              known,
		`{{eq .N 3}}{{ne .Name "x"}}{{gt .N 2}}{{eq .Yes true}}{{eq .Yes false}}{{gt .Text .Name}}`:                                                          known,
		`{{range .List}}{{.Name}},{{.Shout}}{{.Whisper}}{{end}}{{range .Empty}}x{{else}}none{{end}}`:                                                         known,
		`{{range $i, $e := .List}}{{$i}}{{$e.N}}{{.Name}}{{end}}{{range $e := .Texts}}{{$e}}{{end}}`:                                                         known,
		`{{$a := .N}}{{range .Texts}}{{$a}}{{$a := .}}{{$a}}{{end}}{{$a}}`:                                                                                   known,
		`{{define "p"}}[{{.}}{{$}}]{{end}}{{template "p" .Text}}{{template "p" .P.Name}}{{template "p" 5}}`:                                                  known,
		`{{define "r"}}{{range .}}{{template "q" .}}{{end}}{{end}}{{define "q"}}{{.}}{{$x := .}}{{$x}}{{end}}{{template "r" .Texts}}{{template "r" .Empty}}`: known,
		`{{.Any.Name}}{{.Self.Name}}{{.Pair.Name}}{{(.Self).Name}}`:                                                                                          left,
		`{{.Any.Name}}{{.Self.Name}}{{.Pair.Name}}{{with .Any}}{{.Shout}}{{end}}{{with .Nothing}}x{{end}}`:                                                   known,
		`{{if .Self}}{{if .Float}}x{{end}}{{end}}`:                                                                                                           left,
		`{{range $k, $v := .Map}}{{$k}}{{$v}}{{end}}`:                                                                                                        left,
		`{{range 3}}x{{end}}`:                left,
		`{{printf "%d" .N}}`:                 left,
		`{{.Text | len}}`:                    left,
		`{{.Many "a" "b"}}`:                  left,
		`{{.Map.k}}`:                         left,
		`{{.None}}`:                          left,
		`{{$x := 1}}{{$x = 2}}{{$x}}`:        left,
		`{{range .Texts}}{{break}}{{end}}`:   left,
		`{{eq .N 1 2 3}}`:                    left,
		`<script>var x = {{.Text}}</script>`: left,
		`<p style="color: {{.Text}}" onclick="f({{.Text}})">`: left,
		`<p title={{.Text}}>`:      left,
		`<img srcset="{{.Text}}">`: left,
		`{{define "a"}}{{.}}{{end}}<p title="{{template "a" .N}}">`: left,
	} {
		parsed, err := template.New("").Parse(source)
		if err != nil {
			t.Fatal(source, err)
		}
		var got, standard bytes.Buffer
		done := false
		if quick := Compile(parsed); quick != nil {
			done = quick.Execute(&got, newOuter()) == nil
		}
		if err := parsed.Execute(&standard, newOuter()); err != nil {
			t.Errorf("%s: %v", source, err)
		}
		if done != want {
			t.Errorf("%s: laid out %v; want %v", source, done, want)
		} else if done && got.String() != standard.String() {
			t.Errorf("%s:\ngot  %q\nwant %q", source, &got, &standard)
		}
	}
}

// What html/template refuses, or fails at, is not laid out.
func TestFaultsAreLeft(t *testing.T) {
	for _, source := range []string{
		`{{.Missing}}`, `{{.hidden}}`, `{{.Nil.Name}}`, `{{.Fails}}`, `{{.Name.X}}`, `{{.Twice}}`, `{{.Twice .N}}`, `{{.Text "x"}}`, `{{template "none"}}`,
		`{{define "a"}}{{template "a" .}}{{end}}{{template "a" .}}`, `<a href='{{if .Yes}}">{{end}}`, `<script>`, `{{len .N}}`, `{{eq .N .Text}}`, `{{range .N}}{{.X}}{{end}}`,
		`{{gt .Yes .Yes}}`,
	} {
		parsed, err := template.New("").Parse(source)
		if err != nil {
			t.Fatal(source, err)
		}
		quick := Compile(parsed)
		if quick != nil && quick.Execute(&bytes.Buffer{}, newOuter()) == nil {
			t.Errorf("%s is laid out", source)
		}
	}
}

// An escaper's name is what html/template puts at the place that it stands for.
func TestChains(t *testing.T) {
	for name, e := range escapers {
		if got := e.chain(); got != name {
			t.Errorf("html/template puts %q there, and not %q", got, name)
		}
	}
}

// FuzzEscapers: every escaper writes every text and every markup as html/template
// does.
func FuzzEscapers(f *testing.F) {
	for _, seed := range []string{"", "plain", "a/b.html#c", "javascript:x", `"'<>&+` + "\x00", "\xff\xfeü\u2028", "//x?y=z&a", "%41%zz", "a b", "A:B", "#/:", "mailto:x"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, value string) {
		for name, e := range escapers {
			for _, data := range []any{value, template.HTML(value), template.URL(value)} {
				quick := Compile(template.Must(template.New("").Parse(e.before + "{{.}}" + e.after)))
				var got, want bytes.Buffer
				if err := quick.Execute(&got, data); err != nil {
					t.Fatal(name, err)
				}
				if err := e.whole.Execute(&want, data); err != nil {
					t.Fatal(name, err)
				}
				if got.String() != want.String() {
					t.Errorf("%s, %T %q:\ngot  %q\nwant %q", name, data, value, &got, &want)
				}
			}
		}
	})
}
