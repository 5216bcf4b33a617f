package content

import (
	"regexp"
	"slices"
	"strings"
)

// facts are what items.csv can ask of a case, by the key they are about; a
// word after a colon asks more of the key than that it is filled in.
var facts = map[string]func(*Case) bool{
	"title":                     func(c *Case) bool { return stated(c.Title) },
	"title:case-report":         func(c *Case) bool { return caseReport.MatchString(c.Title.Or("")) },
	"summary":                   func(c *Case) bool { return stated(c.Summary) },
	"procedure":                 func(c *Case) bool { return stated(c.Procedure) },
	"technique":                 func(c *Case) bool { return stated(c.Technique) },
	"surgeon":                   func(c *Case) bool { return stated(c.Surgeon) },
	"kit":                       func(c *Case) bool { return len(c.Kit) > 0 },
	"narrative:picture":         func(c *Case) bool { return len(c.Body.Pictures) > 0 },
	"timeline.finding":          func(c *Case) bool { return len(c.Findings()) > 0 },
	"timeline.event.sign":       eventsSigned,
	"timeline.step.place":       stepPlaced,
	"experience":                func(c *Case) bool { return stated(c.Experience) },
	"anaesthesia":               func(c *Case) bool { return stated(c.Anaesthesia) },
	"position":                  func(c *Case) bool { return stated(c.Position) },
	"patient.age_band":          func(c *Case) bool { return stated(c.Patient.AgeBand) },
	"patient.sex":               func(c *Case) bool { return stated(c.Patient.Sex) },
	"patient.risks":             func(c *Case) bool { return slices.ContainsFunc(c.Patient.Risks, stated[string]) },
	"cataract.type":             func(c *Case) bool { return stated(c.Cataract.Type) },
	"cataract.grade":            func(c *Case) bool { return anyStated(c.Cataract.Grades) },
	"measures":                  func(c *Case) bool { return measured(c.Measures) },
	"plan":                      func(c *Case) bool { return stated(c.Plan) },
	"complaint":                 func(c *Case) bool { return stated(c.Complaint) },
	"history":                   func(c *Case) bool { return stated(c.History) },
	"examination":               func(c *Case) bool { return stated(c.Examination) },
	"diagnosis":                 func(c *Case) bool { return stated(c.Diagnosis) },
	"kit.strength":              func(c *Case) bool { return anyKit(c, func(k KitItem) bool { return stated(k.Strength) }) },
	"kit.size":                  func(c *Case) bool { return anyKit(c, func(k KitItem) bool { return stated(k.Size) }) },
	"recording.ends":            func(c *Case) bool { return stated(c.Recording.Ends) },
	"timeline":                  func(c *Case) bool { return len(c.Steps()) > 0 },
	"outcome":                   outcomeStated,
	"outcome.acuity.after":      func(c *Case) bool { return stated(c.Outcome.Acuity.After) },
	"outcome.pressure.day_1":    func(c *Case) bool { return stated(c.Outcome.Pressure.Day1) },
	"outcome.further_surgery":   func(c *Case) bool { return stated(c.Outcome.FurtherSurgery) },
	"outcome.follow_up":         func(c *Case) bool { return stated(c.Outcome.FollowUp) },
	"outcome.note":              func(c *Case) bool { return stated(c.Outcome.Note) },
	"tolerance":                 func(c *Case) bool { return stated(c.Tolerance) },
	"perspective":               func(c *Case) bool { return stated(c.Perspective) },
	"lessons":                   func(c *Case) bool { return anyStated(c.Lessons) },
	"lessons:three":             func(c *Case) bool { return countStated(c.Lessons) >= 3 },
	"alternatives":              func(c *Case) bool { return anyStated(c.Alternatives) },
	"limits":                    func(c *Case) bool { return stated(c.Limits) },
	"sources:cited":             func(c *Case) bool { return slices.ContainsFunc(c.Sources, cited) },
	"interests":                 func(c *Case) bool { return stated(c.Interests) },
	"shown":                     func(c *Case) bool { return stated(c.Shown) },
	"release.consent":           func(c *Case) bool { return stated(c.Release.Consent) },
	"release.face":              func(c *Case) bool { return stated(c.Release.Face) },
	"release.text_in_pictures":  func(c *Case) bool { return stated(c.Release.TextInPictures) },
	"narrative":                 func(c *Case) bool { return len(strings.TrimSpace(string(c.Body.Markdown))) > 0 },
	"timeline.step.measures":    stepMeasured,
	"timeline.decision.because": decisionsReasoned,
	"timeline.event.action":     eventsActedOn,
	"outcome.later:only":        func(c *Case) bool { return len(c.Events()) == 0 && anyStated(c.Outcome.Later) },
	"timeline.event.cause": func(c *Case) bool {
		return slices.ContainsFunc(c.Events(), func(e *Entry) bool { return stated(e.Event.Cause) })
	},
}

// condition says of which cases an item can be asked at all.
type condition struct {
	holds     func(*Case) bool
	otherwise string // why the item does not apply where it does not hold
}

// conditions are the names in the column applies of items.csv.
var conditions = map[string]condition{
	"event": {
		func(c *Case) bool { return len(c.Events()) > 0 || anyStated(c.Outcome.Later) },
		"no complication is recorded",
	},
	"departure": {
		func(c *Case) bool { return len(c.Events()) > 0 || len(c.Decisions()) > 0 },
		"neither a complication nor a decision is recorded",
	},
	"trainee": {trainingSurgeon, "no surgeon in training operated"},
	"consent": {
		func(c *Case) bool { return c.Release.Consent.Or("") != "not-required" },
		"consent is recorded as not required",
	},
	"watched": {
		func(*Case) bool { return false },
		"only who watches the recording can say; a case holds its words",
	},
	"unnamed": {
		func(*Case) bool { return false },
		"a handout names no people, places or dates",
	},
}

// stated reports whether an author gave a value or wrote none. Unknown is an
// honest value but answers nothing.
func stated[V any](g Given[V]) bool { return g.State == Known || g.State == None }

func anyStated[V any](list []Given[V]) bool { return slices.ContainsFunc(list, stated[V]) }

func countStated[V any](list []Given[V]) int {
	n := 0
	for _, g := range list {
		if stated(g) {
			n++
		}
	}
	return n
}

// caseReport finds the words that both checklists ask for in a title.
var caseReport = regexp.MustCompile(`(?i)\bcase (report|study)\b`)

// commonPractice is how a list of sources says that there is none.
var commonPractice = regexp.MustCompile(`(?i)^common practice\b`)

// cited reports whether a source is published work.
func cited(r Reference) bool {
	return stated(r.DOI) || stated(r.URL) || stated(r.Text) && !commonPractice.MatchString(r.Text.Value)
}

func measured(list []Measured) bool {
	return slices.ContainsFunc(list, func(m Measured) bool { return stated(m.Value) })
}

func anyKit(c *Case, has func(KitItem) bool) bool { return slices.ContainsFunc(c.Kit, has) }

// outcomeStated reports whether the outcome says anything of the result; when
// it was seen, or that the patient was told, is not a result.
func outcomeStated(c *Case) bool {
	o := &c.Outcome
	return stated(o.Acuity.After) || stated(o.Capsule) || stated(o.Lens) || stated(o.FurtherSurgery) ||
		anyStated(o.Later) || stated(o.Note)
}

func stepMeasured(c *Case) bool {
	return slices.ContainsFunc(c.Timeline.Entries, func(e Entry) bool { return e.Step != nil && measured(e.Step.Detail().Measures) })
}

// stepPlaced reports whether any step says at which clock hour it was done.
func stepPlaced(c *Case) bool {
	return slices.ContainsFunc(c.Timeline.Entries, func(e Entry) bool { return e.Step != nil && stated(e.Step.Place) })
}

// eventsSigned reports whether there are events and each gives its first sign.
func eventsSigned(c *Case) bool {
	events := c.Events()
	return len(events) > 0 && !slices.ContainsFunc(events, func(e *Entry) bool { return !stated(e.Event.Sign) })
}

// decisionsReasoned reports whether there are decisions and each has its reason.
func decisionsReasoned(c *Case) bool {
	points := c.Decisions()
	return len(points) > 0 && !slices.ContainsFunc(points, func(e *Entry) bool { return !stated(e.Decision.Because) })
}

// eventsActedOn reports whether there are events and each says what was done
// about it, be it nothing.
func eventsActedOn(c *Case) bool {
	events := c.Events()
	return len(events) > 0 && !slices.ContainsFunc(events, func(e *Entry) bool {
		return !stated(e.Event.Action) && !anyStated(e.Event.Actions) && e.Event.Acted.State != None
	})
}

// trainingSurgeon reports whether someone in training operated, or may have:
// a case that names no grade is not excused.
func trainingSurgeon(c *Case) bool {
	inTraining := func(g Given[Grade]) bool { return g.Known() && g.Value != Consultant }
	return !c.Surgeon.Known() || inTraining(c.Surgeon) ||
		slices.ContainsFunc(c.Timeline.Entries, func(e Entry) bool { return e.Step != nil && inTraining(e.Step.Detail().By) })
}
