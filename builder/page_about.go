package builder

// AboutPage is what pages/about.tmpl lays out.
type AboutPage struct {
	Heading
	Notice string
	Counts []Count
	Strata []StratumLine
	Small  int // small counts from 1 to Small-1 are hidden in tables of rates
}

// CautionsPage is what pages/cautions.tmpl lays out.
type CautionsPage struct {
	Heading
	Cautions []string
}

// planAbout makes the page about the handout and the page of cautions.
func planAbout(s *Site) []Page {
	w, m, settings := s.words(), s.met, s.Bank.Settings
	about := &AboutPage{
		Heading: s.heading(aboutPage, w.say("about")), Notice: settings.Notice.Value,
		Counts: s.counts(m), Small: settings.Threshold(),
	}
	about.Summary = w.say("about-summary")
	for _, t := range settings.Strata {
		about.Strata = append(about.Strata, StratumLine{t.Label.Or(t.ID.Value), t.Definition.Value})
	}
	cautions := &CautionsPage{Heading: s.heading(cautionsPage, w.say("cautions")), Cautions: known(settings.Cautions)}
	cautions.Summary = w.say("cautions-summary")
	return []Page{
		{Path: aboutPage, Template: "about", Data: about},
		{Path: cautionsPage, Template: "cautions", Data: cautions},
	}
}
