package assess

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"hillset/engine/box"
	"hillset/engine/check"
	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/engine/section"
	"hillset/engine/steel"
	"hillset/engine/tables"
)

// aged are the sheets and the bars of the container after some years of rust,
// without load.
type aged struct {
	years     float64
	rows      []agedBar // along the edges of the walls
	side, end agedWall
	roof      agedRoof
	bars      map[section.Face][]wallBar
	crests    map[section.Face][]crest // under the wales between the edges of a wall
	purlin    *crest                   // under a purlin; nil without
	cross     crossMember
	// front and rear are the corner posts of the blind end and of the doors.
	front, rear agedPost
	// portal is the door end; none where ribs take the sway.
	portal      *box.ReadyPortal
	portalFault error
	// bed is what the roof sheet holds a top rail with.
	bed      float64
	bedFault error
}

// gone is why a sheet or a bar cannot be rated: rusted through, which is beyond
// limits, or dented or cut so that no strength can be told. A new sheet then stands in
// for it, to bring the loads to the bars along its edges: under one stiffness
// all along they are the same for any sheet.
type gone struct {
	worn worn
	why  error // nil for a sheet that is there
}

// ratio is what stands for the ratios of a sheet that is gone.
func (g *gone) ratio() float64 {
	if errors.Is(g.why, steel.ErrRustedThrough) {
		return math.Inf(1)
	}
	return math.NaN()
}

// check is written in place of the check of a sheet that is gone.
func (g *gone) check(id, title, part string) check.Check {
	if errors.Is(g.why, steel.ErrRustedThrough) {
		return g.worn.through(id, title)
	}
	return faulty(id, title, part, "", g.why)
}

// fault is why it could not be rated, nil where it was or has rusted through.
func (g *gone) fault() error {
	if errors.Is(g.why, steel.ErrRustedThrough) {
		return nil
	}
	return g.why
}

// offer offers the check of a part that needs what is gone, and gives the fault
// to be told.
func (g *gone) offer(at candidate, title string, worst *worstOf) error {
	at.ratio = g.ratio()
	at.write = func() (check.Check, error) { return g.check(at.id, title, at.part), nil }
	worst.add(at)
	return g.fault()
}

// lost is the first of some parts, or else of some bars of the container, that
// is gone after the years; nil where all are there.
func (j *job) lost(years float64, bars []tables.Bar, parts ...*gone) *gone {
	for _, g := range parts {
		if g.why != nil {
			return g
		}
	}
	for _, row := range bars {
		if _, w, err := j.wornBar(row, years); err != nil {
			return &gone{w, err}
		}
	}
	return nil
}

// agedWall is a strip of wall made ready for loads; ready is nil where not even
// a new sheet could stand there.
type agedWall struct {
	gone
	strip box.Strip
	ready *box.ReadyStrip
}

// agedRoof is the same of the roof.
type agedRoof struct {
	gone
	strip box.RoofStrip
	ready *box.ReadyRoof
}

// agedPost is a corner post after some years; unfit says why there is none. A
// new one stands in for one that has rusted through.
type agedPost struct {
	gone
	steel.Post
	strength float64 // kN, lower bound in compression, less by the share of steel lost
	unfit    error
}

// weakest is the corner post that rust has left weakest.
func (a *aged) weakest() *agedPost {
	for _, p := range [...]*agedPost{&a.front, &a.rear} {
		if p.unfit != nil || p.why != nil {
			return p
		}
	}
	if a.rear.strength < a.front.strength {
		return &a.rear
	}
	return &a.front
}

// post is a row of the table of posts after some years. All its parts are
// thinned by what the soil takes from one side.
func (j *job) post(id string, years float64) (out agedPost) {
	row, ok := j.t.Post(id)
	if !ok {
		out.unfit = fmt.Errorf("the table has no corner post %q", id)
		return out
	}
	fresh, err := steel.PostProps(row)
	if err != nil {
		out.unfit = err
		return out
	}
	out.Post, out.strength = fresh, j.box.PostStrength
	row.Parts = slices.Clone(row.Parts)
	for i := range row.Parts {
		if out.worn, out.why = j.walls.wear(row.Parts[i].T, years, steel.MinBar); out.why != nil {
			return out
		}
		row.Parts[i].T = out.worn.left
	}
	out.Post, out.unfit = steel.PostProps(row)
	out.strength = j.box.PostStrength * out.Area / fresh.Area
	return out
}

// age lets the sheets rust.
func (j *job) age(years float64) *aged {
	a := &aged{years: years, rows: j.ageBars(years), side: j.ageWall(j.side, years), end: j.ageWall(j.end, years), roof: j.ageRoof(years)}
	a.bars, a.crests = map[section.Face][]wallBar{}, map[section.Face][]crest{}
	for _, f := range []section.Face{section.Back, section.Left, section.Right} {
		a.bars[f] = made(j.barsOf(f, years))
		a.crests[f] = j.wallCrests(a, f)
	}
	a.purlin = j.roofCrest(a)
	a.cross = j.crossMember(years)
	a.bed, a.bedFault = box.RailBed(a.roof.strip.Profile, j.metal, j.roofSpan())
	a.front, a.rear = j.post("front", years), j.post("rear", years)
	if !j.swayHeld() {
		a.portal, a.portalFault = j.doorPortal(a)
	}
	return a
}

// ageBars lets the bars along the edges of the walls rust.
func (j *job) ageBars(years float64) []agedBar {
	var out []agedBar
	for _, row := range slices.Concat(j.side.rows[:], j.end.rows[:]) {
		b := agedBar{row: row}
		b.bar, b.worn, b.why = j.wearBar(row, years)
		out = append(out, b)
	}
	return out
}

// agedAt is the sheets after some years, at hand for all stages of the project.
func (j *job) agedAt(years float64) *aged {
	for _, a := range j.aged {
		if a.years == years {
			return a
		}
	}
	return j.age(years)
}

// wall is the sheet of a long or an end wall.
func (a *aged) wall(long bool) *agedWall {
	if long {
		return &a.side
	}
	return &a.end
}

// rustedStrip is a metre of rusted wall without load.
func (j *job) rustedStrip(pn panel, years float64) (box.Strip, error) {
	a := j.ageWall(pn, years)
	return a.strip, a.why
}

func (j *job) ageWall(pn panel, years float64) (a agedWall) {
	if a.worn, a.why = j.walls.wear(pn.t, years, steel.MinSheet); a.why == nil {
		if a.strip, a.why = j.stripOf(pn, a.worn.left); a.why == nil {
			a.ready, a.why = a.strip.Ready()
		}
	}
	if a.why != nil {
		pn.dent = 0
		if strip, err := j.stripOf(pn, pn.sheet.T); err == nil {
			a.strip = strip
			a.ready, _ = strip.Ready() // a.why says what is wrong
		}
	}
	return a
}

// tooDented is the problem of a dent that leaves no corrugated sheet.
func (w panel) tooDented(p steel.Profile) error {
	field := "box.end_dent"
	if w.long {
		field = "box.side_dent"
	}
	return model.Problem{Field: field, Value: quantity.Typed.Text(w.dent, quantity.Thickness), Allowed: quantity.Between(0, p.MaxDent(), quantity.Thickness),
		Text: "the dent takes more than two thirds of the depth of the corrugations: no corrugated sheet is left to be checked. Cut it out and weld a new piece in"}
}

func (j *job) ageRoof(years float64) (a agedRoof) {
	t := j.roof.T
	if j.p.Box.RoofT > 0 {
		t = j.p.Box.RoofT / 1000
	}
	if a.worn, a.why = j.rust.wear(t, years, steel.MinSheet); a.why == nil {
		if a.strip, a.why = j.roofStripOf(a.worn.left); a.why == nil {
			a.ready, a.why = a.strip.Ready()
		}
	}
	if a.why != nil {
		if strip, err := j.roofStripOf(j.roof.T); err == nil {
			a.strip = strip
			a.ready, _ = strip.Ready() // a.why says what is wrong
		}
	}
	return a
}

// roofStrip is a metre of rusted roof without load.
func (j *job) roofStrip(years float64) (box.RoofStrip, error) {
	a := j.ageRoof(years)
	return a.strip, a.why
}

// roofStripOf is a metre of roof of a thickness without load.
func (j *job) roofStripOf(t float64) (box.RoofStrip, error) {
	prof, err := profileOf(j.roof, t)
	if err != nil {
		return box.RoofStrip{}, err
	}
	return box.RoofStrip{Profile: prof, Steel: j.metal, Span: j.roofSpan(), Supports: j.purlinPlaces(), Dent: j.p.Box.RoofDent / 1000}, nil
}

// rustedBar is a bar of the container after some years: all its walls are
// thinned by what the ground takes from one side, or from two. Bars put in
// stand inside and do not rust.
func (j *job) rustedBar(row tables.Bar, years float64) (steel.Bar, error) {
	bar, _, err := j.wornBar(row, years)
	return bar, err
}

// wornBar is rustedBar with how its thickness came about. One that rust has made
// too thin to be rated counts as rusted through: no formula tells what is left of
// its strength.
func (j *job) wornBar(row tables.Bar, years float64) (steel.Bar, worn, error) {
	for _, a := range j.aged {
		if a.years != years {
			continue
		}
		for i := range a.rows {
			if b := &a.rows[i]; b.row == row {
				return b.bar, b.worn, b.why
			}
		}
	}
	return j.wearBar(row, years)
}

// agedBar is a bar of the container after some years; why says why there is none.
type agedBar struct {
	row tables.Bar // new
	bar steel.Bar
	worn
	why error
}

// wearBar is wornBar worked out anew.
func (j *job) wearBar(row tables.Bar, years float64) (steel.Bar, worn, error) {
	w, err := j.walls.wear(row.T, years, steel.MinBar)
	if err != nil {
		return steel.Bar{}, w, err
	}
	fresh := row
	row.T = w.left
	bar, err := steel.BarProps(row)
	if err != nil || w.left == w.was {
		return bar, w, err
	}
	why := bar.Rated(j.metal.Fy, j.metal.E)
	if why == nil || !j.rates(fresh, w.was) { // or not for its rust
		return bar, w, nil
	}
	w.thin, w.least = true, thinnest(w.left, w.was, func(t float64) bool { return j.rates(fresh, t) })
	return bar, w, fmt.Errorf("%s of steel are too thin to be rated after %g years, and count as %w: %w", quantity.Text(w.left, quantity.Thickness), years, steel.ErrRustedThrough, why)
}

// rates tells whether a bar of the container of a thickness, m, can be rated.
func (j *job) rates(row tables.Bar, t float64) bool {
	row.T = t
	bar, err := steel.BarProps(row)
	return err == nil && bar.Rated(j.metal.Fy, j.metal.E) == nil
}

// thinnest is the least thickness that does, m, between one that does not and
// one that does.
func thinnest(lo, hi float64, does func(float64) bool) float64 {
	const fine = 1e-6 // m
	for hi-lo > fine {
		if mid := (lo + hi) / 2; does(mid) {
			hi = mid
		} else {
			lo = mid
		}
	}
	return hi
}
