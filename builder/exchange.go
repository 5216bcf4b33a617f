package builder

import (
	"errors"
	"fmt"
	"io/fs"
)

// asideSuffix is added to the name of an old handout while another takes its
// place on a file system that can't exchange two folders in one step.
const asideSuffix = ".previous"

// exchangeByRename exchanges two folders in three steps, for file systems that
// can't do it in one. When the second step fails the old folder is put back.
// Between the first and the second step there is no handout; whoever is
// interrupted there finds the old one beside it, named old.previous, and the
// next build puts it back. When the third fails the old one keeps that name.
func exchangeByRename(d disk, fresh, old string) error {
	aside, err := freeName(d, old+asideSuffix)
	if err != nil {
		return err
	}
	if err := d.Rename(old, aside); err != nil {
		return err
	}
	if err := d.Rename(fresh, old); err != nil {
		return errors.Join(err, d.Rename(aside, old))
	}
	if err := d.Rename(aside, fresh); err != nil {
		return fmt.Errorf("the new handout is in place; the old one stands beside it as %s and may be removed: %w", aside, err)
	}
	return nil
}

// freeName returns name, or name-2, name-3 …, whichever nothing has yet.
func freeName(d disk, name string) (string, error) {
	free := name
	for n := 2; ; n++ {
		switch _, err := d.Lstat(free); {
		case errors.Is(err, fs.ErrNotExist):
			return free, nil
		case err != nil:
			return "", err
		}
		free = fmt.Sprintf("%s-%d", name, n)
	}
}

// putBack gives an old handout its name back when a build was killed between
// the first and the second step of [exchangeByRename]. Anything else of that
// name is somebody's and is let be.
func putBack(d disk, out string) error {
	if _, err := d.Lstat(out); !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	if _, err := readManifest(d, out+asideSuffix); err != nil {
		return nil // no handout stands aside
	}
	return d.Rename(out+asideSuffix, out)
}
