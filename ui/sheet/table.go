package sheet

import "strings"

// column is one column of a table.
type column struct {
	head  string
	right bool
	// flex columns give way: their text is broken into lines. The others are
	// as wide as their widest text.
	flex bool
}

// cell is one field of a table: text, and a mark drawn beside it.
type cell struct {
	text string
	bold bool
	mark func(b *board, r box) // draws into a swatch at the left of the cell
}

// table is a block of the sheet: a heading and rows. Every block is one; a
// paragraph is a table with a single column and no heads.
type table struct {
	tag   string
	title string
	cols  []column
	rows  [][]cell
	least int    // rows that must stand together with the heading
	part  bool   // the table goes on from another place
	foot  string // a note below the last row
}

// together is the least of a table that reads as one: it is parted only where
// it has more rows, or no sheet holds them.
const together = 24

// paragraphs makes a block of texts, each with a bullet.
func paragraphs(tag, title string, texts []string) table {
	t := table{tag: tag, title: title, cols: []column{{}, {flex: true}}, least: 1}
	for _, s := range texts {
		t.rows = append(t.rows, []cell{{text: "•"}, {text: s}})
	}
	return t
}

// slim is the table in a single column: cells that stand for themselves, row
// by row or column by column.
func (t table) slim(byRow bool) table {
	out := t
	out.cols, out.rows = []column{{flex: true}}, nil
	n, m := len(t.rows), len(t.cols)
	for k := range n * m {
		i, j := k%n, k/n
		if byRow {
			i, j = k/m, k%m
		}
		if c := t.rows[i][j]; c.text != "" {
			out.rows = append(out.rows, []cell{c})
		}
	}
	return out
}

// Spacing of tables as shares of the capital height.
const (
	leading   = 1.65 // from baseline to baseline
	rowGap    = 0.55 // added between rows
	colGap    = 1.3  // between columns
	swatchW   = 5.6  // width of a swatch
	swatchH   = 2.0  // height of a row with a swatch, at least
	titleGap  = 1.0  // below a heading
	blockGap  = 2.0  // below a block
	headShare = 1.15 // heading letters over body letters
)

// laid is a table laid out for a width: what is left of it to be drawn.
type laid struct {
	table
	cap    float64
	widths []float64
	lines  [][][]string // row, column, line
	next   int          // first row not yet drawn
	note   []string     // lines of the note below the last row
}

// maxLines is how many lines a row may have; longer texts go on in a row of
// their own, so that every row fits every sheet.
const maxLines = 12

// lay fits a table to a width with letters of the given capital height.
func (t table) lay(b *board, w, cap float64) *laid {
	l := &laid{table: t, cap: cap}
	l.rows = make([][]cell, len(t.rows))
	for i, row := range t.rows {
		l.rows[i] = make([]cell, len(row))
		for j, c := range row {
			c.text = b.clean(c.text)
			l.rows[i][j] = c
		}
	}
	l.widths = l.share(w)
	rows := l.rows
	l.rows = nil
	for _, row := range rows {
		l.addRow(row)
	}
	if t.foot != "" {
		l.note = breakLines(l.style(cell{}), b.clean(t.foot), w)
	}
	return l
}

// addRow breaks the texts of a row into lines, and the row where it has too
// many of them.
func (l *laid) addRow(row []cell) {
	lines, most := make([][]string, len(row)), 1
	for j, c := range row {
		lines[j] = breakLines(l.style(c), c.text, l.widths[j]-c.indent(l.cap)+tiny)
		most = max(most, len(lines[j]))
	}
	if most <= maxLines {
		l.rows, l.lines = append(l.rows, row), append(l.lines, lines)
		return
	}
	for from := 0; from < most; from += maxLines {
		part, some := make([]cell, len(row)), make([][]string, len(row))
		for j, c := range row {
			some[j] = lines[j][min(from, len(lines[j])):min(from+maxLines, len(lines[j]))]
			part[j] = cell{text: strings.Join(some[j], " "), bold: c.bold}
			if from == 0 {
				part[j].mark = c.mark
			}
		}
		l.rows, l.lines = append(l.rows, part), append(l.lines, some)
	}
}

// tiny keeps a text in the line that was made exactly as wide as the text.
const tiny = 1e-6

func (l *laid) style(c cell) style { return style{cap: l.cap, bold: c.bold, ink: black} }

func (l *laid) headStyle() style { return style{cap: l.cap, bold: true, ink: grey} }

func (c cell) indent(cap float64) float64 {
	if c.mark == nil {
		return 0
	}
	return (swatchW + colGap) * cap
}

// natural is how wide a column would like to be.
func (l *laid) natural(j int) float64 {
	w := l.headStyle().width(l.cols[j].head)
	for _, row := range l.rows {
		c := row[j]
		w = max(w, l.style(c).width(c.text)+c.indent(l.cap))
	}
	return w
}

// share divides a width among the columns: each gets what it asks for where
// that is possible; else the flexible ones share what the others leave, small
// askers first, so that a short column is not wrapped for the sake of a long
// one.
func (l *laid) share(w float64) []float64 {
	out := make([]float64, len(l.cols))
	left := w - float64(len(l.cols)-1)*colGap*l.cap
	var flex []int
	for j, c := range l.cols {
		out[j] = l.natural(j)
		if c.flex {
			flex = append(flex, j)
			continue
		}
		left -= out[j]
	}
	for len(flex) > 0 {
		least := 0
		for i, j := range flex {
			if out[j] < out[flex[least]] {
				least = i
			}
		}
		j := flex[least]
		out[j] = max(0, min(out[j], left/float64(len(flex))))
		left -= out[j]
		flex = append(flex[:least], flex[least+1:]...)
	}
	l.spread(out, left)
	return out
}

// most is how much a flexible column widens to fill a wide field, in capitals.
const most = 6.0

// spread gives what is left over to the flexible columns but the last, which
// ends in the open.
func (l *laid) spread(widths []float64, spare float64) {
	n := 0
	for _, c := range l.cols[:len(l.cols)-1] {
		if c.flex {
			n++
		}
	}
	if n == 0 || spare <= 0 {
		return
	}
	for j, c := range l.cols[:len(l.cols)-1] {
		if c.flex {
			widths[j] += min(spare/float64(n), most*l.cap)
		}
	}
}

func (l *laid) headHeight() float64 {
	h := l.cap*headShare + titleGap*l.cap
	if l.hasHeads() {
		h += l.cap + rowGap*l.cap
	}
	return h
}

func (l *laid) hasHeads() bool {
	for _, c := range l.cols {
		if c.head != "" {
			return true
		}
	}
	return false
}

func (l *laid) rowHeight(i int) float64 {
	n, h := 1, l.cap
	for j, lines := range l.lines[i] {
		n = max(n, len(lines))
		if l.rows[i][j].mark != nil {
			h = max(h, swatchH*l.cap)
		}
	}
	h = max(h, l.cap+float64(n-1)*leading*l.cap) + rowGap*l.cap
	if i == len(l.rows)-1 && len(l.note) > 0 {
		h += rowGap*l.cap + float64(len(l.note))*leading*l.cap
	}
	return h
}

// height is what is left to be drawn, without the gap to the next block.
func (l *laid) height() float64 {
	h := l.headHeight()
	for i := l.next; i < len(l.rows); i++ {
		h += l.rowHeight(i)
	}
	return h
}

func (l *laid) done() bool { return l.next >= len(l.rows) }

// draw draws as many rows as fit into the field and gives the height used; 0
// when not even the least number of rows fits.
func (l *laid) draw(b *board, f box) float64 {
	n, h := l.fit(f.h)
	if n == 0 {
		return 0
	}
	y := l.drawHead(b, f)
	for i := l.next; i < l.next+n; i++ {
		l.drawRow(b, i, f.x, y)
		y += l.rowHeight(i)
	}
	l.next += n
	for k, line := range l.note {
		if l.done() {
			b.text(l.tag+":note", l.style(cell{}), f.x, y-(float64(len(l.note)-1-k)*leading+rowGap)*l.cap, line)
		}
	}
	return h
}

// fit counts the rows that fit a height.
func (l *laid) fit(room float64) (n int, h float64) {
	h = l.headHeight()
	for i := l.next; i < len(l.rows); i++ {
		if h+l.rowHeight(i) > room+tiny {
			break
		}
		h += l.rowHeight(i)
		n++
	}
	if n < min(max(l.least, 1), len(l.rows)-l.next) {
		return 0, 0
	}
	return n, h
}

func (l *laid) drawHead(b *board, f box) (y float64) {
	title := l.title
	if l.part {
		title += " (continued)"
	}
	s := style{cap: l.cap * headShare, bold: true, ink: black}
	y = f.y + s.cap
	b.text(l.tag+":title", s, f.x, y, fitted(s, b.clean(title), f.w))
	y += 0.45 * titleGap * l.cap
	b.line(l.tag+":rule", thin, f.x, y, f.x+f.w, y)
	y += 0.55 * titleGap * l.cap
	if !l.hasHeads() {
		return y
	}
	x := f.x
	hs := l.headStyle()
	for j, c := range l.cols {
		l.put(b, l.tag+":head", hs, c, x, y+l.cap, l.widths[j], c.head)
		x += l.widths[j] + colGap*l.cap
	}
	return y + l.cap + rowGap*l.cap
}

func (l *laid) put(b *board, tag string, s style, c column, x, y, w float64, text string) {
	if c.right {
		s.h, x = 1, x+w
	}
	b.text(tag, s, x, y, text)
}

func (l *laid) drawRow(b *board, i int, x, y float64) {
	base := y + l.cap
	if h := l.rowHeight(i) - rowGap*l.cap; len(l.lines[i]) > 0 && l.marked(i) {
		base = y + (h+l.cap)/2
	}
	for j, c := range l.rows[i] {
		in := c.indent(l.cap)
		if c.mark != nil {
			c.mark(b, box{x, y, swatchW * l.cap, swatchH * l.cap})
		}
		for k, line := range l.lines[i][j] {
			l.put(b, l.tag+":cell", l.style(c), l.cols[j], x+in, base+float64(k)*leading*l.cap, l.widths[j]-in, line)
		}
		x += l.widths[j] + colGap*l.cap
	}
}

// marked tells whether a row has a swatch and single lines only, so that its
// text stands in the middle of the swatch's height.
func (l *laid) marked(i int) bool {
	has := false
	for j, c := range l.rows[i] {
		if len(l.lines[i][j]) > 1 {
			return false
		}
		has = has || c.mark != nil
	}
	return has
}
