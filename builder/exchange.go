package builder

import "errors"

// exchangeByRename exchanges two folders in three steps, for file systems that
// can't do it in one. When the second step fails the old folder is put back.
// Between the first and the second step there is no handout; whoever is
// interrupted there finds the old one beside it, named old.previous.
func exchangeByRename(fresh, old string, rename func(from, to string) error) error {
	aside := old + ".previous"
	if err := rename(old, aside); err != nil {
		return err
	}
	if err := rename(fresh, old); err != nil {
		return errors.Join(err, rename(aside, old))
	}
	return rename(aside, fresh)
}
