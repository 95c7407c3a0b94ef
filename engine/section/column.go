package section

import (
	"fmt"
	"math"

	"hillset/engine/earth"
	"hillset/engine/model"
	"hillset/geom"
)

// thin is the thickness below which a layer is left out of a column, m.
const thin = 1e-4

// wedgeShares are the places, as shares of the width of the active wedge
// behind the wall, at which the ground is cored: at the wall itself, in the
// middle and at the back of the wedge. A narrow strip of rock at the wall does
// not shield it from the soil behind, so all three are computed and the worst
// is taken level by level.
var wedgeShares = [...]float64{0, 0.5, 1}

// core is one layer met on the way down.
type core struct {
	soil        string
	top, bottom float64
}

// Columns are the columns of soil that may press on a face, from the top of
// the fill at the wall down to below the formation; empty where no soil lies
// against the face at this stage. A soil that is not in the project is a
// model.Problem.
func (v *View) Columns(f Face) ([]earth.Column, error) {
	s, ok := v.sideOf(f)
	if !ok {
		return nil, nil
	}
	l := v.lay
	zw, _ := s.surface.At(s.edge)
	h := zw - l.floor
	if h <= thin {
		return nil, nil
	}
	if _, found := SoilByID(l.p, l.p.Fill.Backfill); !found {
		return nil, model.Problem{Field: "fill.backfill", Value: l.p.Fill.Backfill, Allowed: "a soil of the project", Text: "no such soil"}
	}
	wedge := h * math.Tan(math.Pi/4-l.weakest()*math.Pi/360)
	beta, water := 0.0, math.Inf(-1)
	if l.st.Cover {
		// while the fill comes up its lifts are level, and the face of the cut
		// above them stands by itself at its own batter
		beta = s.beta(zw, h)
	}
	if !math.IsNaN(v.Water) {
		water = v.Water
	}
	out := make([]earth.Column, 0, len(wedgeShares))
	for _, share := range wedgeShares {
		x := s.edge + s.dir*(share*wedge+faceEps)
		if s.dir*x >= s.dir*s.limit {
			break
		}
		col, err := l.column(s, x, zw)
		if err != nil {
			return nil, err
		}
		col.Beta, col.Water = beta, water
		out = append(out, col)
	}
	return out, nil
}

// weakest is the smallest friction angle of what may lie in the wedge behind a
// wall, degrees: it makes the widest wedge.
func (l *layout) weakest() float64 {
	phi := math.Inf(1)
	take := func(id string) {
		if so, ok := SoilByID(l.p, id); ok {
			phi = math.Min(phi, so.Phi)
		}
	}
	take(l.p.Fill.Backfill)
	for _, st := range l.ax.strata {
		take(st.Soil)
	}
	return phi
}

// Retained is the height of fill against a face above the underside of the
// box, 0 where there is none.
func (v *View) Retained(f Face) float64 {
	s, ok := v.sideOf(f)
	if !ok {
		return 0
	}
	zw, _ := s.surface.At(s.edge)
	return math.Max(0, math.Min(zw, v.lay.roof)-v.lay.floor)
}

// Surface is the level of the fill against a face; ok is false where none is.
func (v *View) Surface(f Face) (z float64, ok bool) {
	s, found := v.sideOf(f)
	if !found {
		return 0, false
	}
	return s.surface.At(s.edge)
}

func (v *View) sideOf(f Face) (side, bool) {
	dir := 0.0
	switch {
	case v.Long && f == Back, !v.Long && f == Right:
		dir = 1
	case !v.Long && f == Left:
		dir = -1
	}
	for _, s := range v.sides {
		if s.dir == dir {
			return s, true
		}
	}
	return side{}, false
}

// beta is the slope of the surface that acts on the wall: a broken surface is
// replaced by the straight line to the point at twice the height of fill, as
// the highway bridge rules do for broken backslopes (AASHTO LRFD Fig.
// 3.11.5.8.1-3, memory). A surface that falls away counts as level.
func (s side) beta(zw, h float64) float64 {
	far := s.edge + s.dir*2*h
	far = s.dir * math.Min(s.dir*far, s.dir*s.limit)
	z, ok := s.surface.At(far)
	if !ok || far == s.edge {
		return 0
	}
	return math.Max(0, math.Atan2(z-zw, math.Abs(far-s.edge)))
}

// column turns the core at x into a column that starts at the level of the
// fill at the wall.
func (l *layout) column(s side, x, zw float64) (earth.Column, error) {
	met := l.core(s, x)
	col := earth.Column{Layers: make([]earth.Layer, 0, len(met))}
	for _, c := range met {
		top := math.Min(c.top, zw)
		if len(col.Layers) == 0 {
			top = zw
		}
		if top-c.bottom <= thin {
			continue
		}
		so, ok := SoilByID(l.p, c.soil)
		if !ok {
			return col, model.Problem{Field: "fill", Value: fmt.Sprintf("%q", c.soil), Allowed: "a soil of the project", Text: "a layer beside the box has no soil"}
		}
		if n := len(col.Layers); n > 0 {
			top = col.Layers[n-1].Bottom
		}
		col.Layers = append(col.Layers, LayerOf(so, top, c.bottom))
	}
	return col, nil
}

// LayerOf is a soil as a layer of a column; angles become radians and a
// missing overconsolidation ratio 1. Cohesion is left out: fill creeps, shrinks
// and swells, and it is not counted against the walls (UFC 3-220-20 4-2.2,
// second-hand).
func LayerOf(so model.Soil, top, bottom float64) earth.Layer {
	return earth.Layer{Name: so.Name, Top: top, Bottom: bottom, Gamma: so.Gamma, GammaSat: so.GammaSat,
		Phi: so.Phi * math.Pi / 180, OCR: math.Max(1, so.OCR)}
}

// below is how far under the formation a column reaches, m.
const below = 1.0

// core lists what is met going down at x: topsoil, cap, backfill, rock, and
// the natural strata under what was dug.
func (l *layout) core(s side, x float64) []core {
	at := func(line geom.Polyline) float64 {
		z, ok := line.At(x)
		if !ok {
			panic(fmt.Sprintf("section: core at %g outside the side %g to %g", x, s.edge, s.limit))
		}
		return z
	}
	topsoil, clay := l.covers()
	dug := at(s.dug)
	z0 := at(s.surface)
	z1, z2 := math.Max(z0-topsoil, dug), math.Max(z0-topsoil-clay, dug)
	rock := dug
	if s.dir*(x-s.edge) < l.p.Fill.RockWidth {
		rock = math.Max(dug, math.Min(z2, l.roof-l.p.Fill.RockTop))
	}
	out := append(make([]core, 0, 4+len(l.ax.strata)),
		core{l.p.Fill.TopsoilSoil, z0, z1}, core{l.p.Fill.CapSoil, z1, z2},
		core{l.p.Fill.Backfill, z2, rock}, core{l.p.Fill.RockSoil, rock, dug})
	for i, st := range l.ax.strata {
		bottom := math.Inf(-1)
		if i+1 < len(l.ax.tops) {
			bottom = l.ax.level(i+1, x)
		}
		bottom = math.Max(bottom, l.form-below)
		out = append(out, core{st.Soil, math.Min(l.ax.level(i, x), dug), bottom})
	}
	kept := out[:0]
	for _, c := range out {
		if c.top-c.bottom > thin {
			kept = append(kept, c)
		}
	}
	return kept
}

// SoilBelow is the soil under the formation at a place along the axis.
func (v *View) SoilBelow(s float64) (model.Soil, bool) { return v.SoilAt(s, v.lay.form) }

// SoilAt is the natural soil just under a level at a place along the axis; the
// topmost one where the level is above the ground.
func (v *View) SoilAt(s, level float64) (model.Soil, bool) {
	l := v.lay
	if s < l.ax.lo || s > l.ax.hi {
		return model.Soil{}, false
	}
	k := l.ax.stratumAt(model.Vec{s, math.Min(level, l.ax.level(0, s)) - thin})
	if k < 0 {
		return model.Soil{}, false
	}
	return SoilByID(l.p, l.ax.strata[k].Soil)
}
