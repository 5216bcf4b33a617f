package builder

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
)

// errDiffers says that a file is not the one that a manifest lists.
var errDiffers = errors.New("differs from the manifest")

// holds checks that a folder has a file of a manifest, byte for byte: a plain
// file and no link to one.
func holds(folder string, f ManifestFile) error {
	name := filepath.Join(folder, filepath.FromSlash(f.Path))
	info, err := os.Lstat(name)
	if err != nil {
		return err
	}
	if !info.Mode().IsRegular() || info.Size() != f.Size {
		return fmt.Errorf("%s %w", name, errDiffers)
	}
	file, err := os.Open(name)
	if err != nil {
		return err
	}
	defer file.Close()
	sum := sha256.New()
	if _, err := io.Copy(sum, file); err != nil {
		return err
	}
	if hex.EncodeToString(sum.Sum(nil)) != f.SHA256 {
		return fmt.Errorf("%s %w", name, errDiffers)
	}
	return nil
}
