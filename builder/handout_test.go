package builder_test

import (
	"crypto/sha256"
	"encoding/hex"
	"io/fs"
	"net/url"
	"os"
	"path"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"testing"
	"time"

	"caseleaf/builder"
	"caseleaf/casebank"
	"caseleaf/content"

	"github.com/google/go-cmp/cmp"
	"golang.org/x/net/html"
)

// build builds a bank that has nothing to mend into a folder.
func build(t testing.TB, files fs.FS, out string) builder.Summary {
	t.Helper()
	bank, found, err := content.Read(files)
	if err != nil || found.Failed() {
		t.Fatalf("reading: %v, %d errors", err, found.Count(0))
	}
	summary, err := builder.Build(bank, builder.Options{Out: out, BankFiles: files})
	if err != nil {
		t.Fatal(err)
	}
	return summary
}

var demo struct {
	once   sync.Once
	folder string
}

// demoHandout is the demonstration handout, built once for all tests.
func demoHandout(t testing.TB) string {
	t.Helper()
	demo.once.Do(func() {
		folder, err := os.MkdirTemp("", "caseleaf-demo-")
		if err != nil {
			t.Fatal(err)
		}
		demo.folder = filepath.Join(folder, "handout")
		build(t, casebank.FS(), demo.folder)
	})
	return demo.folder
}

func TestMain(m *testing.M) {
	status := m.Run()
	if shared.stop != nil {
		shared.stop()
	}
	if demo.folder != "" {
		_ = os.RemoveAll(filepath.Dir(demo.folder))
	}
	os.Exit(status)
}

// sitePage is one HTML file of a handout, parsed.
type sitePage struct {
	path  string
	ids   map[string]int
	links []link
}

type link struct{ element, attribute, address string }

// addressAttributes are the attributes that make a browser go or fetch.
var addressAttributes = map[string]bool{
	"href": true, "src": true, "srcset": true, "action": true, "formaction": true, "poster": true, "data": true, "cite": true, "background": true, "ping": true, "manifest": true, "xlink:href": true,
}

func readPages(t *testing.T, folder string) (pages map[string]*sitePage, files map[string]bool) {
	t.Helper()
	pages, files = map[string]*sitePage{}, map[string]bool{}
	err := filepath.WalkDir(folder, func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		rel, _ := filepath.Rel(folder, name)
		rel = filepath.ToSlash(rel)
		files[rel] = true
		if path.Ext(rel) != ".html" {
			return nil
		}
		f, err := os.Open(name)
		if err != nil {
			return err
		}
		defer f.Close()
		root, err := html.Parse(f)
		if err != nil {
			return err
		}
		p := &sitePage{path: rel, ids: map[string]int{}}
		p.walk(root)
		pages[rel] = p
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return pages, files
}

func (p *sitePage) walk(n *html.Node) {
	for _, a := range n.Attr {
		key := a.Key
		if a.Namespace != "" {
			key = a.Namespace + ":" + key
		}
		if key == "id" {
			p.ids[a.Val]++
		}
		if addressAttributes[key] {
			p.links = append(p.links, link{n.Data, key, a.Val})
		}
	}
	for c := n.FirstChild; c != nil; c = c.NextSibling {
		p.walk(c)
	}
}

// Every link, picture and fragment of the built site resolves, every id is
// unique in its page, and no address leaves the folder but the https links of
// sources.
func TestHandoutLinks(t *testing.T) {
	for name, folder := range map[string]string{"demo": demoHandout(t), "second-specialty": secondHandout(t), "arabic": arabicHandout(t), "many cases": manyHandout(t)} {
		t.Run(name, func(t *testing.T) {
			pages, files := readPages(t, folder)
			if len(pages) < 20 {
				t.Fatalf("only %d pages", len(pages))
			}
			for _, p := range pages {
				for id, n := range p.ids {
					if n > 1 {
						t.Errorf("%s: id %q stands %d times", p.path, id, n)
					}
				}
				for _, l := range p.links {
					checkLink(t, pages, files, p, l)
				}
			}
		})
	}
}

// manyHandout has more cases than one page shows of anything.
func manyHandout(t *testing.T) string {
	out := filepath.Join(t.TempDir(), "handout")
	build(t, benchBank(t, 230), out)
	return out
}

func secondHandout(t *testing.T) string {
	out := filepath.Join(t.TempDir(), "handout")
	build(t, os.DirFS("../testdata/second-specialty"), out)
	return out
}

func checkLink(t *testing.T, pages map[string]*sitePage, files map[string]bool, p *sitePage, l link) {
	t.Helper()
	u, err := url.Parse(l.address)
	switch {
	case err != nil || l.address == "":
		t.Errorf("%s: <%s %s=%q> is no address", p.path, l.element, l.attribute, l.address)
	case l.address == "data:,": // the empty icon, so that no browser asks for one
	case u.Scheme == "https" && l.element == "a":
	case u.Scheme != "" || u.Host != "" || path.IsAbs(u.Path):
		t.Errorf("%s: <%s %s=%q> leaves the folder", p.path, l.element, l.attribute, l.address)
	default:
		target := p.path
		if u.Path != "" {
			target = path.Join(path.Dir(p.path), u.Path)
		}
		if !files[target] {
			t.Errorf("%s: <%s %s=%q> leads to no file", p.path, l.element, l.attribute, l.address)
		} else if to := pages[target]; u.Fragment != "" && to != nil && to.ids[u.Fragment] == 0 {
			t.Errorf("%s: <%s %s=%q> leads to no id", p.path, l.element, l.attribute, l.address)
		}
	}
}

// The manifest lists every file with its SHA-256.
func TestManifest(t *testing.T) {
	folder := demoHandout(t)
	m, err := builder.ReadManifest(folder)
	if err != nil {
		t.Fatal(err)
	}
	listed := map[string]bool{"manifest.json": true}
	for _, f := range m.Files {
		listed[f.Path] = true
		data, err := os.ReadFile(filepath.Join(folder, filepath.FromSlash(f.Path)))
		if err != nil {
			t.Error(err)
			continue
		}
		sum := sha256.Sum256(data)
		if got := hex.EncodeToString(sum[:]); got != f.SHA256 || int64(len(data)) != f.Size {
			t.Errorf("%s: listed with other bytes", f.Path)
		}
	}
	_, files := readPages(t, folder)
	if diff := cmp.Diff(listed, files); diff != "" {
		t.Errorf("files (-listed +there):\n%s", diff)
	}
}

// The same bank gives the same bytes, whatever the time zone, the number of
// processors and the folder.
func TestSameBytes(t *testing.T) {
	zone, processors := time.Local, runtime.GOMAXPROCS(0)
	defer func() { time.Local = zone; runtime.GOMAXPROCS(processors) }()
	var manifests []builder.Manifest
	for i, z := range []*time.Location{time.UTC, time.FixedZone("far", 14*3600)} {
		time.Local = z
		runtime.GOMAXPROCS(i + 1)
		out := filepath.Join(t.TempDir(), "somewhere", strings.Repeat("x", i+1))
		build(t, casebank.FS(), out)
		m, err := builder.ReadManifest(out)
		if err != nil {
			t.Fatal(err)
		}
		manifests = append(manifests, m)
	}
	if diff := cmp.Diff(manifests[0], manifests[1]); diff != "" {
		t.Errorf("two builds differ:\n%s", diff)
	}
}

// Every page says that the data are invented, and what to defer to.
func TestEveryPageSaysInvented(t *testing.T) {
	pages, _ := readPages(t, demoHandout(t))
	for name := range pages {
		data, err := os.ReadFile(filepath.Join(demoHandout(t), filepath.FromSlash(name)))
		if err != nil {
			t.Fatal(err)
		}
		for _, words := range []string{"invented", "not been reviewed by a licensed clinician", "local protocol"} {
			if !strings.Contains(string(data), words) {
				t.Errorf("%s doesn't say %q", name, words)
			}
		}
	}
}
