package cache

import (
	"crypto/sha256"
	"encoding/hex"
	"io"
	"os"
	"runtime"
	"sync"
)

// Program names this very program on this machine: its bytes, what they were made
// for and the machine's name. It is "" where the program can't read itself; then
// nothing is kept.
var Program = sync.OnceValue(func() string {
	name, err := os.Executable()
	if err != nil {
		return ""
	}
	sum, err := sumFile(name)
	if err != nil {
		return ""
	}
	host, err := os.Hostname()
	if err != nil {
		return ""
	}
	return runtime.GOOS + " " + runtime.GOARCH + " " + host + " " + sum
})

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
