package scene

import (
	"fmt"
	"math"
	"slices"

	"hillset/engine/assess"
	"hillset/engine/section"
	"hillset/geom"
	"hillset/ui/face"
	"hillset/ui/units"
)

// CurveLayer holds a chart.
const CurveLayer Layer = "curve"

// CurveOptions say how a chart is drawn.
type CurveOptions struct {
	Width, Height float64 // of the chart, mm on paper, margins included
	Units         units.System
}

// Measures of a chart, mm on paper.
const (
	curveLeft  = 12.0
	curveRight = 5.0
	curveFoot  = 12.0
	curveLine  = 4.2 // of the first line below the upper edge
	curveMost  = 3.0 // ratios above are cut off, with a sign
	leastCurve = 40.0
)

// mmScene is the scale of scenes that are laid out in mm: a metre of the scene
// is a metre of paper.
const mmScene = 1000.0

// BuildCurve draws the answer to one question: the largest ratio against the
// value that was varied, in the reader's units, with the limit at 1.00, the
// value as drawn and the answer. Places of the scene are metres on paper. It
// fails where the chart is too small to be read.
func BuildCurve(c assess.Curve, o CurveOptions) (*Scene, error) {
	if !(o.Width >= leastCurve && o.Height >= leastCurve) || math.IsInf(o.Width, 0) || math.IsInf(o.Height, 0) {
		return nil, fmt.Errorf("chart: width %g mm, height %g mm: want %g mm or more", o.Width, o.Height, leastCurve)
	}
	unit, err := units.Parse(c.Kind, "1", o.Units)
	if err != nil {
		return nil, fmt.Errorf("chart %s: %w", c.ID, err)
	}
	b := &builder{v: &section.View{}, left: maxHatch, mm: 1 / mmScene, o: Options{MMPerM: mmScene, Units: o.Units}}
	b.at.win = geom.Rect{Max: geom.Vec{o.Width * b.mm, o.Height * b.mm}}
	k := &chart{builder: b, c: &c, unit: unit}
	k.draw()
	s := b.scene()
	s.Caption = c.Question
	return s, nil
}

// chart is a curve being drawn.
type chart struct {
	*builder
	c      *assess.Curve
	unit   float64   // one unit of the reader in SI
	plot   geom.Rect // of the axes, m of paper
	lo, hi float64   // values at its ends, SI
	top    float64   // ratio at its upper edge
}

// draw lays the chart out from the outside in: words above and below, axes,
// the line, the marks.
func (k *chart) draw() {
	high := k.words(k.c.Question, k.at.win.Max[1]-curveLine*k.mm, 3, true)
	low := k.foot()
	k.plot = geom.Rect{Min: geom.Vec{curveLeft * k.mm, low}, Max: geom.Vec{k.at.win.Max[0] - curveRight*k.mm, high}}
	if !k.ranged() || k.plot.H() < 8*k.mm {
		return
	}
	k.ratioAxis()
	k.valueAxis()
	k.limit()
	k.line()
	k.marks()
}

// words writes a text over as many lines as it needs and gives the level below
// them.
func (k *chart) words(text string, z, height float64, bold bool) float64 {
	width := k.at.win.W() - 2*2*k.mm
	for _, line := range wrapped(text, width/k.mm, height, bold) {
		l := label(CurveLayer, "curve:words", line)
		l.Height, l.Bold = height, bold
		k.must(l, geom.Vec{2 * k.mm, z})
		z -= pitchOf(height) * k.mm
	}
	return z
}

// pitchOf is from line to line of a text, mm: its room with the clear ground
// round it.
func pitchOf(height float64) float64 { return height*(1+riseShare+dropShare) + 2*clearance + 0.05 }

// wrapped breaks a text at its spaces to lines of a width, mm. A word longer
// than a line stands alone.
func wrapped(text string, width, height float64, bold bool) []string {
	text, _ = face.Clean(text)
	var out []string
	line, from := "", 0
	for i := 0; i <= len(text); i++ {
		if i < len(text) && text[i] != ' ' {
			continue
		}
		word := text[from:i]
		from = i + 1
		if word == "" {
			continue
		}
		if line != "" && face.Width(line+" "+word, height, bold) > width {
			out, line = append(out, line), word
		} else if line == "" {
			line = word
		} else {
			line += " " + word
		}
	}
	if line != "" {
		out = append(out, line)
	}
	return out
}

// foot writes below the axis what was left out and why, and gives the level
// of the axis.
func (k *chart) foot() float64 {
	const height, most = 2.0, 2 // of the letters; reasons written out
	var texts, lines []string
	if why := units.Say(k.c.Answer.Why, k.o.Units); why != "" {
		texts = append(texts, why)
	}
	for _, p := range k.c.Points {
		if why := "Gap: " + units.Say(p.Why, k.o.Units); math.IsNaN(p.Ratio) && p.Why != "" && p.Why != k.c.Answer.Why && !slices.Contains(texts, why) {
			texts = append(texts, why)
		}
	}
	if more := len(texts) - most; more > 0 {
		texts = append(texts[:most], fmt.Sprintf("Reasons not written here: %d", more))
	}
	for _, t := range texts {
		lines = append(lines, wrapped(t, k.at.win.W()/k.mm-4, height, false)...)
	}
	pitch := pitchOf(height)
	z := (1 + float64(len(lines))*pitch) * k.mm
	for i, t := range lines {
		l := label(CurveLayer, "curve:why", t)
		l.Height = height
		k.must(l, geom.Vec{2 * k.mm, z - float64(i+1)*pitch*k.mm + 0.7*k.mm})
	}
	return z + curveFoot*k.mm
}

// ranged finds the ends of the axes; false where there is nothing to draw.
func (k *chart) ranged() bool {
	k.lo, k.hi, k.top = math.Inf(1), math.Inf(-1), 1.25
	see := func(v float64) {
		if geom.Finite(v) {
			k.lo, k.hi = math.Min(k.lo, v), math.Max(k.hi, v)
		}
	}
	for _, p := range k.c.Points {
		see(p.V)
		if !math.IsNaN(p.Ratio) {
			k.top = math.Max(k.top, p.Ratio)
		}
	}
	see(k.c.Answer.Value)
	see(k.c.Now)
	if !(k.lo <= k.hi) {
		return false
	}
	if k.hi-k.lo < 1e-9*math.Max(1, math.Abs(k.hi)) {
		k.lo, k.hi = k.lo-k.unit, k.hi+k.unit
	}
	k.top = math.Min(curveMost, 1.04*k.top)
	return true
}

// to is the place of a value and a ratio on the paper.
func (k *chart) to(v, ratio float64) geom.Vec {
	return geom.Vec{k.plot.Min[0] + (v-k.lo)/(k.hi-k.lo)*k.plot.W(), k.plot.Min[1] + ratio/k.top*k.plot.H()}
}

// ratioAxis is the upright axis.
func (k *chart) ratioAxis() {
	step := roundUp(6.5 * k.mm * k.top / k.plot.H())
	p := Path{Layer: CurveLayer, Tag: "curve:axis", Stroke: Thin, Width: wThin}
	p.Parts = append(p.Parts, k.ink.chain(k.plot.Min, geom.Vec{k.plot.Min[0], k.plot.Max[1]}), k.ink.chain(k.plot.Min, geom.Vec{k.plot.Max[0], k.plot.Min[1]}))
	for i := 0.0; i*step <= k.top*(1+1e-9); i++ {
		at := geom.Vec{k.plot.Min[0], k.to(0, i*step)[1]}
		p.Parts = append(p.Parts, k.ink.chain(at, at.Sub(geom.Vec{1.2 * k.mm, 0})))
		l := label(CurveLayer, "curve:axis", units.Number(i*step, decimalsOf(step)))
		l.Height, l.Anchor = 2, Anchor{H: 1, V: 0.5}
		k.put(l, at.Sub(geom.Vec{1.8 * k.mm, 0}))
	}
	k.add(p)
}

// decimalsOf is how many decimals a round step has.
func decimalsOf(step float64) int { return max(0, -int(math.Floor(math.Log10(step*(1+1e-9))))) }

// valueAxis is the level axis, with round numbers of the reader's unit and
// what is varied.
func (k *chart) valueAxis() {
	step := roundUp(11 * k.mm * (k.hi - k.lo) / k.unit / k.plot.W())
	p := Path{Layer: CurveLayer, Tag: "curve:axis", Stroke: Thin, Width: wThin}
	first := math.Ceil(k.lo/k.unit/step - 1e-9)
	for i := first; i*step*k.unit <= k.hi+1e-9*(k.hi-k.lo); i++ {
		at := k.to(i*step*k.unit, 0)
		p.Parts = append(p.Parts, k.ink.chain(at, at.Sub(geom.Vec{0, 1.2 * k.mm})))
		l := label(CurveLayer, "curve:axis", units.Number(i*step, decimalsOf(step)))
		l.Height, l.Anchor = 2, Anchor{H: 0.5, V: 1}
		k.put(l, at.Sub(geom.Vec{0, 3.2 * k.mm}))
	}
	k.add(p)
	text := k.c.Axis
	if u := units.Unit(k.c.Kind, k.o.Units); u != "" {
		text += ", " + u
	}
	l := label(CurveLayer, "curve:axis", text)
	l.Anchor = Anchor{H: 0.5, V: 1}
	k.must(l, geom.Vec{k.plot.Center()[0], k.plot.Min[1] - 7.2*k.mm})
}

// limit is the line at 1.00, drawn over the whole width.
func (k *chart) limit() {
	at := k.to(k.lo, 1)
	end := geom.Vec{k.plot.Max[0], at[1]}
	k.stroke(CurveLayer, "curve:limit", BeyondMark, wMid, dashLong, at, end)
	l := label(CurveLayer, "curve:limit", "limit 1.00")
	l.Height, l.Role = 2, BeyondMark
	l.Anchor = Anchor{H: 1}
	up := geom.Vec{0, 0.9 * k.mm}
	l2 := at.Add(up).Add(geom.Vec{12 * k.mm, 0})
	k.put(l, end.Add(up), l2, end.Sub(geom.Vec{0, 3.1 * k.mm}), l2.Sub(geom.Vec{0, 4 * k.mm}))
}

// line joins the points that were computed side by side, with a mark at each;
// one cut off at the top has an arrow.
func (k *chart) line() {
	line := Path{Layer: CurveLayer, Tag: "curve:line", Stroke: Ink, Width: wGround}
	marks := Path{Layer: CurveLayer, Tag: "curve:points", Closed: true, Fill: Ink}
	var run geom.Polyline
	flush := func() {
		for _, c := range clipLine(run, k.plot.Expand(1e-9)) {
			line.Parts = append(line.Parts, c)
			k.at.chain(c)
		}
		run = nil
	}
	for _, p := range k.c.Points {
		if math.IsNaN(p.Ratio) || !geom.Finite(p.V) {
			flush()
			continue
		}
		const endless = 1e3 // as far as a line goes up
		at := k.to(p.V, math.Min(p.Ratio, endless))
		run = append(run, at)
		if p.Ratio > k.top {
			at[1] = k.plot.Max[1]
			w, h := 0.9*k.mm, 1.8*k.mm
			marks.Parts = append(marks.Parts, k.ink.chain(at.Add(geom.Vec{0, h}), at.Add(geom.Vec{-w, 0}), at.Add(geom.Vec{w, 0})))
			k.at.take(newBox(at.Add(geom.Vec{0, h / 2}), 0, w, h/2))
		} else {
			marks.Parts = append(marks.Parts, circle(at, 0.55*k.mm, 10))
		}
	}
	flush()
	k.add(line)
	k.add(marks)
}

// marks are the value as drawn and the answer.
func (k *chart) marks() {
	if geom.Finite(k.c.Now) {
		foot, head := k.to(k.c.Now, 0), k.to(k.c.Now, k.top)
		k.stroke(CurveLayer, "curve:now", Thin, wNarrow, dashShort, foot, head)
		l := label(CurveLayer, "curve:now", "as drawn "+units.Format(k.c.Now, k.c.Kind, k.o.Units))
		l.Height = 2.2
		k.besideMark(l, head, head, k.plot.H())
	}
	text, a := "", k.c.Answer
	switch {
	case a.AtLeast:
		text = "all values tried are within limits"
	case a.None && geom.Finite(a.Alone):
		text = "other checks are beyond limits"
	case a.None:
		text = "no value tried is within limits"
	case geom.Finite(a.Value):
		at := k.to(a.Value, 1)
		w := 1.3 * k.mm
		k.solid(CurveLayer, "curve:answer", WithinMark, at, at.Add(geom.Vec{-w, 2.2 * k.mm}), at.Add(geom.Vec{w, 2.2 * k.mm}))
		l := label(CurveLayer, "curve:answer", units.Format(a.Value, k.c.Kind, k.o.Units))
		l.Bold, l.Role = true, WithinMark
		k.besideMark(l, at.Add(geom.Vec{0, 2.5 * k.mm}), at.Add(geom.Vec{0, 5.5 * k.mm}), 0.5*k.plot.H())
		return
	}
	if text != "" {
		l := label(CurveLayer, "curve:answer", text)
		l.Bold, l.Anchor = true, Anchor{H: 0.5, V: 0.5}
		c := k.plot.Center()
		k.must(l, geom.Vec{c[0], k.plot.Max[1] - 3*k.mm}, c, geom.Vec{c[0], k.plot.Min[1] + 3*k.mm}, geom.Vec{c[0], k.plot.Min[1] + 0.25*k.plot.H()})
	}
}

// besideMark sets a text at the right or the left of a place, or further down;
// where it would cover something it is led to the mark.
func (k *chart) besideMark(l Label, mark, at geom.Vec, deep float64) {
	for _, h := range []float64{0, 1} {
		l.Anchor = Anchor{H: h, V: 1}
		for d := 0.0; d < deep; d += 4 * k.mm {
			p := at.Add(geom.Vec{(1 - 2*h) * 1.2 * k.mm, -d})
			l.At = p
			if r := labelBox(&l, k.o.MMPerM, clearance); k.at.free(r) && k.at.crossed(r) == 0 {
				k.keep(l)
				return
			}
		}
	}
	k.callout(l, mark, 0.3)
}
