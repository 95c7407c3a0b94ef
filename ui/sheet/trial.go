package sheet

import (
	"cmp"
	"slices"

	"hillset/geom"
)

// Worths of the tables that depend on the drawing.
const (
	legendWorth = 3
	notesWorth  = 1
)

// lostCost is what a text without a place in the drawing counts in tables.
const lostCost = 0.25

// trial is one way of drawing, for which the best first sheet is sought.
type trial struct {
	in     box
	scale  Scale
	look   look
	figs   []*figure
	lost   int // texts without a place
	titles []titleBlock
	pieces []*piece
}

// Sizes of letters of the tables, mm, the largest first.
var caps = []float64{capBody, 2.25, capLeast}

func (t *trial) best() *firstSheet {
	var best *firstSheet
	b := newBoard(&Recorder{})
	for _, put := range t.arrangements() {
		for _, title := range t.titles {
			for _, cap := range slices.Backward(caps) {
				f := t.fill(b, put, title, cap)
				if f == nil {
					break // larger letters do not fit either
				}
				if best == nil || f.score.better(best.score) {
					best = t.airy(b, put, f)
				}
			}
		}
	}
	return best
}

// put places the figures with some millimetres of air to be spread above and
// below them; nil where they do not fit.
type put func(air float64) (a *arrangement, at geom.Vec)

func (t *trial) arrangements() []put {
	gap := figGap
	if t.look.tight {
		gap = tightGap
	}
	row := func(make func([]*figure, float64) *arrangement) put {
		return func(air float64) (*arrangement, geom.Vec) {
			a := make(t.figs, gap)
			spare := max(0, t.in.w-a.w) / 3
			return make(t.figs, gap+spare), geom.Vec{t.in.x + spare, t.in.y + air/2}
		}
	}
	left := func(air float64) (*arrangement, geom.Vec) {
		a := stacked(t.figs, gap+air/2, 0)
		return a, geom.Vec{t.in.x, t.in.y + air/2}
	}
	middle := func(air float64) (*arrangement, geom.Vec) {
		a := stacked(t.figs, gap+air/2, 0.5)
		return a, geom.Vec{t.in.x + (t.in.w-a.w)/2, t.in.y + air/2}
	}
	return []put{row(level), row(inRow), left, middle}
}

// airy gives the figures as much air as leaves everything else on the sheet.
func (t *trial) airy(b *board, p put, f *firstSheet) *firstSheet {
	for _, air := range []float64{24, 18, 12, 8, 4} {
		more := func(float64) (*arrangement, geom.Vec) { return p(air) }
		if g := t.fill(b, more, f.title, f.cap); g != nil && !f.score.better(g.score) {
			return g
		}
	}
	return f
}

// fill places the figures, the title block at the lower right, and as many
// pieces as find room; nil where something that must be there does not.
func (t *trial) fill(b *board, p put, title titleBlock, cap float64) *firstSheet {
	a, at := p(0)
	if a.w > t.in.w+tiny || at[1]+a.h > t.in.bottom()+tiny {
		return nil
	}
	a.scale = t.scale
	f := &firstSheet{fig: a, at: at, title: title, cap: cap}
	h := title.height()
	f.tbox = box{t.in.right() - title.width, t.in.bottom() - h, title.width, h}
	free := space{t.in}.take(f.tbox.grown(gutter, gutter/2))
	for _, r := range a.room {
		r.x, r.y = r.x+at[0], r.y+at[1]
		if r.y-at[1] < tiny { // nothing stands above the uppermost
			r.y, r.h = t.in.y, r.bottom()-t.in.y
		}
		if r.overlaps(f.tbox.grown(gutter/2, gutter/2)) {
			return nil
		}
		free = free.take(r.grown(gutter, gutter/2))
	}
	var best *firstSheet
	for _, order := range t.orders(b, cap) {
		if g := t.with(b, f, order, free); g != nil && (best == nil || g.score.better(best.score)) {
			best = g
		}
	}
	return best
}

// orders are the orders in which pieces are placed: by need, and the largest
// first.
func (t *trial) orders(b *board, cap float64) [][]*piece {
	size := func(p *piece) float64 {
		w := p.span(b, 0, cap).most
		return w * p.height(b, formAt{0, cap, w})
	}
	byNeed, bySize := slices.Clone(t.pieces), slices.Clone(t.pieces)
	slices.SortStableFunc(byNeed, func(p, q *piece) int { return cmp.Compare(q.need(), p.need()) })
	slices.SortStableFunc(bySize, func(p, q *piece) int { return cmp.Compare(size(q), size(p)) })
	return [][]*piece{byNeed, bySize}
}

// with places the pieces in an order.
func (t *trial) with(b *board, f *firstSheet, order []*piece, free space) *firstSheet {
	g := *f
	worth := 0
	for _, p := range order {
		if p.empty() {
			continue
		}
		at, ok := p.place(b, free, f.cap)
		switch {
		case ok:
			worth += p.worth
			g.placed = append(g.placed, at)
			free = free.take(at.at.grown(gutter, blockGap*f.cap))
		case p.must:
			return nil
		default:
			g.left = append(g.left, p)
		}
	}
	g.score = t.score(worth, f.cap)
	return &g
}

// bound is the score of a first sheet on which everything finds room.
func (t *trial) bound() score {
	worth := legendWorth + notesWorth
	for _, p := range t.pieces {
		worth += p.worth
	}
	return t.score(worth, capBody)
}

func (t *trial) score(worth int, cap float64) score {
	marks := 0.0
	if t.look.verdicts {
		marks = 1
	}
	return score{marks, float64(worth) - t.look.cost - lostCost*float64(t.lost), cap}
}
