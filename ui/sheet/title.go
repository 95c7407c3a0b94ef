package sheet

import (
	"fmt"
	"slices"
	"strings"

	"hillset/ui/face"
	"hillset/ui/units"
)

// Status is what every sheet says of itself.
const Status = "NOT FOR CONSTRUCTION until reviewed by a licensed engineer"

// InventedNote stands on every sheet of a demonstration project.
const InventedNote = "INVENTED DEMONSTRATION DATA: no real place, soil or person"

// field is one field of the title block.
type field struct {
	label, value string
	share        float64 // of the width of its row
}

// titleBlock is the block at the lower right of the first sheet, after the
// list of ISO 7200 with what this job needs besides.
type titleBlock struct {
	rows   [][]field
	lines  []field // fields of the whole width
	width  float64
	status []string
	title  string
}

// Heights in the title block, mm.
const (
	titleRowH  = 8.0
	titleHeadH = 9.0
	titleLineH = 5.0
	statusH    = 5.0
	labelW     = 18.0 // of the labels of whole lines
	// wideTitle is the width from which all short fields stand in one row.
	wideTitle = 160.0
)

func (c *content) titleBlock(scale Scale, width float64) titleBlock {
	p, s := c.p, c.p.Sheet
	t := titleBlock{title: p.Title, status: c.status(), width: width}
	t.rows = [][]field{
		{{"Place", s.Place, 0.5}, {"Owner", s.Owner, 0.5}},
		{{"Number", s.Number, 0.34}, {"Revision", s.Revision, 0.16}, {"Date", s.Date, 0.28}, {sheetLabel, "", 0.22}},
		{{"Drawn by", s.DrawnBy, 0.34}, {"Scale", scale.Name, 0.28}, {"Size", c.o.Size, 0.16}, {"Units", c.unitNames(), 0.22}},
	}
	if width >= wideTitle {
		t.rows = [][]field{t.rows[0], {
			{"Number", s.Number, 0.13}, {"Revision", s.Revision, 0.09}, {"Date", s.Date, 0.14}, {sheetLabel, "", 0.1},
			{"Drawn by", s.DrawnBy, 0.21}, {"Scale", scale.Name, 0.13}, {"Size", c.o.Size, 0.08}, {"Units", c.unitNames(), 0.12},
		}}
	}
	t.lines = []field{{"Datum", c.datum(), 1}, {"Rule set", c.ruleSet(), 1}}
	return t
}

// sheetLabel is the field that the number of sheets goes into.
const sheetLabel = "Sheet"

// numbered is the title block of the first of so many sheets.
func (t titleBlock) numbered(sheets int) titleBlock {
	rows := make([][]field, len(t.rows))
	for i, row := range t.rows {
		rows[i] = slices.Clone(row)
		for j := range row {
			if row[j].label == sheetLabel {
				rows[i][j].value = fmt.Sprintf("1 of %d", sheets)
			}
		}
	}
	t.rows = rows
	return t
}

func (c *content) status() []string {
	out := []string{Status}
	if c.p.Invented {
		out = append(out, InventedNote)
	}
	return out
}

func (c *content) unitNames() string {
	if c.feet() {
		return "ft and in"
	}
	return "m"
}

func (c *content) datum() string {
	s := "local, " + c.level(c.p.Site.Benchmark.Pos[1])
	if d := c.p.Site.Benchmark.Description; d != "" {
		s += " at " + d
	}
	return s
}

// ruleSet names the source of the check of the cut's batter.
func (c *content) ruleSet() string {
	for _, k := range c.r.Checks {
		if k.ID == batterCheck && k.Source != "" {
			return units.Say(k.Source, c.o.Units)
		}
	}
	return "none applied; the rule in force decides"
}

// batterCheck is the id of the check of the cut against the excavation rule.
const batterCheck = "batter"

func (t titleBlock) height() float64 {
	h := titleHeadH + float64(len(t.rows))*titleRowH + float64(len(t.status))*statusH
	for _, l := range t.lines {
		_, lines := t.wrap(l.value)
		h += lineHeight(lines)
	}
	return h
}

// wrap breaks the value of a whole line into at most two lines, in smaller
// letters when it needs two.
func (t titleBlock) wrap(value string) (style, []string) {
	s := style{cap: capBody, ink: black}
	value, _ = face.Clean(value)
	w := t.width - labelW - 1.2
	if s.width(value) <= w {
		return s, []string{value}
	}
	s.cap = capLeast
	lines := breakLines(s, value, w)
	if len(lines) > 2 {
		lines = []string{lines[0], fitted(s, strings.Join(lines[1:], " "), w)}
	}
	return s, lines
}

func lineHeight(lines []string) float64 {
	return titleLineH + float64(len(lines)-1)*leading*capLeast
}

// draw puts the title block into a field as wide as it and as high as height.
func (t titleBlock) draw(b *board, f box) {
	y := f.y
	b.rect("title:block", f, white, black, 0.5)
	s := style{cap: capTitle, bold: true, ink: black}
	for s.width(b.clean(t.title)) > f.w-4 && s.cap > capBody {
		s.cap -= 0.25
	}
	b.text("title", s, f.x+2, y+(titleHeadH+s.cap)/2, fitted(s, b.clean(t.title), f.w-4))
	y += titleHeadH
	for _, row := range t.rows {
		t.drawRow(b, row, box{f.x, y, f.w, titleRowH})
		y += titleRowH
	}
	for _, l := range t.lines {
		y += t.drawLine(b, l, f.x, y)
	}
	for _, text := range t.status {
		r := box{f.x, y, f.w, statusH}
		b.rect("title:status", r, pale, black, thin)
		s := style{cap: capBody, bold: true, ink: black, h: 0.5}
		for s.width(text) > f.w-2 && s.cap > capLeast {
			s.cap -= 0.05
		}
		b.text("status", s, f.x+f.w/2, y+(statusH+s.cap)/2, text)
		y += statusH
	}
}

func (t titleBlock) drawLine(b *board, l field, x, y float64) (h float64) {
	s, lines := t.wrap(l.value)
	base := y + titleLineH - 1.4
	b.line("title:rule", thin, x, y, x+t.width, y)
	b.text("title:label", style{cap: capLeast, ink: grey}, x+1.2, base, l.label)
	for i, text := range lines {
		b.text("title:value", s, x+labelW, base+float64(i)*leading*s.cap, text)
	}
	return lineHeight(lines)
}

func (t titleBlock) drawRow(b *board, row []field, r box) {
	b.line("title:rule", thin, r.x, r.y, r.right(), r.y)
	x := r.x
	for i, f := range row {
		w := f.share * r.w
		if i > 0 {
			b.line("title:rule", thin, x, r.y, x, r.bottom())
		}
		ls := style{cap: capLeast, ink: grey}
		b.text("title:label", ls, x+1.2, r.y+1+capLeast, fitted(ls, f.label, w-2.4))
		drawValue(b, f.value, x+1.2, r.bottom()-1.4, w-2.4)
		x += w
	}
}

// drawValue writes the value of a field, smaller when it is long, and cut
// short when even that is too wide.
func drawValue(b *board, text string, x, y, w float64) {
	s := style{cap: capBody, ink: black}
	text = b.clean(text)
	if s.width(text) > w {
		s.cap = capLeast
	}
	b.text("title:value", s, x, y, fitted(s, text, w))
}

// strip is the line at the foot of a further sheet that says what it belongs
// to.
func (d *document) strip(b *board, f box, n int) {
	p := d.c.p
	b.rect("title:strip", f, white, black, 0.5)
	s := style{cap: capBody, bold: true, ink: black}
	left := p.Title
	for _, t := range []string{p.Sheet.Number, p.Sheet.Revision, p.Sheet.Date} {
		if t != "" {
			left += "   " + t
		}
	}
	right := fmt.Sprintf("Sheet %d of %d", n, d.sheets)
	if p.Invented {
		right = "Invented demonstration data   " + right
	}
	base := f.y + 1.2 + s.cap
	rw := s.width(right)
	b.text("strip:title", s, f.x+2, base, fitted(s, b.clean(left), f.w-rw-10))
	s.h = 1
	b.text("strip:sheet", s, f.right()-2, base, right)
	b.text("status", style{cap: capLeast, bold: true, ink: black}, f.x+2, f.bottom()-1.4, Status)
}
