package content

import (
	"os"
	"testing"
)

func TestSmoke(t *testing.T) {
	b, ds, err := Read(os.DirFS("../casebank"))
	t.Log(len(b.Cases), len(b.Decisions), len(b.Courses), err)
	ds.WriteText(os.Stdout)
}
