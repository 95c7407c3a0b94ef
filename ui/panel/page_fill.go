package panel

import (
	"fyne.io/fyne/v2/widget"

	"hillset/engine/model"
	"hillset/engine/quantity"
)

// plants lists the compaction plant.
func (w *Window) plants(*model.Project) (ids, names []string) {
	ids, names = []string{""}, []string{"none"}
	for _, id := range w.tables.PlantIDs() {
		pl, _ := w.tables.Plant(id)
		ids, names = append(ids, id), append(names, pl.Name)
	}
	return ids, names
}

// fillPage is what is put back round and on the box.
func (w *Window) fillPage() *page {
	return newPage("fill", "6 Fill", "What is put back. Cover is measured from the roof; a negative value leaves the top of the wall clear.", func(p *model.Project) []row {
		rows := []row{
			w.num("Cover at the front edge", "", quantity.Length, func(p *model.Project) *float64 { return &p.Fill.FrontTop }),
			w.num("Cover at the back edge", "", quantity.Length, func(p *model.Project) *float64 { return &p.Fill.BackTop }),
			w.num("Rise of the surface behind", "", quantity.Gradient, func(p *model.Project) *float64 { return &p.Fill.BackSlope }),
			w.num("Level shoulder beside the roof", "", quantity.Length, func(p *model.Project) *float64 { return &p.Fill.Shoulder }),
			w.num("Side slope of the mound", "", quantity.Slope, func(p *model.Project) *float64 { return &p.Fill.SideSlope }),
			head("Backfill"),
			w.pickSoil("Soil", "", func(p *model.Project) *string { return &p.Fill.Backfill }),
			w.num("Lift", "", quantity.Length, func(p *model.Project) *float64 { return &p.Fill.LiftHeight }),
			w.pick("Compaction plant", "", w.plants, func(p *model.Project) *string { return &p.Fill.Plant }),
			w.num("Plant stays off the wall", "", quantity.Length, func(p *model.Project) *float64 { return &p.Fill.PlantSetback }),
			w.num("One side ahead by at most", "", quantity.Length, func(p *model.Project) *float64 { return &p.Fill.MaxAhead }),
			w.tick("Compaction is tested and proven", func(p *model.Project) *bool { return &p.Fill.Proven }),
			w.num("Side friction counted", "share, 0 to 0.5; only with proven fill", quantity.None, func(p *model.Project) *float64 { return &p.Fill.SideFriction }),
			head("Drainage rock at the walls"),
			w.num("Width", "", quantity.Length, func(p *model.Project) *float64 { return &p.Fill.RockWidth }),
			w.num("Top below the roof", "", quantity.Length, func(p *model.Project) *float64 { return &p.Fill.RockTop }),
			w.pickSoil("Rock", "", func(p *model.Project) *string { return &p.Fill.RockSoil }),
			head("Top layers"),
			w.num("Clay cap", "", quantity.Length, func(p *model.Project) *float64 { return &p.Fill.CapThickness }),
			w.pickSoil("Cap soil", "", func(p *model.Project) *string { return &p.Fill.CapSoil }),
			w.num("Topsoil", "", quantity.Length, func(p *model.Project) *float64 { return &p.Fill.TopsoilThickness }),
			w.pickSoil("Topsoil soil", "", func(p *model.Project) *string { return &p.Fill.TopsoilSoil }),
			head("Laid on the roof, from the steel up"),
		}
		for i := range p.Fill.Roof {
			name := fmtIndex("Layer", i)
			rows = append(rows,
				w.text(name, "", func(p *model.Project) *string { return &p.Fill.Roof[i].Name }),
				w.pick(name+", kind", "", fixed("membrane", "membrane", "foam", "foam", "board", "board", "rock", "drain rock", "lightfill", "light fill"), func(p *model.Project) *string { return &p.Fill.Roof[i].Kind }),
				w.num(name+", thickness", "", quantity.Length, func(p *model.Project) *float64 { return &p.Fill.Roof[i].Thickness }),
				w.num(name+", weight", "", quantity.UnitWeight, func(p *model.Project) *float64 { return &p.Fill.Roof[i].Gamma }))
		}
		return append(rows, buttons(
			widget.NewButton("Add layer", func() {
				w.edit("Add roof layer", func(p *model.Project) error {
					p.Fill.Roof = append(p.Fill.Roof, model.RoofLayer{Kind: "foam", Name: "Closed-cell foam", Thickness: 0.05, Gamma: 0.32})
					return nil
				})
			}),
			widget.NewButton("Remove layer", func() {
				w.edit("Remove roof layer", func(p *model.Project) error {
					if n := len(p.Fill.Roof); n > 0 {
						p.Fill.Roof = p.Fill.Roof[:n-1]
					}
					return nil
				})
			})))
	}).listing(func(p *model.Project) string { return count(len(p.Fill.Roof)) })
}

// strengthPage is what is built in so that the box holds.
func (w *Window) strengthPage() *page {
	bars := func(*model.Project) (ids, names []string) {
		for _, id := range w.tables.BarIDs() {
			b, _ := w.tables.Bar(id)
			ids, names = append(ids, id), append(names, b.Name)
		}
		return ids, names
	}
	return newPage("strength", "7 Inside", "Steel built in: wales halve the span of the sheet, ribs carry the wales, purlins carry the roof.", func(p *model.Project) []row {
		rows := []row{
			head("Ribs: posts, roof beam, floor tie"),
			w.num("Spacing", "", quantity.Length, func(p *model.Project) *float64 { return &p.Strengthening.Ribs.Spacing }).or("no ribs"),
			w.pick("Posts", "", bars, func(p *model.Project) *string { return &p.Strengthening.Ribs.Post }),
			w.pick("Roof beam", "", bars, func(p *model.Project) *string { return &p.Strengthening.Ribs.RoofBeam }),
			w.pick("Floor tie", "", bars, func(p *model.Project) *string { return &p.Strengthening.Ribs.FloorTie }),
			w.purlins(),
			w.pick("Purlin", "", bars, func(p *model.Project) *string { return &p.Strengthening.Ribs.Purlin }),
		}
		rows = append(rows, w.wales("Wales of the long walls", bars, p.Strengthening.Wales, func(p *model.Project) *[]model.Wale { return &p.Strengthening.Wales })...)
		return append(rows, w.wales("Wales of the back wall", bars, p.Strengthening.BackWales, func(p *model.Project) *[]model.Wale { return &p.Strengthening.BackWales })...)
	}).listing(func(p *model.Project) string {
		return count(len(p.Strengthening.Wales)) + "," + count(len(p.Strengthening.BackWales))
	})
}

// purlins chooses their number from a short list.
func (w *Window) purlins() row {
	return w.whole("Purlins across the roof", 0, 6, func(p *model.Project) *int { return &p.Strengthening.Ribs.Purlins })
}

// wales are the rows of one set of wales.
func (w *Window) wales(title string, bars options, now []model.Wale, ref func(p *model.Project) *[]model.Wale) []row {
	rows := []row{head(title)}
	for i := range now {
		rows = append(rows,
			w.num(fmtIndex("Wale", i)+", height", "", quantity.Length, func(p *model.Project) *float64 { return &(*ref(p))[i].Height }),
			w.pick(fmtIndex("Wale", i)+", bar", "", bars, func(p *model.Project) *string { return &(*ref(p))[i].Section }))
	}
	return append(rows, buttons(
		widget.NewButton("Add wale", func() {
			w.edit("Add wale", func(p *model.Project) error {
				l := ref(p)
				h, bar := 1.0, "shs75x5"
				if n := len(*l); n > 0 {
					h, bar = (*l)[n-1].Height+0.5, (*l)[n-1].Section
				}
				*l = append(*l, model.Wale{Height: h, Section: bar})
				return nil
			})
		}),
		widget.NewButton("Remove wale", func() {
			w.edit("Remove wale", func(p *model.Project) error {
				if l := ref(p); len(*l) > 0 {
					*l = (*l)[:len(*l)-1]
				}
				return nil
			})
		})))
}
