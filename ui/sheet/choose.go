package sheet

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"hillset/ui/scene"
)

// choose finds the largest standard scale at which the first sheet holds both
// sections and all that it must say, and the best arrangement at that scale:
// with verdicts where they are wanted, then with the most tables, as long as
// that does not cost too much of the drawing's room and texts, then with the
// largest letters. Where what it
// must say fits at no scale, as with very long names, that goes on a further
// sheet.
func (d *document) choose() error {
	base := d.pieces()
	d.lost = d.lostSigns(base)
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
		if err == nil && best == nil && !d.size.Large {
			best, err = d.atScale(s, in, eased(base))
		}
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

// eased are the pieces with the cautions, which are many words, free to go on the
// next sheet: on a small sheet a drawing that can be read is worth more.
func eased(base []*piece) []*piece {
	out := slices.Clone(base)
	for i, p := range out {
		if p.tag() == "cautions" {
			free := *p
			free.must, free.worth = false, cautionsWorth
			out[i] = &free
		}
	}
	return out
}

// cautionsWorth is what the cautions count where they are not asked for.
const cautionsWorth = 6

// looks are the ways of drawing that are tried at each scale, as liked best
// first.
func looks() []look {
	var out []look
	for i, share := range [][2]float64{{amply, amply}, {fairly, fairlyBelow}, {barely, barelyBelow}} {
		for _, room := range []Room{wideRoom, closeRoom} {
			out = append(out, look{beyond: share[0], below: share[1], room: room, cost: float64(i)})
		}
	}
	return append(out, look{beyond: barely, below: barelyBelow, room: closeRoom, tight: true, cost: 2.5},
		look{beyond: barely, below: barely, room: closeRoom, tight: true, cost: 4},
		look{beyond: barely, below: barely, room: snugRoom, tight: true, cost: 5},
		look{beyond: hardly, below: barely, room: snugRoom, tight: true, cost: 6})
}

// marked tells whether the marks of verdicts are wanted on the drawing.
func (d *document) marked() bool {
	return d.size.Large && d.c.o.Layers == nil && len(scene.KeysOf(d.c.r.Checks)) > 0
}

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

// atScale is the best first sheet at a scale; nil when there is none.
func (d *document) atScale(s Scale, in box, base []*piece) (best *firstSheet, err error) {
	for _, l := range looks() {
		t := &trial{in: in, scale: s, look: l, titles: d.titles(s, in), pieces: append([]*piece{barPiece(s)}, base...)}
		most := *t
		if most.look.verdicts = d.marked(); best != nil && !most.bound().better(best.score) {
			continue // not even with every text in its place
		}
		m := *t
		if best, err = d.improve(best, t); err != nil {
			return nil, err
		}
		if !d.marked() {
			continue
		}
		// Marks are worth no text of the drawing that stands nowhere else.
		m.look.verdicts = true
		m.pieces = append(slices.Clip(m.pieces), d.keys())
		if err := d.figures(&m); err != nil {
			return nil, err
		}
		if d.unsaid(m.figs) > d.unsaid(t.figs) {
			continue
		}
		if best, err = d.improve(best, &m); err != nil {
			return nil, err
		}
	}
	return best, nil
}

// improve gives the best first sheet of a trial where it is better than the
// best so far.
func (d *document) improve(best *firstSheet, t *trial) (*firstSheet, error) {
	if t.figs == nil {
		if err := d.figures(t); err != nil {
			return nil, err
		}
	}
	if best != nil && !t.bound().better(best.score) {
		return best, nil
	}
	legend, err := d.c.legend(t.figs, d.c.o.Scene)
	if err != nil {
		return nil, err
	}
	t.pieces = append(slices.Clip(t.pieces), newPiece(false, legendWorth, legend, legend.slim(false)),
		newPiece(false, notesWorth, paragraphs("notes", "About this sheet", d.findNotes(t.figs, legend))))
	if f := t.best(); f != nil && (best == nil || f.score.better(best.score)) {
		f.legend = legend
		return f, nil
	}
	return best, nil
}

// keys is the list of the numbered marks: they say nothing without it.
func (d *document) keys() *piece {
	pairs, single := d.c.keys()
	return newPiece(true, 1, pairs, single)
}

// figures draws the sections of a trial.
func (d *document) figures(t *trial) (err error) {
	t.figs, err = figures(d.views, d.c.o.Scene, t.scale, t.look)
	t.lost = 0
	for _, f := range t.figs {
		t.lost += len(f.sc.Lost)
	}
	return err
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

// unsaid are the texts that a figure has no room for and the legend does not say.
func (f *figure) unsaid(legend table) []string {
	return slices.DeleteFunc(slices.Clone(f.sc.Lost), legend.names)
}

// unsaid counts them.
func (d *document) unsaid(figs []*figure) (n int) {
	legend, err := d.c.legend(figs, d.c.o.Scene)
	for _, f := range figs {
		if err != nil {
			n += len(f.sc.Lost)
			continue
		}
		n += len(f.unsaid(legend))
	}
	return n
}

// findNotes says what the drawing could not show. A material without its name on
// the drawing has it in the legend.
func (d *document) findNotes(figs []*figure, legend table) []string {
	var out []string
	b := newBoard(&Recorder{})
	for _, f := range figs {
		for _, it := range f.sc.Items {
			if it.Label != nil {
				b.clean(it.Label.Text)
			}
		}
		if lost := f.unsaid(legend); len(lost) > 0 {
			head, _ := f.caption()
			out = append(out, head+", no room at this scale for: "+strings.Join(lost, "; "))
		}
	}
	for r := range d.lost {
		b.lost[r] = true
	}
	if lost := b.lostSigns(); len(lost) > 0 {
		s := "Signs that the typeface lacks, printed as ?:"
		for _, r := range lost {
			s += fmt.Sprintf(" U+%04X", r)
		}
		out = append(out, s)
	}
	return out
}

// lostSigns finds the signs that texts outside the drawing lack.
func (d *document) lostSigns(pieces []*piece) map[rune]bool {
	b := newBoard(&Recorder{})
	for _, p := range pieces {
		p.forms[0].lay(b, 100, capLeast)
	}
	b.page(1000, 1000)
	t := d.c.titleBlock(Scale{}, 100)
	t.draw(b, box{w: 100, h: t.height()})
	d.strip(b, box{w: 100, h: stripH}, 1)
	return b.lost
}
