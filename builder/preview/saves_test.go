package preview

import (
	"encoding/json"
	"fmt"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// The ways of saving are those of field report FR-33, each done three times in a
// row with before and after swapped.
func TestSaves(t *testing.T) {
	reports := filepath.Join("..", "..", "testdata", "field-reports", "fr-33-saves")
	var saves []struct {
		Name     string
		Ops      []json.RawMessage
		Rebuilds int
		Within   int `json:"within_ms"`
	}
	data, err := os.ReadFile(filepath.Join(reports, "saves.json"))
	if err == nil {
		err = json.Unmarshal(data, &saves)
	}
	if err != nil {
		t.Fatal(err)
	}
	texts := map[string]string{}
	for _, name := range []string{"before", "after"} {
		data, err := os.ReadFile(filepath.Join(reports, name+".md"))
		if err != nil {
			t.Fatal(err)
		}
		texts[name] = fitted.Replace(string(data))
	}
	for _, save := range saves {
		t.Run(save.Name, func(t *testing.T) {
			t.Parallel()
			s := serve(t, bank(t, texts["before"]))
			reader := s.readAllTheTime()
			defer reader.stop()
			limit := 2 * time.Second
			if save.Within > 0 {
				limit = time.Duration(save.Within) * time.Millisecond
			}
			limit += 25 * s.began // on a machine that is busy with other tests everything takes longer
			for round := range 3 {
				to := map[string]string{"before": texts["before"], "after": texts["after"]}
				if round == 1 {
					to["before"], to["after"] = to["after"], to["before"]
				}
				before := s.versions()
				over := make(chan bool)
				go func() { saver{t, filepath.Join(s.folder, "cases"), to}.all(save.Ops); close(over) }()
				want := marker(to["after"])
				if save.Within == 0 {
					<-over
				}
				if save.Rebuilds > 0 && !s.until(page, want, limit) {
					t.Errorf("round %d: %q is not shown within %v", round+1, want, limit)
				}
				<-over
				time.Sleep(800*time.Millisecond + 10*s.began) // what comes late would be one too many
				if got := s.versions() - before; got != save.Rebuilds {
					t.Errorf("round %d: shown anew %d times, want %d", round+1, got, save.Rebuilds)
				}
			}
		})
	}
}

// fitted makes the report's older form of a case one that is read now and is
// released; what the report is about, how the file is saved, stays.
var fitted = strings.NewReplacer(
	"procedure: cataract\n", "procedure: cataract-surgery\n", "phaco-divide-and-conquer", "divide-and-conquer",
	"alpha-blocker]", "alpha-blocker-use]", "type: nuclear,", "type: nuclear-cataract,", "step: incision", "step: main-incision",
	"\n---\nThe", "\n"+release+"---\nThe",
)

// marker is the text that tells after from before.
func marker(text string) string {
	if strings.Contains(text, "After the save") {
		return "After the save"
	}
	return "Before the save"
}

// saver does the steps of one way of saving in a folder.
type saver struct {
	t      *testing.T
	folder string
	texts  map[string]string
}

func (s saver) all(ops []json.RawMessage) {
	for _, op := range ops {
		var fields []any
		if err := json.Unmarshal(op, &fields); err != nil {
			s.t.Error(err)
			return
		}
		if err := s.do(fields, op); err != nil {
			s.t.Errorf("%v: %v", fields[0], err)
		}
	}
}

func (s saver) do(op []any, raw json.RawMessage) error {
	path := func(i int) string { return filepath.Join(s.folder, op[i].(string)) }
	text := func(i int) string {
		if known, ok := s.texts[op[i].(string)]; ok {
			return known
		}
		return op[i].(string)
	}
	switch op[0] {
	case "write", "create":
		return os.WriteFile(path(1), []byte(text(2)), 0o644)
	case "truncate":
		return os.Truncate(path(1), 0)
	case "sleep":
		time.Sleep(time.Duration(op[1].(float64)) * time.Millisecond)
		return nil
	case "write-part":
		return os.WriteFile(path(1), []byte(text(2)[:int(op[3].(float64))]), 0o644)
	case "append-rest":
		info, err := os.Stat(path(1))
		if err != nil {
			return err
		}
		f, err := os.OpenFile(path(1), os.O_APPEND|os.O_WRONLY, 0)
		if err != nil {
			return err
		}
		_, err = f.WriteString(text(2)[info.Size():])
		return firstOf(err, f.Close())
	case "rename", "rename-dir":
		return os.Rename(path(1), path(2))
	case "remove":
		return os.Remove(path(1))
	case "touch":
		return os.Chtimes(path(1), time.Now(), time.Now())
	case "repeat":
		var inner []any
		var parts []json.RawMessage
		if err := json.Unmarshal(raw, &parts); err != nil {
			return err
		}
		var steps []json.RawMessage
		if err := firstOf(json.Unmarshal(raw, &inner), json.Unmarshal(parts[2], &steps)); err != nil {
			return err
		}
		for range int(op[1].(float64)) {
			s.all(steps)
		}
		return nil
	}
	return fmt.Errorf("no such step")
}

func firstOf(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

// reader asks for the page all the time and complains of anything but a whole
// one.
type reader struct{ stop func() }

func (s *shown) readAllTheTime() reader {
	quit, over := make(chan bool), make(chan bool)
	go func() {
		defer close(over)
		for {
			select {
			case <-quit:
				return
			case <-time.After(15 * time.Millisecond):
			}
			status, body := s.get(page)
			if status != http.StatusOK || !strings.Contains(body, "the save") || !strings.HasSuffix(body, "</html>\n") {
				s.t.Errorf("a reader sees status %d, %d bytes: %.80q", status, len(body), body)
				return
			}
			if v := s.p.state.Load(); v.errors > 0 {
				s.t.Errorf("a reader sees an error: %v", v.messages)
				return
			}
		}
	}()
	return reader{func() { close(quit); <-over }}
}
