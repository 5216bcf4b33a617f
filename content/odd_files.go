package content

import (
	"errors"
	"io/fs"
	"path"
	"slices"
	"strings"

	"caseleaf/content/diagnose"
)

// What a bank's folder holds under a name that is nearly right is not read, and
// a case that is silently missing looks like a case that was never written. So
// every such name is a warning with the right one.

// rightNames are the names that a bank is read from, by what people type
// instead, in small letters and without hyphens, underscores and blanks.
var rightNames = map[string]string{
	"case": "cases", "cases": "cases", "decision": "decisions", "decisions": "decisions", "course": "courses", "courses": "courses",
	"bank.yaml": "bank.yaml", "bank.yml": "bank.yaml", "banks.yaml": "bank.yaml", "bank.yaml.txt": "bank.yaml", "bank.yaml.yaml": "bank.yaml",
	"terms.yaml": "terms.yaml", "terms.yml": "terms.yaml", "term.yaml": "terms.yaml", "term.yml": "terms.yaml", "terms.yaml.txt": "terms.yaml",
	"logbook.csv": "logbook.csv", "logbook.csv.csv": "logbook.csv", "logbooks.csv": "logbook.csv", "log.csv": "logbook.csv", "logbook.csv.txt": "logbook.csv",
	"logbook.txt": "logbook.csv", "logbook.tsv": "logbook.csv", "logbook.xlsx": "logbook.csv", "logbook.xls": "logbook.csv", "logbook.ods": "logbook.csv", "logbook.numbers": "logbook.csv",
}

// writtenEndings are the endings of files that were meant to be read, each
// folder's right one apart.
var writtenEndings = []string{".md", ".markdown", ".mdown", ".mkd", ".mdwn", ".text", ".txt", ".yaml", ".yml", ".json", ".doc", ".docx", ".odt", ".rtf", ".pages"}

// warnOdd warns of what lies in the bank and is not read.
func (l *loader) warnOdd() {
	l.warnOddRoot()
	l.warnOddIn("cases", ".md", "a case")
	l.warnOddIn("decisions", ".md", "a decision")
	l.warnOddIn("courses", ".yaml", "a course")
}

func (l *loader) warnOddRoot() {
	entries, err := fs.ReadDir(l.fsys, ".")
	if err != nil {
		return // the bank's own files have been read, or said to be missing
	}
	for _, e := range entries {
		name := e.Name()
		plain := strings.NewReplacer("-", "", "_", "", " ", "").Replace(strings.ToLower(name))
		right, near := rightNames[plain]
		switch {
		case near && name != right:
			if _, err := fs.Stat(l.fsys, right); errors.Is(err, fs.ErrNotExist) || !strings.EqualFold(name, right) {
				l.odd(name, "%s is not read; a bank is read from %s", quoteShort(name), right)
			}
		case !e.IsDir() && slices.Contains([]string{".md", ".markdown"}, strings.ToLower(path.Ext(name))):
			if folder := l.belongs(name); folder != "" {
				l.odd(name, "%s is not read; it belongs into the folder %s", quoteShort(name), folder)
			}
		}
	}
}

// belongs says into which folder a Markdown file goes by the key it opens with.
func (l *loader) belongs(name string) string {
	f, err := l.fsys.Open(name)
	if err != nil {
		return ""
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil || !info.Mode().IsRegular() {
		return ""
	}
	head := make([]byte, 512)
	n, _ := f.Read(head)
	text := string(head[:n])
	switch {
	case !strings.HasPrefix(strings.TrimPrefix(text, "\ufeff"), "---"):
	case strings.Contains(text, "\ncase:"):
		return "cases"
	case strings.Contains(text, "\ndecision:"):
		return "decisions"
	}
	return ""
}

// warnOddIn warns of files below a folder that were meant to be read, and of
// what is no plain file.
func (l *loader) warnOddIn(folder, ending, what string) {
	w := l.walk(folder)
	for _, o := range w.odd {
		l.odd(o.name, "%s is %s", quoteShort(o.name), noFile(o.mode))
	}
	for _, name := range w.files {
		ext := strings.ToLower(path.Ext(name))
		if ext != ending && slices.Contains(writtenEndings, ext) && !strings.HasPrefix(strings.ToLower(path.Base(name)), "readme") {
			l.odd(name, "%s is not read; the name of %s ends in %s", quoteShort(name), what, ending)
		}
	}
}

func (l *loader) odd(name, format string, args ...any) {
	l.bag.Warn("not-read", diagnose.Span{Source: diagnose.NewSource(name, nil)}, format, args...)
}

// noFile says what something is that is no plain file, and that it is not read.
func noFile(mode fs.FileMode) string {
	kind := "a device"
	switch {
	case mode&fs.ModeSymlink != 0: // it may lead out of the bank
		return "a link to another file and is not read; put the file itself there"
	case mode.IsDir():
		kind = "a folder"
	case mode&fs.ModeNamedPipe != 0:
		kind = "a pipe"
	case mode&fs.ModeSocket != 0:
		kind = "a socket"
	}
	return kind + ", not a file, and is not read"
}
