package panel

import (
	"fmt"
	"slices"
	"strings"

	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/engine/water"
	"hillset/ui/units"
)

// soilPage is the natural ground in its layers, and the soils with their
// values.
func (w *Window) soilPage() *page {
	shown := "" // id of the soil whose values are shown
	return newPage("soil", "2 Soil", "What the ground is made of, from the top down, and the values of each soil.", func(p *model.Project) []row {
		rows := []row{head("Layers of the natural ground")}
		for i := range p.Site.Strata {
			rows = append(rows, w.stratumRows(p, i)...)
		}
		if len(p.Site.Strata) == 0 {
			rows = append(rows, w.firstLayer())
		} else {
			rows = append(rows, w.stratumButtons(), head("Rock"), w.lineTable("Rock line", "Below it nothing can be dug: distance and level, one point a line. Empty: no rock is met.", 3,
				func(p *model.Project) *[]model.Vec { return &p.Site.Rock }))
		}
		if len(p.Site.Soils) == 0 {
			return append(rows, w.words("The values of the table are taken over, and you can change each of them."))
		}
		rows = append(rows, head("Soils of this project"), w.addSoil(&shown))
		if soilAt(p, shown) < 0 {
			shown = p.Site.Soils[0].ID
		}
		rows = append(rows, w.choose("Show the values of", "", soils,
			func(*model.Project) string { return shown },
			func(_ *model.Project, id string) error { shown = id; w.post(w.showPage); return nil }))
		return append(rows, w.soilRows(shown)...)
	}).listing(func(p *model.Project) string {
		var b strings.Builder
		for _, s := range p.Site.Strata {
			b.WriteString(s.ID + "/")
		}
		for _, s := range p.Site.Soils {
			b.WriteString(s.ID + ",")
		}
		return b.String() + shown
	})
}

// soils lists the soils of the project.
func soils(p *model.Project) (ids, names []string) {
	for _, s := range p.Site.Soils {
		ids, names = append(ids, s.ID), append(names, soilName(s))
	}
	return ids, unlike(names)
}

// soilName calls a soil by its name and class.
func soilName(s model.Soil) string {
	return classed(s.Name, s.USCS)
}

// classed puts the class of a soil behind its name. Rows of the table that are
// no class of ASTM D2487 have names in small letters and are called by their
// words alone.
func classed(name, class string) string {
	if class == "" || class != strings.ToUpper(class) || strings.EqualFold(class, name) {
		return name
	}
	return name + " (" + class + ")"
}

// unlike numbers names that stand more than once, so that a list can be chosen
// from.
func unlike(names []string) []string {
	out := slices.Clone(names)
	for i := range out {
		for n := 2; slices.Contains(out[:i], out[i]); n++ {
			out[i] = fmt.Sprintf("%s, %d", names[i], n)
		}
	}
	return out
}

func soilAt(p *model.Project, id string) int {
	return slices.IndexFunc(p.Site.Soils, func(s model.Soil) bool { return s.ID == id })
}

// tableSoils offers the soils of the project and then those of the table;
// fresh marks the latter, and so do words where there are both. Those of the
// table that are likely stand first.
func (w *Window) tableSoils(p *model.Project, likely ...string) (ids, names []string) {
	ids, names = soils(p)
	mark := ""
	if len(ids) > 0 {
		mark = "New: "
	}
	classes := slices.Clone(likely)
	for _, class := range w.tables.SoilClasses() {
		if !slices.Contains(likely, class) {
			classes = append(classes, class)
		}
	}
	for _, class := range classes {
		s, _ := w.tables.Soil(class)
		ids, names = append(ids, fresh+class), append(names, mark+classed(s.Name, class))
	}
	return ids, unlike(names)
}

// fresh stands before the class of a soil that is still to be taken from the
// table.
const fresh = "\x00"

// soilID takes a soil from the table when id says so, and gives the id to
// store.
func (w *Window) soilID(p *model.Project, id string) (string, error) {
	class, isNew := strings.CutPrefix(id, fresh)
	if !isNew {
		return id, nil
	}
	s, ok := w.tables.SoilOf(class)
	if !ok {
		return "", fmt.Errorf("the table has no soil %q", class)
	}
	s.ID = freeID(class, func(id string) bool { return soilAt(p, id) >= 0 })
	p.Site.Soils = append(p.Site.Soils, s)
	return s.ID, nil
}

// pickSoil makes a choice row for a soil: one of the project, or a new one
// from the table, the likely ones first.
func (w *Window) pickSoil(label, help string, ref func(p *model.Project) *string, likely ...string) *choice {
	return w.choose(label, help, func(p *model.Project) ([]string, []string) { return w.tableSoils(p, likely...) },
		func(p *model.Project) string { return *ref(p) },
		func(p *model.Project, id string) error {
			id, err := w.soilID(p, id)
			if err == nil {
				*ref(p) = id
			}
			return err
		})
}

// stratumRows are the soil of a layer and, below the first, its top.
func (w *Window) stratumRows(p *model.Project, i int) []row {
	name := fmtIndex("Layer", i)
	if i == 0 {
		return []row{w.pickSoil(name+", from the ground down", "", func(p *model.Project) *string { return &p.Site.Strata[0].Soil })}
	}
	return []row{
		w.pickSoil(name, "", func(p *model.Project) *string { return &p.Site.Strata[i].Soil }),
		w.lineTable("Top of layer "+count(i+1), "Its upper boundary: distance and level, one point a line; or draw it with the tool Soil line (B).", 5,
			func(p *model.Project) *[]model.Vec { return &p.Site.Strata[i].Top }),
	}
}

// firstLayer chooses the soil that the ground is made of while nothing is said
// of it.
func (w *Window) firstLayer() row {
	return w.choose("The ground is made of", "Dig a hole and look, then choose what is nearest. Other layers below it can be added afterwards.", func(p *model.Project) ([]string, []string) { return w.tableSoils(p) },
		func(*model.Project) string { return "" },
		func(p *model.Project, id string) error {
			id, err := w.soilID(p, id)
			if err != nil {
				return err
			}
			if err := addStratum(p); err != nil {
				return err
			}
			p.Site.Strata[len(p.Site.Strata)-1].Soil = id
			return nil
		})
}

// stratumButtons add a layer below and take the lowest away.
func (w *Window) stratumButtons() row {
	return buttons(
		w.button("Add layer below", func() { w.edit("Add layer", addStratum) }),
		w.button("Remove the lowest", func() {
			w.edit("Remove layer", func(p *model.Project) error {
				if n := len(p.Site.Strata); n > 0 {
					p.Site.Strata = p.Site.Strata[:n-1]
				}
				return nil
			})
		}))
}

// layerDepth is how far below the one above a new layer begins, m, until its
// top is moved.
const layerDepth = 1.0

// addStratum puts a layer below the others, parallel to the one above it.
func addStratum(p *model.Project) error {
	s := &p.Site
	st := model.Stratum{ID: freeID("layer", func(id string) bool {
		return slices.ContainsFunc(s.Strata, func(t model.Stratum) bool { return t.ID == id })
	})}
	for _, soil := range s.Soils {
		if !slices.ContainsFunc(s.Strata, func(t model.Stratum) bool { return t.Soil == soil.ID }) {
			st.Soil = soil.ID
			break
		}
	}
	if n := len(s.Strata); n > 0 {
		above := s.Strata[n-1].Top
		if n == 1 {
			above = s.Ground
		}
		for _, v := range above {
			st.Top = append(st.Top, model.Vec{v[0], v[1] - layerDepth})
		}
	}
	s.Strata = append(s.Strata, st)
	return nil
}

// addSoil offers the classes of the table.
func (w *Window) addSoil(shown *string) row {
	classes := func(*model.Project) (ids, names []string) {
		for _, class := range w.tables.SoilClasses() {
			s, _ := w.tables.Soil(class)
			ids, names = append(ids, class), append(names, classed(s.Name, class))
		}
		return ids, unlike(names)
	}
	r := w.choose("Add a soil", "", classes,
		func(*model.Project) string { return "" },
		func(p *model.Project, class string) error {
			id, err := w.soilID(p, fresh+class)
			if err == nil {
				*shown = id
			}
			return err
		})
	return r
}

// soilField is one value of a soil with its name in the file.
type soilField struct {
	json, label string
	kind        quantity.Kind
	size        float64
	blank       string
	ref         func(s *model.Soil) *float64
}

var soilFields = []soilField{
	{"gamma", "Unit weight, moist", quantity.UnitWeight, 1, "", func(s *model.Soil) *float64 { return &s.Gamma }},
	{"gamma_sat", "Unit weight, saturated", quantity.UnitWeight, 1, "", func(s *model.Soil) *float64 { return &s.GammaSat }},
	{"phi", "Friction angle φ'", quantity.Angle, degree, "", func(s *model.Soil) *float64 { return &s.Phi }},
	{"cohesion", "Cohesion c'", quantity.Pressure, 1, "", func(s *model.Soil) *float64 { return &s.Cohesion }},
	{"ocr", "Overconsolidation ratio", quantity.None, 1, "1", func(s *model.Soil) *float64 { return &s.OCR }},
	{"cu", "Undrained strength cu", quantity.Pressure, 1, "not known", func(s *model.Soil) *float64 { return &s.Cu }},
	{"delta_steel", "Friction on steel", quantity.Angle, degree, "", func(s *model.Soil) *float64 { return &s.DeltaSt }},
	{"delta_concrete", "Friction on concrete", quantity.Angle, degree, "", func(s *model.Soil) *float64 { return &s.DeltaCo }},
	{"e", "Stiffness E", quantity.Stress, 1, "not known", func(s *model.Soil) *float64 { return &s.E }},
	{"nu", "Poisson's ratio", quantity.None, 1, "not known", func(s *model.Soil) *float64 { return &s.Nu }},
	{"bearing", "Bearing, presumed", quantity.Pressure, 1, "not known", func(s *model.Soil) *float64 { return &s.Bearing }},
	{"kx", "Permeability along", quantity.Permeability, 1, "not known", func(s *model.Soil) *float64 { return &s.Kx }},
	{"kz", "Permeability down", quantity.Permeability, 1, "not known", func(s *model.Soil) *float64 { return &s.Kz }},
	{"d15", "Grading D15", quantity.Grain, 1, "not known", func(s *model.Soil) *float64 { return &s.D15 }},
	{"d50", "Grading D50", quantity.Grain, 1, "not known", func(s *model.Soil) *float64 { return &s.D50 }},
	{"d85", "Grading D85", quantity.Grain, 1, "not known", func(s *model.Soil) *float64 { return &s.D85 }},
}

// soilOf finds a soil by its id. The page lists only soils that exist and is
// made anew when one goes, so a missing one is a fault of the program.
func soilOf(p *model.Project, id string) *model.Soil {
	i := soilAt(p, id)
	if i < 0 {
		panic("panel: the page shows a soil that is gone")
	}
	return &p.Site.Soils[i]
}

// setByUser notes that a value of a soil is the user's own.
func setByUser(s *model.Soil, name string) {
	if !slices.Contains(s.Set, name) {
		s.Set = append(s.Set, name)
	}
}

// soilRows are the values of one soil.
func (w *Window) soilRows(id string) []row {
	rows := []row{
		w.text("Name", "", func(p *model.Project) *string { return &soilOf(p, id).Name }),
		w.remark(func(p *model.Project, _ units.System) string { return w.soilSource(soilOf(p, id)) }),
	}
	for _, f := range soilFields {
		rows = append(rows, w.soilValue(id, f))
	}
	texture := listed(w.tables.TextureIDs(), func(id string) string { t, _ := w.tables.Texture(id); return t.Name })
	rows = append(rows, w.sieveTable(id),
		w.tick("Dispersive clay: clouds still water", func(p *model.Project) *bool { return &soilOf(p, id).Dispersive }),
		w.tick("Thin layers of fine and coarse", func(p *model.Project) *bool { return &soilOf(p, id).Laminated }),
		w.pick("Texture", "rub it wet between the fingers: it tells how high the ground stays wet over the water", texture, func(p *model.Project) *string { return &soilOf(p, id).Texture }))
	dig := w.choose("Class for digging", "", fixed("rock", "stable rock", "A", "type A", "B", "type B", "C", "type C"),
		func(p *model.Project) string { return soilOf(p, id).DigClass },
		func(p *model.Project, v string) error {
			s := soilOf(p, id)
			s.DigClass = v
			setByUser(s, "dig_class")
			return nil
		})
	dig.about = func(p *model.Project) string { return mine(soilOf(p, id), "dig_class") }
	return append(rows, dig, w.soilButtons(id))
}

// soilValue is the row of one value, which says whose it is.
func (w *Window) soilValue(id string, f soilField) row {
	n := w.num(f.label, "", f.kind, func(p *model.Project) *float64 { return f.ref(soilOf(p, id)) }).in(f.size)
	if f.blank != "" {
		n.or(f.blank)
	}
	n.after = func(p *model.Project) { setByUser(soilOf(p, id), f.json) }
	n.about = func(p *model.Project) string { return mine(soilOf(p, id), f.json) }
	switch f.json {
	case "kx", "kz":
		asked(n, id, f)
	case "e":
		w.askedStiff(n, id)
	}
	return n
}

// askedStiff keeps the stiffness of the table back until the user gives his own,
// and shows what is ordinary: settlement takes no other.
func (w *Window) askedStiff(n *number, id string) {
	own := func(p *model.Project) bool { return slices.Contains(soilOf(p, id).Set, "e") }
	n.hidden = func(p *model.Project) bool { return !own(p) }
	n.or("asked for")
	n.about = func(p *model.Project) string {
		s, sys := soilOf(p, id), w.desk.Units()
		help := "drained, for the settlement of the pads"
		if own(p) {
			help = "yours; drained"
		} else if s.E > 0 {
			help += "; ribs on a bed of it take " + units.Format(s.E, quantity.Stress, sys) + " of its class"
		}
		for i, row := range w.tables.StiffnessOf(s.USCS) {
			lead := ", "
			if i == 0 {
				lead = ". Ordinary: "
			}
			help += fmt.Sprintf("%s%s %s to %s (%s)", lead, row.Name, units.Format(row.Low, quantity.Stress, sys), units.Format(row.High, quantity.Stress, sys), row.Src.Mark)
		}
		return help
	}
}

// asked hides the permeability that the table gives open gravel until the user
// gives his own. The one along serves for both until the one down is given.
func asked(n *number, id string, f soilField) {
	n.hidden = func(p *model.Project) bool { return water.Asks(soilOf(p, id)) }
	n.after = func(p *model.Project) {
		s := soilOf(p, id)
		open := water.Asks(s)
		setByUser(s, f.json)
		if open && f.json == "kx" && !slices.Contains(s.Set, "kz") {
			s.Kz = s.Kx
			setByUser(s, "kz")
		}
	}
	n.about = func(p *model.Project) string {
		if s := soilOf(p, id); water.Asks(s) && f.json == "kx" {
			return "asked for: open gravel spans 200 times by its grading, so no value of a table is taken"
		}
		return mine(soilOf(p, id), f.json)
	}
}

// mine says that a value is the user's; a value of the table needs no words.
func mine(s *model.Soil, name string) string {
	if slices.Contains(s.Set, name) {
		return "yours"
	}
	return ""
}

// soilSource says where the values that are not the user's come from.
func (w *Window) soilSource(s *model.Soil) string {
	t, ok := w.tables.Soil(s.USCS)
	if !ok {
		return "The table has no class " + s.USCS + ": all values are yours."
	}
	return fmt.Sprintf("Values not marked “yours” are of class %s, %s. Source: %s (%s).", t.Class, t.Name, t.Src.Text, t.Src.Mark)
}

// soilButtons put the table's values back and remove a soil.
func (w *Window) soilButtons(id string) row {
	return buttons(
		w.button("Table values", func() {
			w.edit("Table values of a soil", func(p *model.Project) error {
				s := soilOf(p, id)
				fresh, ok := w.tables.SoilOf(s.USCS)
				if !ok {
					return fmt.Errorf("the table has no class %q", s.USCS)
				}
				fresh.ID, fresh.Name = s.ID, s.Name
				*s = fresh
				return nil
			})
		}),
		w.button("Remove soil", func() {
			w.edit("Remove soil", func(p *model.Project) error {
				if use := usesOf(p, id); len(use) > 0 {
					return fmt.Errorf("this soil is in use: %s", strings.Join(use, ", "))
				}
				i := soilAt(p, id)
				p.Site.Soils = slices.Delete(p.Site.Soils, i, i+1)
				return nil
			})
		}))
}

// usesOf lists where a soil is used.
func usesOf(p *model.Project, id string) []string {
	var out []string
	for i, st := range p.Site.Strata {
		if st.Soil == id {
			out = append(out, fmtIndex("layer", i))
		}
	}
	for _, u := range []struct{ soil, where string }{
		{p.Bedding.RockSoil, "bed rock"}, {p.Fill.Backfill, "backfill"}, {p.Fill.RockSoil, "drainage rock"},
		{p.Fill.CapSoil, "clay cap"}, {p.Fill.TopsoilSoil, "topsoil"},
	} {
		if u.soil == id {
			out = append(out, u.where)
		}
	}
	return out
}
