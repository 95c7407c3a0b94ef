package section

import (
	"math"

	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/engine/tables"
	"hillset/geom"
)

// Plan is the ground of a project with the box in it, from which sections are
// cut. It never changes, so goroutines may share it; the project must not
// change either while it is in use.
type Plan struct {
	p   *model.Project
	box tables.Box
	ax  axis // along the fall line
}

// NewPlan lays out a project. An error is a model.Problem.
func NewPlan(p *model.Project, t *tables.Set) (*Plan, error) {
	box, err := BoxOf(p, t)
	if err != nil {
		return nil, err
	}
	ax, err := longAxis(p)
	if err != nil {
		return nil, err
	}
	return &Plan{p: p, box: box, ax: ax}, nil
}

// Cut is one section through a plan at all its stages: what they share is
// worked out once, and stages that look the same share their zones and lines,
// which are to be read only. A Cut serves one goroutine at a time.
type Cut struct {
	l       layout // dug, without a stage
	station float64
	pit     View  // what digging adds to a view
	fault   error // why it cannot be dug
	flanks  [2]flank
	ground  [2]*ground // as found and as dug, once drawn
	wing    *Wing      // behind the plane of a long section, once drawn
	winged  bool       // that was asked for
	views   []shown
}

// flank is the ground beside a wall that is the same at all stages.
type flank struct {
	dug    geom.Polyline
	finish geom.Polyline // the finished surface beside the box
	err    error         // why there is none
	done   bool
}

// ground is what digging leaves and takes, as zones.
type ground struct {
	strata    []Zone
	excavated geom.Region
}

// shown is a view already built, for the stages of the same shape.
type shown struct {
	shape Shape
	drawn bool
	view  *View
}

// Shape is all that a stage changes in the lines of a section; stages of one
// shape differ in water and loads only.
type Shape struct {
	Dug, Box, Filled bool
	Cover, OneSide   bool
	FillTo           float64
}

// ShapeOf is the shape of a stage.
func ShapeOf(st model.Stage) Shape {
	s := Shape{Dug: st.Kind != model.StageNatural}
	s.Box = s.Dug && st.Kind != model.StageCut
	s.Filled = s.Box && st.Kind != model.StageSet
	s.Cover = s.Filled && st.Cover
	if s.Filled && !s.Cover {
		s.OneSide, s.FillTo = st.OneSide, fillTo(st)
	}
	return s
}

// fillTo is how far the fill has come up: in service all the way, whatever the
// file says.
func fillTo(st model.Stage) float64 {
	if st.Kind == model.StageService {
		return 1
	}
	return st.FillTo
}

// Long is the long section. An error is a model.Problem.
func (pl *Plan) Long() (*Cut, error) {
	p := pl.p
	c := &Cut{station: math.NaN(), l: layout{p: p, box: pl.box, ax: pl.ax, length: true,
		a: p.Box.Front, b: p.Box.Front + Depth(p, pl.box)}}
	l := &c.l
	if l.a-p.Cut.Apron < l.ax.lo || l.b+p.Cut.WorkBack > l.ax.hi {
		return nil, pl.beyond()
	}
	c.dig()
	return c, nil
}

// beyond says where the box may stand on the ground line as it is, or how long
// that would have to be.
func (pl *Plan) beyond() model.Problem {
	p := pl.p
	room, need := pl.ax.hi-pl.ax.lo, p.Cut.Apron+Depth(p, pl.box)+p.Cut.WorkBack
	if room < need {
		return lengthProblem("site.ground", room, need, model.MaxGroundLen, "is too short for the box with its apron and working space")
	}
	return lengthProblem("box.front", p.Box.Front, pl.ax.lo+p.Cut.Apron, pl.ax.lo+p.Cut.Apron+room-need,
		"the box with its apron and working space reaches beyond the ground line")
}

// lengthProblem is a length outside of what is allowed, m.
func lengthProblem(field string, v, lo, hi float64, text string) model.Problem {
	return model.Problem{Field: field, Value: quantity.Typed.Text(v, quantity.Length), Allowed: quantity.Between(lo, hi, quantity.Length), Text: text,
		Ranged: true, Kind: quantity.Length, Num: v, Min: lo, Max: hi}
}

// Cross is the cross section at station x (absolute, along the long section),
// looking into the hill. An error is a model.Problem.
func (pl *Plan) Cross(x float64) (*Cut, error) {
	p, w := pl.p, Across(pl.p, pl.box)
	c := &Cut{station: x, l: layout{p: p, box: pl.box, a: -w / 2, b: w / 2}}
	zg, ok := pl.ax.ground().At(x)
	if !ok {
		return nil, lengthProblem("station", x, pl.ax.lo, pl.ax.hi, "lies outside the ground line")
	}
	c.l.roofTop = finishAt(p, pl.box, x)
	half := w/2 + crossReach(p, w, zg-Formation(p), c.l.roofTop-zg) + crossMargin
	var err error
	if c.l.ax, err = crossAxis(p, pl.ax, x, half); err != nil {
		return nil, err
	}
	c.dig()
	return c, nil
}

// How much ground a cross section shows beyond the works, and the most it
// shows in all, m. A face or a mound that has not met the ground within the
// most never will for practical purposes, and is refused by name.
const (
	crossMargin = 2.5
	crossMost   = 60.0
)

// crossReach is how far the works reach beyond the side of the box: the faces
// of a cut so deep, or a mound so high, on ground that falls across.
func crossReach(p *model.Project, w, cut, mound float64) float64 {
	run := func(h, n float64) float64 {
		if h <= 0 {
			return 0
		}
		flat := 1/math.Max(n, minRun) - math.Abs(p.Site.CrossSlope)
		if flat <= h/crossMost {
			return crossMost
		}
		return h / flat
	}
	// beside the box the ground may be lower or higher than on the centre line
	side := math.Abs(p.Site.CrossSlope) * (w/2 + p.Cut.WorkSide + p.Fill.Shoulder)
	face := p.Cut.WorkSide + run(cut+side, p.Cut.SideBatter)
	return math.Max(face, p.Fill.Shoulder) + run(mound+side, p.Fill.SideSlope)
}

// dig lays out what does not change from stage to stage.
func (c *Cut) dig() {
	l := &c.l
	l.floor = l.p.Box.Level
	l.roof = l.floor + l.box.H
	l.form = Formation(l.p)
	l.dug = l.ax.ground()
	l.flanks = &c.flanks
	c.fault = l.dig(&c.pit)
}

// At is the section at a stage. An error is a model.Problem that names what
// cannot be.
func (c *Cut) At(st model.Stage) (*View, error) { return c.view(st, true) }

// Beside is At without what only a drawing needs: no zones, no regions and no
// surface over all.
func (c *Cut) Beside(st model.Stage) (*View, error) { return c.view(st, false) }

// view finds or builds the lines of a stage and puts its water in.
func (c *Cut) view(st model.Stage, drawn bool) (*View, error) {
	shape, like := ShapeOf(st), (*View)(nil)
	shape.OneSide = shape.OneSide && !c.l.length // only the back is filled there
	for _, s := range c.views {
		if s.shape == shape && s.drawn == drawn {
			like = s.view
		}
	}
	if like == nil {
		var err error
		if like, err = c.build(st, shape, drawn); err != nil {
			return nil, err
		}
		c.views = append(c.views, shown{shape, drawn, like})
	}
	v := *like
	v.Stage, v.Water = st, math.NaN()
	if z, ok := WaterAt(c.l.p, st); ok {
		v.Water = z
	}
	return &v, nil
}

// build runs the steps of building a section in order.
func (c *Cut) build(st model.Stage, shape Shape, drawn bool) (*View, error) {
	l := c.l
	l.st = st
	v := &View{}
	if shape.Dug {
		if c.fault != nil {
			return nil, c.fault
		}
		*v = c.pit
	} else {
		l.dug = l.ax.ground()
	}
	v.lay, v.Long, v.Station, v.Ground, v.Formation = &l, l.length, c.station, l.ax.ground(), l.form
	v.Box = geom.Rect{Min: geom.Vec{l.a, l.floor}, Max: geom.Vec{l.b, l.roof}}
	v.Doors = l.length && l.p.Box.Orientation == model.EndOn
	v.HasBox = shape.Box
	v.Finish = l.dug
	if v.HasBox && drawn {
		v.Bedding = l.bedding()
	}
	if shape.Filled {
		if err := l.fill(v, drawn); err != nil {
			return nil, err
		}
	}
	if drawn && shape.Filled && l.length {
		v.Wings = c.wingSeen(st)
	}
	if drawn {
		g := c.zones(&l, shape.Dug)
		v.Strata, v.Excavated = g.strata, g.excavated
	}
	return v, nil
}

// zones are the strata and what is dug away, before and after digging.
func (c *Cut) zones(l *layout, dug bool) *ground {
	k := 0
	if dug {
		k = 1
	}
	if c.ground[k] == nil {
		g := &ground{strata: l.strataZones()}
		if dug {
			g.excavated = geom.Between(l.ax.ground(), l.dug, l.ax.lo, l.ax.hi)
		}
		c.ground[k] = g
	}
	return c.ground[k]
}
