package cache

import (
	"crypto/sha256"
	"encoding/hex"
	"io"
	"os"
	"path/filepath"
	"runtime"
)

// Program names this very program on this machine: its bytes, what they were made
// for and the machine's name. It is "" where the program can't read itself; then
// nothing is kept. The sum over its bytes is itself kept in the folder, for as long
// as the program's file has the same stamp.
func Program(folder string) string {
	name, err := os.Executable()
	if err != nil {
		return ""
	}
	host, err := os.Hostname()
	if err != nil {
		return ""
	}
	platform := runtime.GOOS + " " + runtime.GOARCH + " " + host
	sum, err := sumProgram(NewFile(folder, platform, "program", name), name)
	if err != nil {
		return ""
	}
	return platform + " " + sum
}

// summed is a file's sum, and its stamp from before it was read.
type summed struct {
	Stamp Stamp
	Sum   string
}

func sumProgram(kept File, name string) (string, error) {
	name, err := filepath.EvalSymlinks(name)
	if err != nil {
		return "", err
	}
	info, err := os.Lstat(name)
	if err != nil {
		return "", err
	}
	stamp, ok := StampOf(info)
	ok = ok && Trusted(name)
	var last summed
	if ok && kept.Load(&last) && last.Stamp == stamp {
		return last.Sum, nil
	}
	sum, err := sumFile(name)
	if err == nil && ok && stamp.Settled() {
		_ = kept.Save(summed{stamp, sum}) // a failure costs time
	}
	return sum, err
}

func sumFile(name string) (string, error) {
	f, err := os.Open(name)
	if err != nil {
		return "", err
	}
	defer f.Close()
	h := sha256.New()
	if _, err := io.Copy(h, f); err != nil {
		return "", err
	}
	return hex.EncodeToString(h.Sum(nil)), nil
}
