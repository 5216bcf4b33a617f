package builder

import (
	"errors"
	"os"
	"path/filepath"
	"testing"
)

func tree(t *testing.T, folder string, files ...string) {
	t.Helper()
	for _, f := range files {
		name := filepath.Join(folder, f)
		if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(name, []byte(f), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// Folders that are not a handout are refused and left as they are.
func TestCheckOut(t *testing.T) {
	base := t.TempDir()
	tree(t, base, "foreign/letter.txt", "bank/bank.yaml", "ours/index.html", "file")
	if err := os.Mkdir(filepath.Join(base, "empty"), 0o755); err != nil {
		t.Fatal(err)
	}
	tree(t, base, "app/manifest.json", "app/app.js") // another program's manifest
	manifest := Manifest{Title: "Ours"}.Encode()
	if err := os.WriteFile(filepath.Join(base, "ours", manifestName), manifest, 0o644); err != nil {
		t.Fatal(err)
	}
	t.Setenv("HOME", filepath.Join(base, "home"))
	for out, refused := range map[string]bool{
		"new": false, "empty": false, "ours": false, // a handout, an empty folder and no folder yet
		"foreign": true, "app": true, "bank": true, "file": true, "home": true,
	} {
		err := checkOut(realDisk{}, filepath.Join(base, out))
		if got := errors.Is(err, ErrForeignFolder); got != refused {
			t.Errorf("%s: refused %v (%v), want %v", out, got, err, refused)
		}
	}
	if err := checkOut(realDisk{}, "/"); !errors.Is(err, ErrForeignFolder) {
		t.Errorf("the root was accepted: %v", err)
	}
}

// Where folders can't be exchanged in one step and the second step fails, the
// old handout is put back.
func TestExchangeByRename(t *testing.T) {
	base := t.TempDir()
	tree(t, base, "new/index.html", "handout/old.html")
	fresh, old := filepath.Join(base, "new"), filepath.Join(base, "handout")
	failing := &faultyDisk{disk: realDisk{}, fault: func(c diskCall) error {
		if c.op == "rename" && c.name == fresh {
			return errors.New("disk full")
		}
		return nil
	}}
	if err := exchangeByRename(failing, fresh, old); err == nil {
		t.Fatal("a failing rename was not reported")
	}
	if _, err := os.Stat(filepath.Join(old, "old.html")); err != nil {
		t.Errorf("the old handout is gone: %v", err)
	}
	if err := exchangeByRename(realDisk{}, fresh, old); err != nil {
		t.Fatal(err)
	}
	if _, err := os.Stat(filepath.Join(old, "index.html")); err != nil {
		t.Errorf("the new handout is not in place: %v", err)
	}
}

// A handout that a killed build left standing aside gets its name back; what
// isn't a handout, or stands beside one, is let be.
func TestPutBack(t *testing.T) {
	base := t.TempDir()
	out := filepath.Join(base, "handout")
	tree(t, base, "handout.previous/index.html", "handout.previous/"+manifestName)
	if err := putBack(realDisk{}, out); err != nil {
		t.Fatal(err)
	}
	if _, err := os.Stat(out); err == nil {
		t.Fatal("a foreign folder was taken for the old handout")
	}
	manifest := Manifest{Title: "Ours"}.Encode()
	if err := os.WriteFile(filepath.Join(out+asideSuffix, manifestName), manifest, 0o644); err != nil {
		t.Fatal(err)
	}
	for range 2 { // the second time there is nothing to do
		if err := putBack(realDisk{}, out); err != nil {
			t.Fatal(err)
		}
		if _, err := os.Stat(filepath.Join(out, "index.html")); err != nil {
			t.Fatal(err)
		}
	}
	tree(t, base, "handout.previous/index.html")
	if err := putBack(realDisk{}, out); err != nil {
		t.Fatal(err)
	}
	if _, err := os.Stat(filepath.Join(base, "handout.previous", "index.html")); err != nil {
		t.Error("a folder beside a handout was touched")
	}
}

// What a killed build left beside the handout is removed by the next one; two
// builds into one folder don't meet.
func TestStageAfterCrash(t *testing.T) {
	base := t.TempDir()
	out := filepath.Join(base, "handout")
	tree(t, base, stagePrefix+"handout-123/half.html", stagePrefix+"other-1/whole.html")
	first, err := newStage(realDisk{}, out)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := os.Stat(filepath.Join(base, stagePrefix+"handout-123")); err == nil {
		t.Error("the folder of a killed build is still there")
	}
	if _, err := os.Stat(filepath.Join(base, stagePrefix+"other-1")); err != nil {
		t.Error("the folder of another handout's build was removed")
	}
	if _, err := newStage(realDisk{}, out); !errors.Is(err, ErrBusy) {
		t.Errorf("a second build at once: %v, want ErrBusy", err)
	}
	first.discard()
	second, err := newStage(realDisk{}, out)
	if err != nil {
		t.Fatal(err)
	}
	second.discard()
}
