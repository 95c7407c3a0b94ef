package assess

import (
	"math"

	"hillset/engine/check"
	"hillset/engine/climate"
	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/engine/section"
	"hillset/engine/tables"
)

// Frost is how deep it freezes in the natural ground.
type Frost struct {
	Depth float64 // m; 0 where it does not freeze or is not known
	Given bool    // typed, not computed
	Soil  string  // in which it goes deepest
	In    climate.FrostIn
	Found climate.Frost
	Why   string // why it could not be worked out
}

// FrostOf is the depth of frost: computed from the index of the winter where
// that is given, in the soil of the ground in which it goes deepest; else the
// one that was typed.
func FrostOf(p *model.Project, t *tables.Set) Frost {
	c := &p.Site.Climate
	if c.FrostIndex == 0 {
		return Frost{Depth: c.FrostDepth, Given: c.FrostDepth > 0}
	}
	row, ok := t.FrostCover(c.FrostCover)
	if why := notGiven([]need{{"what lies on the ground in winter", ok}, {"the strata of the ground", len(p.Site.Strata) > 0}}); why != "" {
		return Frost{Why: why}
	}
	best := Frost{Depth: -1}
	for _, s := range p.Site.Strata {
		so, ok := section.SoilByID(p, s.Soil)
		soil, known := frozenSoil(t, so)
		if !ok || !known {
			return Frost{Why: "the class of soil “" + so.Name + "” has no thermal values"}
		}
		in := climate.FrostIn{Soil: soil, Index: c.FrostIndex, N: row.N}
		if c.AirMean != nil && c.FrostDays > 0 {
			in.Mean, in.Days, in.HasMean = *c.AirMean, c.FrostDays, true
		}
		f, err := climate.FindFrost(in)
		if err != nil {
			return Frost{Why: asProblem(err).Text}
		}
		if f.Depth > best.Depth {
			best = Frost{Depth: f.Depth, Soil: so.Name, In: in, Found: f}
		}
	}
	return best
}

// lines are the way to the depth of frost.
func (f *Frost) lines() []check.Line {
	if f.Given {
		return []check.Line{{Text: "Depth of frost as given", Formula: "X", Source: "yours", Result: quantity.Of("X", f.Depth, quantity.Length)}}
	}
	return f.Found.Lines(f.In)
}

// frost checks the founding at the front, and the fill beside the walls.
func (w *weather) frost() {
	g := climateGaps
	f := &w.out.Frost
	if f.Why != "" {
		w.miss("the depth of frost: "+f.Why, g.bed, g.fill)
		return
	}
	known := need{"the frost of the winter, as an index or as a depth", f.Depth > 0 || w.p.Site.Climate.FrostIndex > 0}
	stands := need{"a stage in service", w.view != nil}
	if !w.lacks(g.bed, known, stands) {
		c, err := w.bed()
		w.offer(g.bed, c, err)
	}
	if so, ok := w.atWalls(); !w.lacks(g.fill, known, need{"the soil beside the walls", ok}) {
		share, ok := fines(w.t, so)
		if !w.lacks(g.fill, need{"the class of the soil beside the walls", ok}) {
			c, err := climate.FillCheck(share)
			c.Assumptions = append(c.Assumptions, "against the walls lies “"+so.Name+"”"+gradedBy(so))
			w.offer(g.fill, c, err)
		}
	}
}

// gradedBy says where the fines of a soil come from.
func gradedBy(so model.Soil) string {
	if len(so.Sieves) > 0 {
		return ", graded by its sieves"
	}
	return ", with the most fines that its class may have: sieves on page 2 tell better"
}

// atWalls is the soil that lies against the walls.
func (j *job) atWalls() (model.Soil, bool) {
	id := j.p.Fill.Backfill
	if j.p.Fill.RockWidth > 0 {
		id = j.p.Fill.RockSoil
	}
	return section.SoilByID(j.p, id)
}

// bed checks the founding at the front, where the ground is lowest.
func (w *weather) bed() (check.Check, error) {
	b := &w.p.Bedding
	under, ok := w.view.SoilBelow(w.frontX)
	soil, known := frozenSoil(w.t, under)
	share, graded := fines(w.t, under)
	if !ok || !known || !graded {
		return check.Check{}, model.Problem{Text: "the ground below the front is not known"}
	}
	front, ok := w.groundInFront()
	if !ok {
		return check.Check{}, model.Problem{Text: "the ground in front of the box is not drawn"}
	}
	foot := section.Formation(w.p)
	words := "the bed does not heave"
	if bed, ok := section.SoilByID(w.p, b.RockSoil); b.RockThickness > 0 {
		of, known := fines(w.t, bed)
		if heaves, err := climate.Susceptible(of); !ok || !known || err != nil || heaves {
			foot += b.RockThickness
			words = "the bed may heave itself: it counts as soil that does" + gradedBy(bed)
		}
	}
	if b.Toe.Depth > 0 {
		foot = math.Min(foot, section.Formation(w.p)-b.Toe.Depth)
	}
	f := &w.out.Frost
	in := climate.BedIn{Reach: f.Depth, Lines: f.lines(), Foot: front - foot, Fines: share, Soil: soil, Beam: b.Toe.Depth > 0}
	if !f.Given {
		in.Frost = &f.Found
	}
	c, err := climate.BedCheck(in)
	c.Assumptions = append(c.Assumptions, words, "below lies “"+under.Name+"”"+w.group(under, share)+gradedBy(under))
	if w.out.Seasons && w.out.Winter.Room < 0 {
		c.Validity += " Unheated, the room comes below freezing in the coldest weeks: unless it is kept warmer, frost reaches the bed from inside as well, and that is not counted."
	}
	return c, err
}

// group says the frost group of a soil, by its sieves or, of gravel, by half of
// what passes No. 200; where neither tells, by all of it.
func (w *weather) group(so model.Soil, share float64) string {
	th, _ := w.t.Thermal(so.USCS)
	finer := share
	if th.Family == climate.Gravel && share < 0.18 {
		finer = share / 2
	}
	if p, err := gradingOf(so).Passing(0.02); err == nil {
		finer = p
	}
	if g, err := climate.Group(th.Family, finer); err == nil && g != "" {
		return ", frost group " + g + " at the worst (TM 5-818-2, memory)"
	}
	return ""
}

// groundInFront is the lowest finished ground before the front, as far out as
// frost is deep.
func (w *weather) groundInFront() (float64, bool) {
	hi := w.frontX - outletClear
	line := w.view.Finish.ClipX(hi-math.Max(w.out.Frost.Depth, outletClear), hi)
	low := math.Inf(1)
	for _, v := range line {
		low = math.Min(low, v[1])
	}
	return low, len(line) > 0
}
