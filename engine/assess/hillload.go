package assess

import (
	"math"
	"slices"

	"hillset/engine/earth"
	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/slope"
)

// hillLoads are the weights on the surface of a section: what acts in its stage,
// and the spoil heap behind the crests of an open cut.
func (h *hillside) hillLoads(c *hillCase) ([]slope.Load, error) {
	var out []slope.Load
	for _, s := range h.p.Site.Surcharges {
		if !slices.Contains(c.st.Surcharges, s.ID) {
			continue
		}
		if s.Kind == model.AreaLoad {
			out = append(out, areaOn(s, c.view)...)
			continue
		}
		ps, err := h.patches(s)
		if err != nil {
			return nil, err
		}
		out = append(out, wheelsOn(ps, c.view)...)
	}
	if c.st.Kind == model.StageCut && h.p.Cut.Spoil.Height > 0 {
		out = append(out, h.spoilOn(c))
	}
	return out, nil
}

// areaOn is an area load in a section. In the long section it is taken as wide as
// the hill, in a cross section it is there where it reaches the station.
func areaOn(s model.Surcharge, v *section.View) []slope.Load {
	if v.Long {
		return []slope.Load{{X0: s.X1, X1: s.X2, Q: s.Q}}
	}
	if v.Station < s.X1 || v.Station > s.X2 {
		return nil
	}
	l := slope.Load{X0: v.Ground[0][0], X1: v.Ground[len(v.Ground)-1][0], Q: s.Q}
	if s.Y1 != nil {
		l.X0 = *s.Y1
	}
	if s.Y2 != nil {
		l.X1 = math.Max(l.X0, *s.Y2)
	}
	return []slope.Load{l}
}

// wheelsOn are the wheels of a machine as strips across the section, their weight
// shared over the length of the machine at right angles to it: the strips are
// taken to go on for ever, which is on the safe side. A cross section has those
// of a machine that stands at it.
func wheelsOn(ps []earth.Patch, v *section.View) (out []slope.Load) {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, p := range ps {
		at, size := p.Y, p.B
		if !v.Long {
			at, size = p.X, p.A
		}
		lo, hi = math.Min(lo, at-size/2), math.Max(hi, at+size/2)
	}
	if !v.Long && (v.Station < lo-1 || v.Station > hi+1) {
		return nil
	}
	for _, p := range ps {
		at, size := p.X, p.A
		if !v.Long {
			at, size = p.Y, p.B
		}
		out = append(out, slope.Load{X0: at - size/2, X1: at + size/2, Q: p.P / (size * (hi - lo))})
	}
	return out
}

// heapSlope is the slope of a heap of dug soil, run per rise (common practice).
const heapSlope = 1.5

// spoilOn is the spoil heap behind the crest of a face, as the mean weight of a
// bank of its height.
func (h *hillside) spoilOn(c *hillCase) slope.Load {
	sp := h.p.Cut.Spoil
	gamma := 0.0
	for _, s := range h.p.Site.Strata[:1] {
		if so, ok := section.SoilByID(h.p, s.Soil); ok {
			gamma = so.Gamma
		}
	}
	wide := 2 * heapSlope * sp.Height
	up, down := facesOf(c.view.Batters)
	if c.mirror {
		crest := down[len(down)-1].Top[0]
		return slope.Load{X0: crest - sp.Setback - wide, X1: crest - sp.Setback, Q: gamma * sp.Height / 2}
	}
	crest := up[len(up)-1].Top[0]
	return slope.Load{X0: crest + sp.Setback, X1: crest + sp.Setback + wide, Q: gamma * sp.Height / 2}
}
