package panel

import (
	"slices"

	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/engine/tables"
)

// outside are the skins and the roof outside the steel.
func (w *Window) outside() []row {
	rows := append(w.studSkin(), w.cavity()...)
	rows = append(rows, w.ownRoof()...)
	return append(rows, head("Two systems"),
		w.tick("Either system must hold alone", func(p *model.Project) *bool { return &p.Strengthening.EitherAlone }),
		w.words("Ticked: what is built inside and what is built outside must each hold without the other."))
}

// studSkin is timber outside the walls.
func (w *Window) studSkin() []row {
	s := func(p *model.Project) *model.StudSkin { return &p.Strengthening.Stud }
	rows := []row{
		head("Stud skin outside the walls"),
		w.num("Stud skin, spacing", "timber studs outside the walls", quantity.Length, func(p *model.Project) *float64 { return &s(p).Spacing }).or("no studs").
			then(func(p *model.Project) { w.startStuds(s(p)) }),
	}
	return append(rows, when(func(p *model.Project) bool { return s(p).Spacing > 0 },
		w.pick("Studs, species", "", w.species, func(p *model.Project) *string { return &s(p).Species }),
		w.pick("Studs, size", "", w.lumberSizes, func(p *model.Project) *string { return &s(p).Size }),
		w.pick("Sheathing", "", w.sheathings, func(p *model.Project) *string { return &s(p).Plywood }),
		w.tick("Timber incised for treatment", func(p *model.Project) *bool { return &s(p).Incised }),
		w.tick("Timber wet in use", func(p *model.Project) *bool { return &s(p).WetInUse }))...)
}

// startStuds gives studs that have a spacing what is not chosen yet: the
// strongest sheathing, common lumber, wet as all timber against earth.
func (w *Window) startStuds(s *model.StudSkin) {
	if !(s.Spacing > 0) || s.Species != "" || s.Size != "" || s.Plywood != "" {
		return
	}
	s.Species, s.Size, s.WetInUse = "DF-L", "2x6", true
	if ids := w.tables.PlywoodIDs(); len(ids) > 0 {
		s.Plywood = ids[len(ids)-1]
	}
}

// cavity is the filled space outside the walls.
func (w *Window) cavity() []row {
	c := func(p *model.Project) *model.Cavity { return &p.Strengthening.Cavity }
	rows := []row{
		head("Filled cavity outside the walls"),
		w.num("Cavity, width", "", quantity.Length, func(p *model.Project) *float64 { return &c(p).Width }).or("no cavity").
			then(func(p *model.Project) {
				if c(p).Width > 0 {
					fillIn(&c(p).Fill, model.GravelFill)
				}
			}),
	}
	rows = append(rows, when(func(p *model.Project) bool { return c(p).Width > 0 },
		w.choose("Cavity, filled with", "Gravel drains and has no strength; concrete is a skin.", fixed(model.GravelFill, "pea gravel", model.ConcreteFill, "concrete"),
			func(p *model.Project) string { return c(p).Fill },
			func(p *model.Project, fill string) error { c(p).Fill = fill; startConcrete(c(p)); return nil }))...)
	concrete := func(p *model.Project) bool { return c(p).Width > 0 && c(p).Fill == model.ConcreteFill }
	rows = append(rows, when(concrete,
		w.num("Concrete, strength", "of cylinders at 28 days", quantity.Stress, func(p *model.Project) *float64 { return &c(p).Fc }).in(mpa).or("not given"),
		w.num("Height of one pour", "wet concrete presses on the bare sheet", quantity.Length, func(p *model.Project) *float64 { return &c(p).Lift }).or("not given"),
		w.tick("Walls propped inside while it is poured", func(p *model.Project) *bool { return &c(p).Propped }),
		w.num("Upright bars, diameter", "near the room side", quantity.Thickness, func(p *model.Project) *float64 { return &c(p).Bar }).in(mm).or("plain").
			then(func(p *model.Project) { startBars(c(p)) }))...)
	return append(rows, when(func(p *model.Project) bool { return concrete(p) && c(p).Bar > 0 },
		w.num("Upright bars, spacing", "", quantity.Length, func(p *model.Project) *float64 { return &c(p).BarSpacing }).or("not given"),
		w.num("Upright bars, cover", "clear, on the room side", quantity.Length, func(p *model.Project) *float64 { return &c(p).BarCover }).or("not given"))...)
}

// What concrete gets until something else is typed. All common practice.
const (
	skinFc, skinLift   = 17.0, 0.6  // MPa, m
	skinGap, skinCover = 0.3, 0.04  // of upright bars, m
	slabThick, slabFc  = 0.15, 25.0 // m, MPa
	slabBar, slabGap   = 12.0, 0.15 // mm, m
	slabCover          = 0.04       // m
	groundCover        = 0.075      // m, of concrete cast on the ground (3 in)
)

func startConcrete(c *model.Cavity) {
	if c.Fill == model.ConcreteFill {
		fillIn(&c.Fc, skinFc)
		fillIn(&c.Lift, skinLift)
	}
}

func startBars(c *model.Cavity) {
	if c.Bar > 0 {
		fillIn(&c.BarSpacing, skinGap)
		fillIn(&c.BarCover, skinCover)
	}
}

// The kinds of a roof that carries the cover past the box.
const (
	slabRoof = "slab"
	beamRoof = "beams"
)

// ownRoof is what carries the cover on posts of its own.
func (w *Window) ownRoof() []row {
	s := func(p *model.Project) *model.RoofSlab { return &p.Strengthening.RoofSlab }
	rows := []row{
		head("Roof over the box, on its own posts"),
		w.choose("Roof on its own posts", "", fixed("", "none", slabRoof, "concrete slab", beamRoof, "beams across with a deck"),
			func(p *model.Project) string { return roofKindOf(s(p)) },
			func(p *model.Project, kind string) error { w.startRoof(s(p), kind); return nil }),
	}
	rows = append(rows, when(func(p *model.Project) bool { return s(p).Thickness > 0 },
		w.num("Slab, thickness", "", quantity.Length, func(p *model.Project) *float64 { return &s(p).Thickness }).or("no slab"),
		w.num("Slab, strength of the concrete", "of cylinders at 28 days", quantity.Stress, func(p *model.Project) *float64 { return &s(p).Fc }).in(mpa).or("not given"),
		w.num("Bottom bars across, diameter", "", quantity.Thickness, func(p *model.Project) *float64 { return &s(p).Bar }).in(mm).or("not given"),
		w.num("Bottom bars, spacing", "", quantity.Length, func(p *model.Project) *float64 { return &s(p).BarSpacing }).or("not given"),
		w.num("Bottom bars, cover", "", quantity.Length, func(p *model.Project) *float64 { return &s(p).BarCover }).or("not given"))...)
	rows = append(rows, when(func(p *model.Project) bool { return s(p).CrossBeam != "" },
		w.pick("Beams across", "", w.bars, func(p *model.Project) *string { return &s(p).CrossBeam }),
		w.num("Beams, spacing", "", quantity.Length, func(p *model.Project) *float64 { return &s(p).CrossSpacing }).or("not given"),
		w.pick("Deck", "", w.sheathings, func(p *model.Project) *string { return &s(p).Deck }))...)
	return append(rows, when(func(p *model.Project) bool { return s(p).Given() },
		w.pick("Edge beams", "along both sides, over the posts", w.bars, func(p *model.Project) *string { return &s(p).EdgeBeam }),
		w.pick("Posts outside", "", w.bars, func(p *model.Project) *string { return &s(p).Post }),
		w.num("Posts outside, spacing", "along the box", quantity.Length, func(p *model.Project) *float64 { return &s(p).Spacing }).or("not given"),
		w.num("Posts stand off the walls", "clear distance", quantity.Length, func(p *model.Project) *float64 { return &s(p).Gap }),
		w.num("Footings, side of the square", "", quantity.Length, func(p *model.Project) *float64 { return &s(p).Footing }).or("not given"))...)
}

func roofKindOf(s *model.RoofSlab) string {
	switch {
	case s.Thickness > 0:
		return slabRoof
	case s.CrossBeam != "":
		return beamRoof
	}
	return ""
}

// startRoof makes a roof of another kind; posts and edge beams stay as they
// are, or are given when there are none yet.
func (w *Window) startRoof(s *model.RoofSlab, kind string) {
	if kind == "" {
		*s = model.RoofSlab{}
		return
	}
	if kind == slabRoof {
		s.CrossBeam, s.CrossSpacing, s.Deck = "", 0, ""
		fillIn(&s.Thickness, slabThick)
		fillIn(&s.Fc, slabFc)
		fillIn(&s.Bar, slabBar)
		fillIn(&s.BarSpacing, slabGap)
		fillIn(&s.BarCover, slabCover)
	} else {
		s.Thickness, s.Fc, s.Bar, s.BarSpacing, s.BarCover = 0, 0, 0, 0, 0
		fillIn(&s.CrossBeam, "shs100x6")
		fillIn(&s.CrossSpacing, 0.6)
		if ids := w.tables.PlywoodIDs(); len(ids) > 0 {
			fillIn(&s.Deck, ids[len(ids)-1])
		}
	}
	fillIn(&s.EdgeBeam, "shs100x6")
	fillIn(&s.Post, ribBar)
	fillIn(&s.Spacing, 1.5)
	fillIn(&s.Gap, 0.1)
	fillIn(&s.Footing, 0.6)
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
