package scene

import (
	"fmt"

	"hillset/geom"
)

// Sink takes a scene item by item: a screen, a sheet, a file.
type Sink interface {
	Path(*Path) error
	Label(*Label) error
}

// Replay gives every item to the sink in drawing order and stops at the first
// error, which names the item.
func Replay(s *Scene, sink Sink) error {
	for i, it := range s.Items {
		var err error
		var tag string
		switch {
		case it.Path != nil:
			tag, err = it.Path.Tag, sink.Path(it.Path)
		case it.Label != nil:
			tag, err = it.Label.Tag, sink.Label(it.Label)
		default:
			panic("scene: item without path and label")
		}
		if err != nil {
			return fmt.Errorf("item %d (%s): %w", i, tag, err)
		}
	}
	return nil
}

// Transform takes points of the section (m, z up) to paper or screen (y down):
// Scale is paper units per metre, Origin the place of the section's (0, 0).
type Transform struct {
	Scale  float64
	Origin geom.Vec
}

// Fit is the transform at a scale that puts the top left corner of r at the
// point at of the paper.
func Fit(r geom.Rect, scale float64, at geom.Vec) Transform {
	return Transform{Scale: scale, Origin: geom.Vec{at[0] - r.Min[0]*scale, at[1] + r.Max[1]*scale}}
}

// To takes a point of the section to the paper.
func (t Transform) To(p geom.Vec) geom.Vec {
	return geom.Vec{t.Origin[0] + p[0]*t.Scale, t.Origin[1] - p[1]*t.Scale}
}

// From takes a point of the paper to the section.
func (t Transform) From(p geom.Vec) geom.Vec {
	return geom.Vec{(p[0] - t.Origin[0]) / t.Scale, (t.Origin[1] - p[1]) / t.Scale}
}
