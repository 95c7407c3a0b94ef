package drain

import (
	"fmt"
	"math"

	"hillset/engine/check"
	"hillset/engine/earth/limit"
	q "hillset/engine/quantity"
	"hillset/geom"
)

const (
	srcDaylight = "L = d/(t − s) on a plane hillside, on the drawn ground by intersection (derived)"
	srcFrost    = "length with less cover than the frost depth (derived); bore, fall and a second outlet: common practice"
)

// OutletIn is a drain pipe that leaves the box and runs down the hillside at
// an even fall until it meets the ground.
type OutletIn struct {
	Ground geom.Polyline // ground line over distance
	Start  geom.Vec      // distance and invert level of the pipe, m; below the ground
	Fall   float64       // m per m
	Right  bool          // runs towards larger distances; else towards smaller ones, down the hill
	Edge   float64       // distance that it must not pass; HasEdge
	// HasEdge limits the pipe to Edge, such as the boundary of the lot; else
	// the end of the ground line is the limit.
	HasEdge bool
	Frost   float64 // frost depth, m; 0 where it does not freeze
}

// Outlet is where a pipe comes to daylight and how it lies on its way.
type Outlet struct {
	Daylight bool
	At       geom.Vec // end of the pipe: daylight, or the limit where there is none
	Run      float64  // m, level distance from the start to At
	Length   float64  // m, along the pipe
	Drop     float64  // m
	// Depths is the depth of the invert below the ground (second coordinate)
	// over the distance from the start.
	Depths        geom.Polyline
	Deepest, Mean float64 // of Depths, m
	Shallow       float64 // m of Run with less cover than the frost depth
	// LowestStart is the lowest level of the invert at the start from which a
	// pipe at this fall reaches daylight within the limit.
	LowestStart float64
	Depth       float64 // of the invert below the ground at the start, m
}

func (in *OutletIn) validate() error {
	if err := in.Ground.Validate(); err != nil {
		return fmt.Errorf("ground: %w", err)
	}
	first, last := in.Ground[0][0], in.Ground[len(in.Ground)-1][0]
	err := limit.First(
		limit.Within("start.x", in.Start[0], first, last, q.Length),
		limit.Finite("start.z", in.Start[1], q.Length),
		limit.Within("fall", in.Fall, minFall, maxFall, q.Gradient),
		limit.Within("frost", in.Frost, 0, 4, q.Length))
	if err != nil {
		return err
	}
	if z, ok := in.Ground.At(in.Start[0]); !ok || in.Start[1] > z-geom.TolTouch {
		return &limit.Error{Field: "start.z", Value: in.Start[1], Lo: math.Inf(-1), Hi: z, Kind: q.Length, Why: "the pipe starts below the ground"}
	}
	if lo, hi := in.reach(); !(hi-lo > geom.TolTouch) {
		return &limit.Error{Field: "start.x", Value: in.Start[0], Lo: first, Hi: last, Kind: q.Length, Why: "there is no ground ahead of the pipe"}
	}
	return nil
}

// reach is the range of distances that the pipe may use, start and limit.
func (in *OutletIn) reach() (lo, hi float64) {
	lo, hi = in.Ground[0][0], in.Ground[len(in.Ground)-1][0]
	if in.Right {
		lo = in.Start[0]
		if in.HasEdge {
			hi = math.Min(hi, in.Edge)
		}
		return lo, hi
	}
	hi = in.Start[0]
	if in.HasEdge {
		lo = math.Max(lo, in.Edge)
	}
	return lo, hi
}

// FindOutlet follows the pipe from its start at the chosen fall until it meets
// the ground. Without daylight the result says so and describes the pipe as
// far as the limit.
func FindOutlet(in OutletIn) (Outlet, error) {
	if in.HasEdge {
		if err := limit.Finite("edge", in.Edge, q.Length); err != nil {
			return Outlet{}, err
		}
	}
	if err := in.validate(); err != nil {
		return Outlet{}, err
	}
	lo, hi := in.reach()
	ground := in.Ground.ClipX(lo, hi)
	dir := -1.0
	if in.Right {
		dir = 1
	}
	var o Outlet
	o.At, o.Daylight = geom.RayHit(in.Start, geom.Vec{dir, -in.Fall}, ground)
	if !o.Daylight {
		end := lo
		if in.Right {
			end = hi
		}
		o.At = geom.Vec{end, in.level(end)}
	}
	o.Run = math.Abs(o.At[0] - in.Start[0])
	o.Drop = in.Fall * o.Run
	o.Length = math.Hypot(o.Run, o.Drop)
	o.LowestStart = math.Inf(1)
	for _, v := range ground {
		o.LowestStart = math.Min(o.LowestStart, v[1]+in.Fall*math.Abs(v[0]-in.Start[0]))
	}
	o.trench(in, ground)
	return o, nil
}

// level is that of the invert at a distance.
func (in *OutletIn) level(x float64) float64 {
	return in.Start[1] - in.Fall*math.Abs(x-in.Start[0])
}

// trench fills the depths along the pipe.
func (o *Outlet) trench(in OutletIn, ground geom.Polyline) {
	lo, hi := math.Min(in.Start[0], o.At[0]), math.Max(in.Start[0], o.At[0])
	var d geom.Polyline
	for _, v := range ground.ClipX(lo, hi) {
		d = append(d, geom.Vec{math.Abs(v[0] - in.Start[0]), v[1] - in.level(v[0])})
	}
	if !in.Right {
		for i, j := 0, len(d)-1; i < j; i, j = i+1, j-1 {
			d[i], d[j] = d[j], d[i]
		}
	}
	o.Depths = d
	if len(d) == 0 {
		return // daylight at the very start
	}
	o.Depth = d[0][1]
	area := 0.0
	for i, v := range d {
		o.Deepest = math.Max(o.Deepest, v[1])
		if i > 0 {
			w := v[0] - d[i-1][0]
			area += w * (v[1] + d[i-1][1]) / 2
			o.Shallow += w * shareBelow(d[i-1][1], v[1], in.Frost)
		}
	}
	o.Mean = area / o.Run
}

// shareBelow is the share of a straight piece from a to b that lies below z.
func shareBelow(a, b, z float64) float64 {
	lo, hi := math.Min(a, b), math.Max(a, b)
	switch {
	case hi <= z:
		return 1
	case lo >= z:
		return 0
	}
	return (z - lo) / (hi - lo)
}

// Daylight is the closed form on a plane hillside that falls at t: a pipe at
// depth d and fall s comes out after d/(t − s), m. ok is false where the ground
// falls no faster than the pipe: no daylight.
func Daylight(depth, ground, fall float64) (run float64, ok bool, err error) {
	err = limit.First(
		limit.Within("depth", depth, 0, 100, q.Length),
		limit.Within("ground", ground, -maxFall, 10, q.Gradient),
		limit.Within("fall", fall, 0, maxFall, q.Gradient))
	if err != nil || ground <= fall {
		return 0, false, err
	}
	return depth / (ground - fall), true, nil
}

// OutletCheck compares the depth at which the pipe leaves the box with the
// greatest from which it still reaches daylight at this fall. The ratio is at
// most 1 exactly where it does.
func OutletCheck(in OutletIn) (check.Check, Outlet, error) {
	o, err := FindOutlet(in)
	if err != nil {
		return check.Check{}, o, err
	}
	z, _ := in.Ground.At(in.Start[0])
	depth := q.Of("d", z-in.Start[1], q.Length)
	deepest := q.Of("dmax", z-o.LowestStart, q.Length)
	c := check.Check{ID: "drain-outlet", Title: "Outlet of the drain by gravity", Part: "drain",
		Method: "Pipe at an even fall against the ground line", Source: srcDaylight,
		Assumptions: []string{"the ground line holds where the pipe runs", "the outlet stays open: screen, rock apron, free drop"},
		Validity:    "The section drawn is the way of the pipe."}
	c.Working = append(c.Working,
		check.Step("Depth of the invert at the start", "d = ground − invert", srcDaylight, depth),
		check.Step("Greatest depth with daylight", "dmax = ground − least of (ground(x) + s·|x − x0|)", srcDaylight, deepest, q.Of("s", in.Fall, q.Gradient)))
	if o.Daylight {
		c.Working = append(c.Working,
			check.Step("Run to daylight", "ground(x0 ± L) = invert − s·L", srcDaylight, q.Of("L", o.Run, q.Length), q.Of("s", in.Fall, q.Gradient)),
			check.Step("Trench, greatest depth", "largest of ground − pipe", srcDaylight, q.Of("Dmax", o.Deepest, q.Length)),
			check.Step("Trench, mean depth", "Dm = ∫(ground − pipe)/L", srcDaylight, q.Of("Dm", o.Mean, q.Length)))
	}
	if in.Frost > 0 && o.Daylight {
		c.Working = append(c.Working, check.Step("Length with less cover than the frost depth", "depth below zf", srcFrost,
			q.Of("Lf", o.Shallow, q.Length), q.Of("zf", in.Frost, q.Length)))
		if o.Shallow > 0 {
			c.Validity += " Part of the pipe lies in ground that freezes: no flat trap, no flap, face the sun, a second outlet higher up."
			c.Source += "; " + srcFrost
		}
	}
	govern(&c, []condition{{text: "Depth against the greatest with daylight", formula: "r = d/dmax", src: srcDaylight, demand: depth, capacity: deepest,
		remedy: "no daylight at this fall: the pipe no deeper than {0} at the box, another way out, or a sump with a pump", remedyQ: deepest}})
	return c, o, nil
}
