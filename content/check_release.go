package content

import "caseleaf/content/diagnose"

// Whether a case may be published is for a person to say, in its release. A case
// without one is held back quietly, as work in hand; one whose release is begun
// and not complete is held back with a warning, since its author may believe
// that it is out. Three answers are no reason to hold a case back but to stop:
// they say that the patient can be known.

// Missing lists the keys of the attestation that are not answered, in the order
// of the form. The sound of clips counts also where there are none, so that
// nobody adds a clip to an attestation that never spoke of it.
func (r *Release) Missing() []string {
	var missing []string
	need := func(answered bool, key string) {
		if !answered {
			missing = append(missing, key)
		}
	}
	need(r.Consent.Known(), "consent")
	need(r.Consent.Value != "not-required" || r.Reason.Known(), "reason")
	need(r.ReviewedBy.Known(), "reviewed_by")
	need(r.Reviewed.Known(), "reviewed")
	need(r.Face.Known(), "face")
	need(r.TextInPictures.Known(), "text_in_pictures")
	need(r.Sound.Known(), "sound")
	need(r.OtherwiseFindable.Known(), "otherwise_findable")
	return missing
}

// unfit lists the answers that say that the patient can be known, with what to
// do about each.
func (r *Release) unfit() []unfitAnswer {
	var all []unfitAnswer
	for _, a := range []unfitAnswer{
		{r.Face, "a face is in a picture or clip; crop it to the eye (a bar over the eyes is not enough), then write face: no"},
		{r.TextInPictures, "readable text is in a picture or clip; cut it away, then write text_in_pictures: no"},
		{r.OtherwiseFindable, "another way to find the patient is known; take out what leads there, then write otherwise_findable: no"},
	} {
		if a.Known() && a.Value {
			all = append(all, a)
		}
	}
	return all
}

type unfitAnswer struct {
	Given[bool]
	words string
}

// Released reports whether the case carries the whole attestation without which
// it is held back: consent, or the reason why none is needed, who read it when,
// and that neither a picture, a voice nor anything else known leads to the
// patient.
func (c *Case) Released() bool {
	return len(c.Release.Missing()) == 0 && len(c.Release.unfit()) == 0
}

// checkRelease says whether a case is held back and why, and whether it can't be
// published as it is.
func checkRelease(c *Case, bag *diagnose.Bag) {
	r := &c.Release
	for _, a := range r.unfit() {
		bag.Error("unfit-release", a.Span, "the release says that %s", a.words)
	}
	missing := r.Missing()
	switch {
	case len(missing) == 0:
	case r.Span.Source == nil:
		bag.Note("held-back", c.Span, "the case is held back: it has no release yet")
	default:
		bag.Warn("held-back", r.Span, "the case is held back: its release does not answer %s", listWords(missing))
	}
}

// checkReading warns where a course has a case read that readers won't find.
func checkReading(b *Bank, bag *diagnose.Bag) {
	if len(b.Courses) == 0 {
		return
	}
	held := map[string]bool{}
	for _, c := range b.Cases {
		held[c.ID.Value] = !c.Released()
	}
	for _, course := range b.Courses {
		for _, s := range course.Stations {
			for _, id := range s.Cases {
				if held[id.Value] {
					bag.Warn("held-back", id.Span, "%s is held back, so no sheet or card of the course tells anybody to read it", id.Value)
				}
			}
		}
	}
}
