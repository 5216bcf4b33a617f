package content

import (
	"os"
	"testing"
)

func TestSmoke(t *testing.T) {
	for _, dir := range []string{"../casebank", "../testdata/faulty", "../testdata/second-specialty"} {
		b, ds, err := Read(os.DirFS(dir))
		t.Log(dir, len(b.Cases), len(b.Decisions), len(b.Courses), err)
		ds.WriteText(os.Stdout)
	}
}
