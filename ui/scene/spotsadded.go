package scene

import (
	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/geom"
)

// insideSteel is the part that the checks call the steel box with what stands
// inside it, where either system is to carry alone.
const insideSteel = "inside steel"

// cutSpots are the faces of the cut: the one that rises to the right, and the
// one that rises to the left; and its floor, where water comes in.
func (b *builder) cutSpots(out map[string]spot) {
	if !(b.v.CutHeight > 0) {
		return
	}
	b.uphillSpots(out)
	if k := b.v.Stage.Kind; k == model.StageCut || k == model.StageSet {
		floor := geom.Vec{b.v.Toe[0] - 8*b.mm, b.v.Formation}
		out["cut"] = spot{at: floor, line: []geom.Polyline{{floor, b.v.Toe}}}
	}
	right, left := "cut face", "front face of the cut"
	if !b.v.Long {
		right, left = "right face of the cut", "left face of the cut"
	}
	for name, up := range map[string]bool{right: true, left: false} {
		var line geom.Polyline
		for _, f := range b.v.Batters {
			if (f.Top[0] >= f.Foot[0]) == up {
				if len(line) == 0 {
					line = geom.Polyline{f.Foot}
				}
				line = append(line, f.Top)
			}
		}
		if name == "cut face" && len(line) == 0 {
			line = geom.Polyline{b.v.Toe, b.v.Crest}
		}
		if len(line) < 2 {
			continue
		}
		from, way := line[0], line[len(line)-1].Sub(line[0])
		s := spot{h: 1, line: []geom.Polyline{line}}
		if !up {
			s.h = 0
		}
		for _, share := range []float64{0.35, 0.5, 0.2, 0.65, 0.8} {
			s.also = append(s.also, from.Add(way.Mul(share)))
		}
		s.at = s.also[0]
		out[name] = s
	}
}

// uphillSpots are the places of what lies uphill of the crest, in a section that
// shows it: the spoil at its distance, and the swale between it and the crest.
func (b *builder) uphillSpots(out map[string]spot) {
	p := b.project()
	if p == nil || !b.v.Long {
		return
	}
	for part, off := range map[string]float64{"spoil heap": p.Cut.Spoil.Setback + p.Cut.Spoil.Height, "swale": p.Cut.Spoil.Setback / 2} {
		x := b.v.Crest[0] + off
		if z, ok := b.v.Ground.At(x); ok {
			out[part] = spot{at: geom.Vec{x, z}, h: 1}
		}
	}
}

// addedSpots are the places of what strengthens the box, where it is drawn, and
// of the ends of the box.
func (b *builder) addedSpots(out map[string]spot) {
	p := b.project()
	if p == nil {
		return
	}
	box, in, s := b.v.Box, b.inner(), &p.Strengthening
	off := func(at geom.Vec, dx, dz float64) geom.Vec { return at.Add(geom.Vec{dx * b.mm, dz * b.mm}) }
	for f, dir := range b.skinned() {
		x, _ := b.wallOf(f)
		wall := map[section.Face]string{section.Left: "left side wall", section.Right: "right side wall", section.Back: "back wall"}[f]
		stud := geom.Vec{x + dir*(s.Cavity.Width+nominalStudD/2), box.Min[1] + 0.7*box.H()}
		concrete := geom.Vec{x + dir*s.Cavity.Width/2, box.Min[1] + 0.3*box.H()}
		h := 0.5 - 0.5*dir
		out[wall+", stud skin"] = spot{at: stud, h: h}
		out[wall+", concrete skin"] = spot{at: concrete, h: h}
		if f != section.Left {
			at := stud
			if s.Stud.Spacing == 0 {
				at = concrete
			}
			out["outside skin"] = spot{at: off(at, 0, -4), h: h}
		}
	}
	if !b.v.Long {
		out["long walls"] = spot{at: geom.Vec{box.Min[0], box.Min[1] + 0.15*box.H()}}
	}
	b.wetSpots(out)
	top := geom.Vec{box.Center()[0], box.Max[1]}
	out["roof on posts"] = spot{at: off(top, 0.3*box.W()/b.mm, 2)}
	out["light fill"] = spot{at: off(top, -0.3*box.W()/b.mm, 2)}
	out["pads of the roof posts"] = spot{at: geom.Vec{box.Max[0] + s.RoofSlab.Gap + b.postWidth()/2, b.v.Formation - nominalPad/2}}
	if n := len(s.Ribs.Struts); n > 0 {
		out["cross struts"] = spot{at: geom.Vec{in.Center()[0], b.overRail(s.Ribs.Struts[n-1].Height)}}
	}
	if b.alongside() {
		b.endSpots(out)
	} else {
		out["corner posts"] = spot{at: b.within(0, 0.2)}
		out["cross members"] = spot{at: geom.Vec{in.Min[0] + 0.75*in.W(), (box.Min[1] + in.Min[1]) / 2}}
	}
}

// endSpots are the ends of the box in a section along it.
func (b *builder) endSpots(out map[string]spot) {
	in := b.inner()
	for part, at := range map[string]geom.Vec{"door end": {0, 0.75}, "doors": {0, 0.5}, "blind end": {1, 0.75}, "corner posts, blind end": {1, 0.3}, "corner posts": {0, 0.3}} {
		h := 0.0
		if at[0] == 1 {
			h = 1
		}
		out[part] = spot{at: b.within(at[0], at[1]), h: h}
	}
	out["cross members"] = spot{at: geom.Vec{in.Min[0] + 0.75*in.W(), (b.v.Box.Min[1] + in.Min[1]) / 2}}
}

// wetSpots are what keeps the water off: the first pipe of the drain with its
// cloth, the interceptor, and the membrane on a wall.
func (b *builder) wetSpots(out map[string]spot) {
	p := b.r.Project
	off := func(at geom.Vec, x, z float64) geom.Vec { return geom.Vec{at[0] + x*b.mm, at[1] + z*b.mm} }
	if pipes := b.v.Pipes(p); len(pipes) > 0 {
		at := pipes[0].At
		out["drain"] = spot{at: off(at, -4, -1), h: 1}
		out["filter"] = spot{at: off(at, 4, 2)}
	}
	if up := b.v.Interceptor(p); len(up) > 0 {
		out["curtain drain"] = spot{at: off(up[0].At, 4, 0)}
	}
	out["membrane"] = spot{at: geom.Vec{b.v.Box.Max[0] + b.outsideOf(), b.v.Box.Min[1] + 0.92*b.v.Box.H()}}
}
