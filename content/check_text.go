package content

import (
	"caseleaf/content/diagnose"
	"caseleaf/content/privacy"
)

// CheckText scans one text by the rules of a zone, as the gate does for the
// texts of a bank, for an author who wants to try a paragraph before pasting it
// into one. The bank gives the vocabulary: its own terms are no names. name is
// what the text is called in messages. Nothing found is not the same as nobody
// identifiable; a person must read it.
func CheckText(b *Bank, name string, zone privacy.Zone, text []byte, reveal bool) diagnose.Diagnostics {
	src := diagnose.NewSource(name, text)
	bag := diagnose.NewBag()
	g := newGate(b, bag, Options{Reveal: reveal})
	f := &scanned{src: src, parts: []part{{zone: zone, text: string(text)}}}
	g.scan(f)
	g.settle(f)
	return bag.Sorted()
}
