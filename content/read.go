package content

import (
	"crypto/sha256"
	"errors"
	"io/fs"
	"path"
	"runtime"
	"strings"
	"sync"

	"caseleaf/content/diagnose"
	"caseleaf/content/front"
	"caseleaf/content/term"
)

// maxFile is the most bytes that a file of a bank may have; logbooks are read
// row by row and have a limit of their own.
const maxFile = 4 << 20

// Read reads a bank from a file system rooted at the folder that holds
// bank.yaml. It returns as much of the bank as could be read together with
// everything found, sorted by place. The error is not nil only when the file
// system itself failed.
func Read(fsys fs.FS) (*Bank, diagnose.Diagnostics, error) { return ReadWith(fsys, Options{}) }

// Options says how a bank is read. The zero value is what a build uses.
type Options struct {
	// Reveal prints identifiers that the privacy check found in full, for the
	// author's own eyes.
	Reveal bool
	// Memo carries over what the last reading of the same bank found; nil reads
	// everything.
	Memo *Memo
	// Sum is the SHA-256 of a file's bytes, where whoever asks has just looked at
	// them; a file that the memo knows by it is not opened. Nil knows none.
	Sum func(name string) ([sha256.Size]byte, bool)
}

// ReadWith is Read with options.
func ReadWith(fsys fs.FS, options Options) (*Bank, diagnose.Diagnostics, error) {
	b := &Bank{Vocabulary: term.Cataract()}
	bag := diagnose.NewBag()
	l := &loader{fsys: fsys, bag: bag, bank: b, memo: options.Memo, sum: options.Sum, said: map[*Case]*diagnose.Bag{}, known: map[*Case]*knownCase{}, sums: map[*Case][sha256.Size]byte{}, walks: map[string]*walked{}}
	l.readSettings()
	l.memo.begin(b)
	l.readFolders()
	l.readLogbook()
	l.warnOdd()
	b.index()
	pictures := l.pictures()
	ground := groundOf(b, pictures)
	l.readAgain(ground)
	checkBank(b, bag)
	l.checkCases(filesOf(b, pictures))
	g := newGate(b, bag, options)
	g.known = l.known
	b.scanner = g.scanner
	g.check(l.checkPictures())
	l.memo.remember(l, g, ground)
	l.tell()
	b.letGo()
	found := bag.Sorted()
	if !options.Reveal {
		g.veil.hide(found)
	}
	return b, found, errors.Join(l.errs...)
}

// loader is the reading of one bank.
type loader struct {
	fsys fs.FS
	bag  *diagnose.Bag
	bank *Bank

	memo  *Memo
	sum   func(name string) ([sha256.Size]byte, bool)
	walks map[string]*walked      // folders that were listed
	known map[*Case]*knownCase    // cases that stand as they were
	said  map[*Case]*diagnose.Bag // what was found in each other case alone
	sums  map[*Case][sha256.Size]byte

	mu   sync.Mutex
	errs []error
}

func (l *loader) fail(err error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.errs = append(l.errs, err)
}

// file reads one file of the bank; found is false when it isn't there.
func (l *loader) file(name string) (src *diagnose.Source, found bool) {
	info, err := fs.Lstat(l.fsys, name)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, false
	}
	return l.load(name, info, err)
}

// listed reads a file that a folder listed. One that has gone since is a failure
// like any other, or it would be missing from the handout without a word.
func (l *loader) listed(name string) (src *diagnose.Source, found bool) {
	info, err := fs.Lstat(l.fsys, name)
	return l.load(name, info, err)
}

func (l *loader) load(name string, info fs.FileInfo, err error) (src *diagnose.Source, found bool) {
	data, ok := l.bytes(name, info, err)
	if !ok {
		return nil, false
	}
	return front.Normalise(name, data, l.bag)
}

// bytes reads a file that was looked at, or reports why it can't.
func (l *loader) bytes(name string, info fs.FileInfo, err error) (data []byte, ok bool) {
	if err != nil {
		l.fail(err)
		return nil, false
	}
	if !info.Mode().IsRegular() { // reading a pipe or a device would never end
		l.bag.Error("not-read", diagnose.Span{Source: diagnose.NewSource(name, nil)}, "%s is %s", quoteShort(name), noFile(info.Mode()))
		return nil, false
	}
	if info.Size() > maxFile && name != logbookName {
		l.bag.Error("too-large", diagnose.Span{Source: diagnose.NewSource(name, nil)}, "the file has %d bytes; at most %d are read", info.Size(), maxFile)
		return nil, false
	}
	data, err = fs.ReadFile(l.fsys, name)
	if err != nil {
		l.fail(err)
		return nil, false
	}
	return data, true
}

func (l *loader) reader(src *diagnose.Source) *reader {
	return &reader{src: src, vocab: l.bank.Vocabulary, bag: l.bag}
}

func (l *loader) readSettings() {
	src, ok := l.file("bank.yaml")
	if !ok {
		if _, err := fs.Lstat(l.fsys, "bank.yaml"); errors.Is(err, fs.ErrNotExist) {
			l.bag.Error("unknown-file", diagnose.Span{Source: diagnose.NewSource("bank.yaml", nil)}, "a bank needs a file bank.yaml with at least a title")
		}
		return
	}
	l.bank.Settings.Source = src
	root, ok := front.YAML(src, l.bag)
	if !ok {
		return
	}
	// The vocabulary decides what terms there are, so it is looked up first.
	if v := child(root, "vocabulary"); v != nil && v.Value == "none" {
		l.bank.Vocabulary = term.Empty()
	}
	l.readTerms() // before the rest, since the reference technique may be a local term
	settingsFields.read(l.reader(src), root, &l.bank.Settings)
	l.checkTheme(l.bank.Settings.Theme)
}

// checkTheme holds the theme to a folder inside the bank.
func (l *loader) checkTheme(theme Given[string]) {
	name, ok := theme.Get()
	if !ok {
		return
	}
	if !fs.ValidPath(name) {
		l.bag.Error("unknown-file", theme.Span, "the theme is a folder of the bank such as theme; %s lies outside it", quoteShort(name))
		return
	}
	info, err := fs.Stat(l.fsys, name)
	if err != nil || !info.IsDir() {
		l.bag.Error("unknown-file", theme.Span, "there is no folder %s in the bank", quoteShort(name))
	}
}

// readFolders reads cases, decisions and courses, several at a time.
func (l *loader) readFolders() {
	var work []func()
	add := func(folder, ext string, read func(name string)) {
		for _, name := range l.list(folder, ext) {
			work = append(work, func() { read(name) })
		}
	}
	add("cases", ".md", l.readCase)
	add("decisions", ".md", l.readDecision)
	add("courses", ".yaml", l.readCourse)

	queue := make(chan func())
	var wg sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		wg.Go(func() {
			for do := range queue {
				do()
			}
		})
	}
	for _, do := range work {
		queue <- do
	}
	close(queue)
	wg.Wait()
}

// list returns the files of a folder (and of the folders below it) that end in
// ext; editors' and systems' own files are passed over.
func (l *loader) list(folder, ext string) []string {
	var names []string
	for _, name := range l.walk(folder).files {
		if strings.EqualFold(path.Ext(name), ext) {
			names = append(names, name)
		}
	}
	return names
}

// pictures lists the pictures that lie beside cases and decisions.
func (l *loader) pictures() []string {
	var names []string
	for _, folder := range []string{"cases", "decisions"} {
		for _, ext := range pictureEndings {
			names = append(names, l.list(folder, ext)...)
		}
	}
	return names
}

// ignored reports files that systems and editors leave beside an author's.
func ignored(name string) bool {
	return strings.HasPrefix(name, ".") || strings.HasPrefix(name, "~") || strings.HasPrefix(name, "#") ||
		strings.HasSuffix(name, "~") || strings.EqualFold(name, "Thumbs.db") || strings.EqualFold(name, "desktop.ini")
}

func (l *loader) readDecision(name string) {
	l.readMarkdown(name, func(src *diagnose.Source, doc front.Document) {
		d := &Decision{File: name, Source: src}
		decisionFields.read(l.reader(src), doc.Root, d)
		d.Body = parseBody(src, doc)
		l.keep(func() { l.bank.Decisions = append(l.bank.Decisions, d) })
	})
}

// readMarkdown reads a file with front matter and hands on what is usable.
func (l *loader) readMarkdown(name string, use func(*diagnose.Source, front.Document)) {
	src, ok := l.listed(name)
	if !ok {
		return
	}
	if doc, ok := front.Split(src, l.bag); ok {
		use(src, doc)
	}
}

func (l *loader) readCourse(name string) {
	src, ok := l.listed(name)
	if !ok {
		return
	}
	root, ok := front.YAML(src, l.bag)
	if !ok {
		return
	}
	c := &Course{File: name, Source: src}
	courseFields.read(l.reader(src), root, c)
	l.keep(func() { l.bank.Courses = append(l.bank.Courses, c) })
}

func (l *loader) keep(add func()) {
	l.mu.Lock()
	defer l.mu.Unlock()
	add()
}
