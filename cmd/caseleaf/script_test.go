package main

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

// No test asks a network for the chart library. Scripts run this too, as
// caseleaf, and may say otherwise.
func TestMain(m *testing.M) {
	if _, set := os.LookupEnv("CASELEAF_OFFLINE"); !set {
		_ = os.Setenv("CASELEAF_OFFLINE", "true")
	}
	testscript.Main(m, map[string]func(){"caseleaf": main})
}

// TestScript runs the stories in testdata/script; -update rewrites what they
// compare with.
func TestScript(t *testing.T) {
	captions, err := filepath.Abs("../../testdata/captions")
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Dir:                 "../../testdata/script",
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		Setup: func(e *testscript.Env) error {
			e.Setenv("CAPTIONS", captions)
			e.Setenv("CASELEAF_OFFLINE", "true")
			return nil
		},
		UpdateScripts: os.Getenv("CASELEAF_UPDATE") != "",
	})
}
