package builder_test

import (
	"bufio"
	"fmt"
	"io"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"time"
)

// saves is how many saves the preview is timed over.
const saves = 20

var previewAddress = regexp.MustCompile(`http://[0-9.]+:[0-9]+/`)

// preview starts the preview of the bank and returns the median time from a save
// of a case to its page being served anew, as a reader on this machine gets it.
func (t *table) preview() time.Duration {
	t.b.Helper()
	command := exec.Command(t.program, "preview", t.bank)
	command.Env = t.environment
	out, err := command.StdoutPipe()
	if err == nil {
		err = command.Start()
	}
	if err != nil {
		t.b.Fatal(err)
	}
	defer func() {
		_ = command.Process.Signal(os.Interrupt)
		_ = command.Wait()
	}()
	address := ""
	lines := bufio.NewScanner(out)
	for address == "" && lines.Scan() {
		address = previewAddress.FindString(lines.Text())
	}
	go func() { _, _ = io.Copy(io.Discard, out) }()
	var took []time.Duration
	name, page := t.aCase(), fmt.Sprintf("%scases/gb-%05d.html", address, t.cases)
	before, err := os.ReadFile(name)
	if err != nil {
		t.b.Fatal(err)
	}
	for i := range saves {
		said := fmt.Sprintf("It is told in round %d under", i+1)
		started := time.Now()
		if err := os.WriteFile(name, []byte(strings.Replace(string(before), "It is told again under", said, 1)), 0o644); err != nil {
			t.b.Fatal(err)
		}
		for !strings.Contains(t.get(page), said) {
			if time.Since(started) > time.Minute {
				t.b.Fatalf("%q is not shown", said)
			}
			time.Sleep(2 * time.Millisecond)
		}
		took = append(took, time.Since(started))
	}
	slices.Sort(took)
	return took[saves/2]
}

func (t *table) get(address string) string {
	answer, err := http.Get(address)
	if err != nil {
		t.b.Fatal(err)
	}
	defer answer.Body.Close()
	body, err := io.ReadAll(answer.Body)
	if err != nil {
		t.b.Fatal(err)
	}
	return string(body)
}

// aCase is the file of the last case.
func (t *table) aCase() string {
	return filepath.Join(t.bank, "cases", fmt.Sprintf("gb-%05d.md", t.cases))
}
