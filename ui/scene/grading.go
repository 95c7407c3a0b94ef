package scene

import (
	"fmt"
	"math"
	"slices"

	"hillset/engine/drain"
	"hillset/engine/section"
	"hillset/geom"
	"hillset/ui/units"
)

// GradingLayer holds a grading chart.
const GradingLayer Layer = "grading"

// Grade is the grading of one material.
type Grade struct {
	Name  string
	Curve drain.Grading
	Stone bool // drain stone; else what it is to hold back
}

// Gradings is what a grading chart shows.
type Gradings struct {
	Title   string
	Lines   []Grade
	Band    *drain.Band // that a filter for the first line must lie in; nil for none
	Cloth   float64     // opening of the cloth, mm; 0 not known
	Opening float64     // opening of the pipe, mm; 0 none or not known
	Notes   []string    // what is missing, each a sentence
}

// gradingChart is a grading chart being drawn.
type gradingChart struct {
	*builder
	g      *Gradings
	plot   geom.Rect
	lo, hi float64 // decades at its ends, of mm
}

// BuildGrading draws gradings over the logarithm of the size: soils, drain
// stone, the band for a filter, the openings of cloth and pipe. Places of the
// scene are metres on paper. Sizes stand in mm in both systems of units, as on
// sieves. It fails where the chart is too small to be read.
func BuildGrading(g Gradings, o CurveOptions) (*Scene, error) {
	if !(o.Width >= leastCurve && o.Height >= leastCurve) || math.IsInf(o.Width, 0) || math.IsInf(o.Height, 0) {
		return nil, fmt.Errorf("grading chart: width %g mm, height %g mm: want %g mm or more", o.Width, o.Height, leastCurve)
	}
	for _, l := range g.Lines {
		if err := l.Curve.Validate(); err != nil {
			return nil, fmt.Errorf("grading chart, %s: %w", l.Name, err)
		}
	}
	b := &builder{v: &section.View{}, left: maxHatch, mm: 1 / mmScene, o: Options{MMPerM: mmScene, Units: o.Units}}
	b.at.win = geom.Rect{Max: geom.Vec{o.Width * b.mm, o.Height * b.mm}}
	c := &gradingChart{builder: b, g: &g}
	c.draw()
	s := b.scene()
	s.Caption = g.Title
	return s, nil
}

// draw lays the chart out: axes, band, lines, openings, then their names.
func (c *gradingChart) draw() {
	c.ranged()
	c.plot = geom.Rect{Min: geom.Vec{curveLeft * c.mm, (curveFoot + 1) * c.mm}, Max: geom.Vec{c.at.win.Max[0] - curveRight*c.mm, c.at.win.Max[1] - curveRight*c.mm}}
	c.shareAxis()
	c.sizeAxis()
	band := c.band()
	var lines []geom.Polyline
	for _, l := range c.g.Lines {
		lines = append(lines, c.line(l))
	}
	c.upright(c.g.Cloth)
	c.upright(c.g.Opening)
	for i, name := range []string{"filter, finest", "filter, coarsest"}[:len(band)] {
		c.name(name, band[i], WithinMark)
	}
	for i, l := range c.g.Lines {
		c.name(l.Name, lines[i], Ink)
	}
	c.opening("cloth opening", c.g.Cloth)
	c.opening("pipe opening", c.g.Opening)
}

// ranged finds the whole decades that hold all.
func (c *gradingChart) ranged() {
	lo, hi := math.Inf(1), math.Inf(-1)
	see := func(mm float64) {
		if mm > 0 && !math.IsInf(mm, 0) {
			lo, hi = math.Min(lo, math.Log10(mm)), math.Max(hi, math.Log10(mm))
		}
	}
	for _, l := range c.g.Lines {
		for _, s := range l.Curve {
			see(s.Size)
		}
	}
	if b := c.g.Band; b != nil {
		for _, s := range slices.Concat(b.Fine, b.Coarse) {
			see(s.Size)
		}
	}
	see(c.g.Cloth)
	see(c.g.Opening)
	if lo > hi {
		lo, hi = -2, 2
	}
	const slack = 1e-9
	c.lo, c.hi = math.Floor(lo+slack), math.Ceil(hi-slack)
	if c.hi-c.lo < 2 {
		c.hi = c.lo + 2
	}
}

// to is the place of a size, mm, and a share on the paper.
func (c *gradingChart) to(mm, share float64) geom.Vec {
	return geom.Vec{c.plot.Min[0] + (math.Log10(mm)-c.lo)/(c.hi-c.lo)*c.plot.W(), c.plot.Min[1] + share*c.plot.H()}
}

// shareAxis is the upright axis, percent passing.
func (c *gradingChart) shareAxis() {
	p := Path{Layer: GradingLayer, Tag: "grading:axis", Stroke: Thin, Width: wThin}
	lo, hi := c.plot.Min, c.plot.Max
	p.Parts = append(p.Parts, c.ink.chain(lo, geom.Vec{lo[0], hi[1]}, hi, geom.Vec{hi[0], lo[1]}, lo))
	step := 0.1
	if c.plot.H() < 45*c.mm {
		step = 0.2
	}
	for i := 0.0; i*step <= 1+1e-9; i++ {
		at := c.to(math.Pow(10, c.lo), i*step)
		p.Parts = append(p.Parts, c.ink.chain(at, at.Sub(geom.Vec{1.2 * c.mm, 0})))
		l := label(GradingLayer, "grading:axis", units.Number(100*i*step, 0))
		l.Height, l.Anchor = 2, Anchor{H: 1, V: 0.5}
		c.put(l, at.Sub(geom.Vec{1.8 * c.mm, 0}))
	}
	c.add(p)
	l := label(GradingLayer, "grading:axis", "% finer")
	l.Height, l.Anchor = 2, Anchor{V: 0}
	c.put(l, geom.Vec{1 * c.mm, hi[1] + 1.6*c.mm})
}

// sizeAxis is the level axis with a rule at every decade and ticks between.
func (c *gradingChart) sizeAxis() {
	rules := Path{Layer: GradingLayer, Tag: "grading:rule", Stroke: HatchSoil, Width: wHair}
	ticks := Path{Layer: GradingLayer, Tag: "grading:axis", Stroke: Thin, Width: wThin}
	for d := c.lo; d <= c.hi; d++ {
		at := c.to(math.Pow(10, d), 0)
		if d > c.lo && d < c.hi {
			rules.Parts = append(rules.Parts, c.ink.chain(at, geom.Vec{at[0], c.plot.Max[1]}))
		}
		ticks.Parts = append(ticks.Parts, c.ink.chain(at, at.Sub(geom.Vec{0, 1.4 * c.mm})))
		l := label(GradingLayer, "grading:axis", units.Number(math.Pow(10, d), int(max(0, -d))))
		l.Height, l.Anchor = 2, Anchor{H: 0.5, V: 1}
		c.put(l, at.Sub(geom.Vec{0, 3.2 * c.mm}))
		for k := 2.0; k <= 9 && d < c.hi; k++ {
			at := c.to(k*math.Pow(10, d), 0)
			ticks.Parts = append(ticks.Parts, c.ink.chain(at, at.Sub(geom.Vec{0, 0.7 * c.mm})))
		}
	}
	c.add(rules)
	c.add(ticks)
	l := label(GradingLayer, "grading:axis", "size, mm")
	l.Anchor = Anchor{H: 0.5, V: 1}
	c.must(l, geom.Vec{c.plot.Center()[0], c.plot.Min[1] - 7.2*c.mm}, geom.Vec{c.plot.Center()[0], c.plot.Min[1] - 7.6*c.mm})
}

// points are those of a grading on the paper.
func (c *gradingChart) points(g drain.Grading) []geom.Vec {
	var out []geom.Vec
	for _, s := range g {
		out = append(out, c.to(s.Size, s.Passes))
	}
	return out
}

// line draws one grading: solid for soil, heavy for stone; a mark at each
// point that is known.
func (c *gradingChart) line(l Grade) geom.Polyline {
	pts := c.points(l.Curve)
	width := wMid
	if l.Stone {
		width = wHeavy
	}
	c.stroke(GradingLayer, "grading:line", Ink, width, nil, pts...)
	marks := Path{Layer: GradingLayer, Tag: "grading:points", Closed: true, Fill: Ink}
	for _, p := range pts {
		marks.Parts = append(marks.Parts, circle(p, 0.55*c.mm, 10))
	}
	c.add(marks)
	return pts
}

// band draws the limits of a filter, each a dashed line: the finest first.
func (c *gradingChart) band() []geom.Polyline {
	if c.g.Band == nil {
		return nil
	}
	var out []geom.Polyline
	for _, g := range []drain.Grading{c.g.Band.Fine, c.g.Band.Coarse} {
		pts := c.points(g)
		c.stroke(GradingLayer, "grading:band", WithinMark, wMid, dashLong, pts...)
		out = append(out, pts)
	}
	return out
}

// name names a line.
func (c *gradingChart) name(text string, pts geom.Polyline, role Role) {
	c.nameBeside(c.plot, GradingLayer, "grading:name", text, pts, role)
}

// nameBeside sets a name beside a line of a plot, where there is room; else it
// is led to it.
func (b *builder) nameBeside(plot geom.Rect, layer Layer, tag, text string, pts geom.Polyline, role Role) {
	l := label(layer, tag, text)
	l.Height, l.Role = 2.2, role
	for _, at := range along(pts) {
		for _, h := range []float64{0, 1} {
			l.Anchor = Anchor{H: h, V: 0.5}
			l.At = at.Add(geom.Vec{(1 - 2*h) * 1.6 * b.mm, 0})
			room := labelBox(&l, b.o.MMPerM, clearance)
			if inPlot(plot, room) && b.at.free(room) && b.at.crossed(room) == 0 {
				b.keep(l)
				return
			}
		}
	}
	if len(pts) > 0 {
		b.callout(l, pts[len(pts)/2], 0.3)
	}
}

// inPlot tells whether a text lies inside the axes.
func inPlot(plot geom.Rect, o obox) bool {
	for _, k := range o.corners() {
		if !plot.Contains(k) {
			return false
		}
	}
	return true
}

// along are places on a line to set a name beside, from its middle outwards.
func along(pts geom.Polyline) []geom.Vec {
	var out []geom.Vec
	const steps = 6
	for i := 1; i < len(pts); i++ {
		for k := range steps {
			t := (float64(k) + 0.5) / steps
			out = append(out, pts[i-1].Add(pts[i].Sub(pts[i-1]).Mul(t)))
		}
	}
	if len(pts) == 0 {
		return nil
	}
	mid := (pts[0][1] + pts[len(pts)-1][1]) / 2
	slices.SortStableFunc(out, func(a, b geom.Vec) int {
		da, db := math.Abs(a[1]-mid), math.Abs(b[1]-mid)
		switch {
		case da < db:
			return -1
		case da > db:
			return 1
		}
		return 0
	})
	return out
}

// upright is a line at the size of an opening.
func (c *gradingChart) upright(mm float64) {
	if mm > 0 {
		c.stroke(GradingLayer, "grading:opening", BeyondMark, wNarrow, dashShort, c.to(mm, 0), c.to(mm, 1))
	}
}

// opening names that line.
func (c *gradingChart) opening(name string, mm float64) {
	if !(mm > 0) {
		return
	}
	head := c.to(mm, 1)
	l := label(GradingLayer, "grading:opening", name+" "+units.Number(mm, decimalsFor(mm))+" mm")
	l.Height, l.Role = 2.2, BeyondMark
	for d := 0.0; d < c.plot.H(); d += 4 * c.mm {
		for _, h := range []float64{0, 1} {
			l.Anchor = Anchor{H: h, V: 1}
			l.At = head.Add(geom.Vec{(1 - 2*h) * 1.2 * c.mm, -1*c.mm - d})
			room := labelBox(&l, c.o.MMPerM, clearance)
			if inPlot(c.plot, room) && c.at.free(room) && c.at.crossed(room) == 0 {
				c.keep(l)
				return
			}
		}
	}
	c.callout(l, head.Sub(geom.Vec{0, c.plot.H() / 3}), 0.3)
}

// decimalsFor is how many decimals a size in mm needs.
func decimalsFor(mm float64) int {
	switch {
	case mm < 0.1:
		return 3
	case mm < 1:
		return 2
	case mm < 10:
		return 1
	}
	return 0
}
