package scene

import (
	"fmt"
	"math"

	"hillset/engine/check"
	"hillset/geom"
)

// verdict is what the checks of one part come to.
type verdict struct {
	part    string
	worst   *check.Check // the largest ratio; nil where nothing was checked
	missing int          // checks that were not made
}

// gather sums the checks up by part, in the order of the result.
func gather(cs []check.Check) []verdict {
	var out []verdict
	at := map[string]int{}
	for i := range cs {
		c := &cs[i]
		k, ok := at[c.Part]
		if !ok {
			k = len(out)
			at[c.Part] = k
			out = append(out, verdict{part: c.Part})
		}
		v := &out[k]
		if c.Verdict() == check.NotChecked {
			v.missing++
		} else if v.worst == nil || c.Worst() > v.worst.Worst() {
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
		text = "beyond, nothing holds it"
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
}

// verdicts puts a mark and its words at every part that the section shows.
func (b *builder) verdicts() {
	if b.r == nil {
		return
	}
	for _, v := range gather(b.r.Checks) {
		s, ok := b.spotOf(v.part)
		if !ok || !b.at.win.Contains(s.at) {
			continue
		}
		if v.part == b.o.Selected && len(s.line) > 0 {
			b.add(Path{Layer: BoxLayer, Tag: "selected:" + v.part, Parts: s.line, Stroke: Selection, Width: 1.4})
		}
		if b.show(Verdicts) {
			b.verdict(v, s)
		}
	}
}

// verdict draws one mark: filled square beyond, open circle within, dashed
// diamond not checked.
func (b *builder) verdict(v verdict, s spot) {
	role, fill, dash := WithinMark, Paper, []float64(nil)
	const r = 1.3 // mm
	shape := circle(s.at, r*b.mm, 20)
	switch {
	case v.worst == nil:
		role, dash = UnknownMark, []float64{0.7, 0.5}
		shape = circle(s.at, 1.25*r*b.mm, 4)
	case v.worst.Verdict() == check.Beyond:
		role, fill = BeyondMark, BeyondMark
		k := r * b.mm
		shape = geom.Polyline{s.at.Add(geom.Vec{-k, -k}), s.at.Add(geom.Vec{k, -k}), s.at.Add(geom.Vec{k, k}), s.at.Add(geom.Vec{-k, k})}
	}
	l := label(Verdicts, "verdict:"+v.part, v.part+": "+v.words())
	l.Role, l.Bold = role, v.worst != nil && v.worst.Verdict() == check.Beyond
	room := rectBox(geom.Ring(shape).Bounds().Expand(0.3 * b.mm))
	if b.at.free(room) {
		b.at.take(room)
		b.add(Path{Layer: Verdicts, Tag: "verdict:" + v.part, Parts: []geom.Polyline{shape}, Closed: true, Fill: fill, Stroke: role, Width: wMid, Dash: dash})
		if b.beside(l, s, r) {
			return
		}
		short := l
		short.Text = v.words()
		if b.beside(short, s, r) {
			return
		}
	}
	b.callout(l, s.at, r+0.4)
}

// beside tries the text next to its mark.
func (b *builder) beside(l Label, s spot, r float64) bool {
	for _, h := range []float64{s.h, 1 - s.h} {
		l.Anchor = Anchor{H: h, V: 0.5}
		x := s.at[0] + (1-2*h)*(r+1.2)*b.mm
		if b.put(l, geom.Vec{x, s.at[1]}) {
			return true
		}
	}
	return false
}

// spotOf finds the place of a part. Parts that the section does not show have
// none.
func (b *builder) spotOf(part string) (spot, bool) {
	if part == "cut face" && b.v.CutHeight > 0 {
		mid := b.v.Toe.Add(b.v.Crest).Mul(0.5)
		return spot{at: mid, h: 1, line: []geom.Polyline{{b.v.Toe, b.v.Crest}}}, true
	}
	if !b.v.HasBox {
		return spot{}, false
	}
	box, in := b.v.Box, b.inner()
	off := 3.5 * b.mm
	side := func(x0, z0, x1, z1 float64) []geom.Polyline { return []geom.Polyline{{{x0, z0}, {x1, z1}}} }
	left, right := side(box.Min[0], box.Min[1], box.Min[0], box.Max[1]), side(box.Max[0], box.Min[1], box.Max[0], box.Max[1])
	roof, floor := side(box.Min[0], box.Max[1], box.Max[0], box.Max[1]), side(box.Min[0], box.Min[1], box.Max[0], box.Min[1])
	mid := in.Center()
	row := func(k float64) float64 { return in.Min[1] + k*in.H() }
	switch part {
	case "roof":
		return spot{at: geom.Vec{in.Min[0] + 0.3*in.W(), in.Max[1] - off}, line: roof}, true
	case "bottom rails":
		return spot{at: geom.Vec{in.Min[0] + 0.45*in.W(), in.Min[1] + off}, line: floor}, true
	case "box":
		return spot{at: geom.Vec{in.Min[0] + 0.3*in.W(), row(0.5)}, line: nil}, true
	case "ribs":
		return spot{at: geom.Vec{in.Min[0] + 0.3*in.W(), row(0.35)}}, true
	case "wales":
		return spot{at: geom.Vec{in.Min[0] + 0.3*in.W(), row(0.2)}}, true
	case "pads":
		return spot{at: geom.Vec{box.Max[0] - 3*b.mm, (box.Min[1] + b.v.Formation) / 2}, line: floor}, true
	}
	if b.v.Long {
		switch part {
		case "back wall":
			return spot{at: geom.Vec{in.Max[0] - off, row(0.42)}, h: 1, line: right}, true
		case "back header":
			return spot{at: geom.Vec{in.Max[0] - off, row(0.86)}, h: 1, line: roof}, true
		case "left side wall":
			return spot{at: geom.Vec{in.Min[0] + off, row(0.7)}}, true
		case "right side wall":
			return spot{at: geom.Vec{in.Min[0] + off, row(0.58)}}, true
		}
		return spot{}, false
	}
	switch part {
	case "left side wall":
		return spot{at: geom.Vec{in.Min[0] + off, row(0.66)}, line: left}, true
	case "right side wall":
		return spot{at: geom.Vec{in.Max[0] - off, row(0.34)}, h: 1, line: right}, true
	case "left top rail":
		return spot{at: geom.Vec{in.Min[0] + off, row(0.84)}, line: left}, true
	case "right top rail":
		return spot{at: geom.Vec{in.Max[0] - off, row(0.75)}, h: 1, line: right}, true
	case "back wall":
		return spot{at: geom.Vec{mid[0], mid[1]}}, true
	}
	return spot{}, false
}
