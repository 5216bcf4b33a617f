package builder

import (
	"math"
	"slices"

	"caseleaf/builder/figure"
	"caseleaf/content"
	"caseleaf/content/measure"
	"caseleaf/content/term"
)

// Steps by what they leave in the eye. A place or a width at any other step
// (where a stitch was passed, say) is no wound.
var (
	woundSteps = []string{
		"paracentesis", "main-incision", "incision-opening", "laser-incisions",
		"scleral-groove", "limbal-groove", "chamber-entry",
	}
	openingSteps = []string{"capsulorhexis", "anterior-capsulotomy", "laser-capsulotomy", "capsule-disc-removal"}
)

// isOfEye reports whether the vocabulary is an eye's: it knows the measure that
// every drawing of one is scaled by.
func isOfEye(bank *content.Bank) bool {
	t, ok := bank.Vocabulary.Get("white-to-white")
	return ok && t.Kind == term.Measure
}

// lengthOf is a measured length in millimetres; 0 when it was not measured.
func lengthOf(list []content.Measured, id string) measure.Length {
	for _, m := range list {
		if m.Term.Or("") != id || !m.Value.Known() {
			continue
		}
		switch q := m.Value.Value; q.Unit {
		case "mm":
			return measure.Length(q.Value)
		case "µm":
			return measure.Length(q.Value / 1000)
		}
	}
	return 0
}

// clockFace is the front of the eye at each event that took a stretch of the
// circumference, or as it was left where there was none. Only what the case gives
// is drawn, but for standard values, which are named as such.
func (v *caseView) clockFace() (figure.ClockFace, bool) {
	w := v.words
	f := figure.ClockFace{Words: v.words, IDPrefix: "eye", Title: w.say("eye-title", caseTitle(v.c))}
	f.Eye, _ = measure.ParseEye(v.c.Eye.Or("")) // unknown where it is not told
	// Where the surgeon sat is not told, so neither is the temporal side in the surgeon's view.
	f.SurgeonView = v.c.ClockFrame.Or("surgeon") != "anatomical"
	state := figure.FaceMoment{
		WhiteToWhite: lengthOf(v.c.Measures, "white-to-white"),
		Pupil:        lengthOf(v.c.Measures, "pupil-diameter"),
	}
	for i := range v.c.Timeline.Entries {
		e := &v.c.Timeline.Entries[i]
		if e.Step != nil {
			v.afterStep(&state, e.Step)
			continue
		}
		if arc, ok := v.arcOf(e); ok {
			m := state
			m.Incisions, m.Arcs = slices.Clone(state.Incisions), []figure.FaceArc{arc}
			m.Label, m.Href = w.say("eye-at", w.time(e.At), arc.Label), "#"+v.anchors.rows[i]
			f.Moments = append(f.Moments, m)
		}
	}
	if len(f.Moments) == 0 {
		state.Pupil = 0 // measured for the operation, not as it was left
		state.Label = w.say("eye-left-as")
		f.Moments = append(f.Moments, state)
		return f, len(state.Incisions) > 0 && state.Opening > 0
	}
	f.Finding = joinSentences(f.Finding, w.say("eye-last-measured"))
	return f, true
}

// afterStep takes in what a step left: a wound, an opening, a pupil measured.
func (v *caseView) afterStep(m *figure.FaceMoment, s *content.Step) {
	id, detail := s.Term.Or(""), s.Detail()
	if p := detail.Pupil.Or(lengthOf(detail.Measures, "pupil-diameter")); p > 0 {
		m.Pupil = p
	}
	if d := detail.Diameter.Or(lengthOf(detail.Measures, "rhexis-diameter")); d > 0 && slices.Contains(openingSteps, id) {
		m.Opening = d
	}
	if s.Place.Known() && slices.Contains(woundSteps, id) {
		m.Incisions = append(m.Incisions, figure.FaceIncision{
			Label: v.site.Bank.Term(id).Label, Place: s.Place.Value,
			Width: detail.Width.Or(lengthOf(detail.Measures, "incision-width")),
		})
	}
}

// rimTear is the complication that runs outwards from the opening, as those below it do.
const rimTear = "anterior-capsule-tear"

// arcOf is the stretch that an event took, or that a finding was seen over,
// with what it grew to.
func (v *caseView) arcOf(e *content.Entry) (figure.FaceArc, bool) {
	var arc figure.FaceArc
	switch {
	case e.Event != nil:
		t := v.site.Bank.Term(e.Event.Term.Or(""))
		arc.Label, arc.Radial = t.Label, t.ID == rimTear || t.Parent == rimTear
		if e.Event.Extent.Known() {
			arc.Extents = append(arc.Extents, e.Event.Extent.Value)
		}
		for _, s := range e.Event.Spread {
			if s.Extent.Known() {
				arc.Extents = append(arc.Extents, s.Extent.Value)
			}
		}
	case e.Finding != nil && e.Finding.Present.Or(false) && e.Finding.Extent.Known():
		arc.Label = v.site.Bank.Term(e.Finding.Term.Or("")).Label
		arc.Extents = append(arc.Extents, e.Finding.Extent.Value)
	}
	return arc, len(arc.Extents) > 0
}

// joinSentences puts two sentences one after the other.
func joinSentences(a, b string) string {
	if a == "" || b == "" {
		return a + b
	}
	return a + " " + b
}

// section is the side view, where the case gives the depth of the chamber and
// the thickness of the lens. Biometers measure the depth from the front of the
// cornea; the figure wants it from the endothelium, so the cornea is taken off.
func (v *caseView) section() (figure.Section, bool) {
	depth, lens := lengthOf(v.c.Measures, "anterior-chamber-depth"), lengthOf(v.c.Measures, "lens-thickness")
	if depth <= 0 || lens <= 0 {
		return figure.Section{}, false
	}
	f := figure.Section{Words: v.words,
		IDPrefix: "section", Title: v.words.say("section-title", caseTitle(v.c)),
		Cornea: lengthOf(v.c.Measures, "corneal-thickness"), Lens: lens,
		WhiteToWhite: lengthOf(v.c.Measures, "white-to-white"), Pupil: lengthOf(v.c.Measures, "pupil-diameter"),
	}
	cornea, say := f.Cornea, v.words.say
	f.Finding = say("section-depth", depth.String(), cornea.String())
	if cornea <= 0 {
		cornea = meanCornea
		f.Finding = say("section-depth-standard", depth.String(), cornea.String())
	}
	f.Depth = measure.Length(math.Round(100*float64(depth-cornea)) / 100)
	return f, f.Depth > 0
}

// meanCornea is the corneal thickness taken off where the case gives none: the
// mean of a series of 28 709 cataract eyes (trade reference), which the figure
// draws and names as a standard value.
const meanCornea measure.Length = 0.534
