package earth

import (
	"fmt"
	"math"

	"hillset/engine/earth/limit"
	"hillset/engine/quantity"
)

// WallLoad is the horizontal pressure of a load on a wall, kPa, by the depth
// below the load, m; nothing acts above it.
type WallLoad func(depth float64) float64

// curveTol is the share of the thrust by which straight lines between added
// rows may miss a curved load in all; the resultant is then well within 0.2 %.
const curveTol = 1e-3

// maxHalvings bounds how often an interval is halved to follow a curve.
const maxHalvings = 12

// AddSurcharge adds the pressure of a load that stands at level from, with so
// many rows between that the thrust of the load is met within 0.1 %.
func (d Diagram) AddSurcharge(from float64, p WallLoad) (Diagram, error) {
	return d.overlay(from, p, func(r *Row, v float64) { r.Surcharge += v })
}

// AddQuake adds the increment dp, kN/m, of an earthquake on a wall between two
// levels as a straight line that falls from 1.6 to 0.4 times its mean, so that
// it acts at 0.6 of the height. Of it the diagram takes what falls on its
// levels.
func (d Diagram) AddQuake(dp, top, bottom float64) (Diagram, error) {
	err := limit.First(
		limit.AtLeast("dp", dp, 0, quantity.LineLoad),
		limit.Within("top", top, -maxLevel, maxLevel, quantity.Length),
		limit.Within("bottom", bottom, -maxLevel, maxLevel, quantity.Length),
		limit.Positive("top - bottom", top-bottom, quantity.Length))
	if err != nil {
		return nil, err
	}
	if len(d) == 0 {
		return nil, nil
	}
	h := top - bottom
	up, err := d.Slice(d[0].Level, bottom).overlay(top,
		func(z float64) float64 { return dp / h * (1.6 - 1.2*z/h) },
		func(r *Row, v float64) { r.Quake += v })
	if err != nil {
		return nil, err
	}
	return append(up, d.Slice(bottom, d[len(d)-1].Level)...), nil
}

// overlay adds a curve to a diagram: set puts its value into a part of a row,
// and the total grows by it.
func (d Diagram) overlay(from float64, p WallLoad, set func(*Row, float64)) (Diagram, error) {
	if err := limit.Finite("from", from, quantity.Length); err != nil {
		return nil, err
	}
	if len(d) == 0 {
		return nil, nil
	}
	c := curve{from: from, p: p, set: set, out: make(Diagram, 0, 2*len(d))}
	c.tolerance(d[0].Level, d[len(d)-1].Level)
	for i := 1; i < len(d); i++ {
		a, b := d[i-1], d[i]
		switch {
		case a.Level == b.Level:
		case b.Level >= from:
			c.out = c.out.join(a, b)
		case a.Level > from:
			m := between(&a, &b, from)
			c.out = c.out.join(a, m)
			c.interval(m, b)
		default:
			c.interval(a, b)
		}
	}
	return c.out, c.err
}

// curve follows a load with rows.
type curve struct {
	from float64
	p    WallLoad
	set  func(*Row, float64)
	tol  float64 // kPa by which a straight line may miss the load
	out  Diagram
	err  error
}

// at is the load at a level; one that has no value is an error.
func (c *curve) at(level float64) float64 {
	v := c.p(c.from - level)
	if math.IsNaN(v) || math.IsInf(v, 0) {
		c.err = fmt.Errorf("earth: load at depth %s = %v: must be finite", quantity.Text(c.from-level, quantity.Length), v)
		return 0
	}
	return v
}

// tolerance sets the miss allowed from the mean of the load over the wall.
func (c *curve) tolerance(top, bottom float64) {
	const n = 64
	top = math.Min(top, c.from)
	var sum float64
	for i := range n {
		sum += math.Abs(c.at(top - (top-bottom)*(float64(i)+0.5)/n))
	}
	c.tol = curveTol * sum / n
}

// interval adds the load between two rows.
func (c *curve) interval(a, b Row) {
	c.emit(a, c.at(a.Level))
	c.halve(a, b, 0)
	c.emit(b, c.at(b.Level))
}

// halve adds rows between two rows until straight lines will do. Seven points
// between are looked at, so that a peak is not stepped over.
func (c *curve) halve(a, b Row, n int) {
	pa, pb := c.at(a.Level), c.at(b.Level)
	fits := true
	for i := 1; i < 8 && fits; i++ {
		t := float64(i) / 8
		fits = math.Abs(c.at(a.Level+(b.Level-a.Level)*t)-(pa+(pb-pa)*t)) <= c.tol
	}
	if fits || n == maxHalvings || c.err != nil {
		return
	}
	m := between(&a, &b, (a.Level+b.Level)/2)
	c.halve(a, m, n+1)
	c.emit(m, c.at(m.Level))
	c.halve(m, b, n+1)
}

func (c *curve) emit(r Row, v float64) {
	c.set(&r, v)
	r.Total += v
	c.out = c.out.join(r)
}
