package water

import (
	"math"

	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/seepage"
	"hillset/engine/tables"
)

// NearlySaturated is the effective saturation from which ground counts as nearly
// saturated (common practice): the water between its residual and its saturated
// content, as a share.
const NearlySaturated = 0.9

// Moist is how high over the water table ground at the box stays nearly
// saturated by suction, under the steady rain that reaches the water.
type Moist struct {
	Where  string // what it is to the box
	Soil   string // its name
	Class  string // its texture; empty where none is given
	Height float64
	// Why says why Height is not known and then NaN. Height is +Inf where the rain
	// keeps it so wet all the way up.
	Why string
	Src tables.Source // of the class
}

// MoistAt looks at the ground that touches the box: the drainage rock beside it,
// the backfill, and the natural ground behind it from the formation up.
func MoistAt(p *model.Project, t *tables.Set) []Moist {
	var out []Moist
	seen := map[string]bool{}
	add := func(where string, so model.Soil, ok bool) {
		if ok && !seen[so.ID] {
			seen[so.ID] = true
			out = append(out, moist(p, t, where, &so))
		}
	}
	named := func(where, id string) {
		so, ok := section.SoilByID(p, id)
		add(where, so, ok)
	}
	if p.Fill.RockWidth > 0 {
		named("drainage rock", p.Fill.RockSoil)
	}
	named("backfill", p.Fill.Backfill)
	b, err := section.BoxOf(p, t)
	if err != nil {
		return out
	}
	if v, err := section.NewLong(p, t, model.Stage{Kind: model.StageNatural}); err == nil {
		for _, z := range []float64{section.Formation(p), p.Box.Level + b.H/2, p.Box.Level + b.H} {
			so, ok := v.SoilAt(p.Box.Front+section.Depth(p, b), z)
			add("natural ground", so, ok)
		}
	}
	return out
}

func moist(p *model.Project, t *tables.Set, where string, so *model.Soil) Moist {
	m := Moist{Where: where, Soil: so.Name, Height: math.NaN()}
	if so.Texture == "" {
		m.Why = "it has no texture"
		return m
	}
	row, ok := t.Texture(so.Texture)
	if !ok {
		m.Why = "the table has no texture " + so.Texture
		return m
	}
	m.Class, m.Src = row.Name, row.Src
	h, err := seepage.Retention{Alpha: row.Alpha, N: row.N, Ks: row.Ks}.Reach(NearlySaturated, recharge(p))
	if err != nil {
		m.Why = err.Error()
		return m
	}
	m.Height = h
	return m
}
