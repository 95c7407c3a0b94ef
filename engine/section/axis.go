package section

import (
	"fmt"
	"math"
	"sort"

	"hillset/engine/model"
	"hillset/geom"
)

// axis is the natural ground along one horizontal axis: the ground line and
// the effective upper boundary of every stratum, all spanning lo to hi.
type axis struct {
	lo, hi float64
	tops   []geom.Polyline // tops[0] is the ground; tops[i] never above tops[i-1]
	strata []model.Stratum
}

// longAxis is the ground along the fall line. A boundary that does not reach
// the ends of the ground line is carried on level, and pinches out where it
// would rise above the boundary over it.
func longAxis(p *model.Project) (axis, error) {
	g := geom.Polyline(p.Site.Ground)
	if len(g) < 2 {
		return axis{}, model.Problem{Field: "site.ground", Value: fmt.Sprintf("%d points", len(g)),
			Allowed: "2 points or more", Text: "the ground line is not drawn yet"}
	}
	if err := g.Validate(); err != nil {
		return axis{}, model.Problem{Field: "site.ground", Value: err.Error(), Allowed: "x strictly increasing", Text: "the ground line cannot be used"}
	}
	if len(p.Site.Strata) == 0 {
		return axis{}, model.Problem{Field: "site.strata", Value: "none", Allowed: "1 or more",
			Text: "no soil is given for the ground"}
	}
	a := axis{lo: g[0][0], hi: g[len(g)-1][0], strata: p.Site.Strata}
	above := g
	for i, s := range p.Site.Strata {
		if i > 0 {
			top, err := spanTo(s.Top, a.lo, a.hi)
			if err != nil {
				return axis{}, model.Problem{Field: fmt.Sprintf("site.strata[%d].top", i), Value: err.Error(),
					Allowed: "2 points or more, x strictly increasing", Text: "the boundary cannot be used"}
			}
			above = geom.Lower(above, top)
		}
		a.tops = append(a.tops, above)
	}
	return a, nil
}

// spanTo carries a line on level to lo and hi and cuts it there.
func spanTo(line []model.Vec, lo, hi float64) (geom.Polyline, error) {
	l := geom.Polyline(line)
	if err := l.Validate(); err != nil {
		return nil, err
	}
	out := append(geom.Polyline(nil), l...)
	if first := out[0]; first[0] > lo {
		out = append(geom.Polyline{{lo, first[1]}}, out...)
	}
	if last := out[len(out)-1]; last[0] < hi {
		out = append(out, geom.Vec{hi, last[1]})
	}
	return out.ClipX(lo, hi), nil
}

// crossAxis is the ground across the slope at station x: straight lines that
// fall by the cross slope, spanning half each side of the centre line.
func crossAxis(p *model.Project, long axis, x, half float64) (axis, error) {
	a := axis{lo: -half, hi: half, strata: long.strata}
	for _, top := range long.tops {
		z, ok := top.At(x)
		if !ok {
			return axis{}, lengthProblem("box.front", x, long.lo, long.hi, "the box reaches beyond the ground line")
		}
		dz := p.Site.CrossSlope * half
		a.tops = append(a.tops, geom.Polyline{{-half, z - dz}, {half, z + dz}})
	}
	return a, nil
}

func (a axis) ground() geom.Polyline { return a.tops[0] }

// level gives the level of boundary i at s.
func (a axis) level(i int, s float64) float64 {
	z, ok := a.tops[i].At(s)
	if !ok {
		panic(fmt.Sprintf("section: %g is outside the axis %g to %g", s, a.lo, a.hi))
	}
	return z
}

// stratumAt is the index of the stratum at a point of the natural ground, -1
// above the ground.
func (a axis) stratumAt(pt geom.Vec) int {
	idx := -1
	for i := range a.tops {
		if pt[1] < a.level(i, pt[0]) {
			idx = i
		}
	}
	return idx
}

// faceEps is how far a walk up a face steps past a boundary to learn which
// stratum it enters: far below any drawn thickness, far above rounding.
const faceEps = 1e-6

// face walks from the toe up to the ground. dir is +1 where the face runs to
// the right. n gives the run per unit rise in a stratum; benches are steps
// above the toe. It returns the corners from the toe to the crest.
func (a axis) face(toe geom.Vec, dir float64, n func(stratum int) float64, benches []model.Bench) ([]Batter, error) {
	steps := append([]model.Bench(nil), benches...)
	sort.Slice(steps, func(i, j int) bool { return steps[i].Height < steps[j].Height })
	var out []Batter
	at := toe
	for range 4*len(a.tops) + 2*len(steps) + 4 {
		k := a.stratumAt(geom.Vec{at[0] + dir*faceEps, at[1] + faceEps})
		if k < 0 {
			return out, nil
		}
		run := math.Max(n(k), 0)
		next, ok := a.nextBoundary(at, dir, run)
		for len(steps) > 0 && toe[1]+steps[0].Height <= at[1]+faceEps {
			steps = steps[1:]
		}
		if len(steps) > 0 && toe[1]+steps[0].Height < next[1] || !ok && len(steps) > 0 {
			h := toe[1] + steps[0].Height - at[1]
			top := geom.Vec{at[0] + dir*run*h, at[1] + h}
			out = append(out, Batter{Foot: at, Top: top, N: run, Stratum: a.strata[k].ID})
			at = geom.Vec{top[0] + dir*steps[0].Width, top[1]}
			steps = steps[1:]
			if at[0] < a.lo || at[0] > a.hi {
				return nil, errNoDaylight(run)
			}
			continue
		}
		if !ok {
			return nil, errNoDaylight(run)
		}
		out = append(out, Batter{Foot: at, Top: next, N: run, Stratum: a.strata[k].ID})
		at = next
	}
	return nil, errNoDaylight(0)
}

// nextBoundary is the nearest crossing of the ray up the face with any
// boundary of the ground.
func (a axis) nextBoundary(at geom.Vec, dir, run float64) (geom.Vec, bool) {
	ray := geom.Vec{dir * run, 1}
	from := at.Add(ray.Mul(faceEps))
	best, found := geom.Vec{}, false
	for _, top := range a.tops {
		hit, ok := geom.RayHit(from, ray, top)
		if ok && (!found || hit[1] < best[1]) {
			best, found = hit, true
		}
	}
	return best, found
}

func errNoDaylight(n float64) error {
	return model.Problem{Field: "cut.batter", Value: fmt.Sprintf("%.2f:1", n),
		Text:    "the face of the cut never meets the ground",
		Allowed: "a batter steeper than the hill, and a ground line that reaches past the crest"}
}
