package sketch

import (
	"math"

	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/engine/section"
	"hillset/geom"
)

// CrossHandles are the handles of the cross section; none while v is nil.
func CrossHandles(p *model.Project, v *section.View) []Handle {
	if v == nil {
		return nil
	}
	out := waterLevelHandles(p, func(_ float64, i int) float64 {
		return v.Box.Min[0] - p.Cut.WorkSide - waterOff - waterStep*float64(i)
	})
	if v.Stage.Kind == model.StageNatural {
		return out
	}
	out = append(out, levelHandle(v))
	dir := 1.0 // the side of the higher face
	if v.Toe[0] < v.Box.Center()[0] {
		dir = -1
	}
	out = append(out, sideCutHandles(p, v, dir)...)
	if v.Stage.Kind == model.StageBackfill || v.Stage.Kind == model.StageService {
		out = append(out, moundHandles(p, v, dir)...)
		out = append(out, rockHandles(p, v.Box, dir)...)
	}
	return out
}

// wallAt is the wall of the box on the side dir.
func wallAt(b geom.Rect, dir float64) float64 {
	if dir > 0 {
		return b.Max[0]
	}
	return b.Min[0]
}

func sideCutHandles(p *model.Project, v *section.View, dir float64) []Handle {
	toe := length("cut.work_side", "Toe of the side face", v.Toe, Horizontal, wallAt(v.Box, dir), dir, p.Cut.WorkSide,
		func(p *model.Project) *float64 { return &p.Cut.WorkSide })
	toe.Values[0].Label = "Working space beside the box"
	out := []Handle{toe}
	rise := v.Crest[1] - v.Toe[1]
	if rise < minRise {
		return out
	}
	crest := scalar("cut.side_batter", "Crest of the side face", v.Crest, Horizontal, quantity.Slope, p.Cut.SideBatter,
		func(p *model.Project) *float64 { return &p.Cut.SideBatter }, func(to geom.Vec) (float64, error) {
			z, ok := v.Ground.At(to[0])
			if !ok {
				return 0, model.Problem{Field: "cut.side_batter", Value: "crest at " + quantity.Text(to[0], quantity.Length),
					Allowed: "within " + quantity.Floor.Text(v.Ground[len(v.Ground)-1][0], quantity.Length) + " of the centre line", Text: "the section ends before the crest"}
			}
			return runOverRise("cut.side_batter", v.Toe, geom.Vec{to[0], z}, dir)
		})
	crest.reach = rise
	crest.Values[0].Label = "Batter of the side face"
	return append(out, crest)
}

// moundHandles shape the mound beside the roof.
func moundHandles(p *model.Project, v *section.View, dir float64) []Handle {
	wall := wallAt(v.Box, dir)
	top, ok := v.Finish.At(wall)
	if !ok {
		return nil
	}
	edge := geom.Vec{wall + dir*p.Fill.Shoulder, top}
	out := []Handle{length("fill.shoulder", "Shoulder beside the roof", edge, Horizontal, wall, dir, p.Fill.Shoulder,
		func(p *model.Project) *float64 { return &p.Fill.Shoulder })}
	foot, ok := nextPoint(v.Finish, edge[0], dir)
	if !ok || top-foot[1] < minRise {
		return out
	}
	h := scalar("fill.side_slope", "Side slope of the mound", foot, Horizontal, quantity.Slope, p.Fill.SideSlope,
		func(p *model.Project) *float64 { return &p.Fill.SideSlope }, func(to geom.Vec) (float64, error) {
			z := foot[1]
			if g, ok := v.Ground.At(to[0]); ok {
				z = math.Min(g, top-minRise) // the foot follows the ground as it moves out
			}
			return runOverRise("fill.side_slope", geom.Vec{to[0], z}, edge, -dir)
		})
	h.reach = top - foot[1]
	return append(out, h)
}
