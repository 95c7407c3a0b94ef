package assess

import (
	"slices"

	"hillset/engine/check"
	"hillset/engine/drain"
	"hillset/engine/model"
	"hillset/engine/section"
)

// filters hold the drain rock, or the cloth round it, against every soil that it
// touches; the worst of them is told.
func (d *drainage) filters() {
	rock, ok := section.SoilByID(d.p, d.p.Fill.RockSoil)
	soils := d.touching()
	cl := &d.p.Defence.Drain.Cloth
	if !ok || len(soils) == 0 {
		g := gap{id: "filter-classic", title: "Filter against soil, classic ratios", part: filterPart}
		d.lacks(g, need{"the drain rock", ok}, need{"the soils that it touches", len(soils) > 0})
		return
	}
	for _, so := range soils {
		if cl.AOS > 0 {
			d.cloth(so)
			continue
		}
		d.classic(so, rock)
		if len(so.Sieves) > 0 && len(rock.Sieves) > 0 {
			g := gap{id: "filter-band", title: "Filter against soil, by category", part: filterPart}
			c, _, err := drain.BandCheck(gradingOf(so), gradingOf(rock), so.Dispersive)
			d.offer(g, against(c, so), err)
		}
	}
}

// against names the soil that a filter was held against.
func against(c check.Check, so model.Soil) check.Check {
	c.Title += ": " + so.Name
	return c
}

// touching are the soils beside the drain rock: the backfill, or where that is
// the same rock all that the cut was dug through and the cap over it.
func (d *drainage) touching() []model.Soil {
	f := &d.p.Fill
	ids := []string{f.Backfill}
	if f.Backfill == f.RockSoil {
		ids = nil
		if f.CapThickness > 0 {
			ids = append(ids, f.CapSoil)
		} else if f.TopsoilThickness > 0 {
			ids = append(ids, f.TopsoilSoil)
		}
		for _, s := range d.p.Site.Strata {
			if slices.ContainsFunc(d.sr.view.Batters, func(b section.Batter) bool { return b.Stratum == s.ID }) {
				ids = append(ids, s.Soil)
			}
		}
	}
	for _, pipe := range d.sr.view.Pipes(d.p) {
		if so, ok := d.sr.view.SoilAt(pipe.At[0], pipe.At[1]-pipe.Bore); ok {
			ids = append(ids, so.ID) // under the trench
		}
	}
	var out []model.Soil
	for _, id := range ids {
		so, ok := section.SoilByID(d.p, id)
		if ok && id != f.RockSoil && !slices.ContainsFunc(out, func(o model.Soil) bool { return o.ID == id }) {
			out = append(out, so)
		}
	}
	return out
}

// classic holds the rock against one soil by the classic ratios, by what is
// known of both.
func (d *drainage) classic(so, rock model.Soil) {
	g := gap{id: "filter-classic", title: "Filter against soil, classic ratios: " + so.Name, part: filterPart}
	if so.Dispersive {
		d.offer(g, check.Check{}, model.Problem{Text: "the classic ratios do not hold for dispersive soil: give sieves of soil and stone for the rules by category"})
		return
	}
	if len(so.Sieves) > 0 && len(rock.Sieves) > 0 {
		c, err := drain.ClassicCheck(gradingOf(so), gradingOf(rock))
		d.offer(g, against(c, so), err)
		return
	}
	b15, ok15 := sizeOf(so, 0.15)
	b85, ok85 := sizeOf(so, 0.85)
	f15, okF := sizeOf(rock, 0.15)
	if d.lacks(g, need{"D15 and D85 of " + so.Name, ok15 && ok85}, need{"D15 of the drain rock, or a cloth", okF}) {
		return
	}
	b50, _ := sizeOf(so, 0.5)
	f50, _ := sizeOf(rock, 0.5)
	c, err := drain.SizesCheck(b15, b50, b85, f15, f50)
	d.offer(g, against(c, so), err)
}

// cloth holds the cloth against one soil.
func (d *drainage) cloth(so model.Soil) {
	g := gap{id: "filter-cloth", title: "Drainage cloth against soil: " + so.Name, part: filterPart}
	cl := &d.p.Defence.Drain.Cloth
	if d.lacks(g, need{"sieves of " + so.Name, len(so.Sieves) > 0}, need{"permeability of " + so.Name, so.Kx > 0},
		need{"permittivity of the cloth", cl.Permittivity > 0}, need{"permeability of the cloth", cl.K > 0}) {
		return
	}
	c, err := drain.ClothCheck(drain.ClothIn{Soil: gradingOf(so), SoilK: so.Kx, AOS: cl.AOS, Permittivity: cl.Permittivity, K: cl.K,
		Woven: cl.Woven, Signed: cl.Signed, Critical: true, Special: special(so)})
	if err == nil && c.Missing == "" {
		c.Assumptions = append(c.Assumptions, "failure would be costly: ten times the permeability of the soil is asked for")
	}
	d.offer(g, against(c, so), err)
}

// special is why the default cloth is not for a soil; empty where it is.
func special(so model.Soil) string {
	switch gap, err := gradingOf(so).Gap(); {
	case so.Dispersive:
		return "is dispersive"
	case so.Laminated:
		return "is laminated"
	case so.USCS == "ML" && so.Cohesion == 0:
		return "is silt without cohesion"
	case err == nil && gap: // a curve that is none is refused by the check itself
		return "has a gap in its grading"
	}
	return ""
}
