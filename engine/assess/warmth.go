package assess

import (
	"math"

	"hillset/engine/climate"
	"hillset/engine/model"
	"hillset/engine/section"
)

// warmth works out ground, loss of heat and the unheated room: figures without
// a verdict.
func (w *weather) warmth() {
	c, cl := w.out, &w.p.Site.Climate
	c.Cover = math.Min(section.Cover(w.p, w.box, w.frontX), section.Cover(w.p, w.box, w.backX))
	c.Floor = (section.Cover(w.p, w.box, w.frontX)+section.Cover(w.p, w.box, w.backX))/2 + w.box.H
	cold, warm, ok := w.seasons()
	natural, okNatural := w.naturalSoil()
	fill, okFill := section.SoilByID(w.p, w.p.Fill.Backfill)
	th, _, okTh := thermalOf(w.t, natural)
	thFill, _, okThFill := thermalOf(w.t, fill)
	if c.WhySeasons = notGiven([]need{{"the mean of the air over the year and half its range", ok}, {"the strata of the ground", okNatural}, {"the backfill", okFill},
		{"classes of soil with thermal values", okTh && okThFill}}); c.WhySeasons != "" {
		return
	}
	ground := climate.Ground{Mean: *cl.AirMean, Swing: cl.AirSwing, Coldest: cl.ColdestDay, Diffusivity: th.Diffusivity}
	over := ground
	over.Diffusivity = thFill.Diffusivity
	c.Ground, c.Fill = &ground, &over
	var err error
	if c.Loss, err = w.loss(th.Lambda, thFill.Lambda); err != nil {
		c.WhySeasons = asProblem(err).Text
		return
	}
	c.HasLoss = true
	least := func(depth float64) (float64, error) {
		t, _, err := ground.Least(depth)
		return t, err
	}
	if c.Winter, err = w.season(cold, least); err == nil {
		c.Summer, err = w.season(warm, ground.Most)
	}
	if c.Seasons = err == nil; !c.Seasons {
		c.WhySeasons = asProblem(err).Text
	}
}

// naturalSoil is the uppermost stratum.
func (j *job) naturalSoil() (model.Soil, bool) {
	if len(j.p.Site.Strata) == 0 {
		return model.Soil{}, false
	}
	return section.SoilByID(j.p, j.p.Site.Strata[0].Soil)
}

// resistance is that of the insulation, m2K/W.
func (j *job) resistance() float64 {
	if in := &j.p.Room.Insulation; in.Side != "" && in.K > 0 {
		return in.Thickness / in.K
	}
	return 0
}

// roofResistance counts foam of the build-up on the roof, where it is thicker,
// with the conductivity given for the insulation.
func (j *job) roofResistance() float64 {
	foam := 0.0
	for _, l := range j.p.Fill.Roof {
		if l.Kind == "foam" {
			foam += l.Thickness
		}
	}
	if k := j.p.Room.Insulation.K; k > 0 {
		return math.Max(j.resistance(), foam/k)
	}
	return j.resistance()
}

// doorResistance is that of the insulation where it is on the doors too.
func (j *job) doorResistance() float64 {
	if j.p.Room.Insulation.Doors {
		return j.resistance()
	}
	return 0
}

// openArea is what stands in the open air, m2: the doors, and broadside the
// downhill side, with the lengths of the floor along them.
func (j *job) openArea() (doors, side, edge float64) {
	doors, edge = j.box.W*j.box.H, j.box.W
	if j.p.Box.Orientation == model.Broadside {
		side, edge = j.box.L*j.box.H, edge+j.box.L
	}
	return doors, side, edge
}

// loss is the heat that leaves by every way.
func (w *weather) loss(lambda, lambdaFill float64) (Loss, error) {
	b := w.box
	base, err := climate.Basement{Area: b.L * b.W, Perimeter: 2 * (b.L + b.W), Depth: w.out.Floor, Lambda: lambda, RWall: w.resistance()}.Loss()
	if err != nil {
		return Loss{}, err
	}
	doors, side, edge := w.openArea()
	roof, err := climate.Roof(w.roofResistance(), w.out.Floor-b.H, lambdaFill)
	open := func(area, r float64) float64 { return area / (climate.RsiWall + r + climate.Rse) }
	return Loss{
		Ground: b.L*b.W*base.UFloor + b.H*(2*(b.L+b.W)-edge)*base.UWall,
		Roof:   b.L * b.W * roof,
		Open:   open(doors, w.doorResistance()) + open(side, w.resistance()),
	}, err
}

// season is the air inside and outside in weeks with a mean temperature of the
// air; at gives that of the ground at a depth then.
func (w *weather) season(outside float64, at func(depth float64) (float64, error)) (Season, error) {
	s := Season{Outside: outside, Dew: math.NaN(), Flow: math.NaN()}
	ground, err := at(w.out.Floor - w.box.H/2)
	if err != nil {
		return s, err
	}
	l := w.out.Loss
	if s.Room, err = climate.Unheated([]climate.Way{{H: l.Ground, Behind: ground}, {H: l.Roof, Behind: outside}, {H: l.Open, Behind: outside}}, 0); err != nil {
		return s, err
	}
	if rh := w.p.Site.Climate.AirHumid; rh > 0 {
		s.Dew, err = climate.Air{T: outside, RH: rh}.DewPoint()
	}
	return s, err
}
