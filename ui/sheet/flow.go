package sheet

import "fmt"

// Distances between the parts of a sheet, mm.
const (
	padding = 3.0 // inside the frame
	gutter  = 6.0 // between columns
	stripH  = 9.0 // of the strip on further sheets
)

// inner is the field inside the frame.
func (d *document) inner() box { return d.size.frame(d.c.o.Landscape).inset(padding) }

// queue is blocks waiting for a place.
type queue []table

// rest draws all sheets but the first: the tables, then the structure.
func (d *document) rest(b *board) {
	w, h := d.size.page(d.c.o.Landscape)
	wide, narrow := d.first.queues()
	n := 2
	for ; len(wide)+len(narrow) > 0 && b.err == nil; n++ {
		d.begin(b, w, h)
		var moved bool
		wide, narrow, moved = d.further(b, n, wide, narrow)
		if !moved && b.err == nil {
			b.err = fmt.Errorf("sheet: a row of %q does not fit a sheet", append(wide, narrow...)[0].title)
		}
	}
	if b.err == nil {
		d.structure(b, n)
	}
}

func (d *document) begin(b *board, w, h float64) {
	b.page(w, h)
	b.rect("frame", d.size.frame(d.c.o.Landscape), none, black, frame)
}

// flow puts blocks into a column one after the other, splitting the one that
// does not fit, and gives the rest and the height used. Where not even a whole
// sheet, of height full, holds the rows of a block that should stand together,
// they are parted.
func flow(b *board, f box, q queue, cap, full float64) (left queue, used float64) {
	top := f.y
	for i, t := range q {
		l := t.lay(b, f.w, cap)
		h := l.draw(b, f)
		if h == 0 && f.h > full-tiny {
			l.least = 1
			h = l.draw(b, f)
		}
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
	wide, used := flow(b, f, wide, d.furtherCap, f.h)
	full := f.h
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
		narrow, used = flow(b, box{f.x + float64(i)*(w+gutter), f.y, w, f.h}, narrow, d.furtherCap, full)
		moved = moved || used > 0
	}
	return nil, narrow, moved
}
