package preview

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// A snapshot taken of what events name is that of the whole folder, whatever was
// done to it, and tells the same changes.
func TestAgainIsTake(t *testing.T) {
	folder, r := t.TempDir(), rand.New(rand.NewPCG(1, 2))
	before, _, err := take(folder, nil)
	if err != nil {
		t.Fatal(err)
	}
	for round := range 200 {
		names := map[string]bool{}
		for range 1 + r.IntN(3) {
			name := filepath.Join(folder, fmt.Sprintf("ab-%d.md", r.IntN(6)))
			names[name] = true
			switch r.IntN(4) {
			case 0:
				_ = os.Remove(name)
			case 1:
				_ = os.Remove(name)
				_ = os.Symlink("elsewhere.md", name)
			case 2:
				other := filepath.Join(folder, fmt.Sprintf("ab-%d.md", r.IntN(6)))
				names[other] = true
				_ = os.Rename(other, name)
			default:
				_ = os.Remove(name)
				if err := os.WriteFile(name, fmt.Appendf(nil, "round %d", round), 0o644); err != nil {
					t.Fatal(err)
				}
			}
		}
		whole, _, err := take(folder, before)
		if err != nil {
			t.Fatal(err)
		}
		now, changed, err := before.again(folder, names)
		if err != nil {
			t.Fatal(err)
		}
		want := before.changed(whole)
		slices.Sort(want)
		slices.Sort(changed)
		if diff := cmp.Diff([]any{whole, want}, []any{now, changed}, cmp.AllowUnexported(fileState{})); diff != "" {
			t.Fatalf("round %d (-whole folder +named files):\n%s", round, diff)
		}
		before = now
	}
}
