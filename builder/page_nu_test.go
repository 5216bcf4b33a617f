package builder_test

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// nuChecker is how the Nu HTML checker is started: Java, and the vnu.jar that
// CASELEAF_NU names. Without them the test is skipped, and fails where
// CASELEAF_BROWSER=required.
func nuChecker(t *testing.T) []string {
	t.Helper()
	jar := os.Getenv("CASELEAF_NU")
	java, err := exec.LookPath("java")
	if jar == "" || err != nil {
		if os.Getenv("CASELEAF_BROWSER") == "required" {
			t.Fatalf("CASELEAF_BROWSER=required, and CASELEAF_NU names no vnu.jar (%q) or there is no java (%v)", jar, err)
		}
		t.Skip("CASELEAF_NU names no vnu.jar or there is no java: pages were not read by the Nu HTML checker")
	}
	return []string{java, "-Xss4m", "-jar", jar, "--format", "json", "--exit-zero-always"}
}

type nuMessage struct {
	Type, SubType, URL, Message, Extract string
	LastLine                             int
}

// nuMessages runs the checker over files and folders.
//
// It takes the pages of a folder for pages of an origin that is none, so that
// 'self' of their content security policy fits nothing, and it does not know
// file: as a source; the browser tests see that everything is loaded.
func nuMessages(t *testing.T, args ...string) []nuMessage {
	t.Helper()
	command := append(nuChecker(t), args...)
	run := exec.Command(command[0], command[1:]...)
	var said strings.Builder
	run.Stderr = &said // where it writes what it found
	if err := run.Run(); err != nil {
		t.Fatalf("the checker did not run: %v\n%s", err, said.String())
	}
	var result struct{ Messages []nuMessage }
	if err := json.Unmarshal([]byte(said.String()), &result); err != nil {
		t.Fatalf("the checker said what is no JSON: %v\n%.2000s", err, said.String())
	}
	var kept []nuMessage
	for _, m := range result.Messages {
		if !strings.HasPrefix(m.Message, "Resource violates Content Security Policy (meta tag): external ") {
			kept = append(kept, m)
		}
	}
	return kept
}

// Every page and every drawing of the demonstration handout, and of one of
// another specialty, is without an error and without a warning.
func TestPagesByNu(t *testing.T) {
	nuChecker(t)
	for name, folder := range map[string]string{"demo": demoHandout(t), "second-specialty": secondHandout(t)} {
		var pages int
		_ = filepath.WalkDir(folder, func(p string, _ os.DirEntry, err error) error {
			if filepath.Ext(p) == ".html" {
				pages++
			}
			return err
		})
		for _, m := range nuMessages(t, "--skip-non-html", "--also-check-svg", folder) {
			t.Errorf("%s: %s, line %d: %s %s: %s\n  %s", name, m.URL, m.LastLine, m.Type, m.SubType, m.Message, strings.TrimSpace(m.Extract))
		}
		t.Logf("%s: %d pages", name, pages)
	}
}

// The checker does find faults.
func TestNuFindsFaults(t *testing.T) {
	nuChecker(t)
	bad := filepath.Join(t.TempDir(), "bad.html")
	page := "<!doctype html>\n<html lang=\"en\"><head><title>A bad page</title></head>\n<body><ul><p>A paragraph in a list</p></ul><p id=\"a\">one</p>\n<p id=\"a\">two</p></body></html>\n"
	if err := os.WriteFile(bad, []byte(page), 0o600); err != nil {
		t.Fatal(err)
	}
	lines := map[int]bool{}
	for _, m := range nuMessages(t, bad) {
		if m.Type == "error" {
			lines[m.LastLine] = true
		}
	}
	if !lines[3] || !lines[4] {
		t.Errorf("errors on lines %v, want 3 and 4", lines)
	}
}
