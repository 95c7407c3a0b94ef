package assess

import (
	"math"

	"hillset/engine/earth"
	"hillset/engine/ground"
	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/engine/section"
	"hillset/engine/tables"
)

// Checks of the wing walls.
const (
	wingHeightID = "wing-height"
	wingSlideID  = "wing-sliding"
	wingJointID  = "wing-joint"
	wingOverID   = "wing-overturning"
	wingMidID    = "wing-resultant"
	wingBearID   = "wing-bearing"
	wingAloneID  = "wing-alone"
)

// wingGaps are the checks of a wing with their titles.
var wingGaps = []gap{
	{id: wingHeightID, title: "Wing wall as high as its fill"},
	{id: wingSlideID, title: "Wing wall sliding on its base"},
	{id: wingJointID, title: "Wing wall sliding between courses"},
	{id: wingOverID, title: "Wing wall overturning"},
	{id: wingMidID, title: "Resultant in the wing wall"},
	{id: wingBearID, title: "Bearing below the wing wall"},
	{id: wingAloneID, title: "Wing wall by itself, out of the hill and towards the entrance"},
}

// titleOfWing is the title of one of them.
func titleOfWing(id string) string {
	for _, g := range wingGaps {
		if g.id == id {
			return g.title
		}
	}
	panic("assess: no wing check " + id)
}

// wingPart is the part name of a wing.
func wingPart(dir float64) string {
	if dir < 0 {
		return leftWing
	}
	return rightWing
}

// Parts that the wings are.
const (
	leftWing  = "left wing wall"
	rightWing = "right wing wall"
)

// ofWing tells the checks of the wing walls.
func ofWing(id string) bool {
	for _, g := range wingGaps {
		if g.id == id {
			return true
		}
	}
	return false
}

// wingSide is one wing of the project with what has been worked out on it.
type wingSide struct {
	part   string
	wall   *section.Wing // nil where none stands
	fault  error         // why there is none
	block  tables.Block
	rock   float64 // thickness of the base rock, m
	tan    float64 // friction of block on base rock; NaN where it stands on the ground
	states []*wingState
	room   earth.Room
}

// wingSides lays out the wings of a project; none where it has none.
func (j *job) wingSides(plan *section.Plan) []*wingSide {
	if !j.p.Wings.Given() {
		return nil
	}
	var out []*wingSide
	for _, dir := range [...]float64{-1, 1} {
		s := &wingSide{part: wingPart(dir), rock: j.p.Wings.BaseRock, tan: math.NaN()}
		s.wall, s.fault = plan.Wing(dir)
		if s.fault == nil && s.wall != nil {
			s.fault = footed(s.wall, j.p)
		}
		if s.rock > 0 {
			s.tan = tanSingle
			if j.p.Bedding.Graded {
				s.tan = tanGraded
			}
		}
		var ok bool
		if s.block, ok = j.t.Block(wingBlock); !ok {
			panic("assess: no block " + wingBlock)
		}
		out = append(out, s)
	}
	return out
}

// wingBlock is the row of the table of blocks that the wings are laid of.
const wingBlock = "concrete"

// footed refuses a wing whose foot hangs over ground that falls away.
func footed(w *section.Wing, p *model.Project) error {
	gap := math.Max(0, w.Base-w.Footing(0, 0))
	for _, c := range w.Columns {
		gap = math.Max(gap, w.Base-w.Footing(c.To, 0))
	}
	if gap <= gapAllowed {
		return nil
	}
	g := &p.Wings
	return lengthRefused("wing_walls.embed", g.Embed, g.Embed+gap, math.Inf(1),
		"its lowest course stands above the ground as found further out: lay it deeper below the formation, or take less splay or a shorter wall")
}

// lengthRefused is a length outside of what is allowed, m.
func lengthRefused(field string, v, lo, hi float64, text string) model.Problem {
	return model.Problem{Field: field, Value: quantity.Typed.Text(v, quantity.Length), Allowed: quantity.Ceil.Text(lo, quantity.Length) + " or more", Text: text,
		Ranged: true, Num: v, Min: lo, Max: hi, Kind: quantity.Length}
}

// wingState is a wing under what presses on it at a stage.
type wingState struct {
	key    wingKey
	plain  bool // no loads that stand in one place
	points []wingPoint
	total  wingTotal
	fault  error
	bare   bool // no fill behind it yet
}

// wingKey is what makes two stages press alike.
type wingKey struct {
	shape section.Shape
	water float64
	snow  bool
	kh    float64
}

// wingPoint is a metre of wall at a place along the wing.
type wingPoint struct {
	along   float64
	col     section.WingColumn
	surface float64 // level of the fill behind
	beta    float64 // its slope square to the wall
	push    ground.PushIn
	in      ground.PushedIn
	joints  []ground.Joint
}

// wingTotal is a whole wing, kN.
type wingTotal struct {
	thrust, down   float64 // across the wall, and down on its back
	weight, uplift float64
	resist, fs     float64
	axial, lateral float64 // out of the hill, and towards the entrance
	centre, length float64 // where the thrust acts, from the box; m
	near, far      float64 // fill above the foot at the two ends, m
	tan            float64 // the least friction below it
}

// wingTasks press the wings at all stages.
func (j *job) wingTasks(stages []*stageResult) []func() {
	var out []func()
	for k, s := range j.wings {
		if s.fault != nil || s.wall == nil {
			continue
		}
		out = append(out, func() {
			for _, sr := range stages {
				sr.wings[k] = j.pressWing(s, sr)
			}
		})
	}
	return out
}

// wingChecks offers the checks of the wings at a stage.
func (j *job) wingChecks(sr *stageResult, worst *worstOf) {
	for k, s := range j.wings {
		st, err := sr.wings[k], s.fault
		if st != nil {
			err = st.fault
		}
		switch {
		case err != nil:
			for _, g := range wingGaps {
				worst.fault(slot{g.id, s.part}, g.title, sr.st.ID, "it could not be worked out: ", err)
			}
		case st != nil && !st.bare:
			j.offerWing(s, st, sr.st.ID, worst)
		}
	}
}

// pressWing finds what presses on a wing at a stage. Stages that press alike
// share it.
func (j *job) pressWing(s *wingSide, sr *stageResult) *wingState {
	key := wingKey{shape: section.ShapeOf(sr.st), water: j.behindWing(sr.view, s.wall), snow: sr.st.Snow}
	if key.water <= s.wall.Base {
		key.water = math.Inf(-1)
	}
	if sr.st.Quake {
		key.kh = j.p.Site.Climate.Kh
	}
	loads := j.acting(sr.st)
	if len(loads) == 0 {
		for _, st := range s.states {
			if st.plain && st.key == key {
				return st
			}
		}
	}
	st := &wingState{key: key, plain: len(loads) == 0}
	st.fault = j.solveWing(s, sr.st, loads, st)
	s.states = append(s.states, st)
	return st
}

// behindWing is the level of the water behind a wing: the one given, or the
// highest that is computed for the front and for the cross section there.
func (j *job) behindWing(v *section.View, w *section.Wing) float64 {
	level := math.Inf(-1)
	if j.field == nil {
		if !math.IsNaN(v.Water) {
			level = v.Water
		}
		return level
	}
	if z := j.atToe(v); !math.IsNaN(z) {
		level = z
	}
	wet := j.wet(v.Stage)
	if wet == nil || len(wet.Cross) == 0 {
		return level
	}
	table := wet.CrossAt(j.frontX).Table
	for _, c := range w.Columns {
		_, y := w.At(c.From, 0)
		if z, ok := table.At(y); ok {
			level = math.Max(level, z)
		}
	}
	return level
}

// solveWing works the metres of wall at the near ends of all columns, and at the
// far end of the last.
func (j *job) solveWing(s *wingSide, stage model.Stage, loads []model.Surcharge, st *wingState) error {
	w := s.wall
	cols := w.Columns
	for i := range len(cols) + 1 {
		pt := wingPoint{col: cols[min(i, len(cols)-1)]}
		pt.along = pt.col.From
		if i == len(cols) {
			pt.along = pt.col.To
		}
		z, ok, err := w.Surface(stage, pt.along)
		if err != nil {
			return err
		}
		if !ok {
			st.bare = true
			return nil
		}
		pt.surface = z
		if pt.col.Courses, err = w.Standing(stage, pt.col); err != nil {
			return err
		}
		if err := j.solvePoint(s, stage, loads, st, &pt); err != nil {
			return err
		}
		st.points = append(st.points, pt)
	}
	st.bare = st.points[0].surface <= w.Base
	st.total = s.sum(st.points)
	return nil
}

// solvePoint works a metre of wall: of the columns of soil that may press, the
// one with the largest thrust.
func (j *job) solvePoint(s *wingSide, stage model.Stage, loads []model.Surcharge, st *wingState, pt *wingPoint) error {
	w := s.wall
	pt.in = ground.PushedIn{Courses: pt.col.Courses, Height: w.Height, B: w.Deep, Setback: w.Setback, Gamma: s.block.Gamma,
		TanBase: j.wingTan(s, pt.along), TanJoint: s.block.TanJoint, Kh: st.key.kh}
	pt.in.Push.Foot = w.Base
	var err error
	if height := pt.surface - w.Base; height > 0 {
		if stage.Cover {
			pt.beta = w.Rise(pt.along, height)
		}
		in := ground.PushIn{Tilt: w.Batter, Top: w.Top(pt.col), Bottom: w.Base, Kh: st.key.kh, Room: &s.room}
		if in.Load, err = j.wheelsOnWing(w, loads, pt); err != nil {
			return err
		}
		q := j.onWing(w, stage, loads, pt)
		cores, err := w.Cores(stage, pt.along, pt.surface)
		if err != nil {
			return err
		}
		for _, core := range cores {
			in.Column, in.Delta = core.Column, core.Delta
			in.Column.Q, in.Column.Beta = q, pt.beta
			// what stands above the fill, or above the wall, runs off over it
			in.Column.Water = math.Min(st.key.water, math.Min(pt.surface, in.Top))
			p, err := ground.PushStack(in)
			if err != nil {
				return err
			}
			if p.H > pt.in.Push.H {
				pt.in.Push, pt.push = p, in
			}
		}
	}
	pt.joints, err = ground.StackPushed(pt.in)
	return err
}

// wingTan is the friction below the lowest course: on the base rock, or on the
// ground itself, and never more than the friction inside that ground.
func (j *job) wingTan(s *wingSide, along float64) float64 {
	so, ok := s.wall.Under(along, s.wall.Base-s.rock)
	if !ok {
		return 0
	}
	tan := s.tan
	if math.IsNaN(tan) {
		tan = math.Tan(so.DeltaCo * math.Pi / 180)
	}
	return math.Min(tan, math.Tan(so.Phi*math.Pi/180))
}

// sum adds a whole wing up, column by column, straight between the two ends of
// each.
func (s *wingSide) sum(pts []wingPoint) wingTotal {
	var t wingTotal
	first := 0.0 // moment of the thrust about the corner of the box, in plan
	t.tan = math.Inf(1)
	for i := range len(pts) - 1 {
		a, b := &pts[i], &pts[i+1]
		ja, jb := &a.joints[0], &b.joints[0]
		l := b.along - a.along
		weight := a.in.B * a.in.Height * a.in.Gamma * float64(a.col.Courses) * l
		down := l * (ja.V + jb.V) / 2
		up := l * (upliftOf(a, ja) + upliftOf(b, jb)) / 2
		t.weight, t.down, t.uplift = t.weight+weight, t.down+down, t.uplift+up
		t.resist += math.Max(0, weight+down-up) * a.in.TanBase
		t.tan = math.Min(t.tan, a.in.TanBase)
		f := l * (ja.H + jb.H) / 2
		t.thrust += f
		first += f*a.along + l*l*(ja.H+2*jb.H)/6
		t.length += l
	}
	t.fs = math.Inf(1)
	if t.thrust > 0 {
		t.centre, t.fs = first/t.thrust, t.resist/t.thrust
	}
	sin, cos := math.Sincos(s.wall.Splay)
	t.axial, t.lateral = t.thrust*cos, t.thrust*sin
	t.near, t.far = pts[0].surface-s.wall.Base, pts[len(pts)-1].surface-s.wall.Base
	return t
}

// upliftOf is the water that lifts a metre of wall at its base, kN/m.
func upliftOf(pt *wingPoint, base *ground.Joint) float64 {
	return pt.in.B*pt.in.Height*pt.in.Gamma*float64(pt.in.Courses) + base.V - base.Wall.V
}
