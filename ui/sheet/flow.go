package sheet

import "fmt"

// Distances between the parts of a sheet, mm.
const (
	padding    = 3.0 // inside the frame
	gutter     = 6.0 // between columns
	titleWidth = 125.0
	sideWidth  = 112.0 // of the column beside the check table on large sheets
	stripH     = 9.0   // of the strip on further sheets
)

// inner is the field inside the frame.
func (d *document) inner() box { return d.size.frame(d.c.o.Landscape).inset(padding) }

// narrow tells whether the title block takes the whole width.
func (d *document) narrow() bool { return !d.size.Large && !d.c.o.Landscape }

func (d *document) title() titleBlock {
	var s Scale
	if d.fig != nil {
		s = d.fig.scale
	}
	w := titleWidth
	if d.narrow() {
		w = d.inner().w
	}
	return d.c.titleBlock(s, d.sheets, w)
}

// leastBand is the height kept free below the drawing, mm.
func (d *document) leastBand() float64 {
	h := d.title().height()
	switch {
	case d.size.Large:
		return h + 25 // the head of the check table
	case d.narrow():
		return h + barH + 40 // the cautions
	}
	return h
}

// field is where the drawing goes when the band below it is that high.
func (d *document) field(band float64) box {
	f := d.inner()
	f.h -= band + gutter/2
	return f
}

// queue is blocks waiting for a place.
type queue []table

// lay draws all sheets.
func (d *document) lay(b *board) {
	w, h := d.size.page(d.c.o.Landscape)
	d.begin(b, w, h)
	wide, narrow := d.first(b)
	for n := 2; len(wide)+len(narrow) > 0 && b.err == nil; n++ {
		d.begin(b, w, h)
		var moved bool
		wide, narrow, moved = d.further(b, n, wide, narrow)
		if !moved && b.err == nil {
			b.err = fmt.Errorf("sheet: a row of %q does not fit a sheet", append(wide, narrow...)[0].title)
		}
	}
}

func (d *document) begin(b *board, w, h float64) {
	b.page(w, h)
	b.rect("frame", d.size.frame(d.c.o.Landscape), none, black, frame)
}

// blocks lists what has to be placed: wide tables, and narrow ones in order
// of their importance.
func (d *document) blocks() (wide, narrow queue) {
	c := d.c
	for _, t := range []table{c.checks(), c.unchecked()} {
		if len(t.rows) > 0 {
			wide = append(wide, t)
		}
	}
	for _, t := range []table{
		c.cautions(), c.answers(), c.levels(), d.legend, c.earthworks(), c.assumed(),
		paragraphs("notes", "About this sheet", d.notes),
	} {
		if len(t.rows) > 0 {
			narrow = append(narrow, t)
		}
	}
	return wide, narrow
}

// first draws the first sheet and gives what found no room on it.
func (d *document) first(b *board) (wide, narrow queue) {
	in, tb := d.inner(), d.title()
	tbox := box{in.right() - tb.width, in.bottom() - tb.height(), tb.width, tb.height()}
	tb.draw(b, tbox)

	spare := 0.0
	if d.size.Large {
		spare = max(0, min(in.h-d.fig.h-gutter/2-d.leastBand(), gutter))
	}
	drawing := box{in.x, in.y, in.w, d.fig.h + spare}
	d.fig.draw(b, drawing)

	top := drawing.bottom() + gutter/2
	band := box{in.x, top, in.w, in.bottom() - top}
	wide, narrow = d.blocks()
	var fields []box
	if d.size.Large && d.c.o.Landscape {
		side := band
		side.w = sideWidth
		fields = append(fields, side)
		band.x, band.w = band.x+sideWidth+gutter, band.w-sideWidth-gutter
	}
	if d.size.Large {
		f := band
		f.h = tbox.y - gutter/2 - f.y
		var used float64
		wide, used = flow(b, f, wide, d.cap)
		band.y, band.h = band.y+used, band.h-used
	}
	fields = append(fields, d.beside(b, band, tbox)...)
	return wide, d.fill(b, fields, narrow)
}

// beside draws the scale bar at the head of a band and gives the fields that
// are left in it, above and beside the title block.
func (d *document) beside(b *board, band, tbox box) []box {
	above := box{tbox.x, band.y, tbox.w, tbox.y - gutter/2 - band.y}
	left := box{band.x, band.y, band.w - tbox.w - gutter, band.h}
	if d.narrow() {
		left, above = above, box{}
	}
	drawBar(b, d.fig.scale, left)
	left.y, left.h = left.y+barH, left.h-barH
	return []box{left, above}
}

// fill puts whole blocks into fields, in their order, each into the field that
// it fits most closely, and leaves those that fit nowhere.
func (d *document) fill(b *board, fields []box, q queue) (left queue) {
	for _, t := range q {
		best, room := -1, 0.0
		var chosen *laid
		for i, f := range fields {
			if f.w <= 0 {
				continue
			}
			l := t.lay(b, f.w, d.cap)
			if r := f.h - l.height(); r > -tiny && (best < 0 || r < room) {
				best, room, chosen = i, r, l
			}
		}
		if best < 0 {
			left = append(left, t)
			continue
		}
		f := &fields[best]
		h := chosen.draw(b, *f) + blockGap*d.cap
		f.y, f.h = f.y+h, f.h-h
	}
	return left
}

// flow puts blocks into a column one after the other, splitting the one that
// does not fit, and gives the rest and the height used.
func flow(b *board, f box, q queue, cap float64) (left queue, used float64) {
	top := f.y
	for i, t := range q {
		l := t.lay(b, f.w, cap)
		h := l.draw(b, f)
		f.y, f.h = f.y+h, f.h-h
		if h > 0 {
			f.y, f.h = f.y+blockGap*cap, f.h-blockGap*cap
		}
		if !l.done() {
			return append(queue{l.rest()}, q[i+1:]...), f.y - top
		}
	}
	return nil, f.y - top
}

// rest is the part of a table that is still to be drawn.
func (l *laid) rest() table {
	t := l.table
	if l.next > 0 {
		t.rows = t.rows[l.next:]
		t.part = true
	}
	return t
}

// further draws a sheet of tables only; moved tells whether anything of them
// found room on it.
func (d *document) further(b *board, n int, wide, narrow queue) (left, leftNarrow queue, moved bool) {
	in := d.inner()
	d.strip(b, box{in.x, in.bottom() - stripH, in.w, stripH}, n)
	f := in
	f.h -= stripH + gutter/2
	wide, used := flow(b, f, wide, d.furtherCap)
	f.y, f.h = f.y+used, f.h-used
	if moved = used > 0; len(wide) > 0 {
		return wide, narrow, moved
	}
	cols := 2
	if d.size.Large && d.c.o.Landscape {
		cols = 3
	}
	w := (f.w - float64(cols-1)*gutter) / float64(cols)
	for i := range cols {
		narrow, used = flow(b, box{f.x + float64(i)*(w+gutter), f.y, w, f.h}, narrow, d.furtherCap)
		moved = moved || used > 0
	}
	return nil, narrow, moved
}
