package cache

import (
	"io/fs"
	"syscall"

	"golang.org/x/sys/unix"
)

func systemStamp(info fs.FileInfo) (Stamp, bool) {
	s, ok := info.Sys().(*syscall.Stat_t)
	if !ok {
		return Stamp{}, false
	}
	return Stamp{Device: uint64(s.Dev), Node: s.Ino, Changed: s.Ctim.Nano()}, true
}

// trusted are the file systems of a machine's own disks, by the numbers that Linux
// gives them: ext2 to ext4, XFS, Btrfs, F2FS, tmpfs, overlayfs.
var trusted = map[uint32]bool{
	unix.EXT4_SUPER_MAGIC: true, unix.XFS_SUPER_MAGIC: true, unix.BTRFS_SUPER_MAGIC: true, unix.F2FS_SUPER_MAGIC: true,
	unix.TMPFS_MAGIC: true, unix.OVERLAYFS_SUPER_MAGIC: true,
}

// Trusted reports whether the stamps of files in a folder can be relied on: it lies on
// a disk of this machine, by whose clock and whose word on a file the stamps are
// made. A share answers from what it knew some seconds ago, and by another clock.
func Trusted(folder string) bool {
	var about unix.Statfs_t
	return unix.Statfs(folder, &about) == nil && trusted[uint32(about.Type)]
}
