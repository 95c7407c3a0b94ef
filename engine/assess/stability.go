package assess

import (
	"math"

	"hillset/engine/check"
	"hillset/engine/earth"
	"hillset/engine/ground"
	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/water"
)

// Factors of safety asked for, with their sources in the checks of package
// ground.
const (
	fsFloatUsual   = 1.3 // ordinary water
	fsFloatUnusual = 1.2 // the design high level
	fsSliding      = 1.5
	fsSlidingToe   = 2.0 // when passive resistance is counted
	fsOverturning  = 1.5
)

// body is the whole box at one stage: what weighs on it and pushes it.
type body struct {
	v       *section.View
	weights         // what lies on the roof
	weight  float64 // kN, tare and what surely lies on the roof: it holds the box
	cover   float64 // m, mean soil cover
	build   float64 // m, thickness of the build-up under the soil
	gamma   float64 // kN/m3 of the soil on the roof, moist and saturated
	gammaS  float64
	layers  float64 // kN, build-up without soil
	lift    water.Lift
	uplift  float64 // kN
	back    *wallLoad
	side    float64 // kN, friction on both sides, all of it
	toe     toe
	flotIn  ground.FlotationIn
	slideIn ground.SlideIn
}

// body sums up the box at a stage from the loads already worked out.
func (j *job) body(sr *stageResult) (body, error) {
	v := sr.view
	b := body{v: v, back: sr.back}
	var err error
	if b.weights, err = j.weigh(sr); err != nil {
		return b, err
	}
	b.weight = j.tareKN + b.sure.p
	area := j.depth * j.across
	soil, soaked := 0.0, 0.0 // m·kN/m3
	for i, length := range tributary(stationsOf(sr.tops)) {
		r, share := &sr.tops[i].roofAt, length/j.depth
		b.layers += r.load.Layers * area * share
		b.cover += r.load.Cover * share
		soil += r.gamma * r.load.Cover * share
		soaked += r.gammaSat * r.load.Cover * share
	}
	if b.cover > 0 {
		b.gamma, b.gammaS = soil/b.cover, soaked/b.cover
	}
	if b.layers > 0 {
		b.build = buildUp(j.p)
	}
	if b.lift, err = j.lift(v); err != nil {
		return b, err
	}
	b.uplift = earth.GammaW * b.lift.Mean * area
	b.flotIn = j.flotationIn(&b, b.lift.Mean)
	if !b.loaded() {
		return b, nil
	}
	if b.side, err = j.sideFriction(sr); err != nil {
		return b, err
	}
	b.slideIn, err = j.slideIn(&b)
	return b, err
}

// loaded tells whether the hill pushes on the back.
func (b *body) loaded() bool { return b.back != nil && b.back.loaded }

// buildUp is the thickness of the layers laid on the roof.
func buildUp(p *model.Project) float64 {
	sum := 0.0
	for _, l := range p.Fill.Roof {
		sum += l.Thickness
	}
	return sum
}

// flotationIn is the box afloat. The build-up on the roof counts as part of the
// body, by its weight and its volume; side friction is never counted.
func (j *job) flotationIn(b *body, water float64) ground.FlotationIn {
	in := ground.FlotationIn{Length: j.depth, Width: j.across, Height: j.box.H + b.build, Tare: j.tareKN,
		Cover: b.cover, Gamma: b.gamma, GammaSat: b.gammaS, Permanent: b.layers, Water: water, Required: fsFloatUsual}
	if b.v.Stage.Water == model.WaterHigh {
		in.Required = fsFloatUnusual
	}
	if in.Cover <= 0 {
		// no soil on the roof: any weights will do, but they must be those of soil
		in.Gamma, in.GammaSat = 18, 20
	}
	return in
}

// sideFriction is the friction of the fill on the two sides of a box set
// end-on, by the diagrams at the stations. A box broadside has its ends
// across the push: none is counted there.
func (j *job) sideFriction(sr *stageResult) (float64, error) {
	if j.p.Box.Orientation == model.Broadside || len(sr.walls) == 0 {
		return 0, nil
	}
	k, delta, err := j.wallFriction()
	if err != nil {
		return 0, err
	}
	total := 0.0
	lengths := tributary(stationsOfWalls(sr.walls))
	for i, w := range sr.walls {
		d, err := j.atWall(w)
		if err != nil {
			return 0, err
		}
		f, err := ground.SideFriction(ground.SideFrictionIn{Diagram: d, K: k, Delta: delta, Length: lengths[i/2]})
		if err != nil {
			return 0, err
		}
		total += f
	}
	return total, nil
}

// wallFriction is the active coefficient and the friction against steel, rad, of
// what lies against the walls. Above the drainage rock that is the backfill, so
// the one that holds less counts for both.
func (j *job) wallFriction() (k, delta float64, err error) {
	ids := []string{j.p.Fill.Backfill}
	if j.p.Fill.RockWidth > 0 {
		ids = append(ids, j.p.Fill.RockSoil)
	}
	for i, id := range ids {
		so, ok := section.SoilByID(j.p, id)
		if !ok {
			return 0, 0, model.Problem{Field: "fill", Value: id, Allowed: "a soil of the project", Text: "what lies against the walls has no soil"}
		}
		ka, err := earth.RankineKa(so.Phi * math.Pi / 180)
		if err != nil {
			return 0, 0, err
		}
		if d := so.DeltaSt * math.Pi / 180; i == 0 || ka*math.Tan(d) < k*math.Tan(delta) {
			k, delta = ka, d
		}
	}
	return k, delta, nil
}

// stationsOfWalls are the stations of walls that come in pairs.
func stationsOfWalls(walls []*wallLoad) []float64 {
	var out []float64
	for i := 0; i < len(walls); i += 2 {
		out = append(out, walls[i].station)
	}
	return out
}

// atWall is the stress in the fill that touches the wall, without loads that
// come and go: what surely holds by friction.
func (j *job) atWall(w *wallLoad) (earth.Diagram, error) {
	if !w.loaded {
		return nil, nil
	}
	c := w.press.cols[0]
	c.Q = 0
	return c.Lateral(earth.AtRest, math.Max(j.roofLevel(), w.press.surface), j.p.Box.Level)
}

// slideIn sums the push of the hill on the back wall. What compaction locked
// in is left out: it is gone with the first movement.
func (j *job) slideIn(b *body) (ground.SlideIn, error) {
	lvl := j.p.Box.Level
	soil, zs := b.back.diagram.ResultantOf(pushing)
	u, zu := b.back.diagram.ResultantOf(func(r *earth.Row) float64 { return r.U })
	in := ground.SlideIn{Length: j.depth, Width: j.across, Weight: b.weight, Uplift: b.uplift, UpliftBehind: b.lift.Along,
		Earth: soil * j.across, Water: u * j.across, TanBase: j.tanBase(b.v), Side: b.side,
		Required: fsSliding, RequiredPassive: fsSlidingToe,
		WeightArm: j.depth/2 - b.sure.mx/b.weight}
	if soil > 0 {
		in.EarthLevel = zs - lvl
	}
	if u > 0 {
		in.WaterLevel = zu - lvl
	}
	if j.p.Fill.Proven {
		in.Share = j.p.Fill.SideFriction // the file holds no more than 0.5
	}
	if b.back.activeFault != nil {
		return in, b.back.activeFault
	}
	in.EarthActive = b.back.active * j.across
	s, err := ground.SlideBox(in)
	if err != nil {
		return in, err
	}
	front := 0.0
	if !s.Under.Off {
		front = s.Under.Toe
	}
	b.toe, err = j.toe(b.v, front)
	in.Passive = b.toe.net
	return in, err
}

// tanBase is the friction of castings, pads or slab on the bed: the interface
// table gives 0.30 on rock of one size, 0.40 on graded rock (DM-7.02); a slab
// cast on it takes the friction of its soil against concrete. It is never more
// than the friction inside the ground below the bed.
func (j *job) tanBase(v *section.View) float64 {
	tan := tanSingle
	if j.p.Bedding.Graded {
		tan = tanGraded
	}
	if j.p.Bedding.Kind == model.SlabBedding {
		if so, ok := section.SoilByID(j.p, j.p.Bedding.RockSoil); ok {
			tan = math.Tan(so.DeltaCo * math.Pi / 180)
		}
	}
	for _, x := range []float64{j.frontX, (j.frontX + j.backX) / 2, j.backX} {
		if so, ok := v.SoilBelow(x); ok {
			tan = math.Min(tan, math.Tan(so.Phi*math.Pi/180))
		}
	}
	return tan
}

// Friction of steel and precast concrete on rock fill (DM-7.02 ch. 3 table 1,
// second-hand): graded, and of a single size.
const (
	tanGraded = 0.40
	tanSingle = 0.30
)

// stability adds the checks of the box as a body.
func (j *job) stability(sr *stageResult, worst *worstOf) error {
	b, err := j.body(sr)
	if err != nil {
		return err
	}
	if err := j.afloat(sr, &b, worst); err != nil {
		return err
	}
	turn := 0.0
	if b.loaded() {
		turn = b.slideIn.Earth*b.slideIn.EarthLevel + b.slideIn.Water*b.slideIn.WaterLevel
		if err := j.pushed(sr, &b, worst); err != nil {
			return err
		}
	}
	if err := j.alongContour(sr, &b, worst); err != nil {
		return err
	}
	if err := j.castingChecks(sr, &b, turn, worst); err != nil {
		return err
	}
	loads := j.onPads(&b, turn)
	if err := j.bearing(sr, loads, worst); err != nil {
		return err
	}
	return j.settle(sr, loads, worst)
}

// afloat offers flotation where water stands above the underside of the box.
func (j *job) afloat(sr *stageResult, b *body, worst *worstOf) error {
	in := b.flotIn
	if in.Water <= 0 {
		return nil
	}
	f, err := ground.Float(in)
	if err != nil {
		return err
	}
	worst.add(candidate{slot: slot{"flotation", "box"}, stage: sr.st.ID, ratio: ratioOf(in.Required/f.FS, f.UPL),
		write: func() (check.Check, error) { return ground.FlotationCheck(in) }})
	return nil
}

// empty offers the flotation of a box that stands bare in a pit that fills
// with water.
func (j *job) empty(sr *stageResult, worst *worstOf) error {
	b := body{v: sr.view}
	l, err := j.lift(sr.view)
	if err != nil {
		return err
	}
	b.flotIn = j.flotationIn(&b, l.Mean)
	return j.afloat(sr, &b, worst)
}

// pushed offers sliding and overturning.
func (j *job) pushed(sr *stageResult, b *body, worst *worstOf) error {
	in := b.slideIn
	s, err := ground.SlideBox(in)
	if err != nil {
		return err
	}
	if s.Normal <= 0 {
		j.adrift(sr, b, worst)
		return nil
	}
	add := func(id string, ratio float64, write func() (check.Check, error)) {
		worst.add(candidate{slot: slot{id, "box"}, stage: sr.st.ID, ratio: ratio, write: write})
	}
	sliding := in.Required / s.FS
	if in.Passive > 0 {
		sliding = math.Min(sliding, in.RequiredPassive/s.FSPassive)
	}
	over := in
	over.Required = fsOverturning
	add("sliding", sliding, func() (check.Check, error) { return b.toe.explain(ground.SlidingCheck(in)) })
	add("overturning", over.Required/s.FSOver, func() (check.Check, error) { return ground.OverturningCheck(over) })
	add("resultant", math.Abs(s.E)/(j.depth/6), func() (check.Check, error) { return ground.ResultantCheck(over) })
	return nil
}
