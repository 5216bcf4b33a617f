package privacy

import "strings"

// notPeople are the subjects that may well be the first in the world.
var notPeople = wordSet("series trial trials report reports study studies option options randomised randomized description descriptions centre center unit units technique techniques lens implant operation operations paper review guideline device machine microscope laser hospital clinic audit survey course school register lenses model generation chapter line book article publication cause blindness indication reason step result results part choice thing rate figure record sign place time line edition use")

// uniqueAt finds what may single a person out: only, first … in the county;
// public roles; news.
func (p *passage) uniqueAt(i int) {
	t := p.toks[i]
	if t.any(rSuper) {
		p.superlativeAt(i)
	}
	if t.any(rPublic) {
		p.publicRoleAt(i)
	}
	if t.any(rNews) {
		p.newsAt(i)
	}
}

func (p *passage) superlativeAt(i int) {
	if !p.areaAfter(i, 9) {
		return
	}
	for k := i + 1; k <= i+9 && k < len(p.toks); k++ {
		if strings.ContainsAny(p.gap(k), ".;:!?\n") || p.in(k, notPeople) || p.toks[k].any(rSuper) && k > i+1 {
			return
		}
		if !p.toks[k].any(rArea) || !p.is(k-1, "the", "this", "our", "her", "his", "their", "whole", "entire") {
			continue
		}
		if j := k - 2; p.is(j, "in", "of", "on", "from", "for", "across") || p.is(j, "the") && p.is(j-1, "in", "of") {
			if !p.is(k+1, "literature") && !(p.gap(k+1) == " " && p.in(k+1, notPeople)) {
				p.add(otherUnique, i, k)
			}
		}
		return
	}
}

// areaAfter says whether one of the n tokens after i is an area.
func (p *passage) areaAfter(i, n int) bool {
	for k := i + 1; k <= i+n && k < len(p.toks); k++ {
		if p.toks[k].any(rArea) {
			return true
		}
	}
	return false
}

// strictRoles need sitting, former or then before them.
var strictRoles = wordSet("president premier councillor king queen striker presenter prince princess governor minister conductor")

func (p *passage) publicRoleAt(i int) {
	if w := p.word(i); p.is(i, "mp") && w != "MP" || p.is(i, "deputy") || p.toks[i].is(inAuthors) || p.gap(i) != " " && p.gap(i) != "-" {
		return
	}
	k := i - 1
	former := p.is(k, "sitting", "former", "then", "ex", "serving", "retired", "late", "prime", "current", "lord", "reigning", "elected", "local", "onetime")
	switch {
	case former:
	case p.is(k, "the", "a", "an", "our", "their", "world", "national", "olympic", "county", "as", "auxiliary", "cabinet", "city") && !p.in(i, strictRoles):
	case p.is(k, "cabinet", "prime", "health", "finance", "education", "interior", "defence", "foreign", "sports", "deputy", "football", "club") && p.is(k-1, "the", "a", "former", "sitting", "as"):
	default:
		return
	}
	p.add(otherRole, k, i)
}

// newsAt finds "reported in the national press", "on the local news", "went
// viral", "made headlines".
func (p *passage) newsAt(i int) {
	switch {
	case p.is(i, "headlines"):
		if p.near(i, 3, "made", "make", "making", "hit", "the", "in") {
			p.add(otherNews, i, i)
		}
		return
	case p.is(i, "viral"):
		if p.is(i-1, "went", "gone", "go", "going") {
			p.add(otherNews, i-1, i)
		}
		return
	case p.is(i, "documentary"):
		if p.is(i+1, "about", "on", "of", "that", "film", "in") || p.is(i-1, "television", "tv") {
			p.add(otherNews, i, i)
		}
		return
	case p.is(i, "bulletin"):
		if p.is(i-1, "news") {
			p.add(otherNews, i-1, i)
		}
		return
	}
	k, adjective := i-1, false
	for n := 0; n < 3 && p.is(k, "the", "local", "national", "regional", "daily", "evening", "sunday", "weekly", "popular", "tabloid", "social", "international", "world", "a", "all", "several", "every", "morning", "state", "breakfast"); n++ {
		adjective = adjective || !p.is(k, "a")
		k--
	}
	if !p.is(k, "in", "on", "by", "to", "from", "across", "via", "over") {
		return
	}
	if p.is(i, "media") && !p.is(i-1, "social", "national", "local", "international") && !p.near(i, 8, "reported", "story", "covered", "coverage") {
		return
	}
	if !adjective && !p.is(i, "television", "tv", "radio") || p.is(i+1, "release") {
		return
	}
	if p.is(k-1, "reported", "appeared", "covered", "featured", "shown", "story", "named", "carried", "published") {
		k--
	}
	p.add(otherNews, k, i)
}
