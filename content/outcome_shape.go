package content

import (
	"caseleaf/content/diagnose"
	"caseleaf/content/measure"
)

var outcomeFields = &shape[Outcome]{
	name: "outcome", doc: "What came of the operation.",
	fields: []field[Outcome]{
		group("acuity", "acuity before and at follow-up", func() *shape[AcuityChange] { return acuityFields }, func(o *Outcome) *AcuityChange { return &o.Acuity }),
		like(one("capsule", "state of the capsule at the end", oneOf("intact", "anterior-tear", "posterior-tear", "zonular-loss"), func(o *Outcome) *Given[string] { return &o.Capsule }), "intact"),
		like(one("lens", "where the implant sits", oneOf("in-the-bag", "sulcus", "sulcus-captured", "anterior-chamber", "iris-fixated", "scleral-fixated", "none"), func(o *Outcome) *Given[string] { return &o.Lens }), "in-the-bag"),
		group("pressure", "intraocular pressure afterwards", func() *shape[Pressure] { return pressureFields }, func(o *Outcome) *Pressure { return &o.Pressure }),
		many("later", "complications met after the operation", eventTerm, func(o *Outcome) *[]Given[string] { return &o.Later }),
		one("further_surgery", "what further surgery was needed, or none", text, func(o *Outcome) *Given[string] { return &o.FurtherSurgery }, None),
		like(one("told", "whether the patient was told what happened", yesNo, func(o *Outcome) *Given[bool] { return &o.Told }), "yes"),
		like(one("follow_up", "when the outcome was seen", followUp, func(o *Outcome) *Given[measure.Period] { return &o.FollowUp }), "6 weeks"),
		one("note", "anything else, such as: lost to follow-up after day 1", text, func(o *Outcome) *Given[string] { return &o.Note }),
	},
}

var acuityFields = &shape[AcuityChange]{
	name: "acuity", doc: "Corrected acuity before the operation and at follow-up.",
	fields: []field[AcuityChange]{
		like(one("before", "before the operation", acuity, func(a *AcuityChange) *Given[measure.Acuity] { return &a.Before }, Unknown), "6/24"),
		like(one("after", "at follow-up", acuity, func(a *AcuityChange) *Given[measure.Acuity] { return &a.After }, Unknown), "6/6"),
	},
}

var pressureFields = &shape[Pressure]{
	name: "pressure", doc: "Intraocular pressure after the operation.",
	fields: []field[Pressure]{
		like(one("day_1", "on the first day", quantityOf("intraocular-pressure"), func(p *Pressure) *Given[measure.Quantity] { return &p.Day1 }), "18 mmHg"),
	},
}

var releaseFields = &shape[Release]{
	name: "release", doc: "The attestation without which a case is held back.",
	fields: []field[Release]{
		like(one("consent", "consent for teaching use", oneOf("recorded", "not-required"), func(c *Release) *Given[string] { return &c.Consent }), "recorded"),
		one("reason", "why consent is not required", text, func(c *Release) *Given[string] { return &c.Reason }),
		like(one("reviewed_by", "role of the person who read the case for identifying details", gradeWord, func(c *Release) *Given[Grade] { return &c.ReviewedBy }), "consultant"),
		like(one("reviewed", "year of that reading", whole(1990, 2100, "a year"), func(c *Release) *Given[int] { return &c.Reviewed }), "2026"),
		like(one("face", "whether a face is in a picture or clip", yesNo, func(c *Release) *Given[bool] { return &c.Face }), "no"),
		like(one("text_in_pictures", "whether readable text is in a picture or clip", yesNo, func(c *Release) *Given[bool] { return &c.TextInPictures }), "no"),
		like(one("sound", "sound track of clips", oneOf("none", "removed", "reviewed"), func(c *Release) *Given[string] { return &c.Sound }), "none"),
		like(one("otherwise_findable", "whether another way to find the patient is known", yesNo, func(c *Release) *Given[bool] { return &c.OtherwiseFindable }), "no"),
	},
	place: place(func(c *Release) *diagnose.Span { return &c.Span }),
}

func exceptionsField[T any](at func(*T) *[]PrivacyException) field[T] {
	return groups("privacy_exceptions", "reviewed exceptions to the privacy check", func() *shape[PrivacyException] { return exceptionFields }, at)
}

var exceptionFields = &shape[PrivacyException]{
	name: "a privacy exception", doc: "One reviewed exception to the privacy check.",
	fields: []field[PrivacyException]{
		must(one("class", "class of the finding", oneOf("name", "geo", "facility", "date", "age", "phone", "fax", "email", "national_id", "mrn", "plan", "account", "licence", "vehicle", "device", "url", "ip", "biometric", "photo", "other"), func(e *PrivacyException) *Given[string] { return &e.Class })),
		must(one("where", "part of the file", oneOf("body", "front-matter", "caption", "reference", "filename", "media"), func(e *PrivacyException) *Given[string] { return &e.Where })),
		must(one("match", "the exact text", text, func(e *PrivacyException) *Given[string] { return &e.Match })),
		must(one("count", "how many times it stands there", whole(1, 1000, "a count"), func(e *PrivacyException) *Given[int] { return &e.Count })),
		must(one("kind", "why it may stay", oneOf("false-positive", "consented", "reviewed"), func(e *PrivacyException) *Given[string] { return &e.Kind })),
		must(one("reason", "in at least fifteen characters", text, func(e *PrivacyException) *Given[string] { return &e.Reason })),
		must(one("reviewed_by", "role, not the author", gradeWord, func(e *PrivacyException) *Given[Grade] { return &e.ReviewedBy })),
		must(one("reviewed", "year", whole(1990, 2100, "a year"), func(e *PrivacyException) *Given[int] { return &e.Reviewed })),
		one("consent", "where consent is held, for kind consented", oneOf("held-locally"), func(e *PrivacyException) *Given[string] { return &e.Consent }),
	},
	place: place(func(e *PrivacyException) *diagnose.Span { return &e.Span }),
}
