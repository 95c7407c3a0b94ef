package section

import (
	"hillset/engine/model"
	"hillset/geom"
)

// bedding is what lies between the formation and the box: rock bed, pads or
// slab, and the toe beam under the front sill in the long section.
func (l *layout) bedding() []Zone {
	b := l.p.Bedding
	rect := func(x0, z0, x1, z1 float64) geom.Region {
		if x1 <= x0 || z1 <= z0 {
			return nil
		}
		return geom.Rect{Min: geom.Vec{x0, z0}, Max: geom.Vec{x1, z1}}.ToRegion()
	}
	top := l.form + b.RockThickness
	out := []Zone{l.soilZone(Bed, b.RockSoil, rect(l.a, l.form, l.b, top))}
	switch b.Kind {
	case model.PadBedding:
		w := b.PadWidth
		if l.length == (l.p.Box.Orientation == model.EndOn) {
			w = b.PadLength
		}
		pads := append(rect(l.a, top, l.a+w, l.floor), rect(l.b-w, top, l.b, l.floor)...)
		out = append(out, Zone{Kind: Pad, Name: "pads", Hatch: "concrete", Region: pads})
	case model.SlabBedding:
		out = append(out, Zone{Kind: Slab, Name: "slab", Hatch: "concrete", Region: rect(l.a, top, l.b, l.floor)})
	}
	if l.length && b.Toe.Depth > 0 {
		out = append(out, Zone{Kind: Toe, Name: "toe beam", Hatch: "concrete",
			Region: rect(l.a, l.form-b.Toe.Depth, l.a+b.PadLength, l.form)})
	}
	return keepFilled(out)
}
