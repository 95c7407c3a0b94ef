package concrete

import (
	"cmp"
	"math"

	"hillset/engine/box"
	"hillset/engine/check"
	"hillset/engine/quantity"
)

// Pad is a plain concrete pad under a corner casting, cast on the bed. Bars are
// not counted.
type Pad struct {
	Section
	P              box.Pair // kN from the casting; the pad's own weight bends nothing
	Case, CaseLRFD string   // combinations of P
	Length, Width  float64  // m, in plan
	CastL, CastW   float64  // m, casting along the length and the width
}

// PadResult is what comes out of a pad.
type PadResult struct {
	Area          float64 // m2, of steel that bears
	Bn            float64 // kN, nominal bearing strength
	Bearing       box.Pair
	Q             float64 // kPa, under the pad by factored load
	T             float64 // m, thickness that counts
	M, PhiMn      float64 // kNm on the whole width at the face of the casting
	V, PhiVn      float64 // kN on the whole width, a thickness from the casting
	Vp, PhiVp     float64 // kN, round the casting
	Bend, Cut     float64 // ratios
	Punch         float64
	alongTheWidth bool // which way bending is worst
}

// Factors of ACI 318 for bearing, and what the same rule of AISC 360 J8 has as a
// safety factor (memory); aperture of the lower face of a corner casting (ISO
// 1161, memory).
const (
	phiBear   = 0.65
	omegaBear = 2.31
	holeL     = 0.124  // m
	holeW     = 0.0635 // m
	oneWay    = 4.0 / 3
	twoWay    = 2.66
	leastPad  = 0.20 // m: plain footings are no thinner (8 in, memory)
)

const srcPad = "ACI 318 ch. 14, plain concrete: φ 0.60, 5√f'c in bending, 4/3·√f'c and (1 + 2/β)·4/3·√f'c ≤ 2.66√f'c in shear, in psi (memory)"

func (in *Pad) check() error {
	return cmp.Or(in.Section.check(), castingRange(in.P, in.CastL, in.CastW),
		quantity.Within("pad length", in.Length, in.CastL, 20, quantity.Length), quantity.Within("pad width", in.Width, in.CastW, 20, quantity.Length),
		quantity.Within("pad thickness", in.Thickness, againstSoil+0.01, 3, quantity.Thickness))
}

// castingRange refuses a load or a size that no casting has.
func castingRange(p box.Pair, length, width float64) error {
	return cmp.Or(quantity.Range("load of the casting", p.ASD, 0, 1e5), quantity.Range("load of the casting (factored)", p.LRFD, 0, 1e5),
		quantity.Within("casting length", length, 0.05, 1, quantity.Length), quantity.Within("casting width", width, 0.05, 1, quantity.Length))
}

// Solve finds what the pad asks of its concrete.
func (in Pad) Solve() (PadResult, error) {
	var r PadResult
	if err := in.check(); err != nil {
		return r, err
	}
	r.Area = in.CastL*in.CastW - holeL*holeW
	r.Bn = 0.85 * in.Fc * r.Area
	r.Bearing = box.Pair{ASD: in.P.ASD * omegaBear / r.Bn, LRFD: in.P.LRFD / (phiBear * r.Bn)}
	r.T = in.Thickness - againstSoil
	r.Q = in.P.LRFD / (in.Length * in.Width)
	for k, way := range [2][3]float64{{in.Length, in.CastL, in.Width}, {in.Width, in.CastW, in.Length}} {
		c, b := (way[0]-way[1])/2, way[2]
		m, mn := r.Q*b*c*c/2, phiPlain*in.root(5)*b*r.T*r.T/6
		v, vn := r.Q*b*math.Max(0, c-r.T), phiPlain*in.root(oneWay)*b*r.T
		if k == 0 || m/mn > r.Bend {
			r.M, r.PhiMn, r.Bend, r.alongTheWidth = m, mn, m/mn, k == 1
		}
		if k == 0 || v/vn > r.Cut {
			r.V, r.PhiVn, r.Cut = v, vn, v/vn
		}
	}
	l, w := math.Min(in.CastL+r.T, in.Length), math.Min(in.CastW+r.T, in.Width)
	beta := math.Max(in.CastL, in.CastW) / math.Min(in.CastL, in.CastW)
	r.Vp = in.P.LRFD - r.Q*l*w
	r.PhiVp = phiPlain * in.root(math.Min(oneWay*(1+2/beta), twoWay)) * 2 * (l + w) * r.T
	r.Punch = r.Vp / r.PhiVp
	return r, nil
}

// Worst is the largest ratio of the pad itself.
func (r *PadResult) Worst() float64 { return math.Max(r.Bend, math.Max(r.Cut, r.Punch)) }

// CastingCheck checks how a corner casting bears on its pad or slab.
func CastingCheck(in Pad) (check.Check, PadResult, error) {
	r, err := in.Solve()
	if err != nil {
		return check.Check{}, r, err
	}
	c := check.Check{
		ID: "casting", Title: "Corner casting bearing on concrete", Method: "Bearing under the solid part of the casting",
		Source:      "ACI 318, 0.85·f'c, φ 0.65 (memory); Ω 2.31 of the same rule in AISC 360 J8 (memory); casting: ISO 1161, aperture from memory",
		Assumptions: []string{"The casting bears evenly, on a bed of mortar or a steel plate.", "The concrete round it is not counted as confining it."},
		Validity:    "Castings without cracks; the casting itself takes what its post takes.",
		Demand:      quantity.Of("P", in.P.ASD, quantity.Force), Capacity: quantity.Of("Bn/Ω", r.Bn/omegaBear, quantity.Force),
		Ratio: r.Bearing.ASD, RatioLRFD: r.Bearing.LRFD, Case: in.Case, CaseLRFD: in.CaseLRFD,
		Working: []check.Line{{
			Text: "Load of the most loaded casting, " + in.Case, Formula: "P = Σ γ·P",
			Result: quantity.Of("P", in.P.ASD, quantity.Force), Source: "load combinations of the building code form (verified)",
		}, {
			Text: "Bearing strength", Formula: "Bn = 0.85·f'c·A1",
			Terms:  []quantity.Q{quantity.Of("f'c", in.Fc, quantity.Stress), quantity.Of("A1", r.Area, quantity.Area)},
			Result: quantity.Of("Bn", r.Bn, quantity.Force), Source: "ACI 318 (memory)",
		}, {
			Text: "Allowable strength", Formula: "r = Ω·P/Bn",
			Terms:  []quantity.Q{quantity.Of("Ω", omegaBear, quantity.Factor)},
			Result: quantity.Of("r", r.Bearing.ASD, quantity.Ratio), Source: "AISC 360 J8 (memory)",
		}, {
			Text: "Load and resistance factors, " + in.CaseLRFD, Formula: "r = Pu/(φ·Bn)",
			Terms:  []quantity.Q{quantity.Of("Pu", in.P.LRFD, quantity.Force), quantity.Of("φ", phiBear, quantity.Factor)},
			Result: quantity.Of("r", r.Bearing.LRFD, quantity.Ratio), Source: "ACI 318 (memory)",
		}},
	}
	if most := c.Worst(); most > 1 {
		c.Remedy = "A steel plate under the casting with {0} times its area, or stronger concrete."
		c.RemedyQ = []quantity.Q{quantity.Of("", most, quantity.Factor)}
	}
	return c, r, nil
}

// PadConcreteCheck checks a plain pad in bending, shear and punching.
func PadConcreteCheck(in Pad) (check.Check, PadResult, error) {
	r, err := in.Solve()
	if err != nil {
		return check.Check{}, r, err
	}
	c := check.Check{
		ID: "pad-concrete", Title: "Pad under a corner casting", Method: "Plain concrete: bending at the face of the casting, shear, punching",
		Source: srcPad, Ratio: math.NaN(), RatioLRFD: r.Worst(), CaseLRFD: in.CaseLRFD,
		Assumptions: []string{
			"The bed presses evenly under the pad. Bars in it are not counted.",
			"Of its thickness " + quantity.Brief.Text(againstSoil, quantity.Thickness) + " do not count, as it is cast on the bed.",
		},
		Validity: onlyLRFD,
		Working:  in.working(&r),
	}
	if in.Thickness < leastPad {
		c.Validity += " ACI 318 has no plain footings thinner than " + quantity.Brief.Text(leastFooting, quantity.Thickness) + " (memory): this one is thinner."
	}
	switch c.RatioLRFD {
	case r.Bend:
		c.Demand, c.Capacity = quantity.Of("Mu", r.M, quantity.Moment), quantity.Of("φ·Mn", r.PhiMn, quantity.Moment)
	case r.Cut:
		c.Demand, c.Capacity = quantity.Of("Vu", r.V, quantity.Force), quantity.Of("φ·Vn", r.PhiVn, quantity.Force)
	default:
		c.Demand, c.Capacity = quantity.Of("Vp", r.Vp, quantity.Force), quantity.Of("φ·Vp", r.PhiVp, quantity.Force)
	}
	if c.RatioLRFD > 1 {
		c.Remedy = "A thicker pad, some {0}, or stronger concrete; or bars, which an engineer must design."
		c.RemedyQ = []quantity.Q{quantity.Of("", againstSoil+in.thick(&r), quantity.Length)}
	}
	return c, r, nil
}

// thick is the thickness that would count for bending and punching to be within
// limits: bending goes with its square, shear and punching at least with itself.
func (in *Pad) thick(r *PadResult) float64 {
	return r.T * math.Max(math.Sqrt(r.Bend), math.Max(r.Cut, r.Punch))
}

func (in *Pad) working(r *PadResult) []check.Line {
	length, cast, width := in.Length, in.CastL, in.Width
	if r.alongTheWidth {
		length, cast, width = in.Width, in.CastW, in.Length
	}
	return []check.Line{{
		Text: "Pressure under the pad by the casting, " + in.CaseLRFD, Formula: "q = Pu/(L·B)",
		Terms: []quantity.Q{
			quantity.Of("Pu", in.P.LRFD, quantity.Force), quantity.Of("L", in.Length, quantity.Length), quantity.Of("B", in.Width, quantity.Length),
		},
		Result: quantity.Of("q", r.Q, quantity.Pressure), Source: srcStat,
	}, {
		Text: "Moment at the face of the casting", Formula: "Mu = q·b·c²/2",
		Terms: []quantity.Q{
			quantity.Of("b", width, quantity.Length), quantity.Of("c", (length-cast)/2, quantity.Length),
		},
		Result: quantity.Of("Mu", r.M, quantity.Moment), Source: srcStat,
	}, {
		Text: "Bending strength", Formula: "φ·Mn = 0.60·5√f'c·b·t²/6",
		Terms: []quantity.Q{
			quantity.Of("f'c", in.Fc, quantity.Stress), quantity.Of("t", r.T, quantity.Length),
		},
		Result: quantity.Of("φ·Mn", r.PhiMn, quantity.Moment), Source: srcPad,
	}, {
		Text: "Shear a thickness away from the casting", Formula: "Vu = q·b·(c − t) ≤ φ·4/3·√f'c·b·t",
		Terms:  []quantity.Q{quantity.Of("φ·Vn", r.PhiVn, quantity.Force)},
		Result: quantity.Of("Vu", r.V, quantity.Force), Source: srcPad,
	}, {
		Text: "Punching round the casting", Formula: "Vp = Pu − q·(l + t)·(w + t)",
		Terms:  []quantity.Q{quantity.Of("φ·Vp", r.PhiVp, quantity.Force)},
		Result: quantity.Of("Vp", r.Vp, quantity.Force), Source: srcPad,
	}, {
		Text: "Ratio: bending, shear, punching", Formula: "the largest of the three",
		Terms: []quantity.Q{
			quantity.Of("bending", r.Bend, quantity.Ratio), quantity.Of("shear", r.Cut, quantity.Ratio), quantity.Of("punching", r.Punch, quantity.Ratio),
		},
		Result: quantity.Of("r", r.Worst(), quantity.Ratio), Source: srcPad,
	}}
}
