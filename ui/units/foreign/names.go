package foreign

import (
	"hillset/engine/model"
	"hillset/engine/tables"
)

// Names are the names of a project and of the tables, which may hold a size, and
// the sources of soils.
func Names(p *model.Project) []string {
	t := tables.Default()
	out := []string{p.Title}
	for _, so := range p.Site.Soils {
		out = append(out, so.Name)
	}
	for _, l := range p.Fill.Roof {
		out = append(out, l.Name)
	}
	for _, id := range t.SoilClasses() {
		row, _ := t.Soil(id)
		out = append(out, row.Name, row.Src.Text)
	}
	name := func(ids []string, of func(id string) string) {
		for _, id := range ids {
			out = append(out, of(id))
		}
	}
	name(t.BoxIDs(), func(id string) string { row, _ := t.Box(id); return row.Name })
	name(t.PipeIDs(), func(id string) string { row, _ := t.Pipe(id); return row.Name })
	name(t.PumpPipeIDs(), func(id string) string { row, _ := t.PumpPipe(id); return row.Name })
	name(t.VehicleIDs(), func(id string) string { row, _ := t.Vehicle(id); return row.Name })
	name(t.PlantIDs(), func(id string) string { row, _ := t.Plant(id); return row.Name })
	name(t.GradeIDs(), func(id string) string { row, _ := t.Grade(id); return row.Name })
	name(t.FoamIDs(), func(id string) string { row, _ := t.Foam(id); return row.Name })
	name(t.SheetIDs(), func(id string) string { row, _ := t.Sheet(id); return row.Name })
	return out
}
