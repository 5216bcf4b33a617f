//go:build !linux

package builder

// exchange puts fresh in the place of old and old in the place of fresh.
func exchange(fresh, old string) error { return exchangeByRename(realDisk{}, fresh, old) }
