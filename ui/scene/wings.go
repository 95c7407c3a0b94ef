package scene

import (
	"hillset/engine/section"
	"hillset/geom"
)

// wings draws the wing wall that is seen behind the plane of a long section:
// the faces of its blocks above the ground before it, and dashed what stands
// below: lowest courses and base rock.
func (b *builder) wings() {
	for i := range b.v.Wings {
		w := &b.v.Wings[i]
		var open, hidden []geom.Polyline
		for _, r := range w.Blocks {
			r = overlap(r, b.land)
			up, low := r, r
			up.Min[1], low.Max[1] = max(r.Min[1], b.v.Formation), min(r.Max[1], b.v.Formation)
			if up.Min[1] < up.Max[1] {
				open = append(open, geom.Polyline(up.ToRing()))
			}
			if low.Min[1] < low.Max[1] {
				hidden = append(hidden, geom.Polyline(low.ToRing()))
			}
		}
		if r := overlap(w.Rock, b.land); !r.Empty() {
			hidden = append(hidden, geom.Polyline(r.ToRing()))
		}
		b.add(Path{Layer: BoxLayer, Tag: "wing", Parts: open, Closed: true, Fill: Concrete, Stroke: Thin, Width: wNarrow})
		b.add(Path{Layer: BoxLayer, Tag: "wing:hidden", Parts: hidden, Closed: true, Stroke: Thin, Width: wHair, Dash: dashShort})
		for _, c := range open {
			b.at.closedChain(c, false)
		}
	}
}

// wingSpots is where the marks of the wing walls stand.
func (b *builder) wingSpots(out map[string]spot) {
	for i := range b.v.Wings {
		out[wingWalls] = spot{at: wingHeart(&b.v.Wings[i], b.v.Formation), h: 1, line: wingLines(&b.v.Wings[i])}
	}
}

// wingLines is the outline of a wing, for the selection.
func wingLines(w *section.WingSeen) []geom.Polyline {
	var out []geom.Polyline
	for _, r := range w.Blocks {
		out = append(out, geom.Polyline(r.ToRing()))
	}
	return out
}

// wingHeart is a place well on the face of a wing, above the ground.
func wingHeart(w *section.WingSeen, ground float64) geom.Vec {
	foot := max(w.Foot, ground)
	return geom.Vec{w.Top[0] - 0.6*(w.Top[0]-w.Blocks[0].Min[0]), foot + 0.35*(w.Top[1]-foot)}
}

// wingCallout names the wall that is seen.
func (b *builder) wingCallout() {
	for i := range b.v.Wings {
		w := &b.v.Wings[i]
		at := geom.Vec{w.Top[0] - 0.3*(w.Top[0]-w.Blocks[0].Min[0]), w.Top[1] - 0.3*w.Blocks[0].H()}
		if !b.land.Contains(at) {
			continue
		}
		b.callout(label(Callouts, "name:wing", "wing wall, dry-stacked blocks"), at, 0)
	}
}
