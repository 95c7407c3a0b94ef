package panel

import (
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
			w.pickSoil("Backfill soil", "", func(p *model.Project) *string { return &p.Fill.Backfill }, "drain-stone", "GW", "SW"),
			w.num("Lift", "", quantity.Length, func(p *model.Project) *float64 { return &p.Fill.LiftHeight }),
			w.pick("Compaction plant", "", w.plants, func(p *model.Project) *string { return &p.Fill.Plant }),
			w.num("Plant stays off the wall", "", quantity.Length, func(p *model.Project) *float64 { return &p.Fill.PlantSetback }),
			w.num("One side ahead by at most", "", quantity.Length, func(p *model.Project) *float64 { return &p.Fill.MaxAhead }),
			w.tick("Compaction is tested and proven", func(p *model.Project) *bool { return &p.Fill.Proven }),
			w.num("Side friction counted", "share, 0 to 0.5; only with proven fill", quantity.None, func(p *model.Project) *float64 { return &p.Fill.SideFriction }),
			head("How high may each soil stand against the bare sheet"),
			w.burialTable(),
			head("Drainage rock at the walls"),
			w.num("Width", "", quantity.Length, func(p *model.Project) *float64 { return &p.Fill.RockWidth }),
			w.num("Top below the roof", "", quantity.Length, func(p *model.Project) *float64 { return &p.Fill.RockTop }),
			w.pickSoil("Rock", "", func(p *model.Project) *string { return &p.Fill.RockSoil }, "drain-stone", "pea-gravel"),
			head("Top layers"),
			w.num("Clay cap", "", quantity.Length, func(p *model.Project) *float64 { return &p.Fill.CapThickness }),
			w.pickSoil("Cap soil", "", func(p *model.Project) *string { return &p.Fill.CapSoil }, "CL", "CH"),
			w.num("Topsoil", "", quantity.Length, func(p *model.Project) *float64 { return &p.Fill.TopsoilThickness }),
			w.pickSoil("Topsoil soil", "", func(p *model.Project) *string { return &p.Fill.TopsoilSoil }, "topsoil"),
			head("Laid on the roof, from the steel up"),
		}
		for i := range p.Fill.Roof {
			name := fmtIndex("Layer", i)
			rows = append(rows,
				w.text(name, "", func(p *model.Project) *string { return &p.Fill.Roof[i].Name }),
				w.roofKind(name, i),
				w.roofGrade(name, i),
				w.num(name+", thickness", "", quantity.Length, func(p *model.Project) *float64 { return &p.Fill.Roof[i].Thickness }),
				w.num(name+", weight", "", quantity.UnitWeight, func(p *model.Project) *float64 { return &p.Fill.Roof[i].Gamma }))
		}
		rows = append(rows, listButtons(w, "layer", "roof layer", func(p *model.Project) *[]model.RoofLayer { return &p.Fill.Roof }, func([]model.RoofLayer) model.RoofLayer {
			return model.RoofLayer{Kind: "foam", Name: "Closed-cell foam", Thickness: 0.05, Gamma: 0.32} // 2 in of 2 lb/ft3
		}))
		return append(rows, head("Finished surface drawn by hand"), w.drawnFill(),
			buttons(w.button("Clear the drawn surface", func() {
				w.edit("Clear the drawn surface", func(p *model.Project) error { p.Fill.Line = nil; return nil })
			})))
	}).listing(func(p *model.Project) string { return count(len(p.Fill.Roof)) })
}

// lightFill is the kind of a roof layer of geofoam blocks, and lightGrade the
// grade that it has until another is chosen.
const (
	lightFill  = "lightfill"
	lightGrade = "EPS19"
)

// roofKind is what a layer on the roof is. Light fill gets a grade at once.
func (w *Window) roofKind(name string, i int) row {
	kinds := fixed("membrane", "membrane", "foam", "foam", "board", "board", "rock", "drain rock", lightFill, "light fill")
	return w.choose(name+", kind", "", kinds, func(p *model.Project) string { return p.Fill.Roof[i].Kind },
		func(p *model.Project, kind string) error {
			l := &p.Fill.Roof[i]
			l.Kind = kind
			if kind == lightFill && l.Grade == "" {
				w.useGrade(l, lightGrade)
			}
			return nil
		})
}

// roofGrade is the grade of light fill.
func (w *Window) roofGrade(name string, i int) row {
	grades := func(*model.Project) (ids, names []string) {
		for _, id := range w.tables.GeofoamIDs() {
			g, _ := w.tables.Geofoam(id)
			ids, names = append(ids, id), append(names, g.Name)
		}
		return ids, names
	}
	r := w.choose(name+", grade", "the weight below is that of the grade until you change it", grades, func(p *model.Project) string { return p.Fill.Roof[i].Grade },
		func(p *model.Project, id string) error { w.useGrade(&p.Fill.Roof[i], id); return nil })
	return when(func(p *model.Project) bool { return i < len(p.Fill.Roof) && p.Fill.Roof[i].Kind == lightFill }, r)[0]
}

// useGrade takes grade and weight of a light fill from the table.
func (w *Window) useGrade(l *model.RoofLayer, id string) {
	l.Grade = id
	if g, ok := w.tables.Geofoam(id); ok {
		l.Gamma = g.Density * gravity / 1000
	}
}

// gravity turns kg into N, m/s2.
const gravity = 9.81

// drawnFill is the finished surface as a table, in place of the values above.
func (w *Window) drawnFill() row {
	return w.lineTable("Finished surface", "Only where cover and slope above do not do: the finished surface in the long section, distance and level, one point a line. It takes their place there.", 3,
		func(p *model.Project) *[]model.Vec { return &p.Fill.Line })
}
