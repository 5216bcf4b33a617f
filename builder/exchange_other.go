//go:build !linux

package builder

import "os"

// exchange puts fresh in the place of old and old in the place of fresh.
func exchange(fresh, old string) error { return exchangeByRename(fresh, old, os.Rename) }
