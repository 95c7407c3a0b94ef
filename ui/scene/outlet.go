package scene

import "hillset/geom"

// outlet draws the pipe from the front corners of the box to where it comes out
// of the hillside.
func (b *builder) outlet() {
	if b.r == nil || !b.v.Long || !b.show(Fills) || len(b.v.Pipes(b.r.Project)) == 0 {
		return
	}
	for _, run := range clipLine(b.r.Outlet, b.land) {
		b.at.chain(run)
		b.add(Path{Layer: Fills, Tag: "outlet", Parts: []geom.Polyline{run}, Stroke: WaterLine, Width: wMid, Dash: dashLong})
	}
}

// outletCallout says where it comes out.
func (b *builder) outletCallout() {
	if b.r == nil || !b.v.Long || len(b.r.Outlet) == 0 || len(b.v.Pipes(b.r.Project)) == 0 {
		return
	}
	end := b.r.Outlet[len(b.r.Outlet)-1]
	if !b.land.Contains(end) {
		return
	}
	l := label(Callouts, "name:outlet", "outlet of the drain "+b.level(end[1]))
	l.Role = WaterLine
	b.callout(l, end, 0)
}
