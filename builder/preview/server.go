package preview

import (
	"bytes"
	"context"
	"crypto/sha256"
	_ "embed"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"html"
	"io/fs"
	"mime"
	"net"
	"net/http"
	"path"
	"regexp"
	"strings"

	"caseleaf/builder"
)

// ownFolder holds what the preview adds; no handout has a file there.
const ownFolder = "/-/"

//go:embed live.js
var liveScript []byte

//go:embed live.css
var liveStyle []byte

// policy lets a previewed page load what a handout loads, and the preview's own
// script ask for news. It stands in for the policy inside the page.
const policy = "default-src 'none'; script-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' data: blob:; media-src 'self' blob:; font-src 'self'; connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"

// handler answers GET and HEAD for the handout's files by their exact names and
// nothing else, to those who asked for one of the hosts. The check of the host
// keeps a foreign page that got its name pointed at this machine from reading.
func (p *Preview) handler(ctx context.Context, hosts []string) http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("GET "+ownFolder+"news", func(w http.ResponseWriter, r *http.Request) { p.serveNews(ctx, w, r) })
	mux.HandleFunc("GET "+ownFolder+"live.js", func(w http.ResponseWriter, _ *http.Request) { answer(w, "x.js", liveScript) })
	mux.HandleFunc("GET "+ownFolder+"live.css", func(w http.ResponseWriter, _ *http.Request) { answer(w, "x.css", liveStyle) })
	mux.HandleFunc("GET /", p.serveFile)
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		head := w.Header()
		head.Set("Cache-Control", "no-store")
		head.Set("Content-Security-Policy", policy)
		head.Set("X-Content-Type-Options", "nosniff")
		head.Set("Referrer-Policy", "no-referrer")
		head.Set("Cross-Origin-Resource-Policy", "same-origin")
		switch {
		case !allowedHost(r.Host, hosts):
			http.Error(w, "This preview answers only under the address that it printed.", http.StatusForbidden)
		case r.URL.Path != path.Clean(r.URL.Path) && r.URL.Path != "/":
			http.NotFound(w, r) // the mux would send such a path elsewhere
		default:
			mux.ServeHTTP(w, r)
		}
	})
}

// AnyNumber among the hosts allows every address given in numbers. Whoever
// points a name of theirs at this machine is still refused.
const AnyNumber = "any"

// allowedHost reports whether a Host header names one of the hosts, with any
// port.
func allowedHost(host string, hosts []string) bool {
	name := host
	if h, _, err := net.SplitHostPort(host); err == nil {
		name = h
	}
	name = strings.Trim(name, "[]")
	for _, allowed := range hosts {
		if strings.EqualFold(name, allowed) || allowed == AnyNumber && net.ParseIP(name) != nil {
			return true
		}
	}
	return false
}

// Loopback are the names under which a preview on this machine is asked for.
var Loopback = []string{"localhost", "127.0.0.1", "::1"}

func (p *Preview) serveFile(w http.ResponseWriter, r *http.Request) {
	name := strings.TrimPrefix(r.URL.Path, "/")
	if name == "" {
		name = "index.html"
	}
	v := p.state.Load()
	data, err := v.file(name)
	switch {
	case err == nil:
		if path.Ext(name) == ".html" {
			data = withLive(name, data, v.shown(name))
		}
		answer(w, name, data)
	case errors.Is(err, fs.ErrNotExist) && (v.proof != nil || path.Ext(name) != ".html"):
		http.NotFound(w, r)
	case errors.Is(err, fs.ErrNotExist):
		answer(w, "x.html", withLive(name, notYet("There is nothing to show yet", "The bank has errors. They are listed here; mend them and this page fills."), ""))
	default:
		answer(w, "x.html", withLive(name, notYet("This page is not shown", err.Error()), ""))
	}
}

func answer(w http.ResponseWriter, name string, data []byte) {
	kind := mime.TypeByExtension(path.Ext(name))
	switch path.Ext(name) {
	case ".csv":
		kind = "text/csv; charset=utf-8"
	case "", ".ics":
		kind = "text/plain; charset=utf-8"
	}
	if kind != "" {
		w.Header().Set("Content-Type", kind)
	}
	w.Header().Set("Content-Length", fmt.Sprint(len(data)))
	_, _ = w.Write(data) // a reader who has gone away is no fault
}

// notYet is a page of the preview's own.
func notYet(title, text string) []byte {
	return []byte("<!doctype html>\n<html lang=\"en\">\n<head><meta charset=\"utf-8\"><title>" + html.EscapeString(title) +
		"</title></head>\n<body><main><h1>" + html.EscapeString(title) + "</h1><p>" + html.EscapeString(text) + "</p></main></body>\n</html>\n")
}

// pagePolicy is the policy inside a page, which knows nothing of the preview.
var pagePolicy = regexp.MustCompile(`<meta http-equiv="Content-Security-Policy"[^>]*>\n?`)

// withLive adds the preview's script and style to a page.
func withLive(name string, page []byte, shown string) []byte {
	added := fmt.Sprintf("<link rel=\"stylesheet\" href=\"/-/live.css\">\n<script src=\"/-/live.js\" data-page=\"%s\" data-shown=\"%s\" defer></script>\n", html.EscapeString(name), shown)
	head, rest, ok := bytes.Cut(page, []byte("</head>"))
	if !ok {
		return pagePolicy.ReplaceAll(page, nil)
	}
	head = pagePolicy.ReplaceAll(head, nil)
	return []byte(string(head) + added + "</head>" + string(rest))
}

// shown is a mark of a page as readers see it: of its bytes and of the styles
// and scripts that all pages share. It is empty where the page can't be shown.
func (v *version) shown(page string) string {
	data, err := v.file(page)
	if err != nil {
		return ""
	}
	shared, own := v.shared(), sha256.Sum256(data)
	sum := sha256.Sum256(append(own[:], shared[:]...))
	return hex.EncodeToString(sum[:12])
}

// sharedSum sums up the styles and scripts, which change how every page looks.
func sharedSum(proof *builder.Proof) (sum [sha256.Size]byte) {
	if proof == nil {
		return sum
	}
	all := sha256.New()
	for _, name := range proof.Shared() {
		if data, err := proof.File(name); err == nil {
			part := sha256.Sum256(data)
			all.Write(part[:])
		}
	}
	return [sha256.Size]byte(all.Sum(nil))
}

// news is what an open page is told.
type news struct {
	Number   int       `json:"number"`
	Shown    string    `json:"shown"` // of the page, see version.shown
	Gone     bool      `json:"gone"`  // the page is no longer in the handout
	Messages []message `json:"messages"`
}

// serveNews tells one open page of every new version, until it is closed.
func (p *Preview) serveNews(ctx context.Context, w http.ResponseWriter, r *http.Request) {
	page := r.URL.Query().Get("page")
	control := http.NewResponseController(w)
	w.Header().Set("Content-Type", "text/event-stream")
	reader := make(chan struct{}, 1)
	p.mu.Lock()
	p.readers[reader] = true
	p.mu.Unlock()
	defer func() {
		p.mu.Lock()
		delete(p.readers, reader)
		p.mu.Unlock()
	}()
	for {
		data, err := json.Marshal(p.state.Load().news(page))
		if err != nil {
			return
		}
		if _, err := fmt.Fprintf(w, "data: %s\n\n", data); err != nil || control.Flush() != nil {
			return
		}
		select {
		case <-reader:
		case <-ctx.Done():
			return
		case <-r.Context().Done():
			return
		}
	}
}

// news sums a version up for one page.
func (v *version) news(page string) news {
	n := news{Number: v.number, Shown: v.shown(page), Messages: v.messages}
	_, err := v.file(page)
	n.Gone = v.proof != nil && errors.Is(err, fs.ErrNotExist)
	if err != nil && !errors.Is(err, fs.ErrNotExist) && builder.Explained(err) {
		n.Messages = append([]message{{"error", err.Error()}}, n.Messages...)
	}
	return n
}
