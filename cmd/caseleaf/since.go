package main

import (
	"errors"
	"fmt"
	"io/fs"

	"caseleaf/builder"
	"caseleaf/builder/pack"
)

// since reads the manifest of an earlier edition: of a zip, of a handout's
// folder, or the file itself. An empty name is none.
func since(name string) (*builder.Manifest, error) {
	if name == "" {
		return nil, nil
	}
	m, err := pack.ReadManifest(name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, failure{exitUse, fmt.Errorf("there is no %s to compare with", name)}
	case errors.Is(err, pack.ErrNotHandout):
		return nil, failure{exitUse, fmt.Errorf("%w; name the zip, the folder or the manifest.json of an earlier edition", err)}
	case err != nil:
		return nil, failure{exitMachine, err}
	}
	return &m, nil
}
