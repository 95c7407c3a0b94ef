package scene

import (
	"slices"

	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/timber"
	"hillset/geom"
)

// Coatings, membranes and boards on the steel are millimetres thick: they are
// drawn as lines beside the wall in the order in which they are put on, a
// distance on paper apart.
const (
	skinPitch = 0.9  // mm on paper from one to the next
	lapLength = 0.15 // m, of one sheet over the next (common practice); never less than lapSeen
	lapSeen   = 2.5  // mm on paper
)

// dotted is a coating.
var dotted = []float64{0.4, 0.7}

// skins are the layers on the walls at this stage: none before fill comes
// against them, nor where the lines of moments stand.
func (b *builder) skins() []model.DefenceLayer {
	p := b.project()
	if p == nil || !b.v.HasBox || b.v.Stage.Kind == model.StageSet || b.o.Portrait != nil {
		return nil
	}
	return p.Defence.Layers
}

// outsideOf is how far what is built against the walls stands out from the
// steel, m: the layers are on its outside.
func (b *builder) outsideOf() float64 {
	s := &b.project().Strengthening
	out := s.Cavity.Width
	if s.Stud.Spacing > 0 {
		_, d := b.studSize(s)
		out += d + nominalPly
	}
	return out
}

// studSize is the section of the studs outside, m.
func (b *builder) studSize(s *model.Strengthening) (width, depth float64) {
	if b.o.Lumber != nil {
		if row, ok := b.o.Lumber(timber.ID(s.Stud.Species, s.Stud.Size)); ok {
			return row.B, row.D
		}
	}
	return nominalStudB, nominalStudD
}

// defence draws the layers on the walls that the section cuts.
func (b *builder) defence() {
	layers := b.skins()
	if len(layers) == 0 || !b.show(BoxLayer) {
		return
	}
	for _, f := range []section.Face{section.Left, section.Back, section.Right} {
		dir, ok := b.skinned()[f]
		if !ok {
			continue
		}
		x, _ := b.wallOf(f)
		x += dir * b.outsideOf()
		for i := range layers {
			x += dir * skinPitch * b.mm
			b.skin(&layers[i], x, dir)
		}
		if b.roofMembrane() {
			b.turnedDown(x+dir*skinPitch*b.mm, dir)
		}
	}
}

// skin draws one layer at x down a wall. A membrane has a lap half way up, the
// upper sheet outside of the lower: so water runs off it.
func (b *builder) skin(l *model.DefenceLayer, x, dir float64) {
	low, high := b.v.Box.Min[1], b.v.Box.Max[1]
	tag := "defence:" + l.Kind
	switch l.Kind {
	case "coating":
		b.stroke(BoxLayer, tag, Ink, wMid, dotted, geom.Vec{x, low}, geom.Vec{x, high})
	case "membrane":
		lap, out := b.lap(), dir*skinPitch/2*b.mm
		mid := (low + high - lap) / 2
		b.stroke(BoxLayer, tag, Ink, wGround, nil, geom.Vec{x, low}, geom.Vec{x, mid + lap})
		b.stroke(BoxLayer, tag+":lap", Ink, wGround, nil, geom.Vec{x + out, mid}, geom.Vec{x + out, mid + lap}, geom.Vec{x, mid + lap + skinPitch*b.mm}, geom.Vec{x, high})
	default: // board or foam
		b.stroke(BoxLayer, tag, Thin, wThin, dashShort, geom.Vec{x, low}, geom.Vec{x, high})
	}
}

// lap is how long a lap is drawn, m.
func (b *builder) lap() float64 { return max(lapLength, lapSeen*b.mm) }

// roofMembrane tells whether a membrane lies on the roof here.
func (b *builder) roofMembrane() bool {
	return slices.ContainsFunc(b.v.Fill, func(z section.Zone) bool { return z.Hatch == "membrane" })
}

// turnedDown draws the edge of the membrane of the roof, turned down over the
// layers of the wall.
func (b *builder) turnedDown(x, dir float64) {
	top := b.v.Box.Max[1]
	wall := x - dir*skinPitch*b.mm*float64(1+len(b.skins()))
	b.stroke(BoxLayer, "defence:turned-down", Ink, wGround, nil, geom.Vec{wall, top}, geom.Vec{x, top}, geom.Vec{x, top - b.lap()})
}

// skinCallouts name the layers.
func (b *builder) skinCallouts() {
	for i, l := range b.skins() {
		at := geom.Vec{b.v.Box.Max[0] + b.outsideOf() + skinPitch*b.mm*float64(i+1), b.v.Box.Min[1] + (0.75-0.1*float64(i))*b.v.Box.H()}
		if b.land.Contains(at) {
			b.callout(label(Callouts, "name:defence", l.Name), at, 0)
		}
	}
}
