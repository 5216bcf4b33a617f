package pack

import (
	"bytes"
	"encoding/json"
	"errors"
)

// ManifestName is the file that lists every other file of a handout.
const ManifestName = "manifest.json"

// maker marks a manifest as a handout's; other programs use that file name too.
const maker = "caseleaf"

// ErrNotHandout is returned for what holds no manifest that caseleaf wrote.
var ErrNotHandout = errors.New("it is no handout of caseleaf")

// Manifest lists the files of a handout. It is how a later build knows what it
// may replace, how a reader can check a copy, and what the next edition is
// compared with.
type Manifest struct {
	Made    string  `json:"made"` // who wrote the folder: caseleaf
	Title   string  `json:"title"`
	Edition string  `json:"edition,omitempty"`
	Course  string  `json:"course,omitempty"` // id of the one course it is reduced to
	Files   []File  `json:"files"`            // by path, manifest.json itself left out
	Record  *Record `json:"record,omitempty"`
}

// File is one file of a handout.
type File struct {
	Path   string `json:"path"`
	Size   int64  `json:"size"`   // bytes
	SHA256 string `json:"sha256"` // hexadecimal
}

// Record is what an edition said, in a form that a later one can be compared
// with. It holds nothing that the edition's own pages don't show: digests of
// published parts, and counts as they were printed.
type Record struct {
	Cases     []Piece `json:"cases"`
	Decisions []Piece `json:"decisions"`
	Rates     []Rate  `json:"rates"`
}

// Piece is a case or a decision: a digest of each of its parts, by the part's
// name. A part that its author left empty is not there.
type Piece struct {
	ID    string            `json:"id"`
	Parts map[string]string `json:"parts"`
}

// Rate is one line of the table of rates, as printed: a hidden count is its
// mark, such as <5.
type Rate struct {
	Complication string `json:"complication"`
	Technique    string `json:"technique"`
	Events       string `json:"events"`
	Operations   string `json:"operations"`
}

// Encode writes a manifest as the file it is.
func (m Manifest) Encode() []byte {
	m.Made = maker
	var out bytes.Buffer
	e := json.NewEncoder(&out)
	e.SetIndent("", " ")
	if err := e.Encode(m); err != nil {
		panic(err) // strings, numbers and maps of strings always encode
	}
	return out.Bytes()
}

// Decode reads a manifest; anything but one of caseleaf's is [ErrNotHandout].
func Decode(data []byte) (Manifest, error) {
	var m Manifest
	if err := json.Unmarshal(data, &m); err != nil || m.Made != maker {
		return Manifest{}, ErrNotHandout
	}
	return m, nil
}
