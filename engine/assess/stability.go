package assess

import (
	"math"

	"hillset/engine/check"
	"hillset/engine/earth"
	"hillset/engine/ground"
	"hillset/engine/model"
	"hillset/engine/section"
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
	weight  float64 // kN, tare and everything on the roof
	onRoof  float64 // kN, soil and build-up
	cover   float64 // m, mean soil cover
	gamma   float64 // kN/m3 of the soil on the roof, moist and saturated
	gammaS  float64
	layers  float64 // kN, build-up without soil
	uplift  float64 // kN
	back    *wallLoad
	side    float64 // kN, friction on both sides, all of it
	flotIn  ground.FlotationIn
	slideIn ground.SlideIn
}

// body sums up the box at a stage from the loads already worked out.
func (j *job) body(sr *stageResult) (body, error) {
	v := sr.view
	b := body{v: v, back: sr.back}
	area := j.depth * j.across
	n := float64(len(sr.tops))
	for i := range sr.tops {
		r := &sr.tops[i].roofAt
		b.onRoof += (r.prism + r.load.Layers) * area / n
		b.layers += r.load.Layers * area / n
		b.cover += r.load.Cover / n
		b.gamma += r.gamma / n
		b.gammaS += r.gammaSat / n
	}
	b.weight = j.tareKN + b.onRoof
	water := j.waterAbove(v)
	b.uplift = earth.GammaW * water * area
	var err error
	if b.side, err = j.sideFriction(sr); err != nil {
		return b, err
	}
	b.flotIn = j.flotationIn(&b, water)
	b.slideIn, err = j.slideIn(&b)
	return b, err
}

// waterAbove is the height of water over the underside of the box.
func (j *job) waterAbove(v *section.View) float64 {
	if math.IsNaN(v.Water) {
		return 0
	}
	return math.Max(0, v.Water-j.p.Box.Level)
}

// flotationIn leaves side friction out unless the fill is proven.
func (j *job) flotationIn(b *body, water float64) ground.FlotationIn {
	in := ground.FlotationIn{Length: j.depth, Width: j.across, Height: j.box.H, Tare: j.tareKN,
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
	so, ok := section.SoilByID(j.p, j.p.Fill.Backfill)
	if j.p.Fill.RockWidth > 0 {
		so, ok = section.SoilByID(j.p, j.p.Fill.RockSoil)
	}
	if !ok {
		return 0, nil
	}
	l := section.LayerOf(so, 1, 0)
	k, err := earth.RankineKa(l.Phi)
	if err != nil {
		return 0, err
	}
	total, step := 0.0, j.depth/float64(len(sr.walls)/2-1)
	for i, w := range sr.walls {
		share := step
		if i < 2 || i >= len(sr.walls)-2 {
			share = step / 2
		}
		f, err := ground.SideFriction(ground.SideFrictionIn{Diagram: w.diagram, K: k, Delta: so.DeltaSt * math.Pi / 180, Length: share})
		if err != nil {
			return 0, err
		}
		total += f
	}
	return total, nil
}

// slideIn sums the push of the hill on the back wall. What compaction locked
// in is left out: it is gone with the first movement.
func (j *job) slideIn(b *body) (ground.SlideIn, error) {
	lvl := j.p.Box.Level
	soil, zs := b.back.diagram.ResultantOf(pushing)
	u, zu := b.back.diagram.ResultantOf(func(r *earth.Row) float64 { return r.U })
	in := ground.SlideIn{Length: j.depth, Width: j.across, Weight: b.weight, Uplift: b.uplift,
		Earth: soil * j.across, Water: u * j.across, TanBase: j.tanBase(), Side: b.side,
		Required: fsSliding, RequiredPassive: fsSlidingToe}
	if soil > 0 {
		in.EarthLevel = zs - lvl
	}
	if u > 0 {
		in.WaterLevel = zu - lvl
	}
	if j.p.Fill.Proven {
		in.Share = math.Min(j.p.Fill.SideFriction, 0.5)
	}
	if b.back.activeFault != nil {
		return in, b.back.activeFault
	}
	in.EarthActive = b.back.active * j.across
	var err error
	in.Passive, err = j.toe(b.v)
	return in, err
}

// tanBase is the friction of castings, pads or slab on the bed: the interface
// table gives 0.30 on rock of one size, 0.40 on graded rock (DM-7.02); a slab
// cast on it takes the friction of its soil against concrete.
func (j *job) tanBase() float64 {
	if j.p.Bedding.Kind == model.SlabBedding {
		if so, ok := section.SoilByID(j.p, j.p.Bedding.RockSoil); ok {
			return math.Tan(so.DeltaCo * math.Pi / 180)
		}
	}
	if j.p.Bedding.Graded {
		return tanGraded
	}
	return tanSingle
}

// Friction of steel and precast concrete on rock fill (DM-7.02 ch. 3 table 1,
// second-hand): graded, and of a single size.
const (
	tanGraded = 0.40
	tanSingle = 0.30
)

// toe is the passive resistance of the toe beam, in the stratum it stands in;
// none
// where the formation in front of it falls away within reach of its wedge.
func (j *job) toe(v *section.View) (float64, error) {
	t := j.p.Bedding.Toe
	if t.Depth <= 0 || t.Width <= 0 {
		return 0, nil
	}
	so, ok := v.SoilBelow(j.frontX)
	if !ok {
		return 0, nil
	}
	phi := so.Phi * math.Pi / 180
	reach := passiveMargin * t.Depth * math.Tan(math.Pi/4+phi/2)
	for _, x := range []float64{j.frontX - reach, j.frontX - reach/2, j.frontX} {
		z, ok := v.Finish.At(x)
		if !ok || z < v.Formation-1e-6 {
			return 0, nil
		}
	}
	gamma := so.Gamma
	if v.Water > v.Formation-t.Depth {
		gamma = so.GammaSat - earth.GammaW
	}
	return ground.ToePassive(gamma, phi, phi/2, t.Depth, t.Width, 0)
}

// passiveMargin lengthens the Rankine passive wedge, depth times tan(45 +
// phi/2), to the level ground asked for in front of a toe beam.
const passiveMargin = 1.1

// stability adds the checks of the box as a body.
func (j *job) stability(sr *stageResult, worst *worstOf) error {
	b, err := j.body(sr)
	if err != nil {
		return err
	}
	add := func(id, part string, ratio float64, write func() (check.Check, error)) {
		worst.add(candidate{slot: slot{id, part}, stage: sr.st.ID, ratio: ratio, write: write})
	}
	if b.flotIn.Water > 0 {
		f, err := ground.Float(b.flotIn)
		if err != nil {
			return err
		}
		add("flotation", "box", ratioOf(b.flotIn.Required/f.FS, f.UPL), func() (check.Check, error) { return ground.FlotationCheck(b.flotIn) })
	}
	if !b.back.loaded {
		return nil
	}
	s, err := ground.SlideBox(b.slideIn)
	if err != nil {
		return err
	}
	sliding := b.slideIn.Required / s.FS
	if b.slideIn.Passive > 0 {
		sliding = math.Min(sliding, b.slideIn.RequiredPassive/s.FSPassive)
	}
	add("sliding", "box", sliding, func() (check.Check, error) { return ground.SlidingCheck(b.slideIn) })
	over := b.slideIn
	over.Required = fsOverturning
	add("overturning", "box", over.Required/s.FSOver, func() (check.Check, error) { return ground.OverturningCheck(over) })
	add("resultant", "box", math.Abs(s.E)/(j.depth/6), func() (check.Check, error) { return ground.ResultantCheck(over) })
	return j.bearing(sr.view, &s, add)
}
