package ground

import (
	"math"

	"hillset/engine/earth/limit"
	"hillset/engine/quantity"
)

// PadsIn is a stiff box on four equal pads under its corners.
type PadsIn struct {
	Vertical     float64 // on all pads together, kN
	Ex, Ey       float64 // eccentricity along and across the box, + to the front and to the right, m
	SpanX, SpanY float64 // between the middles of the pads, m
	Length       float64 // of a pad along the box, m
	Width        float64 // of a pad across the box, m
	Own          float64 // weight of one pad, less uplift, kN

	// Either Allowable, kPa, or Ultimate, kPa, with the factor of safety
	// Required on it; PadCheck only.
	Allowable, Ultimate, Required float64
	Basis                         string // where Allowable or Ultimate comes from
}

// Pads is what four pads carry: front right, front left, back right, back left.
type Pads struct {
	Force    [4]float64 // on each pad from the box, kN
	Pressure [4]float64 // below each pad, kPa
	Max      float64    // kPa
	// Three is true where one pad lifts off and the others carry alone.
	Three bool
	// Off is true where the load lies outside the pads: the box tips.
	Off bool
}

// LoadPads shares a vertical load with eccentricities among four pads: in
// proportion, V/4 (1 +/- ex/(span/2) +/- ey/(span/2)), as long as all press;
// then on three by equilibrium, for a pad takes no tension (derived). The
// pressure below a pad is taken as even.
func LoadPads(in PadsIn) (Pads, error) {
	err := limit.First(
		limit.AtLeast("vertical", in.Vertical, 0, quantity.Force),
		limit.Finite("ex", in.Ex, quantity.Length),
		limit.Finite("ey", in.Ey, quantity.Length),
		limit.Positive("span_x", in.SpanX, quantity.Length),
		limit.Positive("span_y", in.SpanY, quantity.Length),
		limit.Positive("length", in.Length, quantity.Length),
		limit.Positive("width", in.Width, quantity.Length),
		limit.AtLeast("own", in.Own, 0, quantity.Force))
	if err != nil {
		return Pads{}, err
	}
	var p Pads
	fx, fy := in.Ex/(in.SpanX/2), in.Ey/(in.SpanY/2)
	ax, ay := math.Abs(fx), math.Abs(fy)
	if ax > 1 || ay > 1 {
		p.Off, p.Max = true, math.Inf(1)
		return p, nil
	}
	// near: the pad the load leans to; far: the opposite one.
	near, besideX, besideY, far := (1+ax+ay)/4, (1+ax-ay)/4, (1-ax+ay)/4, (1-ax-ay)/4
	if far < 0 {
		p.Three = true
		near, besideX, besideY, far = (ax+ay)/2, (1-ay)/2, (1-ax)/2, 0
	}
	share := [4]float64{near, besideX, besideY, far}
	for i := range share {
		j := i // place of the share when the load leans to front right
		if fx < 0 {
			j ^= 2
		}
		if fy < 0 {
			j ^= 1
		}
		p.Force[j] = in.Vertical * share[i]
	}
	for i, f := range p.Force {
		p.Pressure[i] = (f + in.Own) / (in.Length * in.Width)
		p.Max = math.Max(p.Max, p.Pressure[i])
	}
	return p, nil
}
