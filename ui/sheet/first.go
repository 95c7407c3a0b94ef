package sheet

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"hillset/geom"
	"hillset/ui/units"
)

// firstSheet is the first sheet with everything in its place.
type firstSheet struct {
	fig    *arrangement
	at     geom.Vec // corner of the figures
	title  titleBlock
	tbox   box
	cap    float64 // height of letters of the tables
	placed []placed
	left   []*piece // for the further sheets
	legend table
	score  score
}

// score ranks first sheets of the same scale: the greater is the better one,
// compared from the first number on.
type score [5]float64

func (s score) better(o score) bool { return slices.Compare(s[:], o[:]) > 0 }

// Widths of the title block, mm: the usual one and the least that holds its
// texts.
var titleWidths = []float64{125, 112, 102}

// narrowSheet is the width of the field below which the title block takes all
// of it, mm.
const narrowSheet = 190.0

func (d *document) titles(s Scale, in box) []titleBlock {
	widths := titleWidths
	if in.w < narrowSheet {
		widths = []float64{in.w}
	}
	out := make([]titleBlock, len(widths))
	for i, w := range widths {
		out[i] = d.c.titleBlock(s, w)
	}
	return out
}

// looks are the ways of drawing that are tried at each scale, as liked best
// first.
func looks() []look {
	var out []look
	for _, share := range []float64{amply, fairly, barely} {
		for _, room := range []Room{wideRoom, closeRoom} {
			out = append(out, look{beyond: share, room: room})
		}
	}
	return append(out, look{beyond: barely, room: closeRoom, tight: true})
}

// marked tells whether the marks of verdicts are wanted on the drawing.
func (d *document) marked() bool {
	return d.size.Large && d.c.o.Units == units.Metric && d.c.o.Layers == nil && len(d.c.r.Checks) > 0
}

// choose finds the largest standard scale at which the first sheet holds both
// sections and all that it must say, and the best arrangement at that scale:
// with verdicts where they are wanted, then with the most tables, the most
// texts in the drawing, the largest letters and the most ground. Where what it
// must say fits at no scale, as with very long names, that goes on a further
// sheet.
func (d *document) choose() error {
	base := d.pieces()
	err := d.chooseFrom(base)
	if err == nil || !errors.Is(err, errNoScale) {
		return err
	}
	for _, p := range base {
		p.must = false
	}
	return d.chooseFrom(base)
}

// errNoScale is when nothing fits even at the smallest scale.
var errNoScale = errors.New("take a larger sheet")

func (d *document) chooseFrom(base []*piece) error {
	in := d.inner()
	for _, s := range scales(d.c.feet()) {
		if !bareFits(d.views, s.MMPerM(), in.w, in.h) {
			continue // even without letters and signs
		}
		best, err := d.atScale(s, in, base)
		if err != nil {
			return err
		}
		if best != nil {
			d.first, d.fig, d.legend = best, best.fig, best.legend
			return nil
		}
	}
	all := scales(d.c.feet())
	return fmt.Errorf("sheet: the sections do not fit %.0f by %.0f mm at %s, the smallest scale: %w", in.w, in.h, all[len(all)-1].Name, errNoScale)
}

// atScale is the best first sheet at a scale; nil when there is none.
func (d *document) atScale(s Scale, in box, base []*piece) (best *firstSheet, err error) {
	for _, l := range looks() {
		f, lost, err := d.drawn(s, in, base, l, math.MaxInt)
		if err == nil && d.marked() {
			// Marks are worth no text of the drawing.
			l.verdicts = true
			var m *firstSheet
			if m, _, err = d.drawn(s, in, base, l, lost); m != nil {
				f = m
			}
		}
		if err != nil {
			return nil, err
		}
		if f != nil && (best == nil || f.score.better(best.score)) {
			best = f
		}
	}
	return best, nil
}

// drawn is the best first sheet for one way of drawing, and how many texts
// find no place in it; nil where there are more of them than allowed.
func (d *document) drawn(s Scale, in box, base []*piece, l look, most int) (f *firstSheet, lost int, err error) {
	figs, err := figures(d.views, d.c.o.Scene, s.MMPerM(), l)
	if err != nil {
		return nil, 0, err
	}
	for _, fig := range figs {
		lost += len(fig.sc.Lost)
	}
	if lost > most {
		return nil, lost, nil
	}
	legend, err := d.c.legend(figs, d.c.o.Scene)
	if err != nil {
		return nil, 0, err
	}
	t := &trial{in: in, scale: s, look: l, figs: figs, lost: lost, titles: d.titles(s, in)}
	t.pieces = append([]*piece{barPiece(s)}, base...)
	t.pieces = append(t.pieces, newPiece(false, 3, legend, legend.slim(false)), newPiece(false, 1, paragraphs("notes", "About this sheet", d.findNotes(figs))))
	if f = t.best(); f != nil {
		f.legend = legend
	}
	return f, lost, nil
}

// pieces are the tables that do not depend on the drawing, in the order of
// their importance.
func (d *document) pieces() []*piece {
	c := d.c
	answers := c.answers()
	return []*piece{
		newPiece(true, 1, c.cautions()), newPiece(true, 1, answers, answers.slim(true)), newPiece(false, 4, c.checks()),
		newPiece(false, 3, c.levels()), newPiece(false, 2, c.earthworks()), newPiece(false, 1, c.unchecked()),
		newPiece(false, 1, c.assumed()), newPiece(false, 1, c.remarks()), newPiece(false, 1, c.burial()),
	}
}

// findNotes says what the drawing could not show.
func (d *document) findNotes(figs []*figure) []string {
	var out []string
	b := newBoard(&Recorder{})
	for _, f := range figs {
		for _, it := range f.sc.Items {
			if it.Label != nil {
				b.clean(it.Label.Text)
			}
		}
		if len(f.sc.Lost) > 0 {
			head, _ := f.caption()
			out = append(out, head+", no room at this scale for: "+strings.Join(f.sc.Lost, "; "))
		}
	}
	if lost := d.lostSigns(b); len(lost) > 0 {
		s := "Signs that the typeface lacks, printed as ?:"
		for _, r := range lost {
			s += fmt.Sprintf(" U+%04X", r)
		}
		out = append(out, s)
	}
	return out
}

// lostSigns adds the signs that texts outside the drawing lack to those that a
// board knows.
func (d *document) lostSigns(b *board) []rune {
	for _, p := range d.pieces() {
		p.forms[0].lay(b, 100, capLeast)
	}
	b.page(1000, 1000)
	t := d.c.titleBlock(Scale{}, 100)
	t.draw(b, box{w: 100, h: t.height()})
	d.strip(b, box{w: 100, h: stripH}, 1)
	return b.lostSigns()
}

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
	marks := 0.0
	if t.look.verdicts {
		marks = 1
	}
	g.score = score{marks, float64(worth), -float64(t.lost), f.cap, t.look.beyond}
	return &g
}

// queues are the tables for the further sheets: those that take the whole
// width, and the others.
func (f *firstSheet) queues() (wide, narrow queue) {
	rank := func(p *piece) int { return slices.Index(tableOrder, p.tag()) }
	left := slices.Clone(f.left)
	slices.SortStableFunc(left, func(p, q *piece) int { return rank(p) - rank(q) })
	for _, p := range left {
		if t := p.tag(); t == "checks" || t == "unchecked" {
			wide = append(wide, p.forms[0])
		} else {
			narrow = append(narrow, p.forms[0])
		}
	}
	return wide, narrow
}

// tableOrder is the order of the tables on further sheets, by their tags.
var tableOrder = []string{"checks", "unchecked", "levels", "legend", "earthworks", "burial", "cautions", "answers", "assumed", "remarks", "notes"}

func (f *firstSheet) draw(b *board, sheets int) {
	f.title.numbered(sheets).draw(b, f.tbox)
	f.fig.draw(b, f.at[0], f.at[1])
	for _, p := range f.placed {
		p.draw(b, f.cap)
	}
}
