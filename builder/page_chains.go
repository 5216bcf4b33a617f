package builder

import (
	"cmp"
	"slices"

	"caseleaf/builder/figure"
	"caseleaf/content"
)

const chainsPage = "chains.html"

// ChainsPage is what pages/chains.tmpl lays out: how events and decisions
// followed one another, by the first event of the case.
type ChainsPage struct {
	Heading
	Parts  []Link // pages of single groups; empty where all are on one page
	Groups []ChainGroup
	Single []ChainWay // the only case of its first event
}

// ChainGroup is the cases with one first event.
type ChainGroup struct {
	ID     string
	Event  Link
	Cases  []Link
	Figure FigureBlock

	drawn drawnFigure // what Figure draws
}

// ChainWay is one case's way.
type ChainWay struct {
	Case  Link
	Links []Link
}

// way is what followed in one case from its first event on.
type way struct {
	first string // complication
	c     *content.Case
	links []figure.ChainLink
}

// planChains makes the page of chains, and a page for each first event where the
// cases are more than an old machine can open on one; none where no case has an
// event.
func planChains(s *Site) []Page { return s.chainPages(onOnePage) }

func (s *Site) chainPages(most int) []Page {
	m, w := s.met, s.words()
	byFirst := map[string][]way{}
	cases := 0
	for _, c := range s.Bank.Cases {
		if v := s.wayOf(m, c); v.first != "" {
			byFirst[v.first] = append(byFirst[v.first], v)
			cases++
		}
	}
	if cases == 0 {
		return nil
	}
	p := &ChainsPage{Heading: s.headingBelow(decisionsPage, w.say("chains"))}
	p.Summary = w.say("chains-summary", cases, len(s.Bank.Cases))
	ways := parting{whole: p.Heading, path: chainsPage, template: "chains"}
	for _, first := range s.byCount(byFirst) {
		list := byFirst[first]
		if len(list) == 1 {
			p.Single = append(p.Single, singleWay(list[0]))
			continue
		}
		path := chainPath(first, cases > most)
		group := s.chainGroup(m, path, first, list)
		s.keep(group.drawn)
		if path == chainsPage {
			p.Groups = append(p.Groups, s.laidOut(group))
			continue
		}
		p.Parts = append(p.Parts, Link{Text: group.Event.Text, Path: path, Note: w.say("draw-n-cases", len(list))})
		ways.add(path, w.say("chains-title", group.Event.Text), "", func(h Heading) any {
			return &ChainsPage{Heading: h, Groups: []ChainGroup{s.laidOut(group)}}
		})
	}
	return ways.after(p)
}

// chainPath is the page of the cases with a first event.
func chainPath(first string, parted bool) string {
	if parted {
		return "chains/" + fileStem(first) + ".html"
	}
	return chainsPage
}

// chainLink leads from a complication to what followed where it came first; nil
// where it came first in no case.
func (s *Site) chainLink(id string) *Link {
	n, cases := 0, 0
	for _, c := range s.Bank.Cases {
		switch firstEvent(c) {
		case "":
			continue
		case id:
			n++
		}
		cases++
	}
	switch {
	case n == 0:
		return nil
	case n == 1:
		return &Link{Text: s.words().say("chains-link", n), Path: chainsPage + "#page-single"}
	}
	return &Link{Text: s.words().say("chains-link", n), Path: chainPath(id, cases > onOnePage) + "#first-" + fileStem(id)}
}

// byCount orders first events by how many cases have them, then by name.
func (s *Site) byCount(byFirst map[string][]way) []string {
	var ids []string
	for id := range byFirst {
		ids = append(ids, id)
	}
	name := func(id string) string { return sortKey(s.Bank.Term(id).Label) }
	slices.SortFunc(ids, func(a, b string) int {
		return cmp.Or(len(byFirst[b])-len(byFirst[a]), cmp.Compare(name(a), name(b)), cmp.Compare(a, b))
	})
	return ids
}

// firstEvent is the complication of a case's first event; "" where it had none.
func firstEvent(c *content.Case) string {
	for _, e := range c.Events() {
		return e.Event.Term.Or("")
	}
	return ""
}

// wayOf lists a case's events and decisions from its first event on, in the
// order of its timeline.
func (s *Site) wayOf(m *met, c *content.Case) way {
	v := way{c: c, first: firstEvent(c)}
	met := false
	for i := range c.Timeline.Entries {
		switch e := &c.Timeline.Entries[i]; {
		case e.Event != nil:
			met = true
			link := m.link(e.Event.Term.Or(""))
			v.links = append(v.links, figure.ChainLink{Kind: figure.ChainEvent, Label: link.Text, Href: link.Path})
		case e.Decision != nil && met:
			v.links = append(v.links, s.chainDecision(e.Decision))
		}
	}
	return v
}

// chainDecision names a decision by what was chosen.
func (s *Site) chainDecision(d *content.DecisionPoint) figure.ChainLink {
	w := s.words()
	link := figure.ChainLink{Kind: figure.ChainDecision, Label: w.say("choice-missing")}
	if o := d.ChosenOption(); o != nil {
		link.Label = w.say("chain-chose", o.Text.Or(o.ID.Value))
	}
	shared, ok := s.Bank.Decision(d.Point.Or(""))
	if !ok {
		return link
	}
	link.Href = decisionPath(shared.ID.Value)
	for i := range shared.Options {
		if o := &shared.Options[i]; d.Chosen.Known() && o.ID.Value == d.Chosen.Value {
			link.Label = w.say("chain-chose", o.Text.Or(o.ID.Value))
		}
	}
	return link
}

func (s *Site) chainGroup(m *met, path, first string, list []way) ChainGroup {
	w, event := s.words(), m.link(first)
	id := "first-" + fileStem(first)
	f := figure.Chains{Words: w, IDPrefix: id, Title: w.say("chains-title", event.Text)}
	g := ChainGroup{ID: id, Event: event}
	root := rootOf(path)
	for _, v := range list {
		for i := range v.links {
			if l := &v.links[i]; l.Href != "" {
				l.Href = root + l.Href
			}
		}
		f.Paths = append(f.Paths, figure.ChainPath{Count: 1, Links: v.links})
		g.Cases = append(g.Cases, caseLink(v.c))
	}
	g.drawn = drawnFigure{
		figurePath("chains", first, chainsKind), chainsKind, f.Title,
		path + "#" + id, f, nil, f.Caption(),
	}
	return g
}

// laidOut is a group with its figure drawn.
func (s *Site) laidOut(g ChainGroup) ChainGroup {
	g.Figure = s.blockOf("figure-"+g.ID, g.drawn)
	return g
}

func singleWay(v way) ChainWay {
	out := ChainWay{Case: caseLink(v.c)}
	for _, l := range v.links {
		out.Links = append(out.Links, Link{Text: l.Label, Path: l.Href})
	}
	return out
}
