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
	past    remembered
	wrote   parts // by this build
	stamps  map[string]cache.Stamp
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
	// What inputs and handout looked like when they were that, "" where looks can't
	// be relied on: as long as they look so, they need not be read.
	InputsSeen, HandoutSeen string
}

// parts is what is kept of the files of a build. It is a file of its own, since a
// build with nothing changed does not read it.
type parts struct {
	Files  map[string]kept
	Pieces map[string]pack.Piece

	Ground   string // what every page rested on, and the rules it was looked at by
	Facts    string // what pages about many cases rested on
	Rates    []pack.Rate
	Cases    map[string]string // see keys.caseKeys
	Outlines map[int]outline
}

// last is what the last build left that can be carried over.
func (m *Memory) last() *past {
	if m == nil || m.inputs == "" {
		return nil
	}
	out, err := filepath.Abs(m.options.out())
	var p parts
	if err != nil || !m.parts.Load(&p) {
		return nil
	}
	return &past{folder: out, parts: p}
}

// note takes in what a build has written, for Keep.
func (m *Memory) note(s *Site, g *stage) {
	if m == nil || s.keys == nil {
		return
	}
	m.wrote, m.stamps = parts{
		Files: g.kept, Pieces: map[string]pack.Piece{}, Ground: s.keys.ground, Facts: s.keys.facts, Rates: s.record().Rates,
		Cases: s.keys.caseKeys(), Outlines: outlinesOf(s, g.kept),
	}, g.stamps
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
	program := cache.Program(folder)
	m := &Memory{
		file:  cache.NewFile(folder, program, bank, out),
		parts: cache.NewFile(folder, program, bank, out, "parts"),
		bank:  options.BankFiles, folder: bank, options: options,
	}
	if m.file.Name() == "" {
		return nil
	}
	if !m.file.Load(&m.past) {
		m.past = remembered{}
	}
	if m.inputs = m.past.Inputs; m.past.InputsSeen == "" || m.past.InputsSeen != m.inputsSeen(out, cache.Look) {
		m.inputs = m.digest(out)
	}
	return m
}

// beside is whether a folder of the bank is none of its sources: a handout inside
// the bank.
func (m *Memory) beside(out string) func(folder string) bool {
	name := ""
	if filepath.Dir(out) == m.folder && !slices.Contains([]string{"cases", "decisions", "courses", "theme"}, filepath.Base(out)) {
		name = filepath.Base(out)
	}
	return func(folder string) bool { return folder == name }
}

// digest sums up all that a build reads: the bank's files and the options.
func (m *Memory) digest(out string) string {
	bank, err := cache.Digest(m.bank, m.beside(out))
	if err != nil {
		return ""
	}
	return sum(bank, m.options.digest())
}

// look is [cache.Look] or [cache.LookSettled].
type look func(files fs.FS, all bool, skip func(string) bool) (cache.Sight, bool)

// inputsSeen is what all that a build reads looks like; "" where that can't be
// relied on.
func (m *Memory) inputsSeen(out string, by look) string {
	if m.folder == "" || !cache.Trusted(m.folder) {
		return ""
	}
	seen, ok := by(m.bank, false, m.beside(out))
	if !ok {
		return ""
	}
	return sum(seen.Sum, m.options.digest())
}

// handoutSeen is what a handout looks like; not ok where that can't be relied on.
func handoutSeen(out string, by look) (seen cache.Sight, ok bool) {
	if !cache.Trusted(out) {
		return seen, false
	}
	return by(os.DirFS(out), true, nil)
}

// digest sums up the options that change a handout's bytes.
func (o Options) digest() string {
	all := sha256.New()
	fmt.Fprintf(all, "%v %v %q\n", o.WithUnreleased, o.Leaving, o.Course)
	if o.Since != nil {
		fmt.Fprintf(all, "%q\n", o.Since.Encode())
	}
	if o.Charts != nil {
		// A script is a megabyte: its sum is enough.
		for _, part := range [][]byte{o.Charts.Script, o.Charts.Licence, o.Charts.Notice} {
			fmt.Fprintf(all, "%x\n", sha256.Sum256(part))
		}
	}
	return hex.EncodeToString(all.Sum(nil))
}

// Unchanged returns the last build when nothing that it read has changed since
// and every file that it wrote still stands, byte for byte. Then there is nothing
// to build.
func (m *Memory) Unchanged() (Past, bool) {
	if m == nil || m.inputs == "" || m.past.Inputs != m.inputs {
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
	if seen, ok := handoutSeen(out, cache.Look); ok && seen.Sum == m.past.HandoutSeen {
		return m.past.Past, true
	}
	seen, _ := handoutSeen(out, cache.LookSettled) // before it is read
	if !stands(out, m.past.Manifest) {
		return Past{}, false
	}
	m.past.HandoutSeen = seen.Sum
	if inputs := m.inputsSeen(out, cache.LookSettled); m.digest(out) == m.inputs {
		m.past.InputsSeen = inputs
		_ = m.file.Save(m.past) // a failure costs the next build time
	}
	return m.past.Past, true
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
	now := remembered{Inputs: m.inputs, Past: p, HandoutSeen: m.seeWritten(out)}
	now.InputsSeen = m.inputsSeen(out, cache.LookSettled)
	manifest, err := os.ReadFile(filepath.Join(out, manifestName))
	now.Manifest = sumOf(manifest)
	if err == nil && m.digest(out) == m.inputs && m.parts.Save(m.wrote) == nil && m.file.Save(now) == nil {
		return
	}
	m.file.Drop()
	m.parts.Drop()
}

// seeWritten says what the handout looks like that was just written, and notes the
// stamp of each file that a later build may carry over. It is "" where that can't
// be relied on, or a file is not the one that was written.
func (m *Memory) seeWritten(out string) string {
	seen, ok := handoutSeen(out, cache.LookSettled)
	if !ok {
		return ""
	}
	for path, wrote := range m.stamps {
		if !seen.Stamps[path].Follows(wrote) {
			return ""
		}
	}
	for path, k := range m.wrote.Files {
		k.Stamp = seen.Stamps[path]
		m.wrote.Files[path] = k
	}
	return seen.Sum
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
