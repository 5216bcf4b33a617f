package preview

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"caseleaf/casebank"
)

// shown is a preview of a bank in a folder of its own, being served.
type shown struct {
	t      *testing.T
	folder string
	url    string
	p      *Preview
	began  time.Duration // how long the first version took

	mu    sync.Mutex
	lines []string
}

func serve(t *testing.T, folder string) *shown {
	t.Helper()
	s := &shown{t: t, folder: folder}
	started := time.Now()
	p, err := New(Settings{Folder: folder, Say: func(line string) {
		s.mu.Lock()
		defer s.mu.Unlock()
		s.lines = append(s.lines, line)
	}})
	if err != nil {
		t.Fatal(err)
	}
	s.began = time.Since(started)
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(context.Background())
	done := make(chan error)
	go func() { done <- p.Serve(ctx, listener, Loopback) }()
	t.Cleanup(func() {
		stop()
		select {
		case err := <-done:
			if err != nil {
				t.Error(err)
			}
		case <-time.After(10 * time.Second):
			t.Error("the preview does not stop")
		}
	})
	s.p, s.url = p, "http://"+listener.Addr().String()
	return s
}

// get returns the status and body of one file.
func (s *shown) get(path string) (int, string) {
	s.t.Helper()
	response, err := http.Get(s.url + path)
	if err != nil {
		s.t.Fatal(err)
	}
	defer response.Body.Close()
	body, err := io.ReadAll(response.Body)
	if err != nil {
		s.t.Fatal(err)
	}
	return response.StatusCode, string(body)
}

// until waits for a page to hold a text.
func (s *shown) until(path, text string, limit time.Duration) bool {
	s.t.Helper()
	for deadline := time.Now().Add(limit); time.Now().Before(deadline); time.Sleep(20 * time.Millisecond) {
		if _, body := s.get(path); strings.Contains(body, text) {
			return true
		}
	}
	return false
}

func (s *shown) versions() int { return s.p.state.Load().number }

// bank lays a small bank with one case out.
func bank(t *testing.T, caseText string) string {
	t.Helper()
	folder := filepath.Join(t.TempDir(), "bank")
	write(t, filepath.Join(folder, "bank.yaml"), "title: Small bank\nlanguage: en\ninvented: yes\n")
	write(t, filepath.Join(folder, "cases", "HB-131.md"), caseText)
	return folder
}

func write(t *testing.T, name, text string) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

// whole is what a case needs besides a title.
const whole = "procedure: cataract-surgery\ntechnique: divide-and-conquer\ntimeline: [{at: 0:40, step: main-incision}]\n" + release

const release = "release: {consent: not-required, reason: Invented, reviewed_by: consultant, reviewed: 2026, face: no, text_in_pictures: no, sound: none, otherwise_findable: no}\n"

const page = "/cases/hb-131.html"

// A mistake is shown over the last good version, and goes when it is mended.
func TestMistakeOverLastGoodVersion(t *testing.T) {
	good := "---\ncase: HB-131\ntitle: First title\n" + whole + "---\nText.\n"
	s := serve(t, bank(t, good))
	news, err := http.Get(s.url + "/-/news?page=cases/hb-131.html")
	if err != nil {
		t.Fatal(err)
	}
	defer news.Body.Close()
	write(t, filepath.Join(s.folder, "cases", "HB-131.md"), strings.Replace(good, "title:", "titel:", 1))
	if !untilNews(t, news.Body, "titel") {
		t.Fatal("no open page is told of the mistake")
	}
	if _, body := s.get(page); !strings.Contains(body, "First title") {
		t.Error("the last good version does not stand")
	}
	write(t, filepath.Join(s.folder, "cases", "HB-131.md"), strings.Replace(good, "First", "Second", 1))
	if !s.until(page, "Second title", 3*time.Second) {
		t.Error("the mended case is not shown")
	}
}

// untilNews reads events until one holds a text.
func untilNews(t *testing.T, from io.Reader, text string) bool {
	t.Helper()
	var all bytes.Buffer
	part := make([]byte, 4096)
	found := make(chan bool)
	go func() {
		for {
			n, err := from.Read(part)
			all.Write(part[:n])
			if bytes.Contains(all.Bytes(), []byte(text)) {
				found <- true
			}
			if err != nil {
				return
			}
		}
	}()
	select {
	case <-found:
		return true
	case <-time.After(5 * time.Second):
		return false
	}
}

// Only pages that changed are told to load anew.
func TestOnlyTouchedPagesReload(t *testing.T) {
	one := "---\ncase: HB-131\ntitle: One\n" + whole + "---\nText.\n"
	s := serve(t, bank(t, one))
	write(t, filepath.Join(s.folder, "cases", "HB-132.md"), "---\ncase: HB-132\ntitle: Two\n"+whole+"---\nText.\n")
	if !s.until("/cases/hb-132.html", "Two", 3*time.Second) {
		t.Fatal("a new case is not shown")
	}
	before := s.p.state.Load()
	write(t, filepath.Join(s.folder, "cases", "HB-132.md"), "---\ncase: HB-132\ntitle: Two\n"+whole+"---\nOther text.\n")
	if !s.until("/cases/hb-132.html", "Other text", 3*time.Second) {
		t.Fatal("the change is not shown")
	}
	after := s.p.state.Load()
	for path, changed := range map[string]bool{"cases/hb-132.html": true, "cases/hb-131.html": false, "glossary.html": false} {
		if got := before.shown(path) != after.shown(path); got != changed {
			t.Errorf("%s: loads anew %v, want %v", path, got, changed)
		}
	}
}

// A case that may identify somebody is never answered.
func TestPrivacyHoldsInPreview(t *testing.T) {
	good := "---\ncase: HB-131\ntitle: One\n" + whole + "---\nText.\n"
	s := serve(t, bank(t, good))
	write(t, filepath.Join(s.folder, "cases", "HB-131.md"), good+"\nSeen on 14 March 2021 in bed 4, telephone 020 7946 0018.\n")
	time.Sleep(1500 * time.Millisecond)
	if v := s.p.state.Load(); v.errors == 0 || v.proof == nil {
		t.Fatal("nothing was found")
	}
	paths, err := s.p.state.Load().proof.Paths()
	if err != nil {
		t.Fatal(err)
	}
	for _, path := range paths {
		if _, body := s.get("/" + path); strings.Contains(body, "7946") {
			t.Errorf("%s shows it", path)
		}
	}
}

// demo is a copy of the demonstration bank in a folder.
func demo(t *testing.T) string {
	t.Helper()
	folder := filepath.Join(t.TempDir(), "bank")
	if err := os.CopyFS(folder, casebank.FS()); err != nil {
		t.Fatal(err)
	}
	return folder
}

// Where the system gives no events the folder is looked at.
func TestWithoutEvents(t *testing.T) {
	good := "---\ncase: HB-131\ntitle: First title\n" + whole + "---\nText.\n"
	folder := bank(t, good)
	s := &shown{t: t, folder: folder}
	p, err := New(Settings{Folder: folder, Say: func(line string) { s.lines = append(s.lines, line) }})
	if err != nil {
		t.Fatal(err)
	}
	p.watch.fallBack(fmt.Errorf("no space left on device"))
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(context.Background())
	done := make(chan error)
	go func() { done <- p.Serve(ctx, listener, Loopback) }()
	s.p, s.url = p, "http://"+listener.Addr().String()
	write(t, filepath.Join(folder, "cases", "HB-131.md"), strings.Replace(good, "First", "Second", 1))
	if !s.until(page, "Second title", 4*time.Second) {
		t.Error("the save is not noticed")
	}
	stop()
	if err := <-done; err != nil {
		t.Error(err)
	}
	if !strings.Contains(strings.Join(s.lines, "\n"), "every second") {
		t.Errorf("nobody is told: %q", s.lines)
	}
}
