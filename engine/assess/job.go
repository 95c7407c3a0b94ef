package assess

import (
	"context"
	"fmt"
	"slices"

	"hillset/engine/box"
	"hillset/engine/earth"
	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/steel"
	"hillset/engine/tables"
	"hillset/engine/water"
)

// job is one assessment: the project with everything looked up once.
type job struct {
	p     *model.Project
	t     *tables.Set
	box   tables.Box
	metal box.Material // sheets and rails of the container
	added box.Material // bars that are put in new
	side  panel        // long walls
	end   panel        // blind end
	roof  tables.Sheet
	rust  rust  // of the roof
	walls rust  // of walls, rails and posts
	crawl rust  // of what stands in the crawl space below the floor
	usual usual // what was measured out of the ordinary

	depth, across float64 // extent of the box into the hill and along the contour
	frontX, backX float64
	tareKN        float64 // empty box and what stays inside for good

	// heavier scales the wheels of vehicles by the id of their surcharge, to try
	// what a heavier one would do; one that is not in it weighs what its table says.
	heavier map[string]float64

	field *water.Field // computed water; nil where the level is given

	foot *footing // the ground below the pads; nil before it was looked at

	climate *Climate // what was worked out of frost and air; nil before

	// What no stage and no station changes, worked out once. A fault in it is
	// told by the stage that needs it.
	drawn     bool // sections are drawn and checks written
	aged      []*aged
	lock      *earth.Envelope // what the compaction plant locks in; nil for none
	lockFault error
	outer     map[section.Face]*outer // skins outside the walls; nil for none
	own       *ownRoof                // roof on posts of its own; nil for none
	purlins   []wallBar
	ring      box.Rib // of the ribs, without load
	ribFault  error   // why there is none
	ready     *box.ReadyRib
	ribUnfit  error         // why it cannot be solved
	bed       box.Rib       // the same with its floor on the ground
	bedded    *box.ReadyRib // nil where the floor does not lie on the ground
	sagLimit  float64
	wings     []*wingSide // block walls beside the front; none where none are given
}

// panel is the sheet of a wall with the bars along its top and bottom.
type panel struct {
	sheet       tables.Sheet
	t           float64       // thickness measured or as new, m
	dent        float64       // depth of the deepest dent, m
	top, bottom steel.Bar     // as new
	rows        [2]tables.Bar // of top and bottom
	zBottom     float64       // level of the bottom edge of the sheet
	zTop        float64       // level of its top edge
	wales       []model.Wale
	long        bool // a long side: its rails can be held by ribs
}

// height is the clear height of the sheet.
func (w panel) height() float64 { return w.zTop - w.zBottom }

// gravity turns kg into kN.
const gravity = 9.81e-3

// newGrade is the grade of bars that are put in new.
const newGrade = "tube-345"

// newJob looks up what the project names. An error is a model.Problem.
func newJob(p *model.Project, t *tables.Set) (*job, error) {
	return newJobIn(context.Background(), p, t, nil)
}

// newJobIn is newJob in water that was computed before; nil computes it where
// it is to be computed, unless ctx is done: then the error is that of ctx.
func newJobIn(ctx context.Context, p *model.Project, t *tables.Set, field *water.Field) (*job, error) {
	b, err := section.BoxOf(p, t)
	if err != nil {
		return nil, err
	}
	j := &job{p: p, t: t, box: b, field: field, depth: section.Depth(p, b), across: section.Across(p, b)}
	j.frontX, j.backX = p.Box.Front, p.Box.Front+j.depth
	j.tareKN = b.Tare * gravity
	if p.Box.Tare > 0 {
		j.tareKN = p.Box.Tare * gravity
	}
	j.tareKN += p.Box.Ballast * gravity
	if err := j.steels(); err != nil {
		return nil, err
	}
	if j.rust, err = rustOf(p, t); err != nil {
		return nil, err
	}
	if err := j.panels(); err != nil {
		return nil, err
	}
	j.usual = j.usuals()
	if err := j.flow(ctx); err != nil {
		return nil, err
	}
	if err := j.standing(ctx); err != nil {
		return nil, err
	}
	j.once()
	return j, nil
}

// once works out what all stages share.
func (j *job) once() {
	j.outer = j.skins()
	if j.p.Strengthening.RoofSlab.Given() {
		j.own = j.ownRoof()
	}
	if j.hasRibs() {
		j.purlins = j.purlinBars() // before the sheets that they bear on
	}
	for _, st := range j.p.Stages {
		if !slices.ContainsFunc(j.aged, func(a *aged) bool { return a.years == st.Years }) {
			j.aged = append(j.aged, j.age(st.Years))
		}
	}
	j.lock, j.lockFault = j.compaction()
	if j.hasRibs() {
		if j.ring, j.ribFault = j.rib(); j.ribFault == nil {
			j.ready, j.ribUnfit = j.ring.Ready()
			j.layOnBed()
		}
	}
	j.sagLimit = sagLimit(j.p)
}

// layOnBed makes the ribs ready with their floor on the ground, where it may lie
// there.
func (j *job) layOnBed() {
	var ok bool
	var err error
	if j.bed, ok, err = j.onBed(j.ring); ok {
		j.bedded, err = j.bed.Ready()
	}
	if j.ribUnfit == nil {
		j.ribUnfit = err
	}
}

// steels chooses the grades: the maker's when it is known and the box is not
// patched, the low one otherwise. A yield strength that is given takes the place
// of the maker's, and of the low one where it is lower still.
func (j *job) steels() error {
	id := "unknown"
	if j.p.Box.SteelKnown && !j.p.Box.Patched {
		id = "corten"
	}
	g, ok := j.t.Grade(id)
	n, okNew := j.t.Grade(newGrade)
	if !ok || !okNew {
		return fmt.Errorf("assess: grades %q and %q must be in the table", id, newGrade)
	}
	j.metal, j.added = box.Of(g), box.Of(n)
	if fy := j.p.Box.Fy * 1000; fy > 0 && (id == "corten" || fy < j.metal.Fy) {
		j.metal.Fy = fy
	}
	return nil
}

// panels looks up the sheets and rails and places them.
func (j *job) panels() error {
	var err error
	bar := func(id string) (tables.Bar, steel.Bar) {
		row, ok := j.t.Bar(id)
		if !ok && err == nil {
			err = fmt.Errorf("assess: bar %q of box %q is not in the table", id, j.box.ID)
		}
		b, e := steel.BarProps(row)
		if e != nil && err == nil {
			err = e
		}
		return row, b
	}
	sheet := func(id string) tables.Sheet {
		s, ok := j.t.Sheet(id)
		if !ok && err == nil {
			err = fmt.Errorf("assess: sheet %q of box %q is not in the table", id, j.box.ID)
		}
		return s
	}
	j.side = panel{sheet: sheet(j.box.SideSheet), wales: j.p.Strengthening.Wales, long: true}
	j.side.rows[0], j.side.top = bar(j.box.TopRail)
	j.side.rows[1], j.side.bottom = bar(j.box.BottomRail)
	j.end = panel{sheet: sheet(j.box.EndSheet), wales: j.p.Strengthening.BackWales}
	j.end.rows[0], j.end.top = bar(j.box.EndHeader)
	j.end.rows[1], j.end.bottom = bar(j.box.EndSill)
	j.roof = sheet(j.box.RoofSheet)
	if err != nil {
		return err
	}
	j.side.t, j.end.t = j.side.sheet.T, j.end.sheet.T
	if j.p.Box.SideT > 0 {
		j.side.t = j.p.Box.SideT / 1000
	}
	if j.p.Box.EndT > 0 {
		j.end.t = j.p.Box.EndT / 1000
	}
	j.side.dent, j.end.dent = j.p.Box.SideDent/1000, j.p.Box.EndDent/1000
	for _, w := range []*panel{&j.side, &j.end} {
		w.zBottom = j.p.Box.Level + j.box.UnderClearance + w.bottom.H
		w.zTop = j.p.Box.Level + j.box.H - w.top.H
	}
	return nil
}

// roofLevel is the level of the top of the box.
func (j *job) roofLevel() float64 { return j.p.Box.Level + j.box.H }

// wallOf is the panel that a face of the box is made of.
func (j *job) wallOf(f section.Face) panel {
	broadside := j.p.Box.Orientation == model.Broadside
	if (f == section.Back) == broadside {
		return j.side
	}
	return j.end
}
