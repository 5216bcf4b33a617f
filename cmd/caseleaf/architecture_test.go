package main

import (
	"encoding/json"
	"errors"
	"io"
	"os/exec"
	"path"
	"slices"
	"strings"
	"testing"
)

// arrows says which packages of the module each package may import; "x/..." is
// x and everything below it. A package that isn't listed fails the test, so a
// new one is placed on purpose. DEVELOPERS.md draws the same picture.
var arrows = map[string][]string{
	"cmd/caseleaf":                {"..."},
	"content":                     {"content/..."},
	"content/diagnose":            {},
	"content/front":               {"content/diagnose"},
	"content/sheet":               {"content/diagnose"},
	"content/term":                {},
	"content/measure":             {},
	"content/privacy":             {"content/term"},
	"content/caption":             {"content/term", "content/measure", "content/privacy"},
	"builder":                     {"builder/...", "content/...", "themes", "casebank"},
	"builder/prose":               {"content/..."},
	"builder/stat":                {},
	"builder/tally":               {"content/...", "builder/stat"},
	"builder/decide":              {"content/...", "builder/stat"},
	"builder/bidi":                {},
	"builder/figure":              {"content/measure", "builder/bidi"},
	"builder/cache":               {},
	"builder/calendar":            {},
	"builder/kit":                 {"content/..."},
	"builder/layout":              {},
	"builder/rotation":            {},
	"builder/search":              {"content/term"},
	"builder/chart":               {"builder/tally", "builder/decide"},
	"builder/pack":                {},
	"builder/epub":                {},
	"builder/preview":             {"builder", "content", "content/diagnose"},
	"themes":                      {},
	"casebank":                    {},
	"casebank/generate":           {},
	"builder/spent":               {},
	"content/measure/measuretest": {"content/measure"},
}

// TestArrows holds every import inside the module to the arrows.
func TestArrows(t *testing.T) {
	out, err := exec.Command("go", "list", "-json=ImportPath,Imports", "caseleaf/...").Output()
	if err != nil {
		t.Fatalf("go list: %v", err)
	}
	decoder := json.NewDecoder(strings.NewReader(string(out)))
	for {
		var p struct {
			ImportPath string
			Imports    []string
		}
		err := decoder.Decode(&p)
		if errors.Is(err, io.EOF) {
			return
		}
		if err != nil {
			t.Fatal(err)
		}
		name := strings.TrimPrefix(p.ImportPath, "caseleaf/")
		allowed, known := arrows[name]
		if !known {
			t.Errorf("package %s has no place in the picture: add it to arrows and to DEVELOPERS.md", name)
			continue
		}
		for _, imported := range p.Imports {
			to, ours := strings.CutPrefix(imported, "caseleaf/")
			if ours && !slices.ContainsFunc(allowed, func(a string) bool { return covers(a, to) }) {
				t.Errorf("%s imports %s, which the picture doesn't allow", name, to)
			}
		}
	}
}

func covers(pattern, name string) bool {
	if base, ok := strings.CutSuffix(pattern, "..."); ok {
		base = path.Clean(base)
		return base == "." || name == base || strings.HasPrefix(name, base+"/")
	}
	return pattern == name
}
