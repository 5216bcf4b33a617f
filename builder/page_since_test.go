package builder_test

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"caseleaf/builder"
	"caseleaf/content"

	"github.com/google/go-cmp/cmp"
)

// edition builds a bank, since an earlier edition where there is one, and gives
// its page of what changed and its manifest.
func edition(t *testing.T, files fs.FS, old *builder.Manifest) (string, builder.Manifest) {
	t.Helper()
	bank, found, err := content.Read(files)
	if err != nil || found.Failed() {
		t.Fatalf("reading: %v, %d errors", err, found.Count(0))
	}
	out := filepath.Join(t.TempDir(), "handout")
	if _, err := builder.Build(bank, builder.Options{Out: out, BankFiles: files, Since: old}); err != nil {
		t.Fatal(err)
	}
	m, err := builder.ReadManifest(out)
	if err != nil {
		t.Fatal(err)
	}
	page, err := os.ReadFile(filepath.Join(out, "since.html"))
	if err != nil && (old != nil || !errors.Is(err, fs.ErrNotExist)) {
		t.Fatal(err)
	}
	return string(page), m
}

func textFile(text string) *fstest.MapFile { return &fstest.MapFile{Data: []byte(text)} }

const logHead = "period,technique,surgeon,risk,complications\n"

func threeCases() fstest.MapFS {
	return fstest.MapFS{
		"bank.yaml":     textFile("title: Three cases\nedition: \"2025\"\nstrata: [{id: low, label: Low risk, definition: none}]\n"),
		"cases/ab-1.md": smallCase("AB-1", attested, "The first story."), "cases/ab-2.md": smallCase("AB-2", attested, "The second story."),
		"cases/ab-3.md": smallCase("AB-3", "", "A case that is still being written."),
		"logbook.csv":   textFile(logHead + strings.Repeat("2025-Q1,divide-and-conquer,trainee,low,\n", 40) + strings.Repeat("2025-Q1,divide-and-conquer,trainee,low,vitreous-loss\n", 10)),
	}
}

// What was added, changed, withdrawn and what moved is said; a withdrawn case by
// its number alone; nothing of a case that was not released is in the record.
func TestSince(t *testing.T) {
	files := threeCases()
	_, old := edition(t, files, nil)
	if text := string(old.Encode()); strings.Contains(text, "AB-3") || strings.Contains(text, "story") && strings.Contains(text, "The first") {
		t.Errorf("the record tells what it must not:\n%s", text)
	}
	page, again := edition(t, files, &old)
	if !strings.Contains(page, "No case, no decision and no count differs") {
		t.Error("the same bank differs from itself")
	}
	if diff := cmp.Diff(old.Record, again.Record); diff != "" {
		t.Errorf("the record of the same bank differs:\n%s", diff)
	}

	files["cases/ab-1.md"] = textFile(strings.Replace(string(files["cases/ab-1.md"].Data), "0:10", "0:12", 1))
	files["cases/ab-1.md"].Data = []byte(strings.Replace(string(files["cases/ab-1.md"].Data), "release:", "lessons: [Look twice.]\nrelease:", 1))
	delete(files, "cases/ab-2.md")
	files["cases/ab-3.md"] = smallCase("AB-3", attested, "A case that is ready.")
	files["logbook.csv"].Data = append(files["logbook.csv"].Data, strings.Repeat("2025-Q2,divide-and-conquer,trainee,low,vitreous-loss\n", 7)...)
	page, _ = edition(t, files, &old)
	for _, want := range []string{
		"edition 2025 of", `href="cases/ab-3.html">About AB-3</a>`, ">About AB-1</a> <span class=\"Quiet\">AB-1</span>: timeline, lessons</li>",
		"<li>AB-2</li>", "10/50", "17/57", "<td class=\"Num\">50</td><td class=\"Num\">57</td>",
	} {
		if !strings.Contains(page, want) {
			t.Errorf("the page does not say %s", want)
		}
	}
	if strings.Contains(page, "About AB-2") {
		t.Error("the title of a withdrawn case is repeated")
	}
}

func TestSinceRefuses(t *testing.T) {
	bank, _, err := content.Read(threeCases())
	if err != nil {
		t.Fatal(err)
	}
	out := filepath.Join(t.TempDir(), "handout")
	if _, err := builder.Build(bank, builder.Options{Out: out, Since: &builder.Manifest{}}); !errors.Is(err, builder.ErrNoRecord) {
		t.Errorf("an edition without a record: %v", err)
	}
	_, old := edition(t, threeCases(), nil)
	old.Course = "wet-lab"
	if _, err := builder.Build(bank, builder.Options{Out: out, Since: &old}); !errors.Is(err, builder.ErrOtherPart) {
		t.Errorf("a course against the whole: %v", err)
	}
}
