package term

import "slices"

// Span is an inclusive range of seconds.
type Span struct{ Min, Max int }

// Range holds the usual length of a step on the table, without trouble, for an
// experienced surgeon and for a trainee in the first hundred or so operations.
// It is for warnings, never for refusing a value: common practice, and a
// recording is often cut.
type Range struct{ Experienced, Trainee Span }

// Widest returns the span that covers both columns.
func (r Range) Widest() Span {
	return Span{min(r.Experienced.Min, r.Trainee.Min), max(r.Experienced.Max, r.Trainee.Max)}
}

// How a row of order.csv takes part in its procedure.
const (
	rescue = "rescue" // may come anywhere once the capsule is open; not in the sequence
	again  = "again"  // a second visit to a step already listed
)

// orderRow is one step of one procedure, in the usual order of the file.
type orderRow struct {
	procedure, step string
	use             string // usual, optional, rescue or again
	timed           bool   // whether time is known
	time            Range
}

// standIn is the procedure whose order serves for the umbrella term and for a
// technique that fits every procedure.
const standIn = "phacoemulsification"

// Sequence returns the ids of the steps in the usual order of a procedure,
// optional steps included, each once, rescue steps (see [Vocabulary.Rescue])
// left out. A technique stands for the procedure it belongs to, see
// [Vocabulary.ProcedureOf]. A bank's own procedure has the order of its term's
// Steps or, without any, its local steps in file order. Nil when unknown.
func (v *Vocabulary) Sequence(procedureOrTechnique string) []string {
	p, ok := v.ProcedureOf(procedureOrTechnique)
	if !ok {
		return nil
	}
	return v.sequence(p)
}

func (v *Vocabulary) sequence(procedure string) []string {
	var steps []string
	for _, r := range v.order {
		if r.procedure == procedure && r.use != rescue && r.use != again {
			steps = append(steps, r.step)
		}
	}
	if steps != nil {
		return steps
	}
	if t, ok := v.Get(procedure); ok && len(t.Steps) > 0 {
		return slices.Clone(t.Steps)
	}
	for _, t := range v.byKind[Step] {
		if t.Local && v.within(t.ID, procedure) {
			steps = append(steps, t.ID)
		}
	}
	return steps
}

// Rescue returns the steps that may come anywhere in this procedure once
// things have gone wrong, such as anterior-vitrectomy.
func (v *Vocabulary) Rescue(procedureOrTechnique string) []string {
	p, ok := v.ProcedureOf(procedureOrTechnique)
	if !ok {
		return nil
	}
	var steps []string
	for _, r := range v.order {
		if r.procedure == p && r.use == rescue {
			steps = append(steps, r.step)
		}
	}
	return steps
}

// ProcedureOf returns the procedure whose order of steps a procedure or
// technique follows. A procedure with an order follows itself; an umbrella
// such as cataract-surgery, and a technique of no particular procedure, follow
// phacoemulsification; another technique follows the first procedure that has
// the step it is done in (a frown incision is msics). False when the id is
// neither, or no order is known.
func (v *Vocabulary) ProcedureOf(id string) (string, bool) {
	t, ok := v.Get(id)
	if !ok {
		return "", false
	}
	switch t.Kind {
	case Procedure:
		if len(v.sequence(id)) > 0 {
			return id, true
		}
		return standIn, id == "cataract-surgery"
	case Technique:
		return v.procedureOfTechnique(t)
	}
	return "", false
}

func (v *Vocabulary) procedureOfTechnique(t Term) (string, bool) {
	if p, ok := v.Get(t.Parent); ok && p.Kind == Procedure && len(v.sequence(p.ID)) > 0 {
		return p.ID, true
	}
	places := t.Steps
	if p, ok := v.Get(t.Parent); ok && p.Kind == Step {
		places = []string{t.Parent}
	}
	procedures := v.ordered()
	for _, p := range procedures {
		sequence := v.sequence(p)
		for _, s := range places {
			if slices.Contains(sequence, s) {
				return p, true
			}
		}
	}
	if slices.Contains(procedures, standIn) {
		return standIn, true
	}
	return "", false
}

// ordered lists the procedures that have an order of steps of their own: the
// built-in ones as in order.csv, then the bank's.
func (v *Vocabulary) ordered() []string {
	var procedures []string
	for _, r := range v.order {
		if !slices.Contains(procedures, r.procedure) {
			procedures = append(procedures, r.procedure)
		}
	}
	for _, t := range v.byKind[Procedure] {
		if t.Local && len(v.sequence(t.ID)) > 0 {
			procedures = append(procedures, t.ID)
		}
	}
	return procedures
}

// within reports whether ancestor is reached from id by its parents.
func (v *Vocabulary) within(id, ancestor string) bool {
	for range v.terms { // a chain is never longer than the vocabulary
		t, ok := v.Get(id)
		if !ok || t.Parent == "" {
			return false
		}
		if t.Parent == ancestor {
			return true
		}
		id = t.Parent
	}
	return false
}

// StepTime returns the usual length of a step in a procedure (or the procedure
// a technique follows), in seconds. A step that is visited twice has the span
// of both visits. A rescue step not listed for the procedure has the times of
// phacoemulsification. False when no time is known, as for postop-review.
func (v *Vocabulary) StepTime(procedure, step string) (Range, bool) {
	p, ok := v.ProcedureOf(procedure)
	if !ok {
		return Range{}, false
	}
	if r, ok := v.stepTime(p, step, false); ok {
		return r, true
	}
	return v.stepTime(standIn, step, true)
}

func (v *Vocabulary) stepTime(procedure, step string, rescueOnly bool) (Range, bool) {
	var sum Range
	found := false
	for _, r := range v.order {
		if r.procedure != procedure || r.step != step || !r.timed || rescueOnly && r.use != rescue {
			continue
		}
		if !found {
			sum, found = r.time, true
			continue
		}
		sum.Experienced = cover(sum.Experienced, r.time.Experienced)
		sum.Trainee = cover(sum.Trainee, r.time.Trainee)
	}
	return sum, found
}

func cover(a, b Span) Span { return Span{min(a.Min, b.Min), max(a.Max, b.Max)} }
