package slope

import (
	"errors"
	"math"
	"slices"

	"hillset/engine/earth/limit"
	"hillset/geom"
)

// Slice is an upright slice of the mass that may slide.
type Slice struct {
	X      [2]float64 // m, left and right
	Base   geom.Vec   // middle of its base
	Alpha  float64    // rad, of the base; positive where the weight drives
	Length float64    // m, of the base
	Weight float64    // kN, soil and what lies on it
	Soil   float64    // kN, soil alone
	Middle float64    // m, level of the middle of the weight of the soil
	U      float64    // kPa, pore pressure on the base
	C      float64    // kPa
	Tan    float64    // tan phi
	Zone   int        // at the base

	sin, cos float64 // of Alpha
}

// Mass is all above a slip line, in slices from left to right.
type Mass struct {
	Slip   Slip
	Slices []Slice
	Kh     float64
	// Thrust is the water in the crack, kN, at the level Level.
	Thrust, Level float64
	// Deep is the greatest depth of the slip line below the surface, m.
	Deep float64

	centre geom.Vec
	r      float64 // 0 for a line
}

// Weight is that of the soil of the mass, kN.
func (m *Mass) Weight() float64 {
	w := 0.0
	for i := range m.Slices {
		w += m.Slices[i].Soil
	}
	return w
}

// Why a slip line is no way to slide.
var (
	ErrFirm    = errors.New("the slip line goes through rock or a body")
	ErrOutside = errors.New("the slip line leaves the section")
	ErrAbove   = errors.New("the slip line comes out of the ground between its ends")
)

// Mass cuts what lies above a slip line into n slices or more: one ends wherever
// surface, soil, water table or load changes on it.
func (g *Ground) Mass(s Slip, n int) (*Mass, error) {
	m := &Mass{}
	if err := g.fill(m, s, n); err != nil {
		return nil, err
	}
	return m, nil
}

// fill makes a mass in the memory of an old one.
func (g *Ground) fill(m *Mass, s Slip, n int) error {
	if err := s.check(); err != nil {
		return err
	}
	if n < 1 {
		return &limit.Error{Field: "n", Value: float64(n), Lo: 1, Hi: math.Inf(1)}
	}
	if s.Line != nil {
		s.A, s.B = s.Line[0], s.Line[len(s.Line)-1]
	}
	*m = Mass{Slip: s, Slices: m.Slices[:0], Kh: g.in.Kh}
	m.Thrust, m.Level = gammaW*s.Water*s.Water/2, s.B[1]+s.Water/3
	m.centre, m.r, _ = s.Circle()
	if m.r > 0 {
		return g.fillArc(m, n)
	}
	line := s.points()
	width := line[len(line)-1][0] - line[0][0]
	for i := 0; i+1 < len(line); i++ {
		if err := g.fillPiece(m, line[i], line[i+1], width/float64(n)); err != nil {
			return err
		}
	}
	return nil
}

// span calls for every column between two places.
func (g *Ground) span(x0, x1 float64, each func(c *column, x0, x1 float64) error) error {
	first := g.columnAt(x0 + least)
	if first < 0 || g.columnAt(x1-least) < 0 {
		return ErrOutside
	}
	for i := first; i < len(g.columns) && g.columns[i].x0 < x1-least; i++ {
		c := &g.columns[i]
		lo, hi := math.Max(x0, c.x0), math.Min(x1, c.x1)
		if i > first && g.columns[i-1].x1 < c.x0-least {
			return ErrOutside
		}
		if hi-lo <= least {
			continue
		}
		if err := each(c, lo, hi); err != nil {
			return err
		}
	}
	return nil
}

// fillArc adds the slices over an arc: equal angles between the places where
// something changes.
func (g *Ground) fillArc(m *Mass, n int) error {
	step := 2 * m.Slip.Half / float64(n)
	var room [24]float64
	return g.span(m.Slip.A[0], m.Slip.B[0], func(c *column, x0, x1 float64) error {
		xs := append(room[:0], x0, x1)
		for i := range c.bands {
			b := &c.bands[i]
			xs = append(xs, c.meets(b.lo, m.centre, m.r, x0, x1)...)
		}
		if c.hasWater {
			xs = append(xs, c.meets(c.wet, m.centre, m.r, x0, x1)...)
		}
		slices.Sort(xs)
		for i := 0; i+1 < len(xs); i++ {
			if xs[i+1]-xs[i] <= least {
				continue
			}
			a0, a1 := m.slopeAt(xs[i]), m.slopeAt(xs[i+1])
			parts := math.Ceil((a1-a0)/step - 1e-9)
			for k := range int(math.Max(1, parts)) {
				p := on(m.centre, m.r, a0+(a1-a0)*float64(k)/parts)
				q := on(m.centre, m.r, a0+(a1-a0)*float64(k+1)/parts)
				if err := g.slice(m, c, p, q); err != nil {
					return err
				}
			}
		}
		return nil
	})
}

// slopeAt is the slope of the arc at a place.
func (m *Mass) slopeAt(x float64) float64 {
	return math.Asin(math.Max(-1, math.Min(1, (x-m.centre[0])/m.r)))
}

// meets is where an arc crosses an edge of a column between x0 and x1.
func (c *column) meets(e [2]float64, centre geom.Vec, r, x0, x1 float64) []float64 {
	// most edges lie wholly above or below: the arc is within its own bounds
	if lowest := centre[1] - r; e[0] < lowest && e[1] < lowest || e[0] > centre[1] && e[1] > centre[1] {
		return nil
	}
	xs := meets(geom.Vec{c.x0, e[0]}, geom.Vec{c.x1, e[1]}, centre, r)
	return slices.DeleteFunc(xs, func(x float64) bool { return x <= x0 || x >= x1 })
}

// fillPiece adds the slices over a straight piece of a line.
func (g *Ground) fillPiece(m *Mass, a, b geom.Vec, step float64) error {
	e := edge{a, b}
	return g.span(a[0], b[0], func(c *column, x0, x1 float64) error {
		xs := []float64{x0, x1}
		cross := func(l [2]float64) {
			if x, ok := e.crosses(edge{geom.Vec{c.x0, l[0]}, geom.Vec{c.x1, l[1]}}); ok && x > x0 && x < x1 {
				xs = append(xs, x)
			}
		}
		for _, b := range c.bands {
			cross(b.lo)
		}
		if c.hasWater {
			cross(c.wet)
		}
		slices.Sort(xs)
		for i := 0; i+1 < len(xs); i++ {
			if xs[i+1]-xs[i] <= least {
				continue
			}
			parts := math.Max(1, math.Ceil((xs[i+1]-xs[i])/step-1e-9))
			for k := range int(parts) {
				p := xs[i] + (xs[i+1]-xs[i])*float64(k)/parts
				q := xs[i] + (xs[i+1]-xs[i])*float64(k+1)/parts
				if err := g.slice(m, c, geom.Vec{p, e.at(p)}, geom.Vec{q, e.at(q)}); err != nil {
					return err
				}
			}
		}
		return nil
	})
}

// slice adds one slice over the base from p to q, within one column.
func (g *Ground) slice(m *Mass, c *column, p, q geom.Vec) error {
	b := q[0] - p[0]
	s := Slice{X: [2]float64{p[0], q[0]}, Base: p.Add(q).Mul(0.5), Length: q.Sub(p).Len(), Zone: -1}
	s.sin, s.cos = (q[1]-p[1])/s.Length, b/s.Length
	s.Alpha = math.Asin(s.sin)
	bulge := 0.0 // between chord and arc, m2
	at := s.Base
	if m.r > 0 {
		half := math.Asin(math.Min(1, s.Length/(2*m.r)))
		bulge = m.r * m.r * (half - math.Sin(half)*math.Cos(half))
		at = geom.Vec{m.centre[0] + m.r*s.sin, m.centre[1] - m.r*s.cos}
	}
	t0, t1 := c.share(p[0]), c.share(q[0])
	tm := (t0 + t1) / 2
	if d := math.Max(math.Max(c.top(t0)-p[1], c.top(t1)-q[1]), c.top(tm)-at[1]); d > m.Deep {
		m.Deep = d
	}
	if c.top(tm) < at[1]-least {
		return ErrAbove
	}
	w0, w1 := c.water(t0), c.water(t1)
	moment := 0.0
	for i := range c.bands {
		k := &c.bands[i]
		lo, hi := k.lo[0]+tm*(k.lo[1]-k.lo[0]), k.hi[0]+tm*(k.hi[1]-k.hi[0])
		if hi < at[1]-least {
			continue
		}
		soil := &g.in.Zones[k.soil].Soil
		if inside := lo < at[1] && hi > at[1]; inside || s.Zone < 0 && lo <= at[1]+least {
			s.Zone = k.soil // a base on an edge counts to the lower band
		}
		a, ma := soil.weighs(math.Max(k.lo[0]+t0*(k.lo[1]-k.lo[0]), p[1]), k.hi[0]+t0*(k.hi[1]-k.hi[0]), w0)
		z, mz := soil.weighs(math.Max(k.lo[0]+t1*(k.lo[1]-k.lo[0]), q[1]), k.hi[0]+t1*(k.hi[1]-k.hi[0]), w1)
		s.Soil += (a + z) / 2 * b
		moment += (ma + mz) / 2 * b
	}
	if s.Zone < 0 {
		return ErrOutside
	}
	soil := &g.in.Zones[s.Zone].Soil
	if soil.Firm {
		return ErrFirm
	}
	g.bulge(&s, soil, bulge, c.water(tm), &moment)
	s.Weight = s.Soil + c.q*b
	s.Middle = at[1]
	if s.Soil > 0 {
		s.Middle = moment / s.Soil
	}
	s.C, s.Tan = soil.C, g.tans[s.Zone]
	s.U = g.pore(at, c.water(tm), s.Soil/b)
	m.Slices = append(m.Slices, s)
	return nil
}

// bulge adds what lies between chord and arc.
func (g *Ground) bulge(s *Slice, soil *Soil, area, wet float64, moment *float64) {
	gamma := soil.Gamma
	if s.Base[1] < wet {
		gamma = soil.GammaSat
	}
	s.Soil += gamma * area
	*moment += gamma * area * s.Base[1]
}

// pore is the pore pressure at a point under a weight, kPa.
func (g *Ground) pore(v geom.Vec, wet, weight float64) float64 {
	switch {
	case g.in.Ru > 0:
		return g.in.Ru * weight
	case g.in.Pore != nil:
		return math.Max(0, g.in.Pore(v))
	}
	return gammaW * math.Max(0, wet-v[1])
}
