package builder_test

import (
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"caseleaf/builder"
	"caseleaf/content"
	"caseleaf/content/diagnose"
)

// identifying lists what the privacy check says of a bank.
func identifying(t *testing.T, files fs.FS) []string {
	t.Helper()
	_, found, err := content.Read(files)
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, d := range found {
		if diagnose.IsPrivacy(d.Code) && d.Severity != diagnose.Note {
			out = append(out, d.Message)
		}
	}
	return out
}

// The privacy check raises no alarm at Arabic, neither in the bank nor in what was written
// from it.
func TestPrivacyIsCalmInArabic(t *testing.T) {
	files := os.DirFS("../testdata/arabic")
	for _, message := range identifying(t, files) {
		t.Errorf("in the bank: %s", message)
	}
	bank, _, err := content.Read(files)
	if err != nil {
		t.Fatal(err)
	}
	sum, err := builder.Build(bank, builder.Options{Out: filepath.Join(t.TempDir(), "handout"), BankFiles: files})
	if err != nil {
		t.Fatal(err)
	}
	for _, w := range sum.Warnings {
		t.Errorf("in the handout: %s", w)
	}
}

// It does not go blind either: what has the form of a date, an address or a number is found
// between Arabic letters, and in Arabic digits. Numbers and addresses are of the ranges kept
// for tests and fiction.
func TestPrivacySeesInArabic(t *testing.T) {
	for name, sentence := range map[string]string{
		"a date":                    "أُجريت العملية في 14/03/2021 صباحًا.",
		"a date in Arabic digits":   "أُجريت العملية في ١٤/٠٣/٢٠٢١ صباحًا.",
		"a telephone number":        "للسؤال: 01632 960123 في أي وقت.",
		"an e-mail address":         "كتب إلى someone@example.org بعدها.",
		"a health number":           "كان رقمه 999 000 0018 في القائمة.",
		"a health number in digits": "كان رقمه ٩٩٩ ٠٠٠ ٠٠١٨ في القائمة.",
	} {
		t.Run(name, func(t *testing.T) {
			files := fstest.MapFS{}
			err := fs.WalkDir(os.DirFS("../testdata/arabic"), ".", func(p string, d fs.DirEntry, err error) error {
				if err != nil || d.IsDir() {
					return err
				}
				data, err := os.ReadFile(filepath.Join("../testdata/arabic", p))
				files[p] = &fstest.MapFile{Data: data}
				return err
			})
			if err != nil {
				t.Fatal(err)
			}
			file := files["cases/ar-003.md"]
			file.Data = append(file.Data, []byte("\n"+sentence+"\n")...)
			if got := identifying(t, files); len(got) == 0 {
				t.Errorf("%q passed", strings.TrimSpace(sentence))
			}
		})
	}
}
