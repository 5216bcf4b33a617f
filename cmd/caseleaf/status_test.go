package main

import (
	"bytes"
	"path/filepath"
	"testing"
)

// Exit statuses: 0 done, 1 the bank has errors, 2 wrong use, 3 the machine
// failed.
func TestStatus(t *testing.T) {
	t.Setenv("CASELEAF_OFFLINE", "true")
	dir := t.TempDir()
	for _, c := range []struct {
		name string
		args []string
		want int
	}{
		{"a sound bank", []string{"check", "../../testdata/second-specialty"}, exitDone},
		{"a bank with faults", []string{"check", "../../testdata/faulty"}, exitBank},
		{"a build of one", []string{"build", "../../testdata/faulty", "-o", filepath.Join(dir, "faulty")}, exitBank},
		{"an unknown command", []string{"biuld"}, exitUse},
		{"no such bank", []string{"build", filepath.Join(dir, "none")}, exitUse},
		{"a folder that holds something else", []string{"build", "-o", "."}, exitUse},
		{"a folder that can't be made", []string{"build", "-o", "/proc/caseleaf/handout"}, exitMachine},
		{"help", []string{"--help"}, exitDone},
		{"nothing at all", nil, exitDone},
	} {
		var out, errs bytes.Buffer
		if got := run(c.args, streams{&out, &errs}); got != c.want {
			t.Errorf("%s: status %d, want %d\n%s%s", c.name, got, c.want, &out, &errs)
		}
	}
}
