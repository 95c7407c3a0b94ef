package assess

import (
	"context"
	"errors"
	"math"

	"hillset/engine/earth"
	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/seepage"
	"hillset/engine/water"
	"hillset/geom"
)

// hillWater is the water of a section as a slope feels it.
type hillWater struct {
	table   geom.Polyline            // nil for none
	pore    func(v geom.Vec) float64 // kPa; nil takes the table
	sampled func(v geom.Vec) float64 // the same read off a grid, for the search
	words   string                   // where it is from
}

// dryHill is no water.
func dryHill(words string) hillWater { return hillWater{words: words} }

// foundWater is the water of the hill as found: of the wet season, computed or
// level at the level given.
func (h *hillside) foundWater(v *section.View) (hillWater, error) {
	if h.field == nil {
		return h.stillSeason(v), nil
	}
	for _, wet := range []string{model.WaterSeasonal, model.WaterHigh} {
		if far := h.field.Far[wet]; far != nil {
			return flowing(far.Flow, v, "The computed water of the hill as found, "+seasonWord(wet)+"."), nil
		}
	}
	return dryHill("No stage has water: the hill is taken as dry."), nil
}

func seasonWord(wet string) string {
	if wet == model.WaterHigh {
		return "at the design high level"
	}
	return "of the wet season"
}

// pitWater is the water of the open cut. It is dry where the user has made sure
// of that; else of the wet season, as in the check of what comes in.
func (h *hillside) pitWater(ctx context.Context, v *section.View) (hillWater, error) {
	if wetOf(v.Stage) != model.WaterNone {
		return h.stageWater(v)
	}
	if h.p.Cut.DryDig {
		return dryHill("The ground is dry when it is dug: you said so."), nil
	}
	if h.field == nil {
		return h.stillSeason(v), nil
	}
	if v.Long {
		pit, err := water.PitOf(ctx, h.p, h.t, h.field)
		if err != nil {
			return hillWater{}, err
		}
		return flowing(pit.Long.Flow, v, openWords), nil
	}
	far := h.field.Far[model.WaterSeasonal]
	if far == nil {
		return hillWater{}, errors.New("no stage has the water of the wet season")
	}
	z, ok := far.Table.At(v.Station)
	if !ok {
		return hillWater{}, errors.New("the cut reaches beyond the ground line")
	}
	fall := h.p.Site.CrossSlope
	s, err := water.Solve(h.p, v, z+fall*v.Ground[0][0], z+fall*v.Ground[len(v.Ground)-1][0], water.Options{NoRain: true, Grain: water.Ordinary()})
	if err != nil {
		return hillWater{}, err
	}
	return flowing(s.Flow, v, openWords), nil
}

const openWords = "The computed water of the wet season with the cut open."

// stageWater is the water that a stage asks for.
func (h *hillside) stageWater(v *section.View) (hillWater, error) {
	st := v.Stage
	if wetOf(st) == model.WaterNone {
		return dryHill("The stage has no water."), nil
	}
	if pr := h.missingWater(st); pr != nil {
		return hillWater{}, *pr
	}
	if h.field == nil {
		return h.still(v, v.Water), nil
	}
	w, err := h.field.At(st)
	if err != nil {
		return hillWater{}, err
	}
	s := w.Long
	if !v.Long {
		s = w.CrossAt(v.Station)
	}
	if s == nil {
		return hillWater{}, errors.New("the water of this section could not be computed")
	}
	return flowing(s.Flow, v, "The computed water of the stage."), nil
}

// stillSeason is water level at the level of the wet season.
func (h *hillside) stillSeason(v *section.View) hillWater {
	if z := h.p.Site.Water.Seasonal; z != nil {
		return h.still(v, *z)
	}
	return dryHill("No level of the wet season is given: the ground is taken as dry.")
}

// still is water that stands level in the ground, nowhere above it.
func (h *hillside) still(v *section.View, z float64) hillWater {
	lo, hi := v.Finish[0][0], v.Finish[len(v.Finish)-1][0]
	return hillWater{table: geom.Lower(v.Finish, geom.Polyline{{lo, z}, {hi, z}}),
		words: "The water stands level in the hill at the level given. Computed water rises into the hill and presses more: have it computed."}
}

// flowing is computed water.
func flowing(f *seepage.Flow, v *section.View, words string) hillWater {
	w := hillWater{table: f.Table(), words: words}
	if w.table.Validate() != nil {
		w.table = nil
	}
	floor := floorLevel(v) + 1e-3
	w.pore = func(at geom.Vec) float64 {
		// below the drawn section the head is that at its foot
		h, ok := f.HeadAt(geom.Vec{at[0], math.Max(at[1], floor)})
		if !ok {
			if h, ok = w.table.At(at[0]); !ok {
				return 0
			}
		}
		return earth.GammaW * math.Max(0, h-at[1])
	}
	w.sampled = gridded(w.pore, v, floor)
	return w
}

// sampleStep is the mesh of the grid that a search reads its pore pressures off,
// m; what is reported is worked out without it.
const sampleStep = 0.25

// gridded reads a pore pressure into a grid.
func gridded(pore func(geom.Vec) float64, v *section.View, floor float64) func(geom.Vec) float64 {
	b := v.Finish.Bounds()
	x0, z0 := b.Min[0], floor-hillDeep
	nx, nz := int(math.Ceil((b.Max[0]-x0)/sampleStep))+1, int(math.Ceil((b.Max[1]-z0)/sampleStep))+2
	grid := make([]float32, nx*nz)
	for i := range nx {
		for k := range nz {
			grid[i*nz+k] = float32(pore(geom.Vec{x0 + float64(i)*sampleStep, z0 + float64(k)*sampleStep}))
		}
	}
	return func(at geom.Vec) float64 {
		u, w := (at[0]-x0)/sampleStep, (at[1]-z0)/sampleStep
		i, k := min(max(int(u), 0), nx-2), min(max(int(w), 0), nz-2)
		u, w = u-float64(i), w-float64(k)
		g := grid[i*nz+k:]
		a, b, c, d := float64(g[0]), float64(g[1]), float64(g[nz]), float64(g[nz+1])
		return (a*(1-w)+b*w)*(1-u) + (c*(1-w)+d*w)*u
	}
}
