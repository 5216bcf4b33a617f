package builder

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"github.com/gofrs/flock"
)

// ErrBusy is returned when another build is writing the same handout.
var ErrBusy = errors.New("another build is writing this handout; try again when it is done")

// lockHandout takes the lock of a handout's folder. It is a file of the
// system's temporary folder, so nothing is left beside the handout, and the
// system lets go of it when the program ends, however it ends.
func lockHandout(out string) (*flock.Flock, error) {
	sum := sha256.Sum256([]byte(out))
	name := filepath.Join(os.TempDir(), "caseleaf-"+hex.EncodeToString(sum[:8])+".lock")
	lock := flock.New(name)
	free, err := lock.TryLock()
	switch {
	case err != nil:
		return nil, fmt.Errorf("locking %s: %w", out, err)
	case !free:
		return nil, fmt.Errorf("%s: %w", out, ErrBusy)
	}
	return lock, nil
}
