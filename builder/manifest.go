package builder

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
)

// manifestName is the file that lists every other file of a handout.
const manifestName = "manifest.json"

// maker marks a manifest as a handout's; other programs use that file name too.
const maker = "caseleaf"

// Manifest lists the files of a handout. It is how a later build knows what it
// may replace, and how a reader can check a copy.
type Manifest struct {
	Made    string         `json:"made"` // who wrote the folder: caseleaf
	Title   string         `json:"title"`
	Edition string         `json:"edition,omitempty"`
	Files   []ManifestFile `json:"files"` // by path, manifest.json itself left out
}

// ManifestFile is one file of a handout.
type ManifestFile struct {
	Path   string `json:"path"`
	Size   int64  `json:"size"`   // bytes
	SHA256 string `json:"sha256"` // hexadecimal
}

func (m Manifest) encode() []byte {
	var out bytes.Buffer
	e := json.NewEncoder(&out)
	e.SetIndent("", " ")
	if err := e.Encode(m); err != nil {
		panic(err) // strings and numbers always encode
	}
	return out.Bytes()
}

// ReadManifest reads the manifest of a handout's folder.
func ReadManifest(folder string) (Manifest, error) {
	data, err := os.ReadFile(filepath.Join(folder, manifestName))
	if err != nil {
		return Manifest{}, err
	}
	var m Manifest
	if err := json.Unmarshal(data, &m); err != nil || m.Made != maker {
		return Manifest{}, fmt.Errorf("%w: %s is not a handout's; name another folder, or move that file away",
			ErrForeignFolder, filepath.Join(folder, manifestName))
	}
	return m, nil
}
