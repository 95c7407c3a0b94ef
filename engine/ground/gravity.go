package ground

import (
	"fmt"
	"math"

	"hillset/engine/earth/limit"
	"hillset/engine/quantity"
)

// Weight is a vertical load per metre of wall and its distance from the toe.
type Weight struct {
	W   float64 // kN/m, down; negative is uplift
	Arm float64 // m
}

// WallIn is one metre of a gravity or cantilever wall on its base.
type WallIn struct {
	B       float64  // base width, m
	Weights []Weight // wall, soil on the heel, surcharge
	H       float64  // horizontal thrust, kN/m
	HArm    float64  // above the base, m
	V       float64  // vertical part of the thrust, + down on the wall, kN/m
	VArm    float64  // from the toe, m

	TanBase  float64 // friction of the base
	Adhesion float64 // on the whole base, kPa
	Passive  float64 // resistance before the toe, kN/m; see FSPassive
}

// Wall holds every step of the stability of a wall, per metre.
type Wall struct {
	V           float64 // all that presses, kN/m
	Resisting   float64 // M_R about the toe, kNm/m
	Overturning float64 // M_O about the toe, kNm/m
	FSOver      float64
	Resist      float64 // friction and adhesion of the base, kN/m
	FSSlide     float64 // without passive
	FSPassive   float64 // with passive; 2 is asked for then instead of 1.5
	Base        Base    // resultant and pressure on the ground
}

// StandWall works out overturning, sliding and base pressure of a wall (UFC
// 3-220-20 4-23 to 4-28, second-hand). What lifts (a negative weight or
// vertical thrust) counts as overturning.
func StandWall(in WallIn) (Wall, error) {
	if err := in.validate(); err != nil {
		return Wall{}, err
	}
	var w Wall
	turn := func(v, arm float64) {
		w.V += v
		if v >= 0 {
			w.Resisting += v * arm
		} else {
			w.Overturning -= v * arm
		}
	}
	for _, p := range in.Weights {
		turn(p.W, p.Arm)
	}
	turn(in.V, in.VArm)
	w.Overturning += in.H * in.HArm
	w.FSOver = over(w.Resisting, w.Overturning)
	w.Resist = math.Max(0, w.V)*in.TanBase + in.Adhesion*in.B
	w.FSSlide = over(w.Resist, in.H)
	w.FSPassive = over(w.Resist+in.Passive, in.H)
	var err error
	w.Base, err = PressBase(w.V, w.Resisting-w.Overturning, in.B)
	return w, err
}

func (in *WallIn) validate() error {
	for i, p := range in.Weights {
		err := limit.First(limit.Finite("w", p.W, quantity.LineLoad), limit.Finite("arm", p.Arm, quantity.Length))
		if err != nil {
			return limit.In(fmt.Sprintf("weights[%d]", i), err)
		}
	}
	return limit.First(
		limit.Positive("b", in.B, quantity.Length),
		limit.AtLeast("h", in.H, 0, quantity.LineLoad),
		limit.Finite("h_arm", in.HArm, quantity.Length),
		limit.Finite("v", in.V, quantity.LineLoad),
		limit.Finite("v_arm", in.VArm, quantity.Length),
		limit.Within("tan_base", in.TanBase, 0, 2, quantity.None),
		limit.AtLeast("adhesion", in.Adhesion, 0, quantity.Pressure),
		limit.AtLeast("passive", in.Passive, 0, quantity.LineLoad))
}
