package sheet

import "math"

// piece is something that finds its own place on the first sheet: a table or
// the scale bar.
type piece struct {
	forms []table // the table as it is liked best, and others for narrow places
	bar   *Scale  // the piece is the scale bar
	must  bool    // the first sheet is not complete without it
	// worth weighs the pieces where not all of them find room.
	worth int

	sizes   map[formAt]span
	heights map[formAt]float64
}

// formAt is one form of a piece with its letters, and its width where that
// counts.
type formAt struct {
	form   int
	cap, w float64
}

// span is the least and the greatest width at which a piece reads well, mm.
type span struct{ least, most float64 }

func newPiece(must bool, worth int, forms ...table) *piece {
	return &piece{forms: forms, must: must, worth: worth, sizes: map[formAt]span{}, heights: map[formAt]float64{}}
}

func barPiece(s Scale) *piece {
	p := newPiece(true, 0, table{tag: "scale-bar"})
	p.bar = &s
	return p
}

func (p *piece) tag() string { return p.forms[0].tag }

// empty tells whether there is nothing to be placed.
func (p *piece) empty() bool { return p.bar == nil && len(p.forms[0].rows) == 0 }

// need is the rank of a piece: the scale bar, which is never another width,
// then what must be there, then the rest by worth.
func (p *piece) need() int {
	switch {
	case p.bar != nil:
		return 200
	case p.must:
		return 100 + p.worth
	}
	return p.worth
}

// Widths of a column of text that still reads well, in capitals: of one among
// others, of one alone, and the greatest.
const (
	narrowCell = 16.0
	narrowText = 24.0
	wideText   = 56.0
)

func (p *piece) span(b *board, form int, cap float64) span {
	k := formAt{form, cap, 0}
	s, ok := p.sizes[k]
	if ok {
		return s
	}
	if p.bar != nil {
		s = span{barWidth(*p.bar), barWidth(*p.bar)}
	} else {
		s = p.forms[form].span(b, cap)
	}
	p.sizes[k] = s
	return s
}

// span is the least width at which a table reads well, and the one that is
// enough for it.
func (t table) span(b *board, cap float64) span {
	l := t.lay(b, math.Inf(1), cap)
	text, flexible := narrowCell, 0
	for _, c := range t.cols {
		if c.flex {
			flexible++
		}
	}
	if flexible == 1 {
		text = narrowText
	}
	out := span{}
	for j, c := range t.cols {
		gap, w, in := 0.0, l.natural(j), 0.0
		if j > 0 {
			gap = colGap * cap
		}
		for _, row := range l.rows {
			in = max(in, row[j].indent(cap))
		}
		least, most := w, w
		if c.flex {
			least, most = min(w, text*cap+in), min(w, wideText*cap+in)
		}
		out.least, out.most = out.least+gap+least, out.most+gap+most
	}
	return out
}

// height is the height of a form of the piece at a width.
func (p *piece) height(b *board, k formAt) float64 {
	if p.bar != nil {
		return barH
	}
	h, ok := p.heights[k]
	if !ok {
		h = p.forms[k.form].lay(b, k.w, k.cap).height()
		p.heights[k] = h
	}
	return h
}

// placed is a piece in its place.
type placed struct {
	*piece
	form int
	at   box
}

// draw draws the piece.
func (p placed) draw(b *board, cap float64) {
	if p.bar != nil {
		drawBar(b, *p.bar, p.at)
		return
	}
	p.forms[p.form].lay(b, p.at.w, cap).draw(b, p.at)
}

// sliver is the width of a free strip in which nothing reads well, mm: a piece
// beside it takes it too, so that columns end in line.
const sliver = 44.0

// place finds the place of a piece: the free rectangle that it fills best, in
// the first form that fits any.
func (p *piece) place(b *board, free space, cap float64) (placed, bool) {
	for form := range p.forms {
		best, cost := box{}, math.Inf(1)
		s := p.span(b, form, cap)
		for _, r := range free {
			if r.w < s.least-tiny {
				continue
			}
			w := min(r.w, s.most)
			if p.bar == nil && r.w-w < sliver && r.w < 1.5*s.most {
				w = r.w
			}
			h := p.height(b, formAt{form, cap, w})
			if waste := r.area() - w*h; h <= r.h+tiny && waste < cost-tiny {
				cost, best = waste, box{r.x, r.y, w, h}
			}
		}
		if cost < math.Inf(1) {
			return placed{p, form, best}, true
		}
	}
	return placed{}, false
}
