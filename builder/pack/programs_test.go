package pack_test

import (
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"caseleaf/builder/pack"
)

// unpackers are what people open a zip with; each unpacks the zip that is its
// first argument into the folder that is its second.
var unpackers = []struct {
	program string
	command func(zip, folder string) []string
}{
	{"unzip", func(zip, folder string) []string { return []string{"-q", zip, "-d", folder} }},
	{"python3", func(zip, folder string) []string {
		return []string{"-c", "import sys, zipfile\nz = zipfile.ZipFile(sys.argv[1])\nassert z.testzip() is None\nz.extractall(sys.argv[2])", zip, folder}
	}},
	{"jar", func(zip, _ string) []string { return []string{"xf", zip} }}, // into the folder it runs in
}

// The zip opens with what people have, the unzip program, Python and Java, and
// what each unpacks is what was sent, by every byte. CASELEAF_TOOLS=required
// makes a missing program a failure; else its part is skipped.
func TestOtherPrograms(t *testing.T) {
	name := onDisk(t, packed(t, sample))
	for _, u := range unpackers {
		t.Run(u.program, func(t *testing.T) {
			program, err := exec.LookPath(u.program)
			if err != nil {
				if os.Getenv("CASELEAF_TOOLS") == "required" {
					t.Fatalf("there is no %s here, and CASELEAF_TOOLS asks for it", u.program)
				}
				t.Skipf("there is no %s here", u.program)
			}
			folder := t.TempDir()
			command := exec.Command(program, u.command(name, folder)...)
			command.Dir = folder
			if out, err := command.CombinedOutput(); err != nil {
				t.Fatalf("%v\n%s", err, out)
			}
			if report, err := pack.Verify(folder); err != nil || len(report.Differences) > 0 {
				t.Errorf("what it unpacked differs: %v %+v", err, report.Differences)
			}
			for file, want := range sample {
				got, err := os.ReadFile(filepath.Join(folder, filepath.FromSlash(file)))
				if err != nil || string(got) != want {
					t.Errorf("%s: %v, or other bytes", file, err)
				}
			}
		})
	}
}
