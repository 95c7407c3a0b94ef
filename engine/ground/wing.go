package ground

import (
	"math"

	"hillset/engine/earth"
	"hillset/engine/earth/limit"
	"hillset/engine/quantity"
)

// WingIn is a wing wall splayed in plan beside the entrance, tapering straight
// along its length, in a hillside whose fall line runs along the box.
type WingIn struct {
	Splay  float64 // plan angle from the line of the front, rad: 0 in line, pi/2 straight out
	Beta   float64 // hillside, rad
	Phi    float64 // of the fill, rad
	Gamma  float64 // of the fill, kN/m3
	H1, H2 float64 // height at the tall end, at the box, and at the far end, m
	Length float64 // m
}

// Wing holds every step of the thrust on a splayed wing.
type Wing struct {
	Beta       float64 // slope normal to the wing, rad
	Ka         float64
	P1, P2     float64 // thrust per m at the ends, kN/m
	Thrust     float64 // kN, along the slope normal to the wing
	Centroid   float64 // from the tall end, m
	Horizontal float64 // kN
	Vertical   float64 // kN, down on the wing
	Axial      float64 // out of the hill, kN
	Lateral    float64 // towards the entrance, kN
	Moment     float64 // of the horizontal part about the base, kNm
	Fall       float64 // of the ground along the wing, m
}

// SplayWing works out the thrust on a splayed wing (derived from plan
// geometry): the slope normal to the wing is tan(b) = tan(beta) cos(splay), and
// the thrust at each height is that of Rankine for this slope. The part of the
// hill's push along the wing is neglected. Each wing must stand alone: the
// lateral parts of a pair hold each other only through a strut.
func SplayWing(in WingIn) (Wing, error) {
	err := limit.First(
		limit.Within("splay", in.Splay, 0, math.Pi/2, quantity.Angle),
		limit.Within("beta", in.Beta, 0, math.Pi/3, quantity.Angle),
		limit.Positive("gamma", in.Gamma, quantity.UnitWeight),
		limit.Positive("h1", in.H1, quantity.Length),
		limit.Within("h2", in.H2, 0, in.H1, quantity.Length),
		limit.Positive("length", in.Length, quantity.Length))
	if err != nil {
		return Wing{}, err
	}
	var w Wing
	w.Beta = math.Atan(math.Tan(in.Beta) * math.Cos(in.Splay))
	if w.Ka, err = earth.RankineKaSlope(in.Phi, w.Beta); err != nil {
		return Wing{}, err
	}
	kg, h1, h2 := w.Ka*in.Gamma, in.H1, in.H2
	w.P1, w.P2 = kg*h1*h1/2, kg*h2*h2/2
	square := h1*h1 + h1*h2 + h2*h2
	w.Thrust = kg * in.Length / 6 * square
	w.Centroid = in.Length * (h1*h1 + 2*h1*h2 + 3*h2*h2) / (4 * square)
	sb, cb := math.Sincos(w.Beta)
	w.Horizontal, w.Vertical = w.Thrust*cb, w.Thrust*sb
	ss, cs := math.Sincos(in.Splay)
	w.Axial, w.Lateral = w.Horizontal*cs, w.Horizontal*ss
	w.Moment = kg * in.Length / 24 * (h1 + h2) * (h1*h1 + h2*h2) * cb
	w.Fall = in.Length * ss * math.Tan(in.Beta)
	return w, nil
}
