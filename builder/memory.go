package builder

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"

	"caseleaf/builder/cache"
	"caseleaf/builder/pack"
)

// Memory is what the builds of one bank into one folder leave for the next: a
// file in a folder of the user's, outside bank and handout. See package cache for
// when it is believed. A nil Memory remembers nothing.
type Memory struct {
	file    cache.File // a remembered
	parts   cache.File // its parts
	bank    fs.FS
	folder  string // of the bank; "" when it lies in no folder
	options Options
	inputs  string // digest of what the build about to be made reads; "" when it can't be known
	wrote   parts  // by this build
}

// Past is the last build, as it was told to whoever asked for it.
type Past struct {
	Summary  Summary
	Said     string // what was said of the bank
	Warnings int    // how many warnings that holds
}

// remembered is what is kept of a build.
type remembered struct {
	Inputs   string
	Manifest string // digest of the handout's manifest
	Past     Past
}

// parts is what is kept of the files of a build. It is a file of its own, since a
// build with nothing changed does not read it.
type parts struct {
	Files  map[string]kept
	Pieces map[string]pack.Piece
}

// last is what the last build left that can be carried over.
func (m *Memory) last(out string) *past {
	if m == nil || m.inputs == "" {
		return nil
	}
	var p parts
	if !m.parts.Load(&p) {
		return nil
	}
	return &past{folder: out, parts: p}
}

// note takes in what a build has written, for Keep.
func (m *Memory) note(s *Site, g *stage) {
	if m == nil || s.keys == nil {
		return
	}
	m.wrote = parts{Files: g.kept, Pieces: map[string]pack.Piece{}}
	for i, c := range s.Bank.Cases {
		if key := s.keys.ofRecord(c); key != "" {
			m.wrote.Pieces[key] = s.record().Cases[i]
		}
	}
}

// OpenMemory opens the memory of a bank, kept in folder. The bank's own folder is
// told by name; it is "" for a bank that lies in none.
func OpenMemory(folder, bank string, options Options) *Memory {
	if options.BankFiles == nil || len(options.CourseDates) > 0 {
		return nil // calendars rest on the system's time zones, which are no file of the bank
	}
	if bank != "" {
		abs, err := filepath.Abs(bank)
		if err != nil {
			return nil
		}
		bank = abs
	}
	out, err := filepath.Abs(options.out())
	if err != nil {
		return nil
	}
	m := &Memory{
		file:  cache.NewFile(folder, cache.Program(), bank, out),
		parts: cache.NewFile(folder, cache.Program(), bank, out, "parts"),
		bank:  options.BankFiles, folder: bank, options: options,
	}
	if m.file.Name() == "" {
		return nil
	}
	m.inputs = m.digest(out)
	return m
}

// digest sums up all that a build reads: the bank's files and the options.
func (m *Memory) digest(out string) string {
	beside := ""
	if filepath.Dir(out) == m.folder && !slices.Contains([]string{"cases", "decisions", "courses", "theme"}, filepath.Base(out)) {
		beside = filepath.Base(out) // a handout inside the bank is none of its sources
	}
	bank, err := cache.Digest(m.bank, func(folder string) bool { return folder == beside })
	if err != nil {
		return ""
	}
	all := sha256.New()
	fmt.Fprintf(all, "%s\n%s\n", bank, m.options.digest())
	return hex.EncodeToString(all.Sum(nil))
}

// digest sums up the options that change a handout's bytes.
func (o Options) digest() string {
	all := sha256.New()
	fmt.Fprintf(all, "%v %v %q\n", o.WithUnreleased, o.Leaving, o.Course)
	if o.Since != nil {
		fmt.Fprintf(all, "%q\n", o.Since.Encode())
	}
	if o.Charts != nil {
		fmt.Fprintf(all, "%q %q %q\n", o.Charts.Script, o.Charts.Licence, o.Charts.Notice)
	}
	return hex.EncodeToString(all.Sum(nil))
}

// Unchanged returns the last build when nothing that it read has changed since
// and every file that it wrote still stands, byte for byte. Then there is nothing
// to build.
func (m *Memory) Unchanged() (Past, bool) {
	var last remembered
	if m == nil || m.inputs == "" || !m.file.Load(&last) || last.Inputs != m.inputs {
		return Past{}, false
	}
	out, err := filepath.Abs(m.options.out())
	if err != nil {
		return Past{}, false
	}
	lock, err := lockHandout(out)
	if err != nil {
		return Past{}, false // the build that follows says so
	}
	defer func() { _ = lock.Unlock() }()
	return last.Past, stands(out, last.Manifest)
}

// stands reports whether a handout has the manifest of a digest and every file
// that it lists, byte for byte.
func stands(out, digest string) bool {
	data, err := os.ReadFile(filepath.Join(out, manifestName))
	if err != nil || sumOf(data) != digest {
		return false
	}
	m, err := pack.Decode(data)
	if err != nil {
		return false
	}
	var jobs []func() error
	for _, f := range m.Files {
		jobs = append(jobs, func() error { return holds(realDisk{}, out, f) })
	}
	return parallel(jobs, nil) == nil
}

func sumOf(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}

// Keep remembers a build that has just been made, unless the bank was changed
// meanwhile. It may fail without harm, and says nothing then: the next build
// takes longer.
func (m *Memory) Keep(p Past) {
	if m == nil || m.inputs == "" {
		return
	}
	out := filepath.Dir(p.Summary.Start)
	manifest, err := os.ReadFile(filepath.Join(out, manifestName))
	if err == nil && m.digest(out) == m.inputs && m.parts.Save(m.wrote) == nil &&
		m.file.Save(remembered{Inputs: m.inputs, Manifest: sumOf(manifest), Past: p}) == nil {
		return
	}
	m.file.Drop()
	m.parts.Drop()
}

// CacheFolder is the folder below the user's own cache where builds are
// remembered; "" where the user has none.
func CacheFolder() string {
	folder, err := os.UserCacheDir()
	if err != nil {
		return ""
	}
	return path.Join(filepath.ToSlash(folder), "caseleaf", "builds")
}
