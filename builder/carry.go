package builder

import (
	"errors"
	"fmt"
	"io/fs"
	"path"
	"path/filepath"
)

// carryOver copies files of the old handout's folder that caseleaf did not
// write into the new one, where their names are free.
func (g *stage) carryOver(old Manifest) error {
	ours := map[string]bool{manifestName: true}
	for _, f := range old.Files {
		ours[f.Path] = true
	}
	list, err := g.disk.ReadDir(g.out)
	if err != nil {
		return err
	}
	return g.carryList("", list, ours)
}

// carryList carries over what a folder of the old handout lists; rel is the
// folder's slash-separated path there.
func (g *stage) carryList(rel string, list []fs.DirEntry, ours map[string]bool) error {
	for _, d := range list {
		below := path.Join(rel, d.Name())
		name := filepath.Join(g.out, filepath.FromSlash(below))
		target := filepath.Join(g.folder, filepath.FromSlash(below))
		var err error
		switch {
		case ours[below]:
		case d.IsDir():
			err = g.carryFolder(below, name, target, ours)
		default:
			err = g.carry(name, target, d.Type())
		}
		if err != nil {
			return err
		}
	}
	return nil
}

func (g *stage) carryFolder(rel, name, target string, ours map[string]bool) error {
	list, err := g.disk.ReadDir(name)
	if err != nil {
		return err
	}
	if len(list) == 0 { // it may matter to whoever made it
		return g.disk.MkdirAll(target, 0o755)
	}
	return g.carryList(rel, list, ours)
}

// carry puts one file of somebody else's into the new folder: a link as a link,
// never followed, and a file as a second name for it, or as a copy.
func (g *stage) carry(name, target string, mode fs.FileMode) error {
	if _, err := g.disk.Lstat(target); err == nil {
		return fmt.Errorf("%w: %s was not written by caseleaf and would be overwritten; move it away first", ErrForeignFolder, name)
	} else if !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	if err := g.disk.MkdirAll(filepath.Dir(target), 0o755); err != nil {
		return err
	}
	if mode&fs.ModeSymlink != 0 {
		to, err := g.disk.Readlink(name)
		if err != nil {
			return err
		}
		return g.disk.Symlink(to, target)
	}
	err := g.disk.Link(name, target)
	if err == nil || !mode.IsRegular() {
		return err
	}
	data, err := g.disk.ReadFile(name)
	if err != nil {
		return err
	}
	return g.disk.WriteFile(target, data, 0o644)
}
