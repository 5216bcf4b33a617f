package builder

import (
	"path/filepath"

	"caseleaf/builder/cache"
	"caseleaf/builder/pack"
	"caseleaf/content"
)

// kept is one file of a handout that nothing was found in, as a build wrote it, with
// the key of what it was made of; see keys.
type kept struct {
	Key, SHA256 string
	Size        int64
	Stamp       cache.Stamp // while the file has it, it has its bytes; empty where that can't be relied on
}

// past is what the last build left, to be carried over. A nil past left nothing.
type past struct {
	folder string // of the handout
	parts
}

// piece is the record of a case that the last build worked out.
func (p *past) piece(key string) (pack.Piece, bool) {
	if p == nil || key == "" {
		return pack.Piece{}, false
	}
	piece, ok := p.Pieces[key]
	return piece, ok
}

// rates are the record of rates that the last build worked out of the same facts.
func (p *past) rates(k *keys) ([]pack.Rate, bool) {
	if p == nil || k == nil || p.Facts != k.facts {
		return nil, false
	}
	return p.Rates, true
}

// caseKey is the key that the last build gave a case whose file has not changed
// since. Where the facts of all cases are the same, so is everything else that its
// page rests on: where its links lead, its relatives, its neighbours; but for links
// to headings in the stories of others.
func (p *past) caseKey(k *keys, c *content.Case) (string, bool) {
	if p == nil || p.Facts != k.facts {
		return "", false
	}
	for _, t := range c.Body.Targets {
		if t.Kind == content.ToCase && t.Fragment != "" {
			return "", false
		}
	}
	key, ok := p.Cases[sourceSum(c)]
	return key, ok
}

// carryInto puts a file of the last build into the new handout, where it was made
// of the same and still has its bytes. It becomes a second name for the same
// bytes, where the disk has such; else it is made again. The error is not nil only
// where a second name can't be taken away again: what is written under it would
// be written into the old handout.
func (p *past) carryInto(g *stage, path, key string) (done bool, err error) {
	if p == nil || key == "" || p.Files[path].Key != key {
		return false, nil
	}
	return p.link(g, path, key)
}

// carrySame is carryInto for a file that was made again and has the bytes that the
// last build wrote: neither scanned nor written again. It was found clean by the
// rules that hold now, or nothing would be known of it.
func (p *past) carrySame(g *stage, now *keys, f file, data []byte) (done bool, err error) {
	if p == nil || now == nil || p.Ground != now.ground {
		return false, nil
	}
	if last, known := p.Files[f.path]; !known || last.Size != int64(len(data)) || last.SHA256 != sumOf(data) {
		return false, nil
	}
	return p.link(g, f.path, f.key)
}

// link carries a file over under a key.
func (p *past) link(g *stage, path, key string) (done bool, err error) {
	k := p.Files[path]
	f := ManifestFile{Path: path, Size: k.Size, SHA256: k.SHA256}
	seen, stands := stampIn(g.disk, p.folder, path)
	stands = stands && seen == k.Stamp
	old, fresh := filepath.Join(p.folder, filepath.FromSlash(path)), filepath.Join(g.folder, filepath.FromSlash(path))
	if err := g.makeFolder(filepath.Dir(fresh)); err != nil {
		return false, err
	}
	if g.disk.Link(old, fresh) != nil {
		return false, nil
	}
	if !stands && g.holds(f) != nil {
		return false, g.disk.Remove(fresh)
	}
	seen.Changed = 0 // giving it a second name, and taking one away, is a change
	g.add(f, seen)
	g.keep(f, key)
	g.mu.Lock()
	g.count++
	g.mu.Unlock()
	return true, nil
}

// holds checks that the new handout has a file, byte for byte.
func (g *stage) holds(f ManifestFile) error { return holds(g.disk, g.folder, f) }

// stampIn is the stamp of a file of a folder; not ok where there is none.
func stampIn(d disk, folder, path string) (cache.Stamp, bool) {
	info, err := d.Lstat(filepath.Join(folder, filepath.FromSlash(path)))
	if err != nil {
		return cache.Stamp{}, false
	}
	return cache.StampOf(info)
}
