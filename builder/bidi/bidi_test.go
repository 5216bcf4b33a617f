package bidi

import (
	"strings"
	"testing"
)

// show writes isolates so that they can be read.
var show = strings.NewReplacer(leftToRight, "{", rightToLeft, "«", popIsolate, "}")

// The wanted islands follow from the rules of UAX #9 named in the comments; what is an island
// beyond that is our own choice.
func TestText(t *testing.T) {
	for name, c := range map[string][2]string{
		"a unit stays behind its number (N1)":  {"شق عرضه 2.4 mm فقط", "شق عرضه {2.4 mm} فقط"},
		"a sign stays before its number (W4)":  {"الانكسار −0.50 D", "الانكسار {−0.50 D}"},
		"a range keeps its order (N1)":         {"من الساعة 11–2", "من الساعة {11–2}"},
		"a per cent sign after a space (W5)":   {"بنسبة 0.06 % منه", "بنسبة {0.06 %} منه"},
		"a comparison":                         {"الحدقة < 5 mm", "الحدقة {< 5 mm}"},
		"a time in two units":                  {"استغرقت 2 min 10 s هنا", "استغرقت {2 min 10 s} هنا"},
		"a quarter":                            {"من 2024-Q4 إلى الآن", "من {2024-Q4} إلى الآن"},
		"a ratio":                              {"بنسبة 1 : 10 منه", "بنسبة {1 : 10} منه"},
		"two statements are two islands":       {"الثقة 95%: 7.0 % منه", "الثقة {95%}: {7.0 %} منه"},
		"an item behind the mark of a list":    {"، NO3", "، {NO3}"},
		"an item behind a strong mark":         {"؛ NO3", "؛ {NO3}"},
		"a mark of the page between items":     {"NO3؛ P2", "NO3؛ P2"},
		"a product":                            {"المطلوب 3 × 2 mL", "المطلوب {3 × 2 mL}"},
		"a time is in order by itself (W4)":    {"عند 3:05 تمامًا", "عند 3:05 تمامًا"},
		"an acuity is in order by itself (W4)": {"كانت 6/24 قبلها", "كانت 6/24 قبلها"},
		"the number of a name is no quantity":  {"الحالة HB-007 أولًا", "الحالة HB-007 أولًا"},
		"no letter of the page":                {"Ask before the list.", "{Ask before the list.}"},
		"a number alone":                       {"12", "12"},
		"a signed number alone":                {"−0.10", "{−0.10}"},
		"Hebrew":                               {"רוחב 2.4 mm", "רוחב {2.4 mm}"},
	} {
		if got := show.Replace(Text(c[0])); got != c[1] {
			t.Errorf("%s: %q gives %q, want %q", name, c[0], got, c[1])
		}
	}
}

func TestLine(t *testing.T) {
	for in, want := range map[string]string{
		"شق 2.4 mm":    "«شق {2.4 mm}}",
		"capsule":      "capsule",
		"3:05":         "3:05",
		"القرار 2 (أ)": "«القرار 2 (أ)}",
	} {
		if got := show.Replace(Line(in)); got != want {
			t.Errorf("%q gives %q, want %q", in, got, want)
		}
	}
}

func TestPage(t *testing.T) {
	for in, want := range map[string]string{
		`<p>شق 2.4 mm</p>`:                                                  `<p>شق <bdi dir="ltr">2.4 mm</bdi></p>`,
		`<p> Surge. </p>`:                                                   `<p> <bdi dir="ltr" lang="en">Surge.</bdi> </p>`,
		`<td>12 / 300</td><td>&lt; 5</td><td>7</td>`:                        `<td><bdi dir="ltr">12 / 300</bdi></td><td><bdi dir="ltr">&lt; 5</bdi></td><td>7</td>`,
		`<script>var a = 1 - 2;</script>`:                                   `<script>var a = 1 - 2;</script>`,
		`<svg><text>2.4 mm</text></svg><p>2.4 mm</p>`:                       `<svg><text>2.4 mm</text></svg><p><bdi dir="ltr">2.4 mm</bdi></p>`,
		`<title>شق 2.4 mm</title>`:                                          "<title>شق \u20662.4 mm\u2069</title>",
		`<option>أيّ</option>`:                                              `<option>أيّ</option>`,
		`<p>قال &#39;نعم&#39; &amp; مضى</p>`:                                `<p>قال &#39;نعم&#39; &amp; مضى</p>`,
		`<a title="2.4 mm" href=x>عند 3:05</a><!-- 2.4 mm --><br><p>&amp;·`: `<a title="2.4 mm" href=x>عند 3:05</a><!-- 2.4 mm --><br><p>&amp;·`,
		`<p>قوة &#43;21.5 D</p>`:                                            `<p>قوة <bdi dir="ltr">&#43;21.5 D</bdi></p>`,
		`<bdi>2.4 mm</bdi>`:                                                 `<bdi>2.4 mm</bdi>`,
	} {
		if got := string(Page([]byte(in))); got != want {
			t.Errorf("%q gives\n%q, want\n%q", in, got, want)
		}
	}
}

// Whatever a page holds, what is taken away again leaves it as it was.
func FuzzPage(f *testing.F) {
	for _, s := range []string{`<p>شق 2.4 mm`, `<svg><svg></svg>1 %</svg>1 %`, `<title>ا 1 %`, "</pre>&#39;- 3 mm", "<pre"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, in string) {
		if strings.Contains(in, "bdi") || strings.ContainsAny(in, leftToRight+rightToLeft+popIsolate) {
			return // what is put in could not be told from what was there
		}
		out := string(Page([]byte(in)))
		out = strings.NewReplacer(`<bdi dir="ltr">`, "", `<bdi dir="ltr" lang="en">`, "", "</bdi>", "", leftToRight, "", popIsolate, "").Replace(out)
		if out != in {
			t.Errorf("%q became %q", in, out)
		}
	})
}
