package term

import "slices"

// WatchRow is one line of the watch table: in this step, this complication can
// start. All cells but Step and Complication are short printed phrases, common
// practice without a single source. FirstMove is what is generally taught
// first; it defers to the local protocol and licensed practice, and every page
// that prints it must say so.
type WatchRow struct {
	Step         string // id of a step
	Complication string // id of a complication
	FirstSign    string // what is seen first
	MisStep      string // the movement, omission or setting that usually sets it off
	FirstMove    string // what is generally done first
	Prevention   string // what makes it less likely
	Ready        string // what to have on the tray or arranged
}

// Watch returns the whole watch table, grouped by step.
func (v *Vocabulary) Watch() []WatchRow { return slices.Clone(v.watch) }

// WatchFor returns the rows of one step: what can start in it.
func (v *Vocabulary) WatchFor(step string) []WatchRow {
	return v.watchWhere(func(r *WatchRow) bool { return r.Step == step })
}

// WatchOf returns the rows of one complication: the steps it can start in.
func (v *Vocabulary) WatchOf(complication string) []WatchRow {
	return v.watchWhere(func(r *WatchRow) bool { return r.Complication == complication })
}

func (v *Vocabulary) watchWhere(keep func(*WatchRow) bool) []WatchRow {
	var rows []WatchRow
	for i := range v.watch {
		if keep(&v.watch[i]) {
			rows = append(rows, v.watch[i])
		}
	}
	return rows
}
