package builder

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// ErrForeignFolder is returned when the folder for the handout holds files
// that caseleaf did not write and has no manifest of a handout.
var ErrForeignFolder = errors.New("the folder is not a handout")

// checkOut refuses folders that a handout must never be exchanged for.
func checkOut(d disk, out string) error {
	abs, err := filepath.Abs(out)
	if err != nil {
		return err
	}
	if home, err := os.UserHomeDir(); err == nil && abs == filepath.Clean(home) {
		return fmt.Errorf("%w: %s is your home folder; name a folder of its own for the handout", ErrForeignFolder, out)
	}
	if filepath.Dir(abs) == abs {
		return fmt.Errorf("%w: %s is the root of the disk; name a folder of its own for the handout", ErrForeignFolder, out)
	}
	if _, err := d.Lstat(filepath.Join(abs, "bank.yaml")); err == nil {
		return fmt.Errorf("%w: %s holds a bank; name another folder for the handout", ErrForeignFolder, out)
	}
	info, err := d.Lstat(abs)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return err
	case !info.IsDir():
		return fmt.Errorf("%w: %s is a file or a link; name a folder for the handout", ErrForeignFolder, out)
	}
	list, err := d.ReadDir(abs)
	if err != nil {
		return err
	}
	if len(list) == 0 {
		return nil
	}
	_, err = readManifest(d, abs)
	if errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("%w: %s holds files that caseleaf did not write; name an empty folder or a new one", ErrForeignFolder, out)
	}
	return err
}
