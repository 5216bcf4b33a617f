package builder_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// filterState is what a reader sees of the filters.
type filterState struct {
	Shown  int
	Status string
	Hash   string
	Clear  bool
	Counts int // of the choice below, as the list of choices says it
}

const filterNow = `(() => ({
	Shown: document.querySelectorAll(".Contents-line:not([hidden])").length,
	Status: document.querySelector(".js-filter output").textContent,
	Hash: location.hash,
	Clear: !document.querySelector(".js-filter button").hidden,
	Counts: +(/\((\d+)\)$/.exec(document.querySelector("option[value=posterior-capsule-tear]").textContent)[1]),
}))()`

// The filters narrow the list, count, keep what is chosen in the address, take
// it from there, and are cleared. The list by complication says how many there
// are.
func TestFiltersInBrowser(t *testing.T) {
	ctx := browser(t)
	open(t, ctx, demoHandout(t), "cases.html", true)
	all := evaluate[filterState](t, ctx, filterNow)
	choose := func(name, value string) {
		evaluate[bool](t, ctx, `(() => { const s = document.querySelector("select[name=`+name+`]"); s.value = "`+value+`";
			s.dispatchEvent(new Event("change", { bubbles: true })); return true; })()`)
	}
	choose("complication", "posterior-capsule-tear")
	one := evaluate[filterState](t, ctx, filterNow)
	if one.Shown == 0 || one.Shown >= all.Shown || one.Shown != all.Counts || one.Hash != "#complication=posterior-capsule-tear" || !one.Clear {
		t.Errorf("one choice: %+v, all %+v", one, all)
	}
	choose("surgeon", "trainee")
	two := evaluate[filterState](t, ctx, filterNow)
	if two.Shown > one.Shown || two.Counts != two.Shown || !strings.Contains(two.Hash, "surgeon=trainee") {
		t.Errorf("two choices: %+v after %+v", two, one)
	}
	evaluate[bool](t, ctx, `(() => { location.hash = "#complication=posterior-capsule-tear"; return true; })()`)
	evaluate[bool](t, ctx, `(() => { dispatchEvent(new Event("hashchange")); return true; })()`)
	if diff := cmp.Diff(one, evaluate[filterState](t, ctx, filterNow)); diff != "" {
		t.Errorf("from the address (-want +got):\n%s", diff)
	}
	evaluate[bool](t, ctx, `(() => { document.querySelector(".js-filter button").click(); return true; })()`)
	if diff := cmp.Diff(all, evaluate[filterState](t, ctx, filterNow)); diff != "" {
		t.Errorf("cleared (-want +got):\n%s", diff)
	}
}
