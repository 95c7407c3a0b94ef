package panel

import (
	"hillset/engine/model"
	"hillset/engine/quantity"
)

// cutPage is the excavation.
func (w *Window) cutPage() *page {
	return newPage("cut", "5 Cut", "Where the ground is opened, and how steep it may stand. Slopes are horizontal to vertical (H:V).", func(p *model.Project) []row {
		rows := []row{
			w.num("Space behind the box", "", quantity.Length, func(p *model.Project) *float64 { return &p.Cut.WorkBack }),
			w.num("Space at the sides", "", quantity.Length, func(p *model.Project) *float64 { return &p.Cut.WorkSide }),
			w.num("Apron in front", "", quantity.Length, func(p *model.Project) *float64 { return &p.Cut.Apron }),
			w.num("Batter of the back", "", quantity.Slope, func(p *model.Project) *float64 { return &p.Cut.Batter }),
			w.num("Batter of the sides", "", quantity.Slope, func(p *model.Project) *float64 { return &p.Cut.SideBatter }),
		}
		rows = append(rows, w.batters(p)...)
		rows = append(rows,
			w.num("Stands open", "", quantity.Hours, func(p *model.Project) *float64 { return &p.Cut.HoursOpen }),
			w.tick("Water seeps from the face", func(p *model.Project) *bool { return &p.Cut.Seepage }),
			w.tick("Fissures seen, or ground disturbed before", func(p *model.Project) *bool { return &p.Cut.Fissured }),
			w.tick("Dry below the formation when it is dug", func(p *model.Project) *bool { return &p.Cut.DryDig }),
			w.num("Pumps while it is open", "what they lift together from the floor", quantity.Flow, func(p *model.Project) *float64 { return &p.Cut.Pump }).in(litreMinute).or("none"),
			w.whole("Ladders or ramps out of the gap", 0, 20, func(p *model.Project) *int { return &p.Cut.Ladders }).called("0", "not stated"),
			head("Spoil heap"),
			w.num("Distance from the crest", "", quantity.Length, func(p *model.Project) *float64 { return &p.Cut.Spoil.Setback }),
			w.num("Height", "", quantity.Length, func(p *model.Project) *float64 { return &p.Cut.Spoil.Height }),
			head("Benches in the back face"))
		for i := range p.Cut.Benches {
			rows = append(rows,
				w.num(fmtIndex("Bench", i)+", height", "above the formation", quantity.Length, func(p *model.Project) *float64 { return &p.Cut.Benches[i].Height }),
				w.num(fmtIndex("Bench", i)+", width", "", quantity.Length, func(p *model.Project) *float64 { return &p.Cut.Benches[i].Width }))
		}
		return append(rows, listButtons(w, "bench", "bench", func(p *model.Project) *[]model.Bench { return &p.Cut.Benches }, func(l []model.Bench) model.Bench {
			return model.Bench{Height: 1.2 * float64(len(l)+1), Width: 1}
		}))
	}).listing(func(p *model.Project) string { return count(len(p.Cut.Benches)) + "/" + strataSig(p) })
}

// batters are those of single layers of the ground, in place of the batter of
// the back.
func (w *Window) batters(p *model.Project) []row {
	var rows []row
	for i, st := range p.Site.Strata {
		rows = append(rows, w.keyed(fmtIndex("Batter in layer", i), "as the back", quantity.Slope, st.ID, func(p *model.Project) *map[string]float64 { return &p.Cut.ByStratum }))
	}
	return rows
}

// strataSig tells lists of layers apart.
func strataSig(p *model.Project) string {
	s := ""
	for _, st := range p.Site.Strata {
		s += st.ID + ","
	}
	return s
}
