package panel

import (
	"fyne.io/fyne/v2/widget"

	"hillset/engine/model"
	"hillset/engine/quantity"
)

// Sizes of the units that some fields are stored in, in SI.
const (
	mm     = 1e-3 // sheet thickness
	tonne  = 1e-3 // kg as t
	mpa    = 1e3  // MPa as kPa
	degree = 0.017453292519943295
)

// boxPage is the container and what it stands on.
func (w *Window) boxPage() *page {
	boxes := func(*model.Project) (ids, names []string) {
		for _, id := range w.tables.BoxIDs() {
			b, _ := w.tables.Box(id)
			ids, names = append(ids, id), append(names, b.Name)
		}
		return ids, names
	}
	return newPage("box", "4 Box", "Drag the box in the section, or type where it stands.", func(*model.Project) []row {
		return []row{
			w.pick("Container", "", boxes, func(p *model.Project) *string { return &p.Box.Type }),
			w.pick("Set", "", fixed(model.EndOn, "end-on, doors downhill", model.Broadside, "broadside, along the contour"), func(p *model.Project) *string { return &p.Box.Orientation }),
			w.num("Front at distance", "", quantity.Length, func(p *model.Project) *float64 { return &p.Box.Front }),
			w.num("Level of the castings", "underside of the bottom corner castings", quantity.Length, func(p *model.Project) *float64 { return &p.Box.Level }).asLevel(),
			head("What was measured"),
			w.tick("Steel grade known from the maker", func(p *model.Project) *bool { return &p.Box.SteelKnown }),
			w.num("Yield strength", "", quantity.Stress, func(p *model.Project) *float64 { return &p.Box.Fy }).in(mpa).or("by grade"),
			w.num("Side sheet", "", quantity.Thickness, func(p *model.Project) *float64 { return &p.Box.SideT }).in(mm).or("as new"),
			w.num("End sheet", "", quantity.Thickness, func(p *model.Project) *float64 { return &p.Box.EndT }).in(mm).or("as new"),
			w.num("Roof sheet", "", quantity.Thickness, func(p *model.Project) *float64 { return &p.Box.RoofT }).in(mm).or("as new"),
			w.num("Deepest roof dent", "", quantity.Thickness, func(p *model.Project) *float64 { return &p.Box.RoofDent }).in(mm),
			w.tick("Sheets patched or straightened", func(p *model.Project) *bool { return &p.Box.Patched }),
			w.num("Empty weight", "", quantity.Mass, func(p *model.Project) *float64 { return &p.Box.Tare }).in(tonne).or("by type"),
			w.num("Gross rating on the plate", "", quantity.Mass, func(p *model.Project) *float64 { return &p.Box.PlateRating }).in(tonne).or("not read"),
			head("What it stands on"),
			w.pick("Bedding", "", fixed(model.PadBedding, "pads under the corners", model.RockBedding, "rock bed", model.SlabBedding, "concrete slab"), func(p *model.Project) *string { return &p.Bedding.Kind }),
			w.num("Pad, along the box", "", quantity.Length, func(p *model.Project) *float64 { return &p.Bedding.PadLength }),
			w.num("Pad, across", "", quantity.Length, func(p *model.Project) *float64 { return &p.Bedding.PadWidth }),
			w.num("Pad or slab thickness", "", quantity.Length, func(p *model.Project) *float64 { return &p.Bedding.PadThickness }),
			w.num("Rock bed thickness", "", quantity.Length, func(p *model.Project) *float64 { return &p.Bedding.RockThickness }),
			w.pickSoil("Bed rock", "", func(p *model.Project) *string { return &p.Bedding.RockSoil }),
			w.tick("Bed rock is graded, not of one size", func(p *model.Project) *bool { return &p.Bedding.Graded }),
			w.num("Toe beam, depth", "concrete beam under the front sill", quantity.Length, func(p *model.Project) *float64 { return &p.Bedding.Toe.Depth }),
			w.num("Toe beam, width", "", quantity.Length, func(p *model.Project) *float64 { return &p.Bedding.Toe.Width }),
		}
	})
}

// cutPage is the excavation.
func (w *Window) cutPage() *page {
	return newPage("cut", "5 Cut", "Where the ground is opened, and how steep it may stand. Slopes are horizontal to vertical (H:V).", func(p *model.Project) []row {
		rows := []row{
			w.num("Space behind the box", "", quantity.Length, func(p *model.Project) *float64 { return &p.Cut.WorkBack }),
			w.num("Space at the sides", "", quantity.Length, func(p *model.Project) *float64 { return &p.Cut.WorkSide }),
			w.num("Apron in front", "", quantity.Length, func(p *model.Project) *float64 { return &p.Cut.Apron }),
			w.num("Batter of the back", "", quantity.Slope, func(p *model.Project) *float64 { return &p.Cut.Batter }),
			w.num("Batter of the sides", "", quantity.Slope, func(p *model.Project) *float64 { return &p.Cut.SideBatter }),
			w.num("Stands open", "", quantity.Hours, func(p *model.Project) *float64 { return &p.Cut.HoursOpen }),
			w.tick("Water seeps from the face", func(p *model.Project) *bool { return &p.Cut.Seepage }),
			w.tick("Fissures seen, or ground disturbed before", func(p *model.Project) *bool { return &p.Cut.Fissured }),
			head("Spoil heap"),
			w.num("Distance from the crest", "", quantity.Length, func(p *model.Project) *float64 { return &p.Cut.Spoil.Setback }),
			w.num("Height", "", quantity.Length, func(p *model.Project) *float64 { return &p.Cut.Spoil.Height }),
			head("Benches in the back face"),
		}
		for i := range p.Cut.Benches {
			rows = append(rows,
				w.num(fmtIndex("Bench", i)+", height", "above the formation", quantity.Length, func(p *model.Project) *float64 { return &p.Cut.Benches[i].Height }),
				w.num(fmtIndex("Bench", i)+", width", "", quantity.Length, func(p *model.Project) *float64 { return &p.Cut.Benches[i].Width }))
		}
		return append(rows, buttons(
			widget.NewButton("Add bench", func() {
				w.edit("Add bench", func(p *model.Project) error {
					p.Cut.Benches = append(p.Cut.Benches, model.Bench{Height: 1.2 * float64(len(p.Cut.Benches)+1), Width: 1})
					return nil
				})
			}),
			widget.NewButton("Remove bench", func() {
				w.edit("Remove bench", func(p *model.Project) error {
					if n := len(p.Cut.Benches); n > 0 {
						p.Cut.Benches = p.Cut.Benches[:n-1]
					}
					return nil
				})
			})))
	}).listing(func(p *model.Project) string { return count(len(p.Cut.Benches)) })
}
