package preview

import (
	"fmt"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"
)

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
