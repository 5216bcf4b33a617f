package privacy

import (
	"bytes"
	"cmp"
	"encoding/base64"
	"encoding/xml"
	"fmt"
	"io"
	"strings"
)

const (
	svgSpace   = "http://www.w3.org/2000/svg"
	xlinkSpace = "http://www.w3.org/1999/xlink"
)

// svgElements are the elements that are kept.
var svgElements = wordSet("svg g path rect circle ellipse line polyline polygon text tspan textPath title desc defs use symbol marker linearGradient radialGradient stop clipPath mask pattern image style switch")

// svgRefused stop the file: they run, load or embed.
var svgRefused = wordSet("script foreignObject iframe embed object audio video handler listener")

// svgAttributes are the attributes that are kept as they are, if their value
// refers to nothing outside.
var svgAttributes = wordSet("x y x1 y1 x2 y2 cx cy r rx ry fx fy dx dy d points width height viewBox preserveAspectRatio transform gradientTransform patternTransform gradientUnits patternUnits patternContentUnits clipPathUnits maskUnits maskContentUnits spreadMethod offset rotate textLength lengthAdjust startOffset pathLength markerWidth markerHeight markerUnits refX refY orient method spacing version fill fill-opacity fill-rule stroke stroke-width stroke-linecap stroke-linejoin stroke-miterlimit stroke-dasharray stroke-dashoffset stroke-opacity opacity color display visibility overflow font-family font-size font-style font-weight font-variant letter-spacing word-spacing text-anchor text-decoration dominant-baseline alignment-baseline baseline-shift clip-path clip-rule mask marker-start marker-mid marker-end stop-color stop-opacity vector-effect paint-order shape-rendering text-rendering image-rendering role aria-hidden focusable direction writing-mode")

// svgToken is a token of the source with where it stood.
type svgToken struct {
	token    xml.Token
	from, to int // source offsets
}

// svgClean holds the state of one drawing.
type svgClean struct {
	limits   Limits
	source   []byte
	tokens   []svgToken
	texts    stitched
	ids      map[string]string // old id or class to new
	uses     map[string]bool   // ids that are used
	holders  map[string]bool   // ids of elements that hold a use
	removed  []Removed
	findings []Finding
	out      bytes.Buffer
}

// cleanSVG writes the drawing anew from an allow-list: shapes, text, gradients,
// own styles. Comments, instructions, metadata, foreign namespaces and data-
// attributes go; ids and classes are renamed; pictures inside are cleaned like
// any other. Text goes through the scan; text with a finding is left out and
// the finding reported.
func (l Limits) cleanSVG(data []byte) (Cleaned, []Removed, error) {
	s := svgClean{limits: l, source: data, ids: map[string]string{}, uses: map[string]bool{}, holders: map[string]bool{}}
	if err := s.read(); err != nil {
		return Cleaned{}, nil, err
	}
	for id := range s.uses {
		if s.holders[id] {
			return Cleaned{}, nil, refuse("a use element points at another; draw it out")
		}
	}
	s.findings = s.texts.scan(cmp.Or(l.scanner, builtin()), Body)
	if err := s.write(); err != nil {
		return Cleaned{}, nil, err
	}
	return Cleaned{Kind: SVG, Data: s.out.Bytes(), Findings: s.findings}, s.removed, nil
}

// read takes the source apart, refuses what may not be in it, drops what is
// not on the list and gathers the text.
func (s *svgClean) read() error {
	d := xml.NewDecoder(bytes.NewReader(s.source))
	d.CharsetReader = func(charset string, r io.Reader) (io.Reader, error) {
		if strings.EqualFold(charset, "us-ascii") {
			return r, nil
		}
		return nil, refuse("its encoding is %q; save it as UTF-8", charset)
	}
	var open []string // ids of the open elements
	skip, seen := 0, false
	for {
		from := int(d.InputOffset())
		t, err := d.Token()
		if err == io.EOF {
			if !seen {
				return refuse("it holds no drawing")
			}
			return nil
		}
		if err != nil {
			return err
		}
		if len(s.tokens) > 400_000 || len(open) > s.limits.Nesting {
			return refuse("too many elements, or elements nested more than %d deep", s.limits.Nesting)
		}
		switch t := t.(type) {
		case xml.StartElement:
			if err := s.refused(t); err != nil {
				return err
			}
			if skip > 0 || !s.keeps(t) || !seen && t.Name.Local != "svg" {
				if skip == 0 {
					s.removed = append(s.removed, Removed{svgKind(t.Name), "element", 0})
				}
				skip++
				continue
			}
			seen = true
			if err := s.start(t, from, open); err != nil {
				return err
			}
			open = append(open, attribute(t, "id"))
		case xml.EndElement:
			if skip > 0 {
				skip--
				continue
			}
			open = open[:max(0, len(open)-1)]
			s.tokens = append(s.tokens, svgToken{t, from, int(d.InputOffset())})
			if t.Name.Local != "tspan" {
				s.texts.apart()
			}
		case xml.CharData:
			if skip == 0 && len(open) > 0 {
				s.tokens = append(s.tokens, svgToken{t.Copy(), from, int(d.InputOffset())})
				s.texts.add(s.source[from:int(d.InputOffset())], from)
			}
		case xml.Comment:
			s.removed = append(s.removed, Removed{"names or remarks", "comment", len(t)})
		case xml.Directive:
			if bytes.Contains(bytes.ToUpper(t), []byte("ENTITY")) {
				return refuse("it defines entities")
			}
		case xml.ProcInst:
			if t.Target != "xml" {
				s.removed = append(s.removed, Removed{"unknown data", "instruction", len(t.Inst)})
			}
		}
	}
}

// start records a kept element and what it refers to.
func (s *svgClean) start(t xml.StartElement, from int, open []string) error {
	s.tokens = append(s.tokens, svgToken{t.Copy(), from, from + 1})
	if t.Name.Local == "use" {
		s.uses[strings.TrimPrefix(attribute(t, "href"), "#")] = true
		for _, id := range open {
			s.holders[id] = s.holders[id] || id != ""
		}
		if len(s.uses) > 500 {
			return refuse("more than 500 use elements")
		}
	}
	if id := attribute(t, "id"); id != "" && s.ids["#"+id] == "" {
		s.ids["#"+id] = fmt.Sprintf("i%d", len(s.ids)+1)
	}
	for _, class := range strings.Fields(attribute(t, "class")) {
		if s.ids["."+class] == "" {
			s.ids["."+class] = fmt.Sprintf("c%d", len(s.ids)+1)
		}
	}
	if label := attribute(t, "aria-label"); label != "" {
		s.texts.apart()
		s.texts.add([]byte(label), from)
		s.texts.apart()
	}
	return nil
}

// refused names what stops a drawing wherever it stands.
func (s *svgClean) refused(t xml.StartElement) error {
	if svgRefused[t.Name.Local] {
		return refuse("it holds a %s element", t.Name.Local)
	}
	for _, a := range t.Attr {
		switch name := strings.ToLower(a.Name.Local); {
		case strings.HasPrefix(name, "on") && a.Name.Space == "":
			return refuse("it holds a script (attribute %s)", a.Name.Local)
		case name == "href" && t.Name.Local != "a" && a.Value != "" && !strings.HasPrefix(a.Value, "#") && !strings.HasPrefix(a.Value, "data:image/") && (t.Name.Space == svgSpace || t.Name.Space == ""):
			return refuse("it refers to something outside (attribute href)")
		}
	}
	return nil
}

// keeps says whether an element is on the list.
func (s *svgClean) keeps(t xml.StartElement) bool {
	return (t.Name.Space == svgSpace || t.Name.Space == "") && svgElements[t.Name.Local]
}

func svgKind(n xml.Name) string {
	switch {
	case n.Local == "metadata":
		return "names, date or file history"
	case n.Space != svgSpace && n.Space != "":
		return "an editor's own data"
	}
	return "unknown element " + n.Local
}

func attribute(t xml.StartElement, name string) string {
	for _, a := range t.Attr {
		if a.Name.Local == name && (a.Name.Space == "" || a.Name.Space == xlinkSpace) {
			return a.Value
		}
	}
	return ""
}

// picture cleans a raster in a data address.
func (s *svgClean) picture(value string) (string, error) {
	head, coded, ok := strings.Cut(value, ",")
	if !ok || !strings.HasSuffix(head, ";base64") {
		return "", refuse("it holds a picture that is not coded in base64")
	}
	raw, err := base64.StdEncoding.DecodeString(strings.Map(func(r rune) rune {
		if r == ' ' || r == '\n' || r == '\r' || r == '\t' {
			return -1
		}
		return r
	}, coded))
	if err != nil {
		return "", refuse("it holds a damaged picture")
	}
	kind, words := sniff(raw)
	if kind == "" || kind == SVG || kind == MP4 {
		return "", refuse("it holds a picture that cannot be published: %s", words)
	}
	c, removed, err := s.limits.clean("x."+string(kind), raw)
	if err != nil {
		return "", err
	}
	s.removed = append(s.removed, removed...)
	return "data:image/" + string(kind) + ";base64," + base64.StdEncoding.EncodeToString(c.Data), nil
}
