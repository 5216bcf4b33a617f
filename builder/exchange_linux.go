package builder

import (
	"errors"

	"golang.org/x/sys/unix"
)

// exchange puts fresh in the place of old and old in the place of fresh, in one
// step where the file system can.
func exchange(fresh, old string) error {
	err := unix.Renameat2(unix.AT_FDCWD, fresh, unix.AT_FDCWD, old, unix.RENAME_EXCHANGE)
	if errors.Is(err, unix.ENOSYS) || errors.Is(err, unix.EINVAL) {
		return exchangeByRename(realDisk{}, fresh, old)
	}
	return err
}
