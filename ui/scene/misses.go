package scene

import (
	"math"

	"hillset/engine/model"
	"hillset/geom"
)

// met is how near a fitted level counts as met, m: what a tape in a hole tells.
const met = 0.01

// misses says how near the fitted water tables come to the levels that they
// were fitted to, where those were given at the back of the box. What was
// observed says so itself.
func (b *builder) misses() {
	for _, f := range b.wet.fars {
		for _, m := range f.Misses {
			at := geom.Vec{m.X, m.Level}
			if b.isObserved(at) || !b.seen(at) {
				continue
			}
			l := label(Water, "water:asked", f.name+" "+b.level(m.Level)+" given here: "+b.off(m.Computed-m.Level))
			l.Role = WaterLine
			b.callout(l, at, 1.5)
		}
		if f.Full {
			l := label(Water, "water:full", "the hill is full of water and does not bring it as high as given")
			l.Role = WaterLine
			end := f.Table[len(f.Table)-1]
			b.callout(l, geom.Vec{math.Min(end[0], b.land.Max[0]), math.Min(end[1], b.land.Max[1])}, 1)
		}
	}
}

// off is how far a fitted level lies from one that is known.
func (b *builder) off(up float64) string {
	switch {
	case math.Abs(up) < met:
		return "met"
	case up > 0:
		return "fitted " + b.length(up) + " higher"
	}
	return "fitted " + b.length(-up) + " lower"
}

// isObserved tells whether a level is one that was seen.
func (b *builder) isObserved(at geom.Vec) bool {
	p := b.project()
	if p == nil {
		return false
	}
	for _, o := range p.Site.Water.Observed {
		if o.Pos == at {
			return true
		}
	}
	return false
}

// missOf is how far the fitted water table passes an observed level, in words;
// "" where none is fitted.
func (b *builder) missOf(o model.WaterPoint) string {
	if b.wet == nil || len(b.wet.fars) == 0 {
		return ""
	}
	z, ok := b.wet.fars[0].WaterAt(o.Pos[0])
	if !ok {
		return ": fitted dry here"
	}
	return ": " + b.off(z-o.Pos[1])
}
