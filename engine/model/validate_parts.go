package model

import (
	"fmt"
	"math"
	"slices"
)

// named checks that a row of a table is chosen; whether it exists is known to
// those who hold the tables.
func (c *checker) named(field, id, table string) {
	if id == "" {
		c.soft(field, `""`, "a row of the "+table+" table", "is not chosen yet")
	}
}

func (c *checker) box() {
	p := c.p
	c.named("box.type", p.Box.Type, "box")
	c.boxPlace()
	c.ids("box.openings", len(p.Box.Openings), func(i int) string { return p.Box.Openings[i].ID })
	for i, o := range p.Box.Openings {
		if o.Framed {
			c.named(fmt.Sprintf("box.openings[%d].bar", i), o.Bar, "bar")
		}
	}
	if p.Bedding.Kind == PadBedding {
		c.positive("bedding.pad_length", p.Bedding.PadLength)
		c.positive("bedding.pad_width", p.Bedding.PadWidth)
		c.positive("bedding.pad_thickness", p.Bedding.PadThickness)
	}
	if p.Bedding.Kind == SlabBedding && p.Bedding.SlabBar > 0 {
		c.positive("bedding.slab_bar_spacing", p.Bedding.SlabBarSpacing)
		c.positive("bedding.slab_bar_cover", p.Bedding.SlabBarCover)
	}
	if p.Bedding.RockThickness > 0 {
		c.soilRef("bedding.rock_soil", p.Bedding.RockSoil)
	}
	if t := p.Bedding.Toe; t.Depth > 0 {
		c.positive("bedding.toe_beam.width", t.Width)
	}
	c.cut()
	c.strengthening()
}

// positive asks for a value that stands at 0.
func (c *checker) positive(field string, v float64) {
	if v == 0 {
		c.soft(field, "0", ranges[field].said(), "is not given yet")
	}
}

// boxPlace finds a box that stands beside the ground that was drawn, or over
// all of it. The depth of the box, and so the ground at its back, is checked
// where the table of boxes is at hand.
func (c *checker) boxPlace() {
	g, b := c.p.Site.Ground, &c.p.Box
	if len(g) < 2 || math.IsNaN(b.Front) {
		return
	}
	first, last := g[0][0], g[len(g)-1][0]
	if b.Front < first || b.Front >= last {
		r := metres(first, last)
		c.found = append(c.found, r.problem("box.front", b.Front, "lies outside the ground line"))
		return
	}
	highest := math.Inf(-1)
	for i, v := range g {
		if v[0] >= b.Front || i+1 < len(g) && g[i+1][0] > b.Front {
			highest = math.Max(highest, v[1])
		}
	}
	if b.Level > highest {
		r := metres(-MaxLevel, highest)
		c.found = append(c.found, Problem{Field: "box.level", Value: r.withUnit(b.Level), Allowed: "at most " + r.withUnit(highest),
			Text: "puts the box above all the ground from its front on", Ranged: true, Kind: r.Kind, Num: b.Level, Min: r.Min, Max: highest})
	}
}

func (c *checker) cut() {
	cut := &c.p.Cut
	var names []string
	for id := range cut.ByStratum {
		names = append(names, id)
	}
	slices.Sort(names)
	for _, id := range names {
		if !slices.ContainsFunc(c.p.Site.Strata, func(s Stratum) bool { return s.ID == id }) {
			c.soft("cut.by_stratum."+id, fmt.Sprintf("%q", id), "the id of a stratum", "names a stratum that does not exist")
		}
	}
	for i := 1; i < len(cut.Benches); i++ {
		if a, b := cut.Benches[i-1].Height, cut.Benches[i].Height; b <= a {
			c.soft(fmt.Sprintf("cut.benches[%d].height", i), metre(b), "more than "+metre(a), "does not lie above the bench before it")
		}
	}
}

func (c *checker) strengthening() {
	s := &c.p.Strengthening
	if s.Ribs.Spacing > 0 {
		c.named("strengthening.ribs.post", s.Ribs.Post, "bar")
		if s.Ribs.Joints == RigidJoints { // a portal has all its bars
			c.named("strengthening.ribs.roof_beam", s.Ribs.RoofBeam, "bar")
			c.named("strengthening.ribs.floor_tie", s.Ribs.FloorTie, "bar")
		}
	}
	for i, t := range s.Ribs.Struts {
		c.named(fmt.Sprintf("strengthening.ribs.struts[%d].section", i), t.Section, "bar")
	}
	if s.Ribs.Purlins > 0 {
		c.named("strengthening.ribs.purlin", s.Ribs.Purlin, "bar")
	}
	for i, w := range s.Wales {
		c.named(fmt.Sprintf("strengthening.wales[%d].section", i), w.Section, "bar")
	}
	for i, w := range s.BackWales {
		c.named(fmt.Sprintf("strengthening.back_wales[%d].section", i), w.Section, "bar")
	}
	c.outside()
}

// outside asks for what a skin or a roof of its own cannot do without.
func (c *checker) outside() {
	s := &c.p.Strengthening
	if s.Stud.Spacing > 0 {
		c.named("strengthening.stud_skin.species", s.Stud.Species, "lumber")
		c.named("strengthening.stud_skin.size", s.Stud.Size, "lumber")
		c.named("strengthening.stud_skin.plywood", s.Stud.Plywood, "plywood")
	}
	if s.Cavity.Width > 0 && s.Cavity.Fill == ConcreteFill {
		c.positive("strengthening.cavity.fc", s.Cavity.Fc)
		c.positive("strengthening.cavity.lift", s.Cavity.Lift)
		if s.Cavity.Bar > 0 {
			c.positive("strengthening.cavity.bar_spacing", s.Cavity.BarSpacing)
			c.positive("strengthening.cavity.bar_cover", s.Cavity.BarCover)
		}
	}
	if s.Cavity.Width > 0 && s.Cavity.Fill == "" {
		c.soft("strengthening.cavity.fill", `""`, GravelFill+", "+ConcreteFill, "is not chosen yet")
	}
	c.roofSlab()
}

func (c *checker) roofSlab() {
	s := &c.p.Strengthening.RoofSlab
	if !s.Given() {
		return
	}
	if s.Thickness > 0 {
		c.positive("strengthening.roof_slab.fc", s.Fc)
		c.positive("strengthening.roof_slab.bar", s.Bar)
		c.positive("strengthening.roof_slab.bar_spacing", s.BarSpacing)
		c.positive("strengthening.roof_slab.bar_cover", s.BarCover)
	} else {
		c.positive("strengthening.roof_slab.cross_spacing", s.CrossSpacing)
		c.named("strengthening.roof_slab.deck", s.Deck, "plywood")
	}
	c.named("strengthening.roof_slab.edge_beam", s.EdgeBeam, "bar")
	c.named("strengthening.roof_slab.post", s.Post, "bar")
	c.positive("strengthening.roof_slab.spacing", s.Spacing)
	c.positive("strengthening.roof_slab.footing", s.Footing)
}

func (c *checker) fill() {
	f := &c.p.Fill
	c.soilRef("fill.backfill", f.Backfill)
	c.positive("fill.side_slope", f.SideSlope)
	for _, z := range []struct {
		field, soil string
		size        float64
	}{{"fill.rock_soil", f.RockSoil, f.RockWidth}, {"fill.cap_soil", f.CapSoil, f.CapThickness}, {"fill.topsoil_soil", f.TopsoilSoil, f.TopsoilThickness}} {
		if z.size > 0 {
			c.soilRef(z.field, z.soil)
		}
	}
	for i, l := range f.Roof {
		if l.Kind == "lightfill" {
			c.named(fmt.Sprintf("fill.roof[%d].grade", i), l.Grade, "geofoam")
		}
	}
	if len(f.Line) > 0 {
		c.line("fill.line", f.Line)
	}
	if len(f.Line) == 1 {
		c.soft("fill.line", "1 point", "2 points or more, or none", "is not a line yet")
	}
}

func (c *checker) stages() {
	st := c.p.Stages
	if len(st) == 0 {
		c.soft("stages", "none", "1 or more", "names no stage of the work")
	}
	c.ids("stages", len(st), func(i int) string { return st[i].ID })
	for i := range st {
		for k, id := range st[i].Surcharges {
			if !slices.ContainsFunc(c.p.Site.Surcharges, func(s Surcharge) bool { return s.ID == id }) {
				c.soft(fmt.Sprintf("stages[%d].surcharges[%d]", i, k), fmt.Sprintf("%q", id), "the id of a surcharge", "names a surcharge that does not exist")
			}
		}
	}
}
