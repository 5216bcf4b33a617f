package content

import (
	"crypto/sha256"
	"io/fs"
	"runtime"
	"sync"
	"sync/atomic"

	"caseleaf/content/diagnose"
	"caseleaf/content/front"
)

// Cases are many, so each is read and checked by itself, several at a time, and
// what is found in it goes into a bag of its own; a case that stands as it was at
// the last reading brings its findings along. See [Memo].

func (l *loader) readCase(name string) {
	if l.sum != nil {
		if sum, looked := l.sum(name); looked && l.takeKnown(name, sum) {
			return
		}
	}
	info, err := fs.Lstat(l.fsys, name)
	data, ok := l.bytes(name, info, err)
	if !ok {
		return
	}
	var sum [sha256.Size]byte
	if l.memo != nil { // nothing else asks
		sum = sha256.Sum256(data)
	}
	if l.takeKnown(name, sum) {
		return
	}
	l.parseCase(name, data, sum)
}

// takeKnown takes a case over from the last reading, where its file has the same
// bytes.
func (l *loader) takeKnown(name string, sum [sha256.Size]byte) bool {
	if l.memo == nil {
		return false
	}
	k := l.memo.cases[name]
	if k == nil || k.sum != sum {
		return false
	}
	l.keep(func() {
		l.bank.Cases = append(l.bank.Cases, k.c)
		l.known[k.c] = k
	})
	return true
}

// parseCase takes a case apart.
func (l *loader) parseCase(name string, data []byte, sum [sha256.Size]byte) {
	own := diagnose.NewBag()
	src, ok := front.Normalise(name, data, own)
	var doc front.Document
	if ok {
		doc, ok = front.Split(src, own)
	}
	if !ok {
		l.bag.Take(own.Sorted())
		return
	}
	c := &Case{File: src.Name, Source: src}
	caseFields.read(&reader{src: src, vocab: l.bank.Vocabulary, bag: own}, doc.Root, c)
	c.sort()
	c.Body = parseBody(src, doc)
	l.keep(func() {
		l.bank.Cases = append(l.bank.Cases, c)
		l.said[c], l.sums[c] = own, sum
	})
}

// readAgain takes the known cases apart after all, where the ground is not that
// of the last reading.
func (l *loader) readAgain(ground [sha256.Size]byte) {
	if len(l.known) == 0 || ground == l.memo.ground {
		return
	}
	var again []*Case
	kept := l.bank.Cases[:0]
	for _, c := range l.bank.Cases {
		if l.known[c] != nil {
			again = append(again, c)
		} else {
			kept = append(kept, c)
		}
	}
	l.bank.Cases = kept
	clear(l.known)
	clear(l.memo.cases)
	each(again, func(c *Case) { l.readCase(c.File) })
	l.bank.index()
}

// checkCases finds what is wrong in each case that is not known, and in all
// narratives.
func (l *loader) checkCases(files func() *fileTable) {
	b := l.bank
	decisions := b.decisionIDs()
	var fresh []*Case
	for _, c := range b.Cases {
		if l.known[c] == nil {
			fresh = append(fresh, c)
		}
	}
	each(fresh, func(c *Case) {
		bag := l.said[c]
		checkLinks(b, bag, c, decisions)
		checkPlausible(c, bag)
		resolveCase(b, bag, c, files)
		checkRelease(c, bag)
	})
	resolveOthers(b, l.bag, files)
	checkReading(b, l.bag)
}

// tell puts what was found in the cases among the rest.
func (l *loader) tell() {
	for _, c := range l.bank.Cases {
		if k := l.known[c]; k != nil {
			l.bag.Take(k.said)
		} else {
			l.bag.Take(l.said[c].Sorted())
		}
	}
}

// each does the work for all items on all processors.
func each[T any](items []T, work func(T)) {
	var next atomic.Int64
	var wg sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), len(items)) {
		wg.Go(func() {
			for i := int(next.Add(1)) - 1; i < len(items); i = int(next.Add(1)) - 1 {
				work(items[i])
			}
		})
	}
	wg.Wait()
}
