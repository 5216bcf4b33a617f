package builder_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"caseleaf/builder"
	"caseleaf/content"

	"github.com/chromedp/cdproto/page"
	"github.com/google/go-cmp/cmp"
)

// clipBank is a bank with one case that has a clip from 0:30 to 1:00 and
// captions beside it. The clip is the one of the privacy check's test data: a
// film of one frame with a place and a name in its metadata.
func clipBank(t *testing.T, front string, more fstest.MapFS) fstest.MapFS {
	t.Helper()
	film, err := os.ReadFile("../testdata/privacy/images/mp4-udta-xyz.mp4")
	if err != nil {
		t.Fatal(err)
	}
	bank := fstest.MapFS{
		"bank.yaml":        {Data: []byte("title: Clips\n")},
		"cases/billow.mp4": {Data: film},
		"cases/billow.vtt": {Data: []byte("WEBVTT\n\n00:02.000 --> 00:04.000\nThe iris comes towards the wound.\n")},
		"cases/cl-1.md": {Data: []byte("---\ncase: CL-1\ntitle: A billow\nprocedure: phacoemulsification\ntechnique: divide-and-conquer\n" + front +
			"timeline:\n  - {at: 0:10, step: paracentesis}\n  - {at: 0:40, event: iris-prolapse, began: 0:38, noticed: 0:40, acted: 0:50, sign: iris billowing, ask: yes}\n" +
			"  - {at: 0:45, decision: 'What now?', options: [{id: stop, text: Stop}, {id: go, text: Go on}], chosen: stop}\n  - {at: 0:50, step: capsulorhexis}\n" + attested + "---\nAt [0:40](time:0:40) it came.\n")},
	}
	for name, file := range more {
		bank[name] = file
	}
	return bank
}

const clipLine = "clips: [{file: billow.mp4, from: 0:30, to: 1:00, title: The billow, captions: billow.vtt}]\n"

// A clip goes through the privacy check, is published clean under a name of
// ours, and waits behind a decision point that it would answer.
func TestClipIsPublished(t *testing.T) {
	out := filepath.Join(t.TempDir(), "handout")
	build(t, clipBank(t, clipLine, nil), out)
	files := filesOf(t, out)
	film := files["cases/cl-1-01.mp4"]
	if len(film) == 0 || strings.Contains(string(film), "\xa9xyz") {
		t.Errorf("the clip has %d bytes, its place taken out: %v", len(film), !strings.Contains(string(film), "\xa9xyz"))
	}
	html := string(files["cases/cl-1.html"])
	for _, want := range []string{`src="../cases/cl-1-01.mp4"`, "The iris comes towards the wound.", `<span class="Time">0:32</span>`, "0:30 to 1:00 of the recording"} {
		if !strings.Contains(html, want) {
			t.Errorf("%q is not on the page", want)
		}
	}
	if strings.Contains(html, "billow.") {
		t.Error("the author's file name is on the page")
	}
	if strings.Index(html, "<video") < strings.Index(html, `class="Reveal Answer`) {
		t.Error("the clip runs past a decision point and stands before it")
	}
}

// What is wrong with a clip is said where it is named.
func TestClipFaults(t *testing.T) {
	named := "captions: billow.vtt"
	for _, c := range []struct{ reason, front, want string }{
		{"no such file", strings.Replace(clipLine, "billow.mp4", "bilow.mp4", 1), "unknown-file"},
		{"outside the bank", strings.Replace(clipLine, "billow.mp4", "../../x.mp4", 1), "unknown-file"},
		{"another kind of file", strings.Replace(clipLine, "billow.mp4", "cl-1.md", 1), "bad-value"},
		{"ends before it begins", strings.Replace(clipLine, "to: 1:00", "to: 0:20", 1), "impossible-value"},
		{"without captions", strings.Replace(clipLine, ", "+named, "", 1), "no-description"},
		{"captions that hold none", strings.Replace(clipLine, named, "captions: none.vtt", 1), "bad-value"},
		{"a name in the captions", strings.Replace(clipLine, named, "captions: named.vtt", 1), "identifying"},
		{"nothing wrong", clipLine, ""},
	} {
		bank := clipBank(t, c.front, fstest.MapFS{
			"cases/none.vtt":  {Data: []byte("WEBVTT\n\n")},
			"cases/named.vtt": {Data: []byte("WEBVTT\n\n00:02.000 --> 00:04.000\nThis is Mrs Ethel Wainwright's eye.\n")},
		})
		_, found, err := content.Read(bank)
		if err != nil {
			t.Fatal(err)
		}
		got := map[string]bool{}
		for _, d := range found {
			if strings.HasPrefix(d.Span.Source.Name, "cases/") && d.Severity != 2 && string(d.Code) != "no-chart" {
				got[string(d.Code)] = true
			}
		}
		want := map[string]bool{}
		if c.want != "" {
			want[c.want] = true
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%s (-want +got):\n%s", c.reason, diff)
		}
	}
}

// With script a time of the timeline, of the story or of the strip moves the
// clip there; a reader's own copy is opened from the device, and nothing is
// asked for outside the folder.
func TestClipFollowsTimes(t *testing.T) {
	ctx := browser(t)
	bank := clipBank(t, clipLine+"recording: {ends: 2:00, own: On the teaching computer}\n", nil)
	read, _, err := content.Read(bank)
	if err != nil {
		t.Fatal(err)
	}
	out := filepath.Join(t.TempDir(), "handout #1")
	if _, err := builder.Build(read, builder.Options{Out: out, BankFiles: bank}); err != nil {
		t.Fatal(err)
	}
	// The film holds no picture that a browser could decode, so where it is moved
	// to is watched instead of what it shows.
	const watch = `window.moved = [];
	  Object.defineProperty(HTMLMediaElement.prototype, "readyState", { get: () => 1 });
	  Object.defineProperty(HTMLMediaElement.prototype, "currentTime", { set(t) { window.moved.push(t); }, get: () => 0 });`
	send(t, ctx, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: watch})
	open(t, ctx, out, "cases/cl-1.html", true)
	soon(t, ctx, "only what the clip shows is a button", `document.querySelectorAll(".Seek").length === 2 && !document.querySelector("#t-10 .Seek")`)
	evaluate[bool](t, ctx, `(document.querySelector("#t-40 .Seek").click(), true)`)
	soon(t, ctx, "the timeline moves it", `window.moved.join() === "10"`)
	evaluate[bool](t, ctx, `(document.querySelector(".Strip a[href='#t-50']").dispatchEvent(new MouseEvent("click", { bubbles: true })), true)`)
	soon(t, ctx, "the strip moves it", `window.moved.join() === "10,20"`)
	evaluate[bool](t, ctx, `(() => {
	  const input = document.querySelector(".js-own input"), files = new DataTransfer();
	  files.items.add(new File(["x"], "mine.mp4", { type: "video/mp4" }));
	  input.files = files.files;
	  input.dispatchEvent(new Event("change"));
	  return true;
	})()`)
	soon(t, ctx, "the own copy", `document.querySelector(".Clip--own video").src.startsWith("blob:") && !!document.querySelector("#t-10 .Seek")`)
	evaluate[bool](t, ctx, `(document.querySelector("#t-10 .Seek").click(), true)`)
	soon(t, ctx, "the own copy moves", `window.moved.join() === "10,20,10"`)
}
