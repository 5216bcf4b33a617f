package figure

import (
	"fmt"
	"strings"
)

// Timetable is the day of a course: a row for each station, a block for each
// group that is at it, and a band for what everyone does together. Times are
// minutes after midnight. All words are the caller's.
type Timetable struct {
	IDPrefix, Title string
	Finding         string // the caption
	Rows            []string
	Blocks          []TimetableBlock
	Bands           []TimetableBand
	Cells           Table // the same as a table
}

// TimetableBlock is a group at a station: at work from From to To, and with
// nothing to do until the bell at Until.
type TimetableBlock struct {
	Row             int
	From, To, Until int
	Text            string
}

// TimetableBand is a part of the day for everyone.
type TimetableBand struct {
	From, To int
	Text     string
}

// Heights of a row, and of what stands above the rows.
const (
	timetableRow Px = 30
	timetableTop Px = 34
)

// Draw lays the day out: time runs from left to right. A narrow drawing writes
// the stations' names above their rows, a wide one beside them.
func (t Timetable) Draw(width Px) *Drawing {
	d := &Drawing{Width: max(width, Narrow), IDPrefix: t.IDPrefix, Title: t.Title, Desc: t.Finding}
	l := t.layout(d)
	l.hours()
	l.bands()
	for i, name := range t.Rows {
		l.name(i, name)
	}
	for _, b := range t.Blocks {
		l.block(b)
	}
	d.Height = l.bottom() + 6
	return d
}

// timetableLayout is where everything of a timetable stands.
type timetableLayout struct {
	t           Timetable
	d           *Drawing
	left, right Px
	from, to    int
	pitch       Px // from one row to the next
	above       bool
}

func (t Timetable) layout(d *Drawing) timetableLayout {
	l := timetableLayout{t: t, d: d, left: 4, right: d.Width - 4, pitch: timetableRow, above: d.Width < Wide}
	if l.above {
		l.pitch += lineHeight
	} else {
		l.left = t.nameColumn()
	}
	for i, b := range t.Blocks {
		if i == 0 || b.From < l.from {
			l.from = b.From
		}
		l.to = max(l.to, b.Until)
	}
	for _, b := range t.Bands {
		l.from, l.to = min(l.from, b.From), max(l.to, b.To)
	}
	l.to = max(l.to, l.from+1)
	return l
}

// nameColumn is how wide the stations' names stand beside their rows: as wide as
// the longest needs for its two lines, within limits.
func (t Timetable) nameColumn() Px {
	const least, most, step Px = 150, 230, 10
	width := least
	for _, name := range t.Rows {
		for width < most && strings.Join(wrap(name, smallSize, width-nameGap, 2), " ") != name {
			width += step
		}
	}
	return width
}

// nameGap is left free of a name's column.
const nameGap Px = 12

func (l timetableLayout) x(minute int) Px {
	return l.left + (l.right-l.left)*Px(minute-l.from)/Px(l.to-l.from)
}

// y is the upper edge of a row's blocks.
func (l timetableLayout) y(row int) Px {
	y := timetableTop + Px(row)*l.pitch
	if l.above {
		y += lineHeight
	}
	return y
}

func (l timetableLayout) bottom() Px { return timetableTop + Px(len(l.t.Rows))*l.pitch }

// hours draws a line and a time at full hours, as many as have room.
func (l timetableLayout) hours() {
	every := 60
	for l.x(l.from+every)-l.x(l.from) < 46 {
		every += 60
	}
	for m := (l.from + every - 1) / every * every; m <= l.to; m += every {
		x := l.x(m)
		l.d.line(Point{x, timetableTop - 6}, Point{x, l.bottom()}, stroke{Faint, 0.7, ""})
		e := middle
		switch words := textWidth("00:00", smallSize) / 2; {
		case x-words < 0:
			e = start
		case x+words > l.d.Width:
			e = end
		}
		l.d.say(Point{x, timetableTop - 12}, fmt.Sprintf("%02d:%02d", m/60, m%60), smallSize, e, Soft)
	}
}

// bands draws what everyone does together, named along its height where the
// rows leave room for the letters.
func (l timetableLayout) bands() {
	for _, b := range l.t.Bands {
		box := Box{l.x(b.From), timetableTop, l.x(b.To) - l.x(b.From), l.bottom() - timetableTop}
		l.d.open("figure-band", "", b.Text)
		l.d.rect(box, Tint, stroke{Faint, 0.7, "2 2"})
		l.d.close()
	}
}

// name writes a station's name.
func (l timetableLayout) name(row int, name string) {
	if l.above {
		l.d.sayOver(Point{l.left, l.y(row) - 4}, shorten(name, smallSize, l.right-l.left), smallSize, start, Ink)
		return
	}
	lines := wrap(name, smallSize, l.left-nameGap, 2)
	first := l.y(row) + timetableRow/2 - Px(len(lines))*lineHeight/2 + 11
	l.d.sayLines(Point{l.left - 8, first}, lines, smallSize, end, Ink)
}

// block draws a group at its station: a full frame while it works, an open
// dashed one until the bell.
func (l timetableLayout) block(b TimetableBlock) {
	const inset = 2
	y, h := l.y(b.Row)+inset, timetableRow-2*inset
	box := Box{l.x(b.From) + 0.5, y, l.x(b.To) - l.x(b.From) - 1, h}
	l.d.open("figure-block", "", fmt.Sprintf("%s, %02d:%02d–%02d:%02d", b.Text, b.From/60, b.From%60, b.To/60, b.To%60))
	if b.Until > b.To {
		l.d.rect(Box{box.X + box.W, y, l.x(b.Until) - l.x(b.To), h}, NoPaint, stroke{Faint, 0.8, "2 2"})
	}
	l.d.rect(box, Paper, stroke{Ink, 1.2, ""})
	if text := shorten(b.Text, textSize, box.W-2); text != "…" || b.Text == "…" {
		l.d.say(Point{box.X + box.W/2, y + h/2 + 4}, text, textSize, middle, Ink)
	}
	l.d.close()
}

// Caption is the finding as it came.
func (t Timetable) Caption() string { return t.Finding }

// Table is the timetable in words.
func (t Timetable) Table() Table { return t.Cells }
