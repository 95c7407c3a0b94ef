package scene

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"hillset/engine/check"
	"hillset/geom"
	"hillset/ui/face"
)

// verdict is what the checks of one part come to.
type verdict struct {
	part    string
	worst   *check.Check // the largest ratio; nil where nothing was checked
	missing int          // checks that were not made
}

// Parts that the long section shows one behind the other.
const (
	sideWalls = "side walls"
	topRails  = "top rails"
	wingWalls = "wing walls"
)

// together names what a part is drawn with in the long section.
func together(part string) string {
	switch part {
	case "left side wall", "right side wall":
		return sideWalls
	case "left top rail", "right top rail":
		return topRails
	case "left wing wall", "right wing wall":
		return wingWalls
	}
	return part
}

// shownBy names the part in whose place a bar of a wall or of the roof is
// drawn: "back wall, wale 1" is seen where the back wall is.
func shownBy(part string) string {
	of, _, found := strings.Cut(part, ", ")
	switch {
	case found && slices.Contains([]string{"left side wall", "right side wall", "back wall", "roof"}, of):
		return of
	case part == "corner posts, blind end":
		return "back wall"
	}
	return part
}

// gather sums the checks up by what they are drawn with, in the order of the
// result.
func gather(cs []check.Check, long bool) []verdict {
	var out []verdict
	at := map[string]int{}
	for i := range cs {
		c := &cs[i]
		part := shownBy(c.Part)
		if long {
			part = together(part)
		}
		k, ok := at[part]
		if !ok {
			k = len(out)
			at[part] = k
			out = append(out, verdict{part: part})
		}
		v := &out[k]
		if c.Verdict() == check.NotChecked {
			v.missing++
		} else if v.worst == nil || weightOf(c) > weightOf(v.worst) {
			v.worst = c
		}
	}
	return out
}

// words are what is written beside the mark.
func (v verdict) words() string {
	if v.worst == nil {
		return "not checked"
	}
	r := v.worst.Worst()
	text := fmt.Sprintf("within %.2f", r)
	switch {
	case math.IsInf(r, 1):
		text = "beyond, nothing against it"
	case r > 1:
		text = fmt.Sprintf("beyond %.2f×", ceil2(r))
	}
	if v.missing > 0 && r <= 1 {
		text += fmt.Sprintf(", %d not checked", v.missing)
	}
	return text
}

// ceil2 keeps a ratio just beyond 1 from being written as 1.00.
func ceil2(r float64) float64 { return math.Ceil(r*100-1e-9) / 100 }

// spot is where a part is seen in a section.
type spot struct {
	at   geom.Vec
	h    float64         // side of the mark on which the text stands: 0 right, 1 left
	line []geom.Polyline // the part itself, for the selection
	also []geom.Vec      // other places for the mark
}

// markSize is half the size of a verdict mark, mm.
const markSize = 1.3

// placed is a verdict with its mark on the drawing.
type placed struct {
	v verdict
	s spot
}

// verdicts puts a mark and its words at every part that the section shows:
// first all the marks, so that no text takes the place of one.
func (b *builder) verdicts() {
	if b.r == nil {
		return
	}
	var todo []placed
	vs := gather(b.r.Checks, b.v.Long)
	slices.SortStableFunc(vs, func(a, c verdict) int { return cmp.Compare(c.weight(), a.weight()) })
	spots := b.spots(vs)
	for _, v := range vs {
		s, ok := spots[v.part]
		if !ok || !b.seen(s.at) {
			continue
		}
		if v.part == b.sel() && len(s.line) > 0 {
			b.add(Path{Layer: BoxLayer, Tag: "selected:" + v.part, Parts: s.line, Stroke: Selection, Width: 1.4})
		}
		if !b.show(Verdicts) {
			continue
		}
		s.at = b.markAt(s)
		b.verdictMark(v, s.at)
		todo = append(todo, placed{v, s})
	}
	b.verdictTexts(todo)
}

// weight puts what is beyond limits first, by how far, then what is within, and
// what is not checked last.
func (v verdict) weight() float64 {
	if v.worst == nil {
		return -2
	}
	return weightOf(v.worst)
}

// weightOf is the ratio of a check; a rule that is met comes after all that has
// a margin.
func weightOf(c *check.Check) float64 {
	if c.Met() {
		return c.Worst() - 1
	}
	return c.Worst()
}

// verdictTexts writes the words beside the marks where all of them find room
// there, else in one list at the top of the window: on a small drawing the
// leaders would hide what they point to.
func (b *builder) verdictTexts(todo []placed) {
	if b.o.Keyed {
		b.keyNumbers(todo)
		return
	}
	if !b.roomy() {
		b.verdictList(todo)
		return
	}
	for _, p := range todo {
		b.verdictText(p.v, p.s)
	}
}

// roomy tells whether the room takes the words of the verdicts; marks with
// numbers stand where their parts are.
func (b *builder) roomy() bool {
	const least = 62.0 // mm: the longest names of parts with their verdict
	return b.v.HasBox && !b.o.Keyed && b.inner().W() >= least*b.mm
}

// listHead is the level of the first row of the list of verdicts: below
// caption and arrow.
func (b *builder) listHead() float64 {
	z := b.at.win.Max[1] - inset*b.mm
	if b.show(Frame) {
		z -= (hTitle + 13 + b.captionMore()) * b.mm
	}
	return z
}

// listRows is how many rows that list has; 0 where the words stand beside
// their marks.
func (b *builder) listRows() int {
	if b.r == nil || !b.show(Verdicts) || b.o.Keyed || b.roomy() {
		return 0
	}
	vs := gather(b.r.Checks, b.v.Long)
	spots, seen := b.spots(vs), []placed(nil)
	for _, v := range vs {
		if s, ok := spots[v.part]; ok && b.at.win.Contains(s.at) {
			seen = append(seen, placed{v, s})
		}
	}
	named, within, open := b.split(seen)
	return len(named) + min(1, len(within)) + min(1, len(open))
}

// Parts that the list names although they are within limits: the first few, and
// all that come near. The others only count, since a list of all that is well
// hides the drawing.
const (
	namedWithin = 3
	namedNear   = 0.9
)

// split sorts what the list names from the parts within limits and those not
// checked of which it tells the number. A single one is named.
func (b *builder) split(todo []placed) (named, within, open []placed) {
	for _, p := range todo {
		switch w := p.v.worst; {
		case p.v.part == b.sel():
			named = append(named, p)
		case w == nil:
			open = append(open, p)
		case w.Verdict() == check.Beyond || p.v.missing > 0 || weightOf(w) >= namedNear || len(named) < namedWithin:
			named = append(named, p)
		default:
			within = append(within, p)
		}
	}
	if len(within) == 1 {
		named, within = append(named, within...), nil
	}
	if len(open) == 1 {
		named, open = append(named, open...), nil
	}
	return named, within, open
}

// verdictList writes the verdicts below the caption, a row each with the mark of
// its part, and how many parts there are besides. What finds no row there is led
// to its mark.
func (b *builder) verdictList(todo []placed) {
	x, z := b.at.win.Min[0]+inset*b.mm, b.listHead()
	low := b.axisLow()
	named, within, open := b.split(todo)
	if rows := len(named) + min(1, len(within)) + min(1, len(open)); z-listPitch*float64(rows)*b.mm < b.strip.Max[1] && !b.strip.Empty() {
		x = b.strip.Max[0] + b.mm
	}
	row := func(v verdict, l Label) bool {
		l.Anchor = Anchor{V: 0.5}
		for z > low {
			at := geom.Vec{x + 1.3*markSize*b.mm, z}
			l.At = at.Add(geom.Vec{(markSize + 1.4) * b.mm, 0})
			room := labelBox(&l, b.o.MMPerM, clearance)
			z -= listPitch * b.mm
			if b.at.free(room) && b.at.free(markRoom(at, b.mm)) && !b.overWorks(room) {
				b.verdictMark(v, at)
				b.keep(l)
				return true
			}
		}
		return false
	}
	for _, p := range named {
		if l := b.verdictLabel(p.v); !row(p.v, l) {
			b.callout(l, p.s.at, markSize+0.3)
		}
	}
	besides := func(tag, text string, ps []placed) {
		if len(ps) == 0 {
			return
		}
		v := verdict{part: tag, worst: ps[0].v.worst}
		l := b.verdictLabel(v)
		l.Text = text
		if !row(v, l) {
			b.lost = append(b.lost, l.Text)
		}
	}
	besides(moreWithin, fmt.Sprintf("%d other parts: within limits", len(within)), within)
	besides(moreOpen, fmt.Sprintf("%d parts: not checked", len(open)), open)
}

// Tags of the rows that tell a number of parts, which are no names of parts.
const (
	moreWithin = "+within"
	moreOpen   = "+open"
)

// overWorks tells whether a text would lie over box or pressures.
func (b *builder) overWorks(room obox) bool {
	return b.v.HasBox && !apart(b.v.Box, room.around) || count(b.at.areas, room) > 0
}

// sel is the selected part as this section names it.
func (b *builder) sel() string {
	if b.v.Long {
		return together(shownBy(b.o.Selected))
	}
	return shownBy(b.o.Selected)
}

// role is the colour of a verdict.
func (v verdict) role() Role {
	switch {
	case v.worst == nil:
		return UnknownMark
	case v.worst.Verdict() == check.Beyond:
		return BeyondMark
	}
	return WithinMark
}

// markAt is the first free place for the mark of a part: one of its own
// places, or a step beside the first; where none is free the first of all.
func (b *builder) markAt(s spot) geom.Vec {
	const step = 3.6 // mm
	tries := append([]geom.Vec{s.at}, s.also...)
	for _, d := range []geom.Vec{{0, 1}, {0, -1}, {1, 0}, {-1, 0}, {0, 2}, {0, -2}, {2, 1}, {-2, 1}, {2, -1}, {-2, -1}} {
		tries = append(tries, s.at.Add(d.Mul(step*b.mm)))
	}
	for _, at := range tries {
		if b.at.free(markRoom(at, b.mm)) {
			return at
		}
	}
	return s.at
}

// markRoom is what a mark takes.
func markRoom(at geom.Vec, mm float64) obox {
	return newBox(at, 0, 1.25*markSize*mm, 1.25*markSize*mm)
}

// verdictMark draws the sign: a filled square beyond limits, an open circle
// within, a dashed diamond not checked.
func (b *builder) verdictMark(v verdict, c geom.Vec) {
	k := markSize * b.mm
	p := Path{Layer: Verdicts, Tag: "verdict:" + v.part, Closed: true, Fill: Paper, Stroke: v.role(), Width: wMid}
	shape := circle(c, k, 20)
	switch v.role() {
	case UnknownMark:
		p.Dash, shape = []float64{0.7, 0.5}, circle(c, 1.25*k, 4)
	case BeyondMark:
		p.Fill, shape = BeyondMark, geom.Polyline(geom.Rect{Min: c.Sub(geom.Vec{k, k}), Max: c.Add(geom.Vec{k, k})}.ToRing())
	}
	p.Parts = []geom.Polyline{shape}
	b.at.take(markRoom(c, b.mm))
	b.sign(p)
}

// verdictLabel names the part and says its verdict.
func (b *builder) verdictLabel(v verdict) Label {
	l := label(Verdicts, "verdict:"+v.part, v.part+": "+v.words())
	l.Role, l.Bold = v.role(), v.role() == BeyondMark
	l.Text, _ = face.Clean(l.Text)
	return l
}

// verdictText writes the words beside the mark, or with a leader.
func (b *builder) verdictText(v verdict, s spot) {
	l := b.verdictLabel(v)
	if !b.beside(l, s) {
		b.callout(l, s.at, markSize+0.3)
	}
}

// beside sets the text next to its mark where it covers no line.
func (b *builder) beside(l Label, s spot) bool {
	for _, h := range []float64{s.h, 1 - s.h} {
		l.Anchor = Anchor{H: h, V: 0.5}
		l.At = geom.Vec{s.at[0] + (1-2*h)*(markSize+1.2)*b.mm, s.at[1]}
		room := labelBox(&l, b.o.MMPerM, clearance)
		if b.at.crossed(room) == 0 && b.at.free(room) {
			b.keep(l)
			return true
		}
	}
	return false
}
