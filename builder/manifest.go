package builder

import (
	"errors"
	"fmt"
	"path/filepath"

	"caseleaf/builder/pack"
)

// manifestName is the file that lists every other file of a handout.
const manifestName = pack.ManifestName

// Manifest lists the files of a handout; see [pack.Manifest].
type Manifest = pack.Manifest

// ManifestFile is one file of a handout; see [pack.File].
type ManifestFile = pack.File

// ReadManifest reads the manifest of a handout's folder.
func ReadManifest(folder string) (Manifest, error) { return readManifest(realDisk{}, folder) }

func readManifest(d disk, folder string) (Manifest, error) {
	name := filepath.Join(folder, manifestName)
	data, err := d.ReadFile(name)
	if err != nil {
		return Manifest{}, err
	}
	m, err := pack.Decode(data)
	if errors.Is(err, pack.ErrNotHandout) {
		return m, fmt.Errorf("%w: %s is not a handout's; name another folder, or move that file away", ErrForeignFolder, name)
	}
	return m, err
}
