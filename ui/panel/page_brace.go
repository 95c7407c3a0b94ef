package panel

import (
	"slices"

	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/engine/tables"
)

// strengthPage is what is built in so that the box holds.
func (w *Window) strengthPage() *page {
	bars := func(*model.Project) (ids, names []string) {
		for _, id := range w.tables.BarIDs() {
			b, _ := w.tables.Bar(id)
			ids, names = append(ids, id), append(names, b.Name)
		}
		return ids, names
	}
	return newPage("strength", "7 Brace", "What is built so that the box holds. Inside, in steel: wales halve the span of the sheet, ribs carry the wales, purlins carry the roof.", func(p *model.Project) []row {
		rows := []row{
			head("Ribs: posts, roof beam, floor tie"),
			w.num("Spacing", "", quantity.Length, func(p *model.Project) *float64 { return &p.Strengthening.Ribs.Spacing }).or("no ribs"),
			w.posts(bars),
			w.pick("Roof beam", "", bars, func(p *model.Project) *string { return &p.Strengthening.Ribs.RoofBeam }),
			w.pick("Floor tie", "", bars, func(p *model.Project) *string { return &p.Strengthening.Ribs.FloorTie }),
			w.purlins(),
			w.pick("Purlin", "", bars, func(p *model.Project) *string { return &p.Strengthening.Ribs.Purlin }),
		}
		rows = append(rows, w.wales("Wales of the long walls", bars, p.Strengthening.Wales, func(p *model.Project) *[]model.Wale { return &p.Strengthening.Wales })...)
		rows = append(rows, w.wales("Wales of the back wall", bars, p.Strengthening.BackWales, func(p *model.Project) *[]model.Wale { return &p.Strengthening.BackWales })...)
		return append(append(rows, w.outside()...), w.wingWalls()...)
	}).listing(func(p *model.Project) string {
		return count(len(p.Strengthening.Wales)) + "," + count(len(p.Strengthening.BackWales))
	})
}

// posts chooses the bar of the posts. Roof beam and floor tie are of the same
// bar until another is chosen.
func (w *Window) posts(bars options) row {
	return w.choose("Posts", "", bars, func(p *model.Project) string { return p.Strengthening.Ribs.Post },
		func(p *model.Project, id string) error {
			r := &p.Strengthening.Ribs
			r.Post = id
			for _, other := range []*string{&r.RoofBeam, &r.FloorTie} {
				if *other == "" {
					*other = id
				}
			}
			return nil
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
	return append(rows, listButtons(w, "wale", "wale", ref, func(l []model.Wale) model.Wale {
		if n := len(l); n > 0 {
			return model.Wale{Height: l[n-1].Height + 0.5, Section: l[n-1].Section}
		}
		return model.Wale{Height: 1, Section: "shs75x5"}
	}))
}

// outside are the skins and the slab outside the steel.
func (w *Window) outside() []row {
	s := func(p *model.Project) *model.Strengthening { return &p.Strengthening }
	return []row{
		head("Outside the steel"),
		w.words("Held as data, not counted: page 9 lists what is given here as not checked."),
		w.num("Stud skin, spacing", "timber studs outside the walls", quantity.Length, func(p *model.Project) *float64 { return &s(p).Stud.Spacing }).or("no studs"),
		w.pick("Studs, species", "", w.species, func(p *model.Project) *string { return &s(p).Stud.Species }),
		w.pick("Studs, size", "", w.lumberSizes, func(p *model.Project) *string { return &s(p).Stud.Size }),
		w.pick("Sheathing", "", w.sheathings, func(p *model.Project) *string { return &s(p).Stud.Plywood }),
		w.tick("Timber incised for treatment", func(p *model.Project) *bool { return &s(p).Stud.Incised }),
		w.tick("Timber wet in use", func(p *model.Project) *bool { return &s(p).Stud.WetInUse }),
		w.num("Cavity, width", "", quantity.Length, func(p *model.Project) *float64 { return &s(p).Cavity.Width }).or("no cavity"),
		w.pick("Cavity, filled with", "", fixed("", "not chosen", "gravel", "pea gravel", "concrete", "concrete"), func(p *model.Project) *string { return &s(p).Cavity.Fill }),
		w.num("Roof slab on its own posts", "thickness", quantity.Length, func(p *model.Project) *float64 { return &s(p).RoofSlab.Thickness }).or("no slab"),
		w.tick("Either system must hold alone", func(p *model.Project) *bool { return &s(p).EitherAlone }),
	}
}

// species, lumberSizes and sheathings are those of the tables, each once.
func (w *Window) species(*model.Project) (ids, names []string) {
	return w.lumberOf(func(l tables.Lumber) string { return l.Species })
}

func (w *Window) lumberSizes(*model.Project) (ids, names []string) {
	return w.lumberOf(func(l tables.Lumber) string { return l.Size })
}

func (w *Window) lumberOf(part func(tables.Lumber) string) (ids, names []string) {
	ids, names = []string{""}, []string{"not chosen"}
	for _, id := range w.tables.LumberIDs() {
		l, _ := w.tables.Lumber(id)
		if s := part(l); !slices.Contains(ids, s) {
			ids, names = append(ids, s), append(names, s)
		}
	}
	return ids, names
}

func (w *Window) sheathings(*model.Project) (ids, names []string) {
	ids, names = []string{""}, []string{"not chosen"}
	for _, id := range w.tables.PlywoodIDs() {
		b, _ := w.tables.Plywood(id)
		ids, names = append(ids, id), append(names, b.Name)
	}
	return ids, names
}

// wingWalls are the block walls beside the doors.
func (w *Window) wingWalls() []row {
	at := func(p *model.Project) *model.WingWalls { return &p.Wings }
	return []row{
		head("Wing walls beside the doors"),
		w.words("Dry-stacked blocks. Held as data, not counted: page 9 lists them as not checked."),
		w.whole("Courses", 0, 50, func(p *model.Project) *int { return &at(p).Courses }).called("0", "no wing walls"),
		w.num("Block, length", "", quantity.Length, func(p *model.Project) *float64 { return &at(p).BlockLength }).or("not given"),
		w.num("Block, width", "", quantity.Length, func(p *model.Project) *float64 { return &at(p).BlockWidth }).or("not given"),
		w.num("Block, height", "", quantity.Length, func(p *model.Project) *float64 { return &at(p).BlockHeight }).or("not given"),
		w.num("Splay in plan", "from the line of the front", quantity.Angle, func(p *model.Project) *float64 { return &at(p).Splay }).in(degree),
		w.num("Wall, length", "each side", quantity.Length, func(p *model.Project) *float64 { return &at(p).Length }).or("not given"),
		w.num("Wall, leans back by", "", quantity.Angle, func(p *model.Project) *float64 { return &at(p).Batter }).in(degree),
	}
}
