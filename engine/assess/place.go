package assess

import (
	"slices"

	"hillset/engine/earth"
	"hillset/engine/model"
	"hillset/engine/section"
)

// place is one section through the box with what has been worked out on it.
// Many stages press alike: what an earlier one has brought is taken again
// where every number that goes into it is the same. One goroutine works on it.
type place struct {
	j     *job
	x     float64
	cut   *section.Cut
	fault error // why there is no section
	cover *cover

	room   earth.Room
	ground []groundAt
	walls  []*wallLoad
	sheets []*roofSheet
	ribs   []*ribLoad
}

func (j *job) newPlace(plan *section.Plan, x float64) *place {
	pl := &place{j: j, x: x}
	pl.cut, pl.fault = plan.Cross(x)
	return pl
}

// sideLoads are the two sides at one station and stage; a wall is nil where it
// could not be worked out.
type sideLoads struct {
	left, right *wallLoad
	fault       error
}

// topLoad is the roof at one station and stage. sheet and rib are nil where
// nothing presses.
type topLoad struct {
	roofAt             // what the roof of the box carries
	above      *roofAt // what lies on a roof on posts above it; nil for none
	fault      error
	sheet      *roofSheet
	sheetFault error
	rib        *ribLoad
}

// ring works the walls, the roof and the rib at a station end-on.
func (pl *place) ring(stages []*stageResult, i int) {
	for _, sr := range stages {
		s, t := &sr.sides[i], &sr.tops[i]
		if *s = pl.pair(sr.st); s.fault != nil {
			continue
		}
		if pl.top(t, sr.view); t.fault != nil {
			continue
		}
		t.sheet, t.sheetFault = pl.sheet(sr.st, &t.roofAt, pl.j.topThrust(s.left, s.right))
		t.rib = pl.rib(s.left, s.right, &t.roofAt)
	}
}

// ends works the two ends of a box set broadside.
func (pl *place) ends(stages []*stageResult) {
	for _, sr := range stages {
		sr.sides[0] = pl.pair(sr.st)
	}
}

// roofs brings the loads to the roof at a station broadside, where the
// stations run across its span. The sheet waits for the back wall that presses
// it: see pressRoofs.
func (pl *place) roofs(stages []*stageResult, i int) {
	for _, sr := range stages {
		pl.top(&sr.tops[i], sr.view)
	}
}

// top brings what lies over the box here to what carries it.
func (pl *place) top(t *topLoad, v *section.View) {
	var r roofAt
	if r, t.fault = pl.roof(v); t.fault == nil {
		t.take(pl.j, v, r)
	}
}

// pair presses the two sides.
func (pl *place) pair(st model.Stage) (s sideLoads) {
	if s.fault = pl.fault; s.fault != nil {
		return s
	}
	v, err := pl.cut.Beside(st)
	if err != nil {
		s.fault = err
		return s
	}
	if s.left, s.fault = pl.wall(v, section.Left); s.fault != nil {
		s.left = nil
		return s
	}
	if s.right, s.fault = pl.wall(v, section.Right); s.fault != nil {
		s.right = nil
	}
	return s
}

// groundAt is the soil beside a face for the stages of one shape.
type groundAt struct {
	face    section.Face
	shape   section.Shape
	cols    []earth.Column
	surface float64
}

// press is all that presses on a face at one stage.
type press struct {
	face    section.Face
	station float64
	cols    []earth.Column // with water and wide surcharge
	surface float64
	loads   []earth.WallLoad
	fault   error // why the loads cannot be worked out
	quake   bool
	locked  bool // compaction has left its stress
}

// press finds what presses on a face at the stage of a view; there are no
// columns where nothing does.
func (pl *place) press(v *section.View, f section.Face) (*press, error) {
	g, err := pl.beside(v, f)
	if err != nil || len(g.cols) == 0 {
		return &press{}, err
	}
	j := pl.j
	p := &press{face: f, station: pl.x, surface: g.surface, locked: compacted(v.Stage), cols: slices.Clone(g.cols),
		quake: v.Stage.Quake && j.p.Site.Climate.Kh > 0}
	wide := j.wideSurcharge(v.Stage, f, pl.x)
	for i := range p.cols {
		p.cols[i].Q = wide
	}
	wetColumns(p.cols, j.against(v, f, pl.x))
	p.loads, p.fault = j.wallLoads(v.Stage, f, pl.x, g.surface)
	return p, nil
}

// beside is the soil beside a face, cored once for the stages of one shape.
func (pl *place) beside(v *section.View, f section.Face) (groundAt, error) {
	g := groundAt{face: f, shape: section.ShapeOf(v.Stage)}
	for i := range pl.ground {
		if h := &pl.ground[i]; h.face == g.face && h.shape == g.shape {
			return *h, nil
		}
	}
	var err error
	if g.cols, err = v.Columns(f); err != nil {
		return g, err
	}
	g.surface, _ = v.Surface(f)
	pl.ground = append(pl.ground, g)
	return g, nil
}

// alike tells whether two presses bring the same pressure down to a level.
// Loads that vary with depth are not compared. Water that stands no higher
// than that level presses on nothing.
func (p *press) alike(q *press, level float64) bool {
	if p.face != q.face || p.surface != q.surface || p.quake != q.quake || p.locked != q.locked || p.fault != nil || q.fault != nil ||
		len(p.loads) > 0 || len(q.loads) > 0 {
		return false
	}
	return slices.EqualFunc(p.cols, q.cols, func(a, b earth.Column) bool {
		dry := a.Water <= level && b.Water <= level
		return (a.Water == b.Water && a.Left == b.Left || dry) && a.Q == b.Q && a.Beta == b.Beta && a.KFloor == b.KFloor &&
			a.CrackWater == b.CrackWater && slices.Equal(a.Layers, b.Layers)
	})
}

// known is the wall that the same press has loaded before, nil for none.
func (pl *place) known(p *press, years float64) (*wallLoad, error) {
	for _, w := range pl.walls {
		if w.years != years || !w.press.alike(p, pl.j.p.Box.Level) {
			continue
		}
		for _, c := range p.cols {
			if err := c.Validate(); err != nil { // its water may ask more of a soil
				return nil, err
			}
		}
		return w, nil
	}
	return nil, nil
}
