package diagnose_test

import (
	"bytes"
	"flag"
	"image"
	"image/png"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"

	"caseleaf/builder"
	"caseleaf/content"
	"caseleaf/content/diagnose"
)

var update = flag.Bool("update", false, "rewrite the golden files")

// The bank that examples are put into; nothing in it draws a message.
const (
	plainBank = "title: A small bank\nedition: \"2026\"\nlanguage: en\ninvented: yes\nnotice: All of it is invented.\nreference_technique: divide-and-conquer\n" +
		"strata:\n  - {id: low, label: Low risk, definition: No risk factor of the list}\nsmall_count: {threshold: 5}\nrare_combination: 1\ncautions: [Follow your local protocol.]\n"
	plainFront = "case: HB-001\ntitle: Small pupil, floppy iris\nprocedure: phacoemulsification\ntechnique: divide-and-conquer\nsurgeon: trainee\neye: right\n" +
		"patient: {age_band: 70-79, sex: male}\ntimeline:\n  - {at: 0:40, step: main-incision, width: 2.4 mm}\n  - {at: 1:30, step: capsulorhexis}\n" +
		"lessons: [Ask before the list.]\nrelease: {consent: recorded, reviewed_by: consultant, reviewed: 2026, face: no, text_in_pictures: no, sound: none, otherwise_findable: no}\n"
	otherFront = "case: HB-002\ntitle: An even pupil\nprocedure: phacoemulsification\ntechnique: stop-and-chop\n" +
		"timeline:\n  - {at: 0:40, step: main-incision}\nrelease: {consent: recorded, reviewed_by: consultant, reviewed: 2026, face: no, text_in_pictures: no, sound: none, otherwise_findable: no}\n"
	plainCourse = "course: lab\ntitle: A small wet lab\nstart: \"09:00\"\nchangeover: 5 min\ngroups: [{name: A, size: 2}, {name: B, size: 3}]\n" +
		"stations:\n  - {id: wounds, title: Wounds that close, minutes: 30}\n  - {id: capsule, title: The circle, minutes: 40}\n"
	courseCase = "case: HB-003\ntitle: Hooks\nprocedure: phacoemulsification\ntechnique: stop-and-chop\nkit: [{item: iris-hooks, count: 4}]\n" +
		"timeline:\n  - {at: 0:40, step: main-incision}\nrelease: {consent: recorded, reviewed_by: consultant, reviewed: 2026, face: no, text_in_pictures: no, sound: none, otherwise_findable: no}\n"
	plainStory = "The iris billowed as soon as the wound was opened.\n"
)

// bankWith puts an example into the plain bank.
func bankWith(e diagnose.Explanation, example string) fstest.MapFS {
	files := map[string]string{
		"bank.yaml":       plainBank,
		"cases/hb-001.md": "---\n" + plainFront + "---\n" + plainStory,
		"cases/hb-002.md": "---\n" + otherFront + "---\n" + plainStory,
	}
	switch {
	case strings.HasPrefix(e.File, "a whole case, bytes"):
		text, err := strconv.Unquote(`"` + strings.NewReplacer("\n", `\n`, `"`, `\"`).Replace(example) + `"`)
		if err != nil {
			text = err.Error()
		}
		files["cases/hb-001.md"] = text
	case e.File == "a whole case":
		files["cases/hb-001.md"] = example
	case e.File == "a case":
		files["cases/hb-001.md"] = "---\n" + replaceBlock(plainFront, example) + "---\n" + plainStory
	case e.File == "the story of a case":
		files["cases/hb-001.md"] = "---\n" + plainFront + "---\n" + plainStory + "\n" + example + "\n"
	case e.File == "a course":
		files["courses/lab.yaml"] = replaceBlock(plainCourse, example)
		files["cases/hb-003.md"] = "---\n" + courseCase + "---\n" + plainStory
	case e.File == "bank.yaml":
		files["bank.yaml"] = replaceBlock(plainBank, example)
	case e.File == "logbook.csv", e.File == "terms.yaml":
		files[e.File] = example
	}
	bank := fstest.MapFS{"cases/pupil.png": {Data: onePixel}}
	for name, text := range files {
		bank[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return bank
}

// replaceBlock puts lines in the place of the top-level keys that they begin
// with, or of the key whose first word is nearest to theirs, else at the end.
func replaceBlock(front, lines string) string {
	lines = strings.TrimSuffix(lines, "\n") + "\n"
	keys := map[string]bool{}
	for _, line := range strings.Split(lines, "\n") {
		if word := topWord.FindString(line); word != "" {
			keys[word] = true
		}
	}
	var kept strings.Builder
	drop := false
	for line := range strings.Lines(front) {
		if word := topWord.FindString(line); word != "" {
			drop = keys[word] || keys["tehcnique"] && word == "technique"
		}
		if !drop {
			kept.WriteString(line)
		}
	}
	return lines + kept.String()
}

var topWord = regexp.MustCompile(`^(\? )?[a-z_]+`)

// onePixel is a PNG of one white pixel.
var onePixel = func() []byte {
	var out bytes.Buffer
	if err := png.Encode(&out, image.NewGray(image.Rect(0, 0, 1, 1))); err != nil {
		panic(err)
	}
	return out.Bytes()
}()

// withoutExample are the codes whose examples would be megabytes, which a file
// cannot be made to draw by hand, which need a picture or another name, or which the caller of package sheet draws.
var withoutExample = map[diagnose.Code]bool{"too-large": true, "layout": true, "spreadsheet-damage": true, "not-read": true, "refused-picture": true, "metadata-removed": true}

func findings(t *testing.T, bank fstest.MapFS) diagnose.Diagnostics {
	t.Helper()
	read, found, err := content.Read(bank)
	if err != nil {
		t.Fatal(err)
	}
	return found.And(builder.CourseFindings(read))
}

// TestExplanations runs every example through the readers: the wrong one draws
// its code, the right one draws nothing. One message of every code, from the
// wrong examples, is the golden file; read it for the tone of the messages.
func TestExplanations(t *testing.T) {
	var golden bytes.Buffer
	if found := findings(t, bankWith(diagnose.Explanation{File: "a course"}, "")); len(found) > 0 {
		found.WriteText(&golden)
		t.Fatalf("the plain bank draws messages:\n%s", golden.String())
	}
	for _, e := range diagnose.Explanations() {
		if e.Title == "" || e.Meaning == "" || !strings.HasSuffix(e.Meaning, ".") || strings.HasSuffix(e.Title, ".") {
			t.Errorf("%s: title or meaning is not in its form", e.Code)
		}
		if withoutExample[e.Code] {
			continue
		}
		wrong := findings(t, bankWith(e, e.Wrong))
		var text bytes.Buffer
		if first := firstOf(wrong, e.Code); first == nil {
			wrong.WriteText(&text)
			t.Errorf("%s: the wrong example does not draw it but\n%s", e.Code, text.String())
		} else {
			diagnose.Diagnostics{first}.WriteText(&golden)
		}
		if e.Right == "" {
			continue
		}
		if right := findings(t, bankWith(e, e.Right)); len(right) > 0 {
			right.WriteText(&text)
			t.Errorf("%s: the right example draws\n%s", e.Code, text.String())
		}
	}
	compareGolden(t, "testdata/messages.golden", golden.Bytes())
}

func firstOf(found diagnose.Diagnostics, code diagnose.Code) *diagnose.Diagnostic {
	for _, d := range found {
		if d.Code == code {
			return d
		}
	}
	return nil
}

func compareGolden(t *testing.T, name string, got []byte) {
	t.Helper()
	if *update {
		if err := os.WriteFile(name, got, 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), string(got)); diff != "" {
		t.Errorf("%s (-want +got; refresh with -update):\n%s", name, diff)
	}
}
