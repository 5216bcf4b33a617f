package cache

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io/fs"
	"strings"
	"time"
)

// Stamp is what the system says of a file without opening it. While a file has
// the same stamp nobody has written to it: the system itself sets the time of the
// last change, and no program can set it back. What can deceive is left out, and
// such files are read: a change within the same tick of the clock (see
// [Stamp.Settled]) and disks whose answers may be old or rough (see [Trusted]).
type Stamp struct {
	Device, Node     uint64
	Size             int64
	Written, Changed int64 // nanoseconds since 1970: of its bytes, of anything
}

// tick is longer than the time for which a system gives the same time to two
// changes; Linux counts in 10 ms at most.
const tick = 20 * time.Millisecond

// StampOf is the stamp in what Lstat says of a file; not ok where the system gives
// none that could be relied on.
func StampOf(info fs.FileInfo) (s Stamp, ok bool) {
	s, ok = systemStamp(info)
	s.Size, s.Written = info.Size(), info.ModTime().UnixNano()
	return s, ok
}

// Settled reports whether a change made from now on would give another stamp.
func (s Stamp) Settled() bool { return s.unsettled() <= 0 }

// Follows reports whether a file with this stamp is the one that had an earlier
// stamp and was not written to since. An earlier stamp without a time of the last
// change is of a file that was given or has lost a name since, which changes that
// time.
func (s Stamp) Follows(earlier Stamp) bool {
	if earlier.Changed == 0 {
		earlier.Changed = s.Changed
	}
	return s == earlier && s != Stamp{}
}

// unsettled is how long it takes until the stamp is settled. Times of whole
// seconds are taken for those of a disk that knows no others.
func (s Stamp) unsettled() time.Duration {
	wait := tick
	if s.Changed%int64(time.Second) == 0 {
		wait = 3 * time.Second
	}
	return wait - time.Since(time.Unix(0, s.Changed))
}

// Sight is a folder as it was seen without opening its files.
type Sight struct {
	Sum    string           // of names and stamps; a folder with the same sum has the same bytes
	Stamps map[string]Stamp // by path
	wait   time.Duration    // until all stamps are settled
}

// Look looks at all files of a folder, in far less time than reading them takes.
// Files whose names begin with a dot are left out unless all is true, and so are
// folders for which skip is true. It is not ok where stamps can't be relied on; then
// the files have to be read.
func Look(files fs.FS, all bool, skip func(folder string) bool) (seen Sight, ok bool) {
	h := sha256.New()
	seen.Stamps = map[string]Stamp{}
	var device uint64
	err := fs.WalkDir(files, ".", func(name string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case name != "." && !all && strings.HasPrefix(d.Name(), "."), d.IsDir() && skip != nil && skip(name):
			if d.IsDir() {
				return fs.SkipDir
			}
			return nil
		}
		info, err := d.Info()
		if err != nil {
			return err
		}
		s, ok := StampOf(info)
		if name == "." {
			device = s.Device
		}
		switch {
		case !ok || s.Device != device, !all && !d.IsDir() && !d.Type().IsRegular():
			return ErrOdd
		case d.IsDir():
			fmt.Fprintf(h, "%q\n", name)
		default:
			fmt.Fprintf(h, "%q %v %v\n", name, d.Type(), s)
			seen.Stamps[name] = s
			seen.wait = max(seen.wait, s.unsettled())
		}
		return nil
	})
	seen.Sum = hex.EncodeToString(h.Sum(nil))
	return seen, err == nil
}

// patience is how long LookSettled waits for stamps to settle.
const patience = 2 * tick

// LookSettled is Look for a sight to be kept: any change made afterwards is seen by
// a later look. It waits for a moment where a file was changed just now.
func LookSettled(files fs.FS, all bool, skip func(folder string) bool) (seen Sight, ok bool) {
	for range 2 {
		if seen, ok = Look(files, all, skip); !ok || seen.wait > patience {
			return Sight{}, false
		}
		if seen.wait <= 0 {
			return seen, true
		}
		time.Sleep(seen.wait)
	}
	return Sight{}, false
}
