package panel

import (
	"fmt"
	"slices"

	"hillset/engine/model"
	"hillset/engine/quantity"
)

// vehicles lists the machines of the table.
func (w *Window) vehicles(*model.Project) (ids, names []string) {
	for _, id := range w.tables.VehicleIDs() {
		v, _ := w.tables.Vehicle(id)
		ids, names = append(ids, id), append(names, v.Name)
	}
	return ids, names
}

// surchargeRows are one load on the ground.
func (w *Window) surchargeRows(p *model.Project, i int) []row {
	at := func(p *model.Project) *model.Surcharge { return &p.Site.Surcharges[i] }
	s := p.Site.Surcharges[i]
	rows := []row{w.text(fmtIndex("Load", i), "", func(p *model.Project) *string { return &at(p).Name })}
	if s.Kind == model.Vehicle {
		rows = append(rows,
			w.pick("Machine", "", w.vehicles, func(p *model.Project) *string { return &at(p).Vehicle }),
			w.num("Axle at distance", "", quantity.Length, func(p *model.Project) *float64 { return &at(p).X1 }),
			w.optional("Off the middle", "to the right, looking into the hill", quantity.Length, func(p *model.Project) **float64 { return &at(p).Y1 }),
			w.pick("It points", "", fixed("along", "along the contour", "up", "up the slope"), func(p *model.Project) *string { return &at(p).Heading }))
	} else {
		rows = append(rows,
			w.num("Load", "", quantity.Pressure, func(p *model.Project) *float64 { return &at(p).Q }),
			w.num("From distance", "", quantity.Length, func(p *model.Project) *float64 { return &at(p).X1 }),
			w.num("To distance", "", quantity.Length, func(p *model.Project) *float64 { return &at(p).X2 }),
			w.optional("From the left at", "empty: all along the contour", quantity.Length, func(p *model.Project) **float64 { return &at(p).Y1 }),
			w.optional("To the right at", "", quantity.Length, func(p *model.Project) **float64 { return &at(p).Y2 }))
	}
	return append(rows, buttons(w.button("Remove "+s.Name, func() { w.edit("Remove load", removeLoad(s.ID)) })))
}

// removeLoad takes a load off the ground and out of the stages.
func removeLoad(id string) func(p *model.Project) error {
	return func(p *model.Project) error {
		p.Site.Surcharges = slices.DeleteFunc(p.Site.Surcharges, func(s model.Surcharge) bool { return s.ID == id })
		for i := range p.Stages {
			p.Stages[i].Surcharges = slices.DeleteFunc(p.Stages[i].Surcharges, func(s string) bool { return s == id })
		}
		return nil
	}
}

// surchargeButtons add a load of either kind.
func (w *Window) surchargeButtons() row {
	return buttons(
		w.button("Add area load", func() {
			w.edit("Add area load", w.addLoad(model.Surcharge{Name: "Stored goods", Kind: model.AreaLoad, Q: 5}))
		}),
		w.button("Add machine", func() {
			s := model.Surcharge{Name: "Machine", Kind: model.Vehicle, Heading: "along"}
			if ids := w.tables.VehicleIDs(); len(ids) > 0 {
				v, _ := w.tables.Vehicle(ids[len(ids)-1])
				s.Vehicle, s.Name = v.ID, v.Name
			}
			w.edit("Add machine", w.addLoad(s))
		}))
}

// loadWidth is how wide a new area load is, m, until it is changed.
const loadWidth = 3.0

// addLoad puts a load behind the box and lets it act in the stage that is
// looked at.
func (w *Window) addLoad(s model.Surcharge) func(p *model.Project) error {
	return func(p *model.Project) error {
		taken := func(id string) bool {
			return slices.ContainsFunc(p.Site.Surcharges, func(t model.Surcharge) bool { return t.ID == id })
		}
		s.ID = freeID("load", taken)
		for n := 2; slices.ContainsFunc(p.Site.Surcharges, func(t model.Surcharge) bool { return t.Name == s.Name }); n++ {
			s.Name = fmt.Sprintf("%s %d", s.Name, n)
		}
		_, back := w.stationRange()
		s.X1 = back
		if s.Kind == model.AreaLoad {
			s.X2 = s.X1 + loadWidth
		}
		p.Site.Surcharges = append(p.Site.Surcharges, s)
		st := w.here(p)
		st.Surcharges = append(st.Surcharges, s.ID)
		return nil
	}
}
