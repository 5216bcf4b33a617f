package preview

import (
	"bytes"
	"context"
	"encoding/json"
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

// The ways of saving are those of field report FR-33, each done three times in a
// row with before and after swapped.
func TestSaves(t *testing.T) {
	reports := filepath.Join("..", "..", "testdata", "field-reports", "fr-33-saves")
	var saves []struct {
		Name     string
		Ops      []json.RawMessage
		Rebuilds int
		Within   int `json:"within_ms"`
	}
	data, err := os.ReadFile(filepath.Join(reports, "saves.json"))
	if err == nil {
		err = json.Unmarshal(data, &saves)
	}
	if err != nil {
		t.Fatal(err)
	}
	texts := map[string]string{}
	for _, name := range []string{"before", "after"} {
		data, err := os.ReadFile(filepath.Join(reports, name+".md"))
		if err != nil {
			t.Fatal(err)
		}
		texts[name] = fitted.Replace(string(data))
	}
	for _, save := range saves {
		t.Run(save.Name, func(t *testing.T) {
			t.Parallel()
			s := serve(t, bank(t, texts["before"]))
			reader := s.readAllTheTime()
			defer reader.stop()
			limit := 2 * time.Second
			if save.Within > 0 {
				limit = time.Duration(save.Within) * time.Millisecond
			}
			limit += 25 * s.began // on a machine that is busy with other tests everything takes longer
			for round := range 3 {
				to := map[string]string{"before": texts["before"], "after": texts["after"]}
				if round == 1 {
					to["before"], to["after"] = to["after"], to["before"]
				}
				before := s.versions()
				over := make(chan bool)
				go func() { saver{t, filepath.Join(s.folder, "cases"), to}.all(save.Ops); close(over) }()
				want := marker(to["after"])
				if save.Within == 0 {
					<-over
				}
				if save.Rebuilds > 0 && !s.until(page, want, limit) {
					t.Errorf("round %d: %q is not shown within %v", round+1, want, limit)
				}
				<-over
				time.Sleep(800*time.Millisecond + 10*s.began) // what comes late would be one too many
				if got := s.versions() - before; got != save.Rebuilds {
					t.Errorf("round %d: shown anew %d times, want %d", round+1, got, save.Rebuilds)
				}
			}
		})
	}
}

// fitted makes the report's older form of a case one that is read now and is
// released; what the report is about, how the file is saved, stays.
var fitted = strings.NewReplacer(
	"procedure: cataract\n", "procedure: cataract-surgery\n", "phaco-divide-and-conquer", "divide-and-conquer",
	"alpha-blocker]", "alpha-blocker-use]", "type: nuclear,", "type: nuclear-cataract,", "step: incision", "step: main-incision",
	"\n---\nThe", "\n"+release+"---\nThe",
)

// marker is the text that tells after from before.
func marker(text string) string {
	if strings.Contains(text, "After the save") {
		return "After the save"
	}
	return "Before the save"
}

// saver does the steps of one way of saving in a folder.
type saver struct {
	t      *testing.T
	folder string
	texts  map[string]string
}

func (s saver) all(ops []json.RawMessage) {
	for _, op := range ops {
		var fields []any
		if err := json.Unmarshal(op, &fields); err != nil {
			s.t.Error(err)
			return
		}
		if err := s.do(fields, op); err != nil {
			s.t.Errorf("%v: %v", fields[0], err)
		}
	}
}

func (s saver) do(op []any, raw json.RawMessage) error {
	path := func(i int) string { return filepath.Join(s.folder, op[i].(string)) }
	text := func(i int) string {
		if known, ok := s.texts[op[i].(string)]; ok {
			return known
		}
		return op[i].(string)
	}
	switch op[0] {
	case "write", "create":
		return os.WriteFile(path(1), []byte(text(2)), 0o644)
	case "truncate":
		return os.Truncate(path(1), 0)
	case "sleep":
		time.Sleep(time.Duration(op[1].(float64)) * time.Millisecond)
		return nil
	case "write-part":
		return os.WriteFile(path(1), []byte(text(2)[:int(op[3].(float64))]), 0o644)
	case "append-rest":
		info, err := os.Stat(path(1))
		if err != nil {
			return err
		}
		f, err := os.OpenFile(path(1), os.O_APPEND|os.O_WRONLY, 0)
		if err != nil {
			return err
		}
		_, err = f.WriteString(text(2)[info.Size():])
		return firstOf(err, f.Close())
	case "rename", "rename-dir":
		return os.Rename(path(1), path(2))
	case "remove":
		return os.Remove(path(1))
	case "touch":
		return os.Chtimes(path(1), time.Now(), time.Now())
	case "repeat":
		var inner []any
		var parts []json.RawMessage
		if err := json.Unmarshal(raw, &parts); err != nil {
			return err
		}
		var steps []json.RawMessage
		if err := firstOf(json.Unmarshal(raw, &inner), json.Unmarshal(parts[2], &steps)); err != nil {
			return err
		}
		for range int(op[1].(float64)) {
			s.all(steps)
		}
		return nil
	}
	return fmt.Errorf("no such step")
}

func firstOf(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

// reader asks for the page all the time and complains of anything but a whole
// one.
type reader struct{ stop func() }

func (s *shown) readAllTheTime() reader {
	quit, over := make(chan bool), make(chan bool)
	go func() {
		defer close(over)
		for {
			select {
			case <-quit:
				return
			case <-time.After(15 * time.Millisecond):
			}
			status, body := s.get(page)
			if status != http.StatusOK || !strings.Contains(body, "the save") || !strings.HasSuffix(body, "</html>\n") {
				s.t.Errorf("a reader sees status %d, %d bytes: %.80q", status, len(body), body)
				return
			}
			if v := s.p.state.Load(); v.errors > 0 {
				s.t.Errorf("a reader sees an error: %v", v.messages)
				return
			}
		}
	}()
	return reader{func() { close(quit); <-over }}
}

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

// Addresses outside the handout get 404, foreign hosts 403.
func TestNothingButTheHandout(t *testing.T) {
	s := serve(t, bank(t, "---\ncase: HB-131\ntitle: One\n"+whole+"---\nText.\n"))
	for _, path := range []string{
		"/../bank.yaml", "/cases/../../bank.yaml", "/%2e%2e/bank.yaml", "/..%2fbank.yaml", "/cases/..%5c..%5cbank.yaml",
		"//etc/passwd", "/cases/", "/cases", "/bank.yaml", "/cases/HB-131.md", "/cases/hb-131.html/", "/cases/hb-131.html%00",
		"/./index.html/../x", "/-/", "/-/../bank.yaml", "/CASES/HB-131.HTML",
	} {
		response, err := (&http.Transport{}).RoundTrip(rawRequest(t, s.url, path))
		if err != nil {
			t.Errorf("%s: %v", path, err)
			continue
		}
		response.Body.Close()
		if response.StatusCode != http.StatusNotFound && response.StatusCode != http.StatusBadRequest {
			t.Errorf("%s: status %d", path, response.StatusCode)
		}
	}
	for host, want := range map[string]int{"localhost:1": 200, "127.0.0.1": 200, "[::1]:80": 200, "rebind.example": 403, "127.0.0.1.example:80": 403, "": 403} {
		request, err := http.NewRequest(http.MethodGet, s.url+"/", nil)
		if err != nil {
			t.Fatal(err)
		}
		request.Host = host
		if host == "" {
			request.Host = "."
		}
		response, err := http.DefaultTransport.RoundTrip(request)
		if err != nil {
			t.Fatal(err)
		}
		response.Body.Close()
		if response.StatusCode != want {
			t.Errorf("host %q: status %d, want %d", host, response.StatusCode, want)
		}
	}
	response, err := http.Post(s.url+"/index.html", "text/plain", nil)
	if err != nil {
		t.Fatal(err)
	}
	response.Body.Close()
	if response.StatusCode != http.StatusMethodNotAllowed {
		t.Errorf("a POST gets %d", response.StatusCode)
	}
}

// rawRequest asks for a path exactly as it is written.
func rawRequest(t *testing.T, base, path string) *http.Request {
	t.Helper()
	request, err := http.NewRequest(http.MethodGet, base, nil)
	if err != nil {
		t.Fatal(err)
	}
	request.URL.Opaque = "//" + strings.TrimPrefix(base, "http://") + path
	return request
}

// A thousand readers at once and a hundred slow ones are answered while the
// bank is being saved.
func TestManyReaders(t *testing.T) {
	s := serve(t, demo(t))
	stopSaving, saved := make(chan bool), make(chan bool)
	go func() {
		defer close(saved)
		for i := 0; ; i++ {
			select {
			case <-stopSaving:
				return
			case <-time.After(300 * time.Millisecond):
				name := filepath.Join(s.folder, "cases", "hb-900.md")
				_ = os.WriteFile(name, fmt.Appendf(nil, "---\ncase: HB-900\ntitle: Save %d\n"+whole+"---\nText.\n", i), 0o644)
			}
		}
	}()
	var all sync.WaitGroup
	for range 100 {
		all.Go(func() { slowly(t, s.url, "/frequencies.html") })
	}
	client := &http.Client{Transport: &http.Transport{MaxConnsPerHost: 1000}}
	for i := range 1000 {
		all.Go(func() {
			path := []string{"/index.html", "/cases/hb-003.html", "/glossary.html", "/assets/style.css"}[i%4]
			response, err := client.Get(s.url + path)
			if err != nil {
				t.Error(err)
				return
			}
			defer response.Body.Close()
			if n, err := io.Copy(io.Discard, response.Body); err != nil || response.StatusCode != http.StatusOK || n == 0 {
				t.Errorf("%s: status %d, %d bytes, %v", path, response.StatusCode, n, err)
			}
		})
	}
	all.Wait()
	close(stopSaving)
	<-saved
}

// slowly reads the beginning of a file a few bytes at a time.
func slowly(t *testing.T, url, path string) {
	response, err := http.Get(url + path)
	if err != nil {
		t.Error(err)
		return
	}
	defer response.Body.Close()
	part := make([]byte, 64)
	for range 20 {
		if _, err := response.Body.Read(part); err != nil {
			t.Errorf("a slow reader: %v", err)
			return
		}
		time.Sleep(20 * time.Millisecond)
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
