package builder

import (
	"archive/tar"
	"bytes"
	"compress/gzip"
	"context"
	"crypto/sha512"
	"encoding/base64"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"time"
)

// Library is the chart library of the interactive layer, checked. It is never
// part of caseleaf: it comes from the bank, from the user's cache or through npm.
type Library struct {
	Script  []byte // dist/echarts.min.js
	Licence []byte // Apache-2.0, which asks to go with every copy
	Notice  []byte
}

// pins are what is taken for the library: one release, byte for byte.
type pins struct {
	name string // of the release: npm's name for it, and of the folder in the cache
	pack string // SHA-512 of npm's archive, as npm prints it (dist.integrity)
	// SHA-512 of the three files that are taken out of it, as base64.
	script, licence, notice string
}

// echarts is npm package echarts 5.6.0. The first value is that which the
// package index gives as dist.integrity; the others were computed from that archive.
var echarts = pins{
	name:    "echarts-5.6.0",
	pack:    "sha512-oTbVTsXfKuEhxftHqL5xprgLoc0k7uScAwtryCgWF6hPYFLRwOUHiFmHGCBKP5NPFNkDVopOieyUqYGH8Fa3kA==",
	script:  "sha512-XSmbX3mhrD2ix5fXPTRQb2FwK22sRMVQTpBP2ac8hX7Dh/605hA2QDegVWiAvZPiXIxOV0CbkmUjGionDpbCmw==",
	licence: "sha512-YloC0HUhhCSecLQ5BQ3/cyuJMMfW3lAQwF8kOlJaohRteq3WRYViz6KMGQPWM4k3j7DxKYcZcnEhJNR7bo8+xw==",
	notice:  "sha512-Uasq/tMN4IbTTypqXytVmIz4H4ayuPfKWnFJHuvyURFUR4/XLEbjgTymNTpBmBDrTuKPoh7Pov8ZWPNop35rBw==",
}

// LibrarySearch looks for the chart library. The zero value finds nothing and
// tries nothing.
type LibrarySearch struct {
	// Bank is the bank's own file system: vendor/echarts-5.6.0.tgz in it (npm's
	// archive as it is) comes first.
	Bank fs.FS
	// Cache is a folder of the user's; empty for none.
	Cache string
	// Fetch gets npm's archive into a folder and returns its name; nil never
	// tries, as --offline asks. See [NpmPack].
	Fetch func(folder string) (archive string, err error)

	pins *pins // nil for the real ones; tests have a library of their own
}

// Names of the files as they lie in a cache and in a handout.
const (
	libraryScript  = "echarts.min.js"
	libraryLicence = "echarts-licence.txt"
	libraryNotice  = "echarts-notice.txt"
)

// Find returns the library, or nil with one line that says why there is none and
// what to do. A missing library is no error: pages are complete without it.
func (s LibrarySearch) Find() (*Library, string) {
	p := s.pins
	if p == nil {
		p = &echarts
	}
	archive := "vendor/" + p.name + ".tgz"
	if s.Bank != nil {
		lib, err := p.fromBank(s.Bank, archive)
		switch {
		case err == nil:
			return lib, ""
		case !errors.Is(err, fs.ErrNotExist):
			return nil, fmt.Sprintf("Charts without their interactive layer: %s in the bank: %v.", archive, err)
		}
	}
	if s.Cache != "" {
		if lib, err := p.fromCache(filepath.Join(s.Cache, p.name)); err == nil {
			return lib, ""
		}
	}
	if s.Fetch == nil {
		return nil, "Charts without their interactive layer: no copy of it, and offline. Put npm’s " + archive + " into the bank to have it."
	}
	lib, err := p.fetched(s)
	if err != nil {
		return nil, fmt.Sprintf("Charts without their interactive layer: %v. --offline does not try; %s in the bank is used first.", err, archive)
	}
	return lib, ""
}

func (p *pins) fromBank(bank fs.FS, name string) (*Library, error) {
	data, err := fs.ReadFile(bank, name)
	if err != nil {
		return nil, err
	}
	return p.unpack(data)
}

// fromCache reads the three files; one that is changed or missing counts as no
// copy.
func (p *pins) fromCache(folder string) (*Library, error) {
	lib := &Library{}
	for _, f := range p.files(lib) {
		data, err := os.ReadFile(filepath.Join(folder, f.name))
		if err != nil {
			return nil, err
		}
		if err := check(f.name, data, f.pin); err != nil {
			return nil, err
		}
		*f.into = data
	}
	return lib, nil
}

// libraryFile is one of the three files: where it lies in the archive, what it is called
// afterwards, what it must hash to.
type libraryFile struct {
	packed, name, pin string
	into              *[]byte
}

func (p *pins) files(lib *Library) []libraryFile {
	return []libraryFile{
		{"package/dist/echarts.min.js", libraryScript, p.script, &lib.Script},
		{"package/LICENSE", libraryLicence, p.licence, &lib.Licence},
		{"package/NOTICE", libraryNotice, p.notice, &lib.Notice},
	}
}

// check holds data to a pinned SHA-512.
func check(name string, data []byte, pin string) error {
	sum := sha512.Sum512(data)
	if got := "sha512-" + base64.StdEncoding.EncodeToString(sum[:]); got != pin {
		return fmt.Errorf("%s is not the pinned file (SHA-512 differs)", name)
	}
	return nil
}

// largestFile bounds what is read of one file of the archive.
const largestFile = 8 << 20

// unpack checks npm's archive and takes the three files out of it.
func (p *pins) unpack(archive []byte) (*Library, error) {
	if err := check("the archive", archive, p.pack); err != nil {
		return nil, err
	}
	lib, left := &Library{}, 3
	packed, err := gzip.NewReader(bytes.NewReader(archive))
	if err != nil {
		return nil, err
	}
	for r := tar.NewReader(packed); left > 0; {
		h, err := r.Next()
		if err != nil {
			return nil, fmt.Errorf("the archive lacks a file: %w", err)
		}
		for _, f := range p.files(lib) {
			if path.Clean(h.Name) != f.packed || *f.into != nil {
				continue
			}
			if *f.into, err = io.ReadAll(io.LimitReader(r, largestFile)); err != nil {
				return nil, err
			}
			if err := check(f.packed, *f.into, f.pin); err != nil {
				return nil, err
			}
			left--
		}
	}
	return lib, nil
}

// fetched gets the archive, checks it and keeps its three files in the cache.
func (p *pins) fetched(s LibrarySearch) (*Library, error) {
	folder, err := os.MkdirTemp("", "caseleaf-library-")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(folder)
	name, err := s.Fetch(folder)
	if err != nil {
		return nil, err
	}
	data, err := os.ReadFile(name)
	if err != nil {
		return nil, err
	}
	lib, err := p.unpack(data)
	if err != nil {
		return nil, err
	}
	if s.Cache != "" {
		p.keep(lib, filepath.Join(s.Cache, p.name))
	}
	return lib, nil
}

// keep writes the files into the cache. A cache that cannot be written costs the
// next build another fetch and nothing else, so what goes wrong is not reported;
// a half-written file fails its check and counts as no copy.
func (p *pins) keep(lib *Library, folder string) {
	if os.MkdirAll(folder, 0o755) != nil {
		return
	}
	for _, f := range p.files(lib) {
		_ = os.WriteFile(filepath.Join(folder, f.name), *f.into, 0o644)
	}
}

// npmTime bounds the one attempt to fetch.
const npmTime = 90 * time.Second

// errNoNpm says that there is nothing to fetch with.
var errNoNpm = errors.New("no copy of it, and no npm on PATH to get it with")

// NpmPack fetches the archive through npm, which runs none of its scripts.
func NpmPack(folder string) (string, error) {
	npm, err := exec.LookPath("npm")
	if err != nil {
		return "", errNoNpm
	}
	ctx, cancel := context.WithTimeout(context.Background(), npmTime)
	defer cancel()
	// Without retries, so that a machine without a network says so at once.
	cmd := exec.CommandContext(ctx, npm, "pack", "echarts@5.6.0", "--ignore-scripts", "--silent", "--fetch-retries=0", "--pack-destination", folder)
	cmd.Dir = folder
	if err := cmd.Run(); err != nil {
		return "", errors.New("npm could not get it")
	}
	return filepath.Join(folder, echarts.name+".tgz"), nil
}

// paths are those of the library's files in a handout. Nobody wrote them for a
// bank and each is pinned, so they are not scanned for what identifies people.
func (l *Library) paths() map[string]bool {
	if l == nil {
		return nil
	}
	files := map[string][]byte{}
	l.addTo(files)
	paths := map[string]bool{}
	for path := range files {
		paths[path] = true
	}
	return paths
}

// addTo puts the library and its licence into the files of a handout.
func (l *Library) addTo(files map[string][]byte) {
	for _, f := range echarts.files(l) {
		files["assets/"+f.name] = *f.into
	}
}
