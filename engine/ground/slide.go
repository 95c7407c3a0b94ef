package ground

import (
	"math"

	"hillset/engine/earth"
	"hillset/engine/earth/limit"
	"hillset/engine/quantity"
)

// SlideIn is a box set into a slope with its front open: the hill pushes on
// the back wall and nothing on the front. Forces are those on the whole box.
type SlideIn struct {
	Length float64 // of the base along the push, front to back edge, m
	Width  float64 // of the base across the push, m
	Weight float64 // W: box, build-up and soil on the roof, kN
	// WeightArm is where W acts, from the front edge, m; 0 stands for the
	// middle of the base.
	WeightArm float64
	Uplift    float64 // U on the underside, kN
	// UpliftBehind is how far behind the middle of the base U acts, away from the
	// front edge, m.
	UpliftBehind float64

	Earth      float64 // effective earth thrust on the back, kN
	EarthLevel float64 // above the underside, m
	Water      float64 // water thrust on the back, kN
	WaterLevel float64 // above the underside, m
	// EarthActive is the earth thrust once the box has given way and the soil
	// relaxed; 0 is not known.
	EarthActive float64

	TanBase float64 // friction of the base, tan delta
	Side    float64 // friction on both sides together, all of it, kN
	Share   float64 // share of Side counted, 0 to 1
	Passive float64 // resistance of a toe beam, kN; counted only with RequiredPassive

	Required        float64 // factor of safety without passive; checks only
	RequiredPassive float64 // with passive; checks only
}

// Slide holds every step of sliding and overturning of a box in a slope.
type Slide struct {
	Normal    float64 // N = W - U, kN
	Base      float64 // N tan delta, kN; none where the box floats
	Side      float64 // share of side friction counted, kN
	Passive   float64 // kN
	Driving   float64 // E + U_h, kN
	FSBase    float64 // by base friction alone
	FS        float64 // with the share of side friction, no passive
	FSPassive float64 // and with passive
	FSActive  float64 // as FS with the relaxed thrust; NaN where that is not known

	Resisting   float64 // M_R: weight about the front edge, kNm
	Overturning float64 // M_O: thrusts and uplift about the front edge, kNm
	FSOver      float64
	X0          float64 // resultant from the front edge, m
	E           float64 // eccentricity L/2 - x0, + towards the front, m
	Under       Base    // pressure under the base
}

// SlideBox works out sliding, (N tan(delta) + C side friction)/(E + U_h), and
// overturning about the lower front edge of a box in a slope (UFC 3-220-20
// 4-5.1, second-hand).
func SlideBox(in SlideIn) (Slide, error) {
	if err := in.validate(); err != nil {
		return Slide{}, err
	}
	s := Slide{Normal: in.Weight - in.Uplift, Side: in.Share * in.Side, Passive: in.Passive}
	s.Base = math.Max(0, s.Normal) * in.TanBase
	s.Driving = in.Earth + in.Water
	s.FSBase = over(s.Base, s.Driving)
	s.FS = over(s.Base+s.Side, s.Driving)
	s.FSPassive = over(s.Base+s.Side+s.Passive, s.Driving)
	s.FSActive = math.NaN()
	if in.EarthActive > 0 {
		s.FSActive = over(s.Base+s.Side, in.EarthActive+in.Water)
	}
	arm := in.WeightArm
	if arm == 0 {
		arm = in.Length / 2
	}
	s.Resisting = in.Weight * arm
	s.Overturning = in.Earth*in.EarthLevel + in.Water*in.WaterLevel + in.Uplift*(in.Length/2+in.UpliftBehind)
	s.FSOver = over(s.Resisting, s.Overturning)
	var err error
	if s.Under, err = PressBase(s.Normal/in.Width, (s.Resisting-s.Overturning)/in.Width, in.Length); err != nil {
		return Slide{}, err
	}
	s.X0, s.E = s.Under.X0, s.Under.E
	return s, nil
}

func (in *SlideIn) validate() error {
	return limit.First(
		limit.Positive("length", in.Length, quantity.Length),
		limit.Positive("width", in.Width, quantity.Length),
		limit.Positive("weight", in.Weight, quantity.Force),
		limit.Within("weight_arm", in.WeightArm, 0, in.Length, quantity.Length),
		limit.AtLeast("uplift", in.Uplift, 0, quantity.Force),
		limit.Within("uplift_behind", in.UpliftBehind, -in.Length/2, in.Length/2, quantity.Length),
		limit.AtLeast("earth", in.Earth, 0, quantity.Force),
		limit.Finite("earth_level", in.EarthLevel, quantity.Length),
		limit.AtLeast("water", in.Water, 0, quantity.Force),
		limit.Finite("water_level", in.WaterLevel, quantity.Length),
		limit.AtLeast("earth_active", in.EarthActive, 0, quantity.Force),
		limit.Within("tan_base", in.TanBase, 0, 2, quantity.None),
		limit.AtLeast("side", in.Side, 0, quantity.Force),
		limit.Within("share", in.Share, 0, 1, quantity.None),
		limit.AtLeast("passive", in.Passive, 0, quantity.Force))
}

// over is a factor of safety: resistance over what drives, +Inf where nothing
// drives.
func over(resist, drive float64) float64 {
	if drive <= 0 {
		return math.Inf(1)
	}
	return resist / drive
}

// SideFrictionIn is fill that holds the sides of a box by friction.
type SideFrictionIn struct {
	Diagram earth.Diagram // of one side; its vertical stress counts
	K       float64
	Delta   float64 // wall friction, rad
	Length  float64 // plan length of the faces so held together, m
}

// SideFriction is K tan(delta) times the effective vertical stress summed over
// the face, kN (common practice). Count half of it or less, and only in
// proven fill.
func SideFriction(in SideFrictionIn) (float64, error) {
	err := limit.First(
		limit.AtLeast("k", in.K, 0, quantity.None),
		limit.Within("delta", in.Delta, 0, math.Pi/3, quantity.Angle),
		limit.AtLeast("length", in.Length, 0, quantity.Length))
	if err != nil {
		return 0, err
	}
	sv, _ := in.Diagram.ResultantOf(func(r *earth.Row) float64 { return r.SigmaV })
	return in.K * math.Tan(in.Delta) * sv * in.Length, nil
}

// ToePassive is the resistance of a beam of depth and width (across the push)
// in level ground before it, kN: the horizontal part of half Kp gamma depth2
// times width by a log spiral (UFC 3-220-20 4-12, second-hand). gamma is the effective unit weight.
// It refuses ground that falls away in front (frontBeta below 0), where hardly
// anything is left of it.
func ToePassive(gamma, phi, delta, depth, width, frontBeta float64) (float64, error) {
	err := limit.First(
		limit.AtLeast("gamma", gamma, 0, quantity.UnitWeight),
		limit.AtLeast("depth", depth, 0, quantity.Length),
		limit.AtLeast("width", width, 0, quantity.Length),
		limit.Within("front_beta", frontBeta, 0, math.Pi/2, quantity.Angle))
	if err != nil {
		return 0, err
	}
	kp, err := earth.LogSpiralKp(phi, delta)
	if err != nil {
		return 0, err
	}
	return kp * math.Cos(delta) * gamma * depth * depth / 2 * width, nil
}
