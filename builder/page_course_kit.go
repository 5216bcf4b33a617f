package builder

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"math/big"
	"strconv"
	"strings"

	"caseleaf/builder/kit"
	"caseleaf/content/measure"
)

// KitPage is what pages/course-kit.tmpl lays out: what to buy, what lies on each
// bench, and how stocks are diluted, worked out line by line.
type KitPage struct {
	Heading
	Shopping []ShoppingLine
	Dilute   []DilutionBlock
	Benches  []BenchList
	Tables   []Link
}

// ShoppingLine is one thing to buy for the whole course.
type ShoppingLine struct {
	Item   Link
	What   string // size, strength as bought
	Need   string
	Spares string
	Packs  string // such as: 7 × 6
	Buy    string
	For    string // numbers of the stations
}

// BenchList is what one station has.
type BenchList struct {
	ID    string
	Title string
	Waves int
	Lines []BenchItem
}

// DilutionBlock is one dilution with its worked lines.
type DilutionBlock struct {
	Title string
	Lines []string
	Take  string // the line that is done
}

func (v *courseView) kitPage() *KitPage {
	w := v.words
	p := &KitPage{Heading: v.heading(w.say("course-kit"), w.say("course-kit-summary", v.c.Participants()*v.c.WaveCount(), len(v.plan.parties)*v.c.WaveCount()))}
	_, p.Tables = v.links()
	lines := kit.Shopping(v.c)
	for _, l := range lines {
		p.Shopping = append(p.Shopping, v.shoppingLine(l))
	}
	for i := range v.c.Stations {
		p.Dilute = append(p.Dilute, v.dilutions(i)...)
		if items := v.bench(i); len(items) > 0 {
			p.Benches = append(p.Benches, BenchList{ID: "bench-" + fileStem(v.c.Stations[i].ID.Value), Title: v.stationName(i), Waves: v.c.WaveCount(), Lines: items})
		}
	}
	v.writeTables(p)
	return p
}

func (v *courseView) shoppingLine(l kit.Line) ShoppingLine {
	w := v.words
	out := ShoppingLine{Item: v.met.link(l.Item), What: joinKnown(w.say("list-comma"), l.Size, l.Strength)}
	for i, u := range l.Uses {
		if i > 0 {
			out.For += w.say("list-comma")
		}
		out.For += strconv.Itoa(u.Station + 1)
	}
	if l.Volume != nil {
		out.Need = volume(l.Volume)
		out.Buy = out.Need
		if l.Vial != nil {
			out.Buy = w.say("course-vials", l.Vials, volume(l.Vial))
		}
		if l.Packs > 0 {
			out.Packs = fmt.Sprintf("%d × %d", l.Packs, l.Pack)
			out.Buy = w.say("course-vials", l.Buy, volume(l.Vial))
		}
		return out
	}
	out.Need, out.Buy = w.number(l.Need), w.number(l.Buy)
	if l.Spares > 0 {
		out.Spares = w.number(l.Spares)
	}
	if l.Packs > 0 {
		out.Packs = fmt.Sprintf("%d × %d", l.Packs, l.Pack)
	}
	return out
}

// dilutions works out a station's dilutions in words.
func (v *courseView) dilutions(station int) []DilutionBlock {
	var list []DilutionBlock
	for _, d := range kit.Dilutions(v.c) {
		if d.Station == station {
			list = append(list, v.dilution(d))
		}
	}
	return list
}

func (v *courseView) dilution(d kit.Dilution) DilutionBlock {
	w := v.words
	item := v.met.link(d.Item).Text
	b := DilutionBlock{Title: w.say("dilution-title", item, d.Working.String(), v.stationName(d.Station))}
	need := w.say("dilution-need", d.Portions, volume(d.Each), volume(d.Need))
	if d.Spare > 0 {
		need = w.say("dilution-need-spare", d.Portions, volume(d.Each), measure.Percent(d.Spare).String(), volume(d.Need))
	}
	b.Lines = append(b.Lines, need)
	if d.Stock.Form != d.Working.Form {
		b.Lines = append(b.Lines, w.say("dilution-weights", d.Stock.String(), milligrams(d.Stock), d.Working.String(), milligrams(d.Working)))
	}
	b.Lines = append(b.Lines, w.say("dilution-times", d.Stock.String(), d.Working.String(), d.Times.Num().String(), d.Times.Denom().String()))
	if d.Make.Cmp(d.Need) > 0 {
		b.Lines = append(b.Lines, w.say("dilution-more", volume(d.Make), volume(d.Step)))
	}
	b.Lines = append(b.Lines, w.say("dilution-sum", volume(d.Make), d.Times.Num().String(), d.Times.Denom().String(), volume(d.Take)))
	diluent := w.say("dilution-diluent")
	if d.Diluent != "" {
		diluent = v.met.link(d.Diluent).Text
	}
	b.Take = w.say("dilution-take", volume(d.Take), d.Stock.String(), item, volume(d.Add), diluent, volume(d.Make), d.Working.String())
	return b
}

// milligrams writes a strength in mg/mL.
func milligrams(c measure.Concentration) string {
	g, ok := c.GramsPerML()
	if !ok {
		return c.String()
	}
	return decimal(g.Mul(g, big.NewRat(1000, 1))) + " mg/mL"
}

// volume writes millilitres.
func volume(r *big.Rat) string { return decimal(r) + " mL" }

// decimal writes a fraction with at most four places; one that has more is
// marked as rounded.
func decimal(r *big.Rat) string {
	const places = 4
	text := r.FloatString(places)
	rounded, ok := new(big.Rat).SetString(text)
	text = strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
	if ok && rounded.Cmp(r) != 0 {
		return "≈ " + text
	}
	return text
}

// writeTables writes the lists as CSV, as they stand on the page.
func (v *courseView) writeTables(p *KitPage) {
	w := v.words
	shopping := [][]string{{w.say("kit-item"), w.say("kit-what"), w.say("kit-need"), w.say("kit-spares"), w.say("kit-packs"), w.say("kit-buy"), w.say("kit-stations")}}
	for _, l := range p.Shopping {
		shopping = append(shopping, []string{l.Item.Text, l.What, l.Need, l.Spares, l.Packs, l.Buy, l.For})
	}
	bench := [][]string{{w.say("kit-station"), w.say("kit-item"), w.say("kit-what"), w.say("kit-lay"), w.say("kit-day", v.c.WaveCount()), w.say("kit-note")}}
	for _, b := range p.Benches {
		for _, l := range b.Lines {
			bench = append(bench, []string{b.Title, l.Item.Text, l.What, strconv.Itoa(l.Lay), strconv.Itoa(l.Day), l.Note})
		}
	}
	v.writeTable(shoppingTable, shopping)
	v.writeTable(benchTable, bench)
}

// writeTable writes one CSV file. A cell that a spreadsheet would take for a
// formula gets a quotation mark before it.
func (v *courseView) writeTable(name string, rows [][]string) {
	var out bytes.Buffer
	c := csv.NewWriter(&out)
	for _, row := range rows {
		for i, cell := range row {
			if strings.IndexAny(cell, "=+-@\t\r") == 0 {
				row[i] = "'" + cell
			}
		}
		if err := c.Write(row); err != nil {
			v.site.faults = append(v.site.faults, err)
		}
	}
	c.Flush()
	v.site.file(v.folder+name, out.Bytes())
}
