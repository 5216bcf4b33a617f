package privacy

import "strings"

var pictureWords = wordSet("photo photos photograph photographs picture pictures image images shot shots view views portrait video still snapshot selfie scan frame")

// faceAt finds words for a picture of a face.
func (p *passage) faceAt(i int) {
	switch w := p.low(i); w {
	case "portrait", "portraits":
		if p.is(i+1, "orientation", "layout", "mode", "format", "page", "pages", "or", "and", "paper", "print", "printing", "size", "view", "sheet", "sheets", "side") && !p.is(i+1, "and", "view") || p.is(i-1, "in", "landscape", "or", "a4", "landscape") || p.is(i+1, "a4") || p.is(i+2, "landscape") {
			return
		}
		from := i
		if p.is(i-1, "face") && p.is(i-2, "full") {
			from = i - 2
		}
		p.add(photoFace, from, i)
	case "mugshot", "headshot", "selfie", "fullface":
		p.add(photoFace, i, i)
	case "voiceprint", "faceprint":
		p.add(biometricPrint, i, i)
	case "external":
		if p.is(i+1, "iris") && p.is(i-1, "view") {
			p.add(biometricPrint, i, i+1)
		}
	case "mug":
		if p.is(i+1, "shot", "shots") {
			p.add(photoFace, i, i+1)
		}
	case "passport":
		if p.is(i+1, "photo", "photograph", "picture", "photos") {
			p.add(photoFace, i, i+1)
		}
	case "facial":
		for k := i + 1; k <= i+2; k++ {
			if p.in(k, pictureWords) && len(p.gap(k)) == 1 {
				p.add(photoFace, i, k)
				return
			}
		}
	case "face":
		p.faceWordAt(i)
	}
}

// faceWordAt decides on the word face itself, which the trade uses for many
// surfaces.
func (p *passage) faceWordAt(i int) {
	switch {
	case p.is(i-1, "full", "whole", "entire") && len(p.gap(i)) == 1:
		if !p.is(i+1, "shield", "shields", "mask", "masks", "visor", "helmet", "protection", "cover") {
			p.add(photoFace, i-1, i)
		}
	case p.is(i+1, "on") && (p.gap(i+1) == "-" || p.gap(i+1) == " " && (p.in(i+2, pictureWords) || p.in(i-1, pictureWords))):
		p.add(photoFace, i, i+1)
	case p.in(i+1, pictureWords) && len(p.gap(i+1)) == 1 && !p.is(i-1, "en", "vitreous", "hyaloid"):
		p.add(photoFace, i, i+1)
	case p.is(i+1, "visible", "uncovered", "shown", "recognisable", "recognizable", "unmasked") || p.is(i+1, "is", "was", "remains") && p.is(i+2, "visible", "uncovered", "shown", "recognisable", "recognizable"):
		if !p.is(i-1, "vitreous", "hyaloid", "anterior", "posterior", "wound", "cut") {
			p.add(photoFace, i, i+1)
		}
	case p.zone == Filename:
		if !p.is(i-1, "wound", "cut", "en", "lens", "anterior", "posterior", "hyaloid", "vitreous", "sur", "inter", "capsule", "bevel") {
			p.add(photoFace, i, i)
		}
	default:
		for k := i - 1; k >= 0 && k >= i-5 && !strings.ContainsAny(p.gap(k+1), ".;:\n"); k-- {
			if p.in(k, pictureWords) && p.is(k+1, "of", "showing", "shows", "with") && p.is(i-1, "her", "his", "the", "their", "s", "patient", "a") {
				p.add(photoFace, k, i)
				return
			}
		}
	}
}
