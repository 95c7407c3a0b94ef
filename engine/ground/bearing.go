package ground

import (
	"math"

	"hillset/engine/earth"
	"hillset/engine/earth/limit"
	"hillset/engine/quantity"
)

const gammaWater = earth.GammaW

// FootingIn is a footing with its effective sides B' and L', those on which
// the load stands in the middle.
type FootingIn struct {
	Method   Method
	B, L     float64 // effective sides, m, B the shorter; L +Inf for a strip
	Depth    float64 // of the base below the ground beside it, m; for depth factors
	Q        float64 // effective overburden at base level, kPa; see Overburden
	Gamma    float64 // that counts below the base, kN/m3; see GammaBelow
	C        float64 // effective cohesion, kPa
	Phi      float64 // rad
	V        float64 // vertical load, kN (kN/m for a strip); matters with H only
	H        float64 // horizontal load, kN (kN/m for a strip)
	HAlongL  bool    // H acts along L; else along B
	Circle   bool    // round footing of diameter B; Terzaghi only
	NoShape  bool    // leaves the shape factors out
	NoDepth  bool    // leaves the depth factors out, as on a slope
	Override Factors // used in place of the method's where Nq is above 0
}

// Triple is one kind of factor on the three terms.
type Triple struct{ C, Q, G float64 }

// Bearing holds every step of a bearing capacity.
type Bearing struct {
	N                        Factors
	Shape, Depth, Incline    Triple
	Cohesion, Surcharge, Own float64 // the three terms, kPa
	Ultimate                 float64 // R/A', kPa
}

// Footing is the drained bearing capacity c Nc sc dc ic + q Nq sq dq iq +
// 0.5 gamma B' Ng sg dg ig (UFC 3-220-20 5-15, EN 1997-1 D.4, second-hand).
// A load that leans further than friction and cohesion hold is refused.
func Footing(in FootingIn) (Bearing, error) {
	if err := in.validate(); err != nil {
		return Bearing{}, err
	}
	var b Bearing
	var err error
	if b.N, err = BearingFactors(in.Method, in.Phi); err != nil {
		return Bearing{}, err
	}
	if in.Override.Nq > 0 {
		b.N = in.Override
	}
	b.Shape, b.Depth = Triple{1, 1, 1}, Triple{1, 1, 1}
	if !in.NoShape {
		b.Shape = in.shape(b.N)
	}
	if !in.NoDepth {
		b.Depth = in.depth(b.N)
	}
	if b.Incline, err = in.incline(b.N); err != nil {
		return Bearing{}, err
	}
	s, d, i := b.Shape, b.Depth, b.Incline
	b.Cohesion = in.C * b.N.Nc * s.C * d.C * i.C
	b.Surcharge = in.Q * b.N.Nq * s.Q * d.Q * i.Q
	b.Own = 0.5 * in.Gamma * in.B * b.N.Ng * s.G * d.G * i.G
	b.Ultimate = b.Cohesion + b.Surcharge + b.Own
	return b, nil
}

// ratio is B'/L', zero for a strip.
func (in *FootingIn) ratio() float64 { return in.B / in.L }

func (in *FootingIn) shape(n Factors) Triple {
	r, sin := in.ratio(), math.Sin(in.Phi)
	switch in.Method {
	case EC7:
		if in.Phi <= flat {
			return Triple{1 + 0.2*r, 1, 1}
		}
		sq := 1 + r*sin
		return Triple{(sq*n.Nq - 1) / (n.Nq - 1), sq, 1 - 0.3*r}
	case Meyerhof: // memory
		kp := sqTan(in.Phi)
		g := 1.0
		if in.Phi >= 10*math.Pi/180 {
			g = 1 + 0.1*kp*r
		}
		return Triple{1 + 0.2*kp*r, g, g}
	case Terzaghi: // second-hand; straight between strip and square
		if in.Circle {
			return Triple{1.3, 1, 0.6}
		}
		return Triple{1 + 0.3*r, 1, 1 - 0.2*r}
	}
	return Triple{1 + r*n.Nq/n.Nc, 1 + r*math.Tan(in.Phi), 1 - 0.4*r} // de Beer, memory
}

func (in *FootingIn) depth(n Factors) Triple {
	switch in.Method {
	case EC7, Terzaghi:
		return Triple{1, 1, 1}
	case Meyerhof: // memory
		k := math.Sqrt(sqTan(in.Phi)) * in.Depth / in.B
		g := 1.0
		if in.Phi >= 10*math.Pi/180 {
			g = 1 + 0.1*k
		}
		return Triple{1 + 0.2*k, g, g}
	}
	// Hansen, memory
	k := in.Depth / in.B
	if k > 1 {
		k = math.Atan(k)
	}
	if in.Phi <= flat {
		return Triple{1 + 0.4*k, 1, 1}
	}
	t, s := math.Tan(in.Phi), math.Sin(in.Phi)
	dq := 1 + 2*t*(1-s)*(1-s)*k
	return Triple{dq - (1-dq)/(n.Nc*t), dq, 1}
}

// incline gives the factors of a leaning load.
func (in *FootingIn) incline(n Factors) (Triple, error) {
	if in.H == 0 {
		return Triple{1, 1, 1}, nil
	}
	if in.Method == EC7 {
		return in.inclineEC7(n)
	}
	if in.Method == Terzaghi {
		return Triple{}, &limit.Error{Field: "h", Value: in.H, Lo: 0, Hi: 0, Kind: quantity.Force, Why: "the method is for vertical loads"}
	}
	if in.Phi <= flat {
		return Triple{}, &limit.Error{Field: "phi", Value: in.Phi, Lo: flat, Hi: maxFooting, Kind: quantity.Angle,
			Why: "without friction a leaning load is checked undrained"}
	}
	a := math.Atan2(in.H, in.V)
	if a > in.Phi {
		return Triple{}, &limit.Error{Field: "h", Value: in.H, Lo: 0, Hi: in.V * math.Tan(in.Phi), Kind: quantity.Force,
			Why: "the load leans further than the friction angle"}
	}
	c := 1 - a/(math.Pi/2)
	g := 1 - a/in.Phi
	return Triple{c * c, c * c, g * g}, nil
}

func (in *FootingIn) inclineEC7(n Factors) (Triple, error) {
	if in.Phi <= flat {
		return Triple{}, &limit.Error{Field: "phi", Value: in.Phi, Lo: flat, Hi: maxFooting, Kind: quantity.Angle,
			Why: "without friction a leaning load is checked undrained"}
	}
	area := in.B * in.L
	if math.IsInf(in.L, 1) {
		area = in.B
	}
	t := math.Tan(in.Phi)
	hold := in.V + area*in.C/t
	if in.H >= hold {
		return Triple{}, &limit.Error{Field: "h", Value: in.H, Lo: 0, Hi: hold, Kind: quantity.Force,
			Why: "the load leans further than friction and cohesion hold"}
	}
	r := in.ratio()
	m := (2 + r) / (1 + r)
	if in.HAlongL {
		m = (2 + 1/r) / (1 + 1/r)
		if r == 0 {
			m = 1 // a strip's length is endless
		}
	}
	iq := math.Pow(1-in.H/hold, m)
	return Triple{iq - (1-iq)/(n.Nc*t), iq, math.Pow(1-in.H/hold, m+1)}, nil
}

func (in *FootingIn) validate() error {
	err := limit.First(
		limit.Positive("b", in.B, quantity.Length),
		limit.AtLeast("depth", in.Depth, 0, quantity.Length),
		limit.AtLeast("q", in.Q, 0, quantity.Pressure),
		limit.AtLeast("gamma", in.Gamma, 0, quantity.UnitWeight),
		limit.AtLeast("c", in.C, 0, quantity.Pressure),
		limit.AtLeast("v", in.V, 0, quantity.Force),
		limit.AtLeast("h", in.H, 0, quantity.Force),
		limit.AtLeast("override.nc", in.Override.Nc, 0, quantity.None),
		limit.AtLeast("override.nq", in.Override.Nq, 0, quantity.None),
		limit.AtLeast("override.ng", in.Override.Ng, 0, quantity.None))
	if err != nil || math.IsInf(in.L, 1) {
		return err
	}
	return limit.AtLeast("l", in.L, in.B, quantity.Length)
}

// Undrained is the bearing capacity of clay without drainage, (pi+2) cu sc ic +
// q, kPa, and its factors (EN 1997-1 D.3, second-hand). h is the horizontal
// load, at most area times cu. b and l are the effective sides, b the shorter.
func Undrained(cu, q, b, l, h float64) (ult, sc, ic float64, err error) {
	err = limit.First(
		limit.Positive("cu", cu, quantity.Pressure),
		limit.AtLeast("q", q, 0, quantity.Pressure),
		limit.Positive("b", b, quantity.Length),
		limit.AtLeast("l", l, b, quantity.Length))
	if err != nil {
		return 0, 0, 0, err
	}
	if err := limit.Within("h", h, 0, b*l*cu, quantity.Force); err != nil {
		return 0, 0, 0, err
	}
	sc = 1 + 0.2*b/l
	ic = (1 + math.Sqrt(1-h/(b*l*cu))) / 2
	return (math.Pi+2)*cu*sc*ic + q, sc, ic, nil
}
