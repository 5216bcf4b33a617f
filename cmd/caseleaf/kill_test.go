package main

import (
	"bytes"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strconv"
	"testing"
	"time"

	"caseleaf/builder/pack"
)

// TestKilledBuilds kills builds over an existing handout at random moments of
// them, without any warning, after the bank was changed. Each time the old
// handout or the new one stands whole by its manifest, nothing is beside it once
// the next build is done, and that succeeds.
//
// CASELEAF_KILLS says how many; without it there are a few.
func TestKilledBuilds(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("a process can't be killed there as it is here")
	}
	kills := 6
	if n, err := strconv.Atoi(os.Getenv("CASELEAF_KILLS")); err == nil {
		kills = n
	}
	k := newKillTrial(t)
	r := rand.New(rand.NewPCG(9, 2026))
	ended, old, fresh := 0, 0, 0
	for i := range kills {
		next := (i + 1) % 2
		k.setTitle(t, next)
		build := k.command()
		if err := build.Start(); err != nil {
			t.Fatal(err)
		}
		time.Sleep(time.Duration(r.Int64N(int64(k.takes) * 11 / 10)))
		_ = build.Process.Kill() // it may have ended
		if build.Wait() == nil {
			ended++
		}
		if k.stands(t) == next {
			fresh++
		} else {
			old++
		}
		k.build(t)
		if got := k.stands(t); got != next {
			t.Fatalf("after kill %d the next build left the handout of title %d", i, got)
		}
		k.nothingBeside(t)
	}
	t.Logf("%d kills: %d came after the end, the old handout stood %d times, the new one %d times", kills, ended, old, fresh)
	if ended == kills {
		t.Error("no build was killed in time")
	}
}

// killTrial is a bank whose title goes to and fro, and its handout.
type killTrial struct {
	folder    string
	manifests [2][]byte
	takes     time.Duration // a build
}

var killTitles = [2][]byte{[]byte("title: The first\n"), []byte("title: Another\n")}

func newKillTrial(t *testing.T) *killTrial {
	t.Helper()
	k := &killTrial{folder: t.TempDir()}
	if out, err := exec.Command("caseleaf", "begin", filepath.Join(k.folder, "bank")).CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	for i := range k.manifests {
		k.setTitle(t, i)
		start := time.Now()
		k.build(t)
		k.takes = time.Since(start)
		k.manifests[i] = k.manifest(t)
	}
	k.setTitle(t, 0)
	k.build(t)
	return k
}

func (k *killTrial) setTitle(t *testing.T, i int) {
	t.Helper()
	if err := os.WriteFile(filepath.Join(k.folder, "bank", "bank.yaml"), killTitles[i], 0o644); err != nil {
		t.Fatal(err)
	}
}

func (k *killTrial) command() *exec.Cmd {
	c := exec.Command("caseleaf", "build", filepath.Join(k.folder, "bank"), "--out", filepath.Join(k.folder, "out", "handout"))
	c.Env = append(os.Environ(), "XDG_CACHE_HOME="+filepath.Join(k.folder, "cache"))
	return c
}

func (k *killTrial) build(t *testing.T) {
	t.Helper()
	if out, err := k.command().CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
}

func (k *killTrial) manifest(t *testing.T) []byte {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(k.folder, "out", "handout", pack.ManifestName))
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// stands says which handout stands there, and holds every file to its manifest.
func (k *killTrial) stands(t *testing.T) int {
	t.Helper()
	report, err := pack.Verify(filepath.Join(k.folder, "out", "handout"))
	if err != nil || len(report.Differences) > 0 {
		t.Fatalf("the handout is damaged: %v %v", err, report.Differences)
	}
	got := k.manifest(t)
	for i, want := range k.manifests {
		if bytes.Equal(got, want) {
			return i
		}
	}
	t.Fatal("another handout stands there")
	return -1
}

func (k *killTrial) nothingBeside(t *testing.T) {
	t.Helper()
	list, err := os.ReadDir(filepath.Join(k.folder, "out"))
	if err != nil {
		t.Fatal(err)
	}
	for _, d := range list {
		if d.Name() != "handout" {
			t.Errorf("%s is left beside the handout", d.Name())
		}
	}
}
