package builder

import (
	"errors"
	"fmt"
	"path/filepath"
)

// errDiffers says that a file is not the one that a manifest lists.
var errDiffers = errors.New("differs from the manifest")

// holds checks that a folder has a file of a manifest, byte for byte: a plain
// file and no link to one.
func holds(disk disk, folder string, f ManifestFile) error {
	name := filepath.Join(folder, filepath.FromSlash(f.Path))
	info, err := disk.Lstat(name)
	if err != nil {
		return err
	}
	if !info.Mode().IsRegular() || info.Size() != f.Size {
		return fmt.Errorf("%s %w", name, errDiffers)
	}
	data, err := disk.ReadFile(name)
	if err != nil {
		return err
	}
	if sumOf(data) != f.SHA256 {
		return fmt.Errorf("%s %w", name, errDiffers)
	}
	return nil
}
