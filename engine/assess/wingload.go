package assess

import (
	"math"

	"hillset/engine/earth"
	"hillset/engine/model"
	"hillset/engine/section"
)

// reachWing is how far behind a wing a load counts as standing on its fill, over
// the height there: past the back of any wedge.
const reachWing = 2.0

// onWing is the wide surcharge on the fill behind a place: snow, and every area
// load that stands within reach there.
func (j *job) onWing(w *section.Wing, stage model.Stage, loads []model.Surcharge, pt *wingPoint) float64 {
	q := 0.0
	if stage.Snow {
		q = j.p.Site.Climate.GroundSnow
	}
	x0, y0 := w.At(pt.along, 0)
	x1, y1 := w.At(pt.along, reachWing*(pt.surface-w.Base))
	for _, s := range loads {
		if s.Kind != model.AreaLoad {
			continue
		}
		lo, hi := math.Inf(-1), math.Inf(1)
		if !isWide(s) {
			lo, hi = math.Min(*s.Y1, *s.Y2), math.Max(*s.Y1, *s.Y2)
		}
		if from, to, ok := clipTo(0, 1, x0, x1, s.X1, s.X2); ok {
			if _, _, ok = clipTo(from, to, y0, y1, lo, hi); ok {
				q += s.Q
			}
		}
	}
	return q
}

// clipTo cuts the share from a to b of the way from v0 to v1 to what lies between
// two bounds.
func clipTo(a, b, v0, v1, lo, hi float64) (from, to float64, ok bool) {
	if v0 == v1 {
		return a, b, v0 >= lo && v0 <= hi
	}
	s, t := (lo-v0)/(v1-v0), (hi-v0)/(v1-v0)
	from, to = math.Max(a, math.Min(s, t)), math.Min(b, math.Max(s, t))
	return from, to, from <= to
}

// wheelsOnWing is the pressure of the wheels behind a place, on the line within
// its column where they press most; nil for none. Those over the box are carried
// by it.
func (j *job) wheelsOnWing(w *section.Wing, loads []model.Surcharge, pt *wingPoint) (earth.WallLoad, error) {
	var wheels []earth.PlanLoad
	sin, cos := math.Sincos(w.Splay)
	for _, s := range loads {
		if s.Kind != model.Vehicle {
			continue
		}
		patches, err := j.patches(s)
		if err != nil {
			return nil, err
		}
		for _, p := range patches {
			dx, dy := p.X-j.frontX, w.Dir*p.Y-j.across/2
			if behind := dx*cos + dy*sin; behind > 0 && (dx < 0 || dx > j.depth || math.Abs(p.Y) > j.across/2) {
				wheels = append(wheels, earth.PlanLoad{P: p.P, X: behind, Y: dy*cos - dx*sin})
			}
		}
	}
	var most earth.WallLoad
	h, best := pt.surface-w.Base, math.Inf(-1)
	for _, k := range wheels {
		load, err := earth.WheelLoads(wheels, clampTo(k.Y, pt.col.From, pt.col.To), h)
		if err != nil {
			return nil, err
		}
		if t := thrustOf(load, h); t > best {
			most, best = load, t
		}
	}
	return most, nil
}
