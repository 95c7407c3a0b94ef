package sketch

import (
	"fmt"

	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/engine/section"
	"hillset/geom"
)

// LongHandles are the handles of the long section. v is nil while the section
// cannot be built; the handles of the site and of the box are there all the
// same.
func LongHandles(p *model.Project, v *section.View) []Handle {
	out := siteHandles(p)
	if v == nil {
		return out
	}
	out = append(out, waterLevelHandles(p, func(z float64, i int) float64 { return longWater(p, v, z, i) })...)
	if v.Stage.Kind == model.StageNatural {
		return out
	}
	out = append(out, boxHandles(v)...)
	out = append(out, cutHandles(p, v)...)
	out = append(out, drainHandles(p, v)...)
	if v.Stage.Kind == model.StageBackfill || v.Stage.Kind == model.StageService {
		out = append(out, fillHandles(p, v)...)
		out = append(out, rockHandles(p, v.Box, +1)...)
	}
	return append(out, surchargeHandles(p, v)...)
}

// longWater is where the i-th handle of a water level stands: in the ground
// behind the crest of the cut, where the level is drawn; where the ground is
// lower than that, or uncut, as soon as the level is in it; else in front.
func longWater(p *model.Project, v *section.View, z float64, i int) float64 {
	off := waterOff + waterStep*float64(i)
	if p.Site.Water.Computed { // they are those of the hill as found there
		return v.Box.Max[0]
	}
	last := v.Ground[len(v.Ground)-1][0]
	if x := v.Crest[0] + off; v.CutHeight > 0 && x < last {
		if g, ok := v.Ground.At(x); ok && g > z {
			return x
		}
	}
	for _, hit := range geom.Intersections(v.Ground, geom.Polyline{{v.Ground[0][0], z}, {last, z}}) {
		if x := hit[0] + off; v.CutHeight == 0 && x < last {
			return x
		}
	}
	return v.Box.Min[0] - p.Cut.Apron - off
}

// boxHandles move the box: freely by its front foot or its whole area, along
// by the middle of its front, up and down by the middle of its floor.
func boxHandles(v *section.View) []Handle {
	b := v.Box
	return []Handle{wholeBox(b.Min),
		length("box.front", "Front of the box", geom.Vec{b.Min[0], (b.Min[1] + b.Max[1]) / 2}, Horizontal, 0, 1, b.Min[0],
			func(p *model.Project) *float64 { return &p.Box.Front }),
		levelHandle(v),
	}
}

// wholeBox moves the box both ways; foot is its front foot.
func wholeBox(foot geom.Vec) Handle {
	move := func(p *model.Project, to geom.Vec) error {
		p.Box.Front, p.Box.Level = to[0], to[1]
		return nil
	}
	h := Handle{ID: "box", Label: "Box", At: foot, Axis: Free, move: move, body: true, Values: pointValues(foot, move)}
	h.Values[0].Label, h.Values[1].Label = "Front at", "Level of the castings"
	return h
}

// levelHandle moves the box up and down.
func levelHandle(v *section.View) Handle {
	b := v.Box
	return length("box.level", "Level of the box", geom.Vec{(b.Min[0] + b.Max[0]) / 2, b.Min[1]}, Vertical, 0, 1, b.Min[1],
		func(p *model.Project) *float64 { return &p.Box.Level })
}

func cutHandles(p *model.Project, v *section.View) []Handle {
	out := []Handle{
		length("cut.work_back", "Toe of the back face", v.Toe, Horizontal, v.Box.Max[0], 1, p.Cut.WorkBack,
			func(p *model.Project) *float64 { return &p.Cut.WorkBack }),
		length("cut.apron", "Edge of the apron", geom.Vec{v.Box.Min[0] - p.Cut.Apron, v.Formation}, Horizontal, v.Box.Min[0], -1, p.Cut.Apron,
			func(p *model.Project) *float64 { return &p.Cut.Apron }),
	}
	out[0].Values[0].Label, out[1].Values[0].Label = "Working space behind", "Apron in front"
	if h, ok := crestHandle(p, v); ok {
		out = append(out, h)
	}
	return out
}

// crestHandle changes the batter that the top piece of the back face is cut
// to. Other pieces with a batter of their own, and benches, keep theirs.
func crestHandle(p *model.Project, v *section.View) (Handle, bool) {
	back := backFace(v)
	if len(back) == 0 || v.Crest[1]-v.Toe[1] < minRise {
		return Handle{}, false
	}
	top := back[len(back)-1].Stratum
	now, own := p.Cut.ByStratum[top]
	id, field := "cut.batter", func(p *model.Project) *float64 { return &p.Cut.Batter }
	if !own {
		now = p.Cut.Batter
	} else {
		id = fmt.Sprintf("cut.by_stratum[%s]", top)
	}
	rise, fixed := 0.0, v.Crest[0]-v.Toe[0] // rise of the pieces it governs, run of all else
	for _, b := range back {
		_, other := p.Cut.ByStratum[b.Stratum]
		if b.Stratum == top || !own && !other {
			rise += b.Top[1] - b.Foot[1]
			fixed -= b.Top[0] - b.Foot[0]
		}
	}
	h := scalar(id, "Crest of the back face", v.Crest, Horizontal, quantity.Slope, now, field, func(to geom.Vec) (float64, error) {
		z, ok := v.Ground.At(to[0])
		if !ok {
			return 0, model.Problem{Field: id, Value: "crest at " + quantity.Text(to[0], quantity.Length), Text: "the ground line ends before the crest",
				Allowed: "up to " + quantity.Floor.Text(v.Ground[len(v.Ground)-1][0], quantity.Length)}
		}
		foot := geom.Vec{v.Toe[0] + fixed, 0}
		return runOverRise(id, foot, geom.Vec{to[0], rise + z - v.Crest[1]}, 1)
	})
	h.reach = rise
	h.Values[0].Label = "Batter of the back face"
	if own {
		h.Values[0].set = func(p *model.Project, n float64) error { p.Cut.ByStratum[top] = n; return nil }
	}
	return h, true
}

// backFace is the pieces of the face that starts at the toe.
func backFace(v *section.View) []section.Batter {
	var out []section.Batter
	for _, b := range v.Batters {
		if len(out) == 0 && b.Foot != v.Toe {
			continue
		}
		out = append(out, b)
		if b.Top == v.Crest {
			return out
		}
	}
	return out
}

// fillHandles shape the finished surface: by its drawn line where there is
// one, else by the cover at both ends of the roof and the slope behind.
func fillHandles(p *model.Project, v *section.View) []Handle {
	if len(p.Fill.Line) > 0 {
		return lineHandles("fill.line", "Finished surface, point", func(p *model.Project) *[]model.Vec { return &p.Fill.Line }, p.Fill.Line)
	}
	roof := v.Box.Max[1]
	front := geom.Vec{v.Box.Min[0], roof + p.Fill.FrontTop}
	back := geom.Vec{v.Box.Max[0], roof + p.Fill.BackTop}
	out := []Handle{
		length("fill.front_top", "Cover over the front", front, Vertical, roof, 1, p.Fill.FrontTop,
			func(p *model.Project) *float64 { return &p.Fill.FrontTop }),
		length("fill.back_top", "Cover over the back", back, Vertical, roof, 1, p.Fill.BackTop,
			func(p *model.Project) *float64 { return &p.Fill.BackTop }),
	}
	h := scalar("fill.back_slope", "Slope behind the box", back.Add(geom.Vec{slopeArm, slopeArm * p.Fill.BackSlope}), Vertical,
		quantity.Gradient, p.Fill.BackSlope, func(p *model.Project) *float64 { return &p.Fill.BackSlope },
		func(to geom.Vec) (float64, error) { return (to[1] - back[1]) / slopeArm, nil })
	h.reach = slopeArm
	return append(out, h)
}

// slopeArm is how far behind the box the handle of the slope stands, m.
const slopeArm = 1.0

// nextPoint is the first corner of a line at least minRise beyond s in the
// direction dir.
func nextPoint(line geom.Polyline, s, dir float64) (geom.Vec, bool) {
	best, found := geom.Vec{}, false
	for _, q := range line {
		d := dir * (q[0] - s)
		if d >= minRise && (!found || d < dir*(best[0]-s)) {
			best, found = q, true
		}
	}
	return best, found
}

// rockHandles shape the drainage rock beside the wall on the side dir of the
// box.
func rockHandles(p *model.Project, box geom.Rect, dir float64) []Handle {
	wall := box.Max[0]
	if dir < 0 {
		wall = box.Min[0]
	}
	roof := box.Max[1]
	top := roof - p.Fill.RockTop
	return []Handle{
		length("fill.rock_width", "Width of the drainage rock", geom.Vec{wall + dir*p.Fill.RockWidth, (box.Min[1] + top) / 2}, Horizontal,
			wall, dir, p.Fill.RockWidth, func(p *model.Project) *float64 { return &p.Fill.RockWidth }),
		length("fill.rock_top", "Top of the drainage rock below the roof", geom.Vec{wall + dir*p.Fill.RockWidth/2, top}, Vertical,
			roof, -1, p.Fill.RockTop, func(p *model.Project) *float64 { return &p.Fill.RockTop }),
	}
}

// surchargeHandles move the loads on the surface along the section: a machine
// by its reference axle, an area by either edge.
func surchargeHandles(p *model.Project, v *section.View) []Handle {
	var out []Handle
	for i, s := range p.Site.Surcharges {
		edge := func(name, label string, x float64, field func(*model.Surcharge) *float64) {
			z, ok := v.Finish.At(x)
			if !ok {
				return
			}
			id := fmt.Sprintf("site.surcharges[%d].%s", i, name)
			h := length(id, label, geom.Vec{x, z}, Horizontal, 0, 1, x, nil)
			h.Values[0].set = func(p *model.Project, x float64) error {
				if i >= len(p.Site.Surcharges) {
					return gone(id)
				}
				*field(&p.Site.Surcharges[i]) = x
				return nil
			}
			out = append(out, h)
		}
		if s.Kind == model.Vehicle {
			edge("x1", s.Name+", reference axle", s.X1, func(s *model.Surcharge) *float64 { return &s.X1 })
			continue
		}
		edge("x1", s.Name+", downhill edge", s.X1, func(s *model.Surcharge) *float64 { return &s.X1 })
		edge("x2", s.Name+", uphill edge", s.X2, func(s *model.Surcharge) *float64 { return &s.X2 })
	}
	return out
}
