package slope

import (
	"fmt"
	"math"
	"slices"

	"hillset/engine/earth/limit"
	"hillset/engine/quantity"
	"hillset/geom"
)

// Soil is what a zone is made of.
type Soil struct {
	Name     string
	Gamma    float64 // kN/m3, above water
	GammaSat float64 // kN/m3, below water
	C        float64 // kPa: c', or cu with Phi 0
	Phi      float64 // rad
	// Firm is rock or a body: it weighs, and no slip line goes through it.
	Firm bool
}

func (s *Soil) check() error {
	if s.Firm {
		return limit.First(limit.Within("gamma", s.Gamma, 0, heaviest, quantity.UnitWeight),
			limit.Within("gamma_sat", s.GammaSat, 0, heaviest, quantity.UnitWeight))
	}
	return limit.First(
		limit.Within("gamma", s.Gamma, 1, heaviest, quantity.UnitWeight),
		limit.Within("gamma_sat", s.GammaSat, s.Gamma, heaviest, quantity.UnitWeight),
		limit.Within("c", s.C, 0, strongest, quantity.Pressure),
		angle("phi", s.Phi, roughest))
}

// Zone is a part of the section. Of zones that overlap the later one counts.
type Zone struct {
	Soil   Soil
	Region geom.Region
}

// Load is a weight on the surface.
type Load struct {
	X0, X1 float64 // m
	Q      float64 // kPa, on the level
}

// In is a section to be judged.
type In struct {
	Zones []Zone
	Loads []Load
	// Water is the water table: soil below it has its saturated weight, and
	// without Pore the pressure of the water straight above. Nil for dry ground.
	Water geom.Polyline
	// Pore is the pore pressure at a point, kPa; nil takes Water.
	Pore func(v geom.Vec) float64
	Ru   float64 // pore pressure as a share of the weight above; instead of both
	Kh   float64 // horizontal part of the weight of soil that an earthquake adds
}

func (in *In) check() error {
	if len(in.Zones) == 0 {
		return &limit.Error{Field: "zones", Value: 0, Lo: 1, Hi: math.Inf(1), Why: "there is no ground"}
	}
	for i := range in.Zones {
		if err := in.Zones[i].Soil.check(); err != nil {
			return limit.In(fmt.Sprintf("zones[%d]", i), err)
		}
	}
	for i, l := range in.Loads {
		if err := limit.First(limit.Finite("x0", l.X0, quantity.Length), limit.AtLeast("x1", l.X1, l.X0, quantity.Length),
			limit.Within("q", l.Q, 0, 1e5, quantity.Pressure)); err != nil {
			return limit.In(fmt.Sprintf("loads[%d]", i), err)
		}
	}
	if in.Water != nil {
		if err := in.Water.Validate(); err != nil {
			return fmt.Errorf("water: %w", err)
		}
	}
	return limit.First(limit.Within("ru", in.Ru, 0, 1, quantity.Share), limit.Within("kh", in.Kh, 0, 1, quantity.None))
}

// Ground is a section cut into columns, ready to be judged along any slip line.
// It never changes, so that searches may share it.
type Ground struct {
	in      In
	columns []column
	tans    []float64 // tan phi of the zones
}

// column is a part of the section between two upright lines, in which no edge
// begins, ends or crosses another. Its bands run from the bottom up.
type column struct {
	x0, x1 float64
	bands  []band
	q      float64 // kPa on its surface
	// wet is the water table over it, m.
	wet      [2]float64
	hasWater bool
}

// band is one soil between two straight edges.
type band struct {
	lo, hi [2]float64 // levels at x0 and x1
	soil   int        // index of the zone
}

// New makes a section ready. Errors name field, value and range.
func New(in In) (*Ground, error) {
	if err := in.check(); err != nil {
		return nil, err
	}
	g := &Ground{in: in}
	for _, z := range in.Zones {
		g.tans = append(g.tans, math.Tan(z.Soil.Phi))
	}
	es := in.edges()
	xs := in.breaks(es)
	for i := 0; i+1 < len(xs); i++ {
		if c := in.column(xs[i], xs[i+1], es); len(c.bands) > 0 {
			g.columns = append(g.columns, c)
		}
	}
	if len(g.columns) == 0 {
		return nil, &limit.Error{Field: "zones", Value: 0, Lo: 1, Hi: math.Inf(1), Why: "the zones are empty"}
	}
	return g, nil
}

// Mirror is the same ground with x turned round.
func (g *Ground) Mirror() *Ground {
	m := &Ground{in: g.in, tans: g.tans}
	m.in.Water = nil
	for _, v := range slices.Backward(g.in.Water) {
		m.in.Water = append(m.in.Water, flip(v))
	}
	if pore := g.in.Pore; pore != nil {
		m.in.Pore = func(v geom.Vec) float64 { return pore(flip(v)) }
	}
	for _, c := range slices.Backward(g.columns) {
		o := column{x0: -c.x1, x1: -c.x0, q: c.q, bands: make([]band, len(c.bands)), wet: [2]float64{c.wet[1], c.wet[0]}, hasWater: c.hasWater}
		for i, b := range c.bands {
			o.bands[i] = band{[2]float64{b.lo[1], b.lo[0]}, [2]float64{b.hi[1], b.hi[0]}, b.soil}
		}
		m.columns = append(m.columns, o)
	}
	return m
}

// WithPore is the same ground under other pore pressures, kPa.
func (g *Ground) WithPore(pore func(v geom.Vec) float64) *Ground {
	o := *g
	o.in.Pore = pore
	return &o
}

// Soil is that of a zone by its index, as a Slice names it.
func (g *Ground) Soil(zone int) Soil { return g.in.Zones[zone].Soil }

func flip(v geom.Vec) geom.Vec { return geom.Vec{-v[0], v[1]} }

// least is the least width of a column, m: below it lines are one.
const least = 1e-6

// edge is a side of a zone, from left to right.
type edge struct{ a, b geom.Vec }

func (e edge) at(x float64) float64 {
	return e.a[1] + (e.b[1]-e.a[1])*(x-e.a[0])/(e.b[0]-e.a[0])
}

// edges are all sides that are not upright.
func (in *In) edges() (out []edge) {
	for _, z := range in.Zones {
		for _, p := range z.Region {
			for _, r := range append([]geom.Ring{p.Outer}, p.Holes...) {
				for i, a := range r {
					b := r[(i+1)%len(r)]
					if a[0] > b[0] {
						a, b = b, a
					}
					if b[0]-a[0] > least {
						out = append(out, edge{a, b})
					}
				}
			}
		}
	}
	return out
}

// breaks are the places where an edge begins, ends or crosses another, where
// the water table bends and where a load ends, rising.
func (in *In) breaks(es []edge) []float64 {
	var xs []float64
	for i, e := range es {
		xs = append(xs, e.a[0], e.b[0])
		for _, f := range es[:i] {
			if x, ok := e.crosses(f); ok {
				xs = append(xs, x)
			}
		}
	}
	if len(xs) == 0 {
		return nil
	}
	lo, hi := slices.Min(xs), slices.Max(xs)
	inside := func(x float64) {
		if x > lo && x < hi {
			xs = append(xs, x)
		}
	}
	for _, l := range in.Loads {
		inside(l.X0)
		inside(l.X1)
	}
	for _, v := range in.Water {
		inside(v[0])
	}
	slices.Sort(xs)
	out := xs[:1]
	for _, x := range xs[1:] {
		if x-out[len(out)-1] > least {
			out = append(out, x)
		}
	}
	return out
}

// crosses is where two edges cross inside of both.
func (e edge) crosses(f edge) (x float64, ok bool) {
	lo, hi := math.Max(e.a[0], f.a[0]), math.Min(e.b[0], f.b[0])
	if hi-lo <= least {
		return 0, false
	}
	d0, d1 := e.at(lo)-f.at(lo), e.at(hi)-f.at(hi)
	if d0*d1 >= 0 {
		return 0, false
	}
	return lo + (hi-lo)*d0/(d0-d1), true
}

// column stacks what lies between two breaks.
func (in *In) column(x0, x1 float64, es []edge) column {
	c := column{x0: x0, x1: x1}
	mid := (x0 + x1) / 2
	type span struct{ z0, z1 float64 }
	var spans []span
	for _, e := range es {
		if e.a[0] <= mid && e.b[0] >= mid {
			spans = append(spans, span{e.at(x0), e.at(x1)})
		}
	}
	slices.SortFunc(spans, func(a, b span) int {
		switch m, n := a.z0+a.z1, b.z0+b.z1; {
		case m < n:
			return -1
		case m > n:
			return 1
		}
		return 0
	})
	for i := 0; i+1 < len(spans); i++ {
		lo, hi := spans[i], spans[i+1]
		if hi.z0-lo.z0 < least && hi.z1-lo.z1 < least {
			continue
		}
		k := in.zoneAt(geom.Vec{mid, (lo.z0 + lo.z1 + hi.z0 + hi.z1) / 4})
		if k < 0 {
			continue
		}
		c.bands = append(c.bands, band{[2]float64{lo.z0, lo.z1}, [2]float64{hi.z0, hi.z1}, k})
	}
	for _, l := range in.Loads {
		if l.X0 <= mid && l.X1 >= mid {
			c.q += l.Q
		}
	}
	if in.Water != nil {
		a, ok := in.Water.At(x0)
		b, ok2 := in.Water.At(x1)
		c.wet, c.hasWater = [2]float64{a, b}, ok && ok2
	}
	return c
}

// zoneAt is the last zone that holds a point, -1 for none.
func (in *In) zoneAt(v geom.Vec) int {
	for i := len(in.Zones) - 1; i >= 0; i-- {
		for _, p := range in.Zones[i].Region {
			if p.Contains(v) {
				return i
			}
		}
	}
	return -1
}

// top is the surface of a column at a share t of its width.
func (c *column) top(t float64) float64 {
	h := c.bands[len(c.bands)-1].hi
	return h[0] + t*(h[1]-h[0])
}

// water is the water table at a share of the width, far below where there is
// none.
func (c *column) water(t float64) float64 {
	if !c.hasWater {
		return math.Inf(-1)
	}
	return c.wet[0] + t*(c.wet[1]-c.wet[0])
}

func (c *column) share(x float64) float64 { return (x - c.x0) / (c.x1 - c.x0) }

// columnAt is the index of the column that holds x, the left one at a break;
// -1 outside.
func (g *Ground) columnAt(x float64) int {
	i, _ := slices.BinarySearchFunc(g.columns, x, func(c column, x float64) int {
		switch {
		case c.x1 < x:
			return -1
		case c.x1 > x:
			return 1
		}
		return 0
	})
	if i == len(g.columns) || x < g.columns[i].x0 {
		return -1
	}
	return i
}

// Surface is the top of the ground from left to right. Where it is upright it
// has two points on one place.
func (g *Ground) Surface() []geom.Vec {
	var out []geom.Vec
	add := func(v geom.Vec) {
		if n := len(out); n == 0 || out[n-1].Sub(v).Len() > least {
			out = append(out, v)
		}
	}
	for i := range g.columns {
		c := &g.columns[i]
		add(geom.Vec{c.x0, c.top(0)})
		add(geom.Vec{c.x1, c.top(1)})
	}
	return out
}

// weighs is the unit weight of a band between two levels, summed up, kN/m2, and
// its moment over the level 0; water below wet is counted in.
func (s *Soil) weighs(lo, hi, wet float64) (w, m float64) {
	if hi <= lo {
		return 0, 0
	}
	z := math.Min(math.Max(wet, lo), hi)
	below, above := s.GammaSat*(z-lo), s.Gamma*(hi-z)
	return below + above, below*(z+lo)/2 + above*(hi+z)/2
}
