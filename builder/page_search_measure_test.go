package builder_test

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

// Figures of searching 1,000 generated cases in a browser slowed six times,
// printed and held to nothing, since a busy machine would decide:
//
//	CASELEAF_MEASURE=1 go test ./builder -run TestMeasureSearch -v
//
// Cold is from the first letter with nothing loaded, warm a query whose files
// are there, both until the hits are shown.
func TestMeasureSearch(t *testing.T) {
	if os.Getenv("CASELEAF_MEASURE") == "" {
		t.Skip("CASELEAF_MEASURE is not set: nothing was measured")
	}
	folder := filepath.Join(t.TempDir(), "handout")
	build(t, benchBank(t, 1000), folder)
	files, _ := filepath.Glob(filepath.Join(folder, "search", "*.js"))
	sizes := map[string]int64{}
	for _, f := range files {
		info, err := os.Stat(f)
		if err != nil {
			t.Fatal(err)
		}
		kind, _, _ := strings.Cut(filepath.Base(f), "-")
		sizes[kind] += info.Size()
	}
	t.Logf("bytes: %v in %d files", sizes, len(files))
	ctx := browser(t)
	send(t, ctx, emulation.SetCPUThrottlingRate, emulation.SetCPUThrottlingRateParams{Rate: 6})
	for _, q := range []string{"PCR", "capsule rent", "capsulorexis", "iris prolpase pressure", "quadrant chamber mmHg", "c", "ca", "cap"} {
		open(t, ctx, folder, "search.html", true)
		cold := timeQuery(t, ctx, q)
		var warm []float64
		for range 9 {
			warm = append(warm, timeQuery(t, ctx, q+" "), timeQuery(t, ctx, q))
		}
		slices.Sort(warm)
		t.Logf("%-25s cold %5.1f ms, warm %5.1f ms (median of %d), least %5.1f ms", q, cold, warm[len(warm)/2], len(warm), warm[0])
	}
}

// timeQuery is how long a query takes until its hits are shown, in ms.
func timeQuery(t *testing.T, ctx context.Context, query string) float64 {
	t.Helper()
	typed, err := json.Marshal(query)
	if err != nil {
		t.Fatal(err)
	}
	script := fmt.Sprintf(`new Promise(done => {
		const list = document.getElementById("search-hits"), box = document.getElementById("search-box");
		const from = performance.now();
		new MutationObserver((m, o) => { o.disconnect(); done(performance.now() - from); })
			.observe(list, { attributes: true, attributeFilter: ["data-for"] });
		box.value = %s;
		box.dispatchEvent(new Event("input"));
	})`, typed)
	took, err := chromedp.Run(ctx, chromedp.Evaluate[float64](script, chromedp.EvalAwaitPromise))
	if err != nil {
		t.Fatal(err)
	}
	return took
}
