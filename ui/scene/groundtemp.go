package scene

import (
	"fmt"
	"math"

	"hillset/engine/climate"
	"hillset/engine/quantity"
	"hillset/engine/section"
	"hillset/geom"
	"hillset/ui/units"
)

// GroundTempLayer holds a chart of ground temperature.
const GroundTempLayer Layer = "groundtemp"

// DepthMark is a depth worth a rule across the chart.
type DepthMark struct {
	Name  string
	Depth float64 // m
}

// GroundTemps is what a chart of ground temperature shows.
type GroundTemps struct {
	Title  string
	Ground climate.Ground
	Dated  bool // the coldest day is known, so that lines can be named by their month
	Marks  []DepthMark
}

// Depth that the chart shows at the least, and below its lowest mark, m.
const (
	leastGround = 4.0
	belowMark   = 1.0
)

// groundChart is a chart of ground temperature being drawn.
type groundChart struct {
	*builder
	g      *GroundTemps
	plot   geom.Rect
	lo, hi float64 // temperatures at its ends, °C
	deep   float64 // depth at its foot, m
}

// BuildGroundTemps draws the temperature of the ground over depth at four
// seasons of the year, with freezing and the depths that matter. Places of the
// scene are metres on paper. It fails where the chart is too small to be read,
// and where the ground is out of range.
func BuildGroundTemps(g GroundTemps, o CurveOptions) (*Scene, error) {
	if !(o.Width >= leastCurve && o.Height >= leastCurve) || math.IsInf(o.Width, 0) || math.IsInf(o.Height, 0) {
		return nil, fmt.Errorf("chart of ground temperature: width %g mm, height %g mm: want %g mm or more", o.Width, o.Height, leastCurve)
	}
	b := &builder{v: &section.View{}, left: maxHatch, mm: 1 / mmScene, o: Options{MMPerM: mmScene, Units: o.Units}}
	b.at.win = geom.Rect{Max: geom.Vec{o.Width * b.mm, o.Height * b.mm}}
	c := &groundChart{builder: b, g: &g, deep: leastGround}
	for _, m := range g.Marks {
		c.deep = math.Max(c.deep, m.Depth+belowMark)
	}
	most, err := g.Ground.Most(0)
	if err != nil {
		return nil, fmt.Errorf("chart of ground temperature: %w", err)
	}
	c.lo, c.hi = math.Min(2*g.Ground.Mean-most, 0)-1, math.Max(most, 0)+1
	if err := c.draw(); err != nil {
		return nil, fmt.Errorf("chart of ground temperature: %w", err)
	}
	s := b.scene()
	s.Caption = g.Title
	return s, nil
}

func (c *groundChart) draw() error {
	c.plot = geom.Rect{Min: geom.Vec{curveLeft * c.mm, curveRight * c.mm}, Max: geom.Vec{c.at.win.Max[0] - curveRight*c.mm, c.at.win.Max[1] - curveFoot*c.mm}}
	c.depthAxis()
	if err := c.warmthAxis(); err != nil {
		return err
	}
	var lines []geom.Polyline
	for i := range 4 {
		line, err := c.season(i)
		if err != nil {
			return err
		}
		lines = append(lines, line)
	}
	c.marks()
	for i, line := range lines {
		c.nameBeside(c.plot, GroundTempLayer, "groundtemp:name", c.called(i), line, Ink)
	}
	return nil
}

// to is the place of a temperature at a depth.
func (c *groundChart) to(temp, depth float64) geom.Vec {
	return geom.Vec{c.plot.Min[0] + (temp-c.lo)/(c.hi-c.lo)*c.plot.W(), c.plot.Max[1] - depth/c.deep*c.plot.H()}
}

// depthAxis is the upright axis, depth downwards.
func (c *groundChart) depthAxis() {
	p := Path{Layer: GroundTempLayer, Tag: "groundtemp:axis", Stroke: Thin, Width: wThin}
	lo, hi := c.plot.Min, c.plot.Max
	p.Parts = append(p.Parts, c.ink.chain(lo, geom.Vec{lo[0], hi[1]}, hi, geom.Vec{hi[0], lo[1]}, lo))
	one, _ := units.Parse(quantity.Length, "1", c.o.Units)
	step := roundUp(6.5 * c.mm * c.deep / one / c.plot.H())
	for i := 0.0; i*step*one <= c.deep*(1+1e-9); i++ {
		at := c.to(c.lo, i*step*one)
		p.Parts = append(p.Parts, c.ink.chain(at, at.Sub(geom.Vec{1.2 * c.mm, 0})))
		l := label(GroundTempLayer, "groundtemp:axis", units.Number(i*step, decimalsOf(step)))
		l.Height, l.Anchor = 2, Anchor{H: 1, V: 0.5}
		c.put(l, at.Sub(geom.Vec{1.8 * c.mm, 0}))
	}
	c.add(p)
	l := label(GroundTempLayer, "groundtemp:axis", "depth, "+units.Unit(quantity.Length, c.o.Units))
	l.Height, l.Anchor = 2, Anchor{V: 0}
	c.put(l, geom.Vec{1 * c.mm, hi[1] + 7*c.mm}, geom.Vec{1 * c.mm, hi[1] + 4*c.mm})
}

// warmthAxis is the level axis along the surface, with a rule at freezing.
func (c *groundChart) warmthAxis() error {
	zero, err := units.Parse(quantity.Temperature, "0", c.o.Units)
	if err != nil {
		return err
	}
	one, err := units.Parse(quantity.Temperature, "1", c.o.Units)
	if err != nil {
		return err
	}
	size := one - zero
	step := roundUp(9 * c.mm * (c.hi - c.lo) / size / c.plot.W())
	p := Path{Layer: GroundTempLayer, Tag: "groundtemp:axis", Stroke: Thin, Width: wThin}
	for i := math.Ceil((c.lo-zero)/size/step - 1e-9); zero+i*step*size <= c.hi+1e-9; i++ {
		at := c.to(zero+i*step*size, 0)
		p.Parts = append(p.Parts, c.ink.chain(at, at.Add(geom.Vec{0, 1.2 * c.mm})))
		l := label(GroundTempLayer, "groundtemp:axis", units.Number(i*step, decimalsOf(step)))
		l.Height, l.Anchor = 2, Anchor{H: 0.5}
		c.put(l, at.Add(geom.Vec{0, 1.8 * c.mm}))
	}
	c.add(p)
	c.stroke(GroundTempLayer, "groundtemp:freezing", BeyondMark, wNarrow, dashLong, c.to(0, 0), c.to(0, c.deep))
	l := label(GroundTempLayer, "groundtemp:axis", "temperature, "+units.Unit(quantity.Temperature, c.o.Units))
	l.Anchor = Anchor{H: 0.5}
	c.must(l, geom.Vec{c.plot.Center()[0], c.plot.Max[1] + 6.6*c.mm})
	return nil
}

// season draws the line of the coldest day of the surface and of those a
// quarter of a year apart.
func (c *groundChart) season(quarter int) (geom.Polyline, error) {
	const steps = 48
	var out geom.Polyline
	for i := range steps + 1 {
		z := c.deep * float64(i) / steps
		t, err := c.g.Ground.At(z, c.g.Ground.Coldest+float64(quarter)*yearDays/4)
		if err != nil {
			return nil, err
		}
		out = append(out, c.to(t, z))
	}
	dash := [][]float64{nil, dashLong, nil, dashShort}[quarter]
	width := []float64{wHeavy, wMid, wMid, wMid}[quarter]
	c.stroke(GroundTempLayer, "groundtemp:line", Ink, width, dash, out...)
	return out, nil
}

const yearDays = 365.0

// called names a line: by its month where the coldest day is known.
func (c *groundChart) called(quarter int) string {
	if !c.g.Dated {
		return []string{"coldest", "3 months on", "warmest", "9 months on"}[quarter]
	}
	ends := []float64{31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334, 365}
	names := []string{"January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"}
	d := math.Mod(c.g.Ground.Coldest+float64(quarter)*yearDays/4, yearDays)
	for i, end := range ends {
		if d <= end {
			return names[i]
		}
	}
	return names[0]
}

// marks are rules at the depths that matter, named where there is room.
func (c *groundChart) marks() {
	for _, m := range c.g.Marks {
		if !(m.Depth > 0 && m.Depth < c.deep) {
			continue
		}
		a, b := c.to(c.lo, m.Depth), c.to(c.hi, m.Depth)
		c.stroke(GroundTempLayer, "groundtemp:mark", Thin, wNarrow, dashShort, a, b)
	}
	for _, m := range c.g.Marks {
		if m.Depth > 0 && m.Depth < c.deep {
			l := label(GroundTempLayer, "groundtemp:mark", m.Name+" "+units.Format(m.Depth, quantity.Length, c.o.Units))
			l.Height = 2
			up, down := geom.Vec{0, 0.9 * c.mm}, geom.Vec{0, -2.9 * c.mm}
			var places []geom.Vec
			for x := 1.5; x < c.plot.W()/c.mm-10; x += 4 {
				for _, off := range []geom.Vec{up, down} {
					places = append(places, c.to(c.lo, m.Depth).Add(geom.Vec{x * c.mm, 0}).Add(off))
				}
			}
			c.clear(l, places)
		}
	}
}

// clear sets a text at the first place where it covers nothing, inside the
// axes; else it is led to the first.
func (c *groundChart) clear(l Label, places []geom.Vec) {
	for _, at := range places {
		l.At = at
		room := labelBox(&l, c.o.MMPerM, clearance)
		if inPlot(c.plot, room) && c.at.free(room) && c.at.crossed(room) == 0 {
			c.keep(l)
			return
		}
	}
	if len(places) > 0 {
		c.callout(l, places[0], 0.3)
	}
}
