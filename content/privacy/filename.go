package privacy

import "strings"

// scanFilename reads a path with _ and -, and dots between words, as blanks
// and folders as lines, and then runs the rules of prose; figures keep their
// separators.
func (p *passage) scanFilename() {
	p.scanMails() // an address loses its dots below
	p.s = fileWords(p.s)
	p.tokenise(false)
	p.scanLabels()
	p.scanTokens()
	for _, i := range p.starts {
		if p.toks[i].mixed() {
			p.dateInside(int(i), p.word(int(i)))
		}
	}
}

// fileWords keeps the length of the name, so that offsets stay right.
func fileWords(s string) string {
	out := []byte(s)
	for k, c := range out {
		between := k > 0 && k+1 < len(s) && s[k-1] >= '0' && s[k-1] <= '9' && s[k+1] >= '0' && s[k+1] <= '9'
		switch {
		case c == '/' || c == '\\':
			out[k] = '\n'
		case c == '_' && between:
			out[k] = '-'
		case (c == '-' || c == '.') && between:
		case c == '_' || c == '-' || c == '.' || c == '+':
			out[k] = ' '
		}
	}
	return string(out)
}

// dateInside finds eight figures that are a day inside a word: IMG20210314.
func (p *passage) dateInside(i int, w string) {
	for k := 0; k+8 <= len(w); k++ {
		if n := leadDigits(w[k:]); n > 0 {
			if (n == 8 || n == 14) && compactDate(w[k:k+8]) {
				p.addBytes(dateNumeric, int(p.toks[i].a)+k, int(p.toks[i].a)+k+n)
			}
			k += n
		}
	}
}

// cameraWords are what cameras and computers call files.
var cameraWords = wordSet("heic jpeg jpg png webp mov mp4 gif svg avi mpg wmv img dsc dscn dscf gopr pxl vid mvi sam pict screenshot screenrecording screen shot photo image scan untitled copy kopie bild bildschirmfoto whatsapp readme license licence changelog makefile clip theatre microscope export thumbs preview edited recording phaco final draft version new old burst pano hdr wa signal facetime zoom")

// fileWordAt warns of a capitalised word in a file name that no list knows.
func (p *passage) fileWordAt(i int) {
	t := p.toks[i]
	if p.in(i, cameraWords) || !p.nameLike(i) || t.is(allUp) && t.len() < 4 || strings.HasPrefix(p.gap(i+1), "\n") && t.len() < 3 {
		return
	}
	p.add(nameFile, i, i)
}
