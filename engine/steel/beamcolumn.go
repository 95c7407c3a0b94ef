package steel

import "math"

// BeamColumn is a member under axial compression P and bending M, with its
// nominal strengths in the same units. PE is the Euler load in the plane of
// bending and Cm the moment factor (1 for load across a pinned span).
type BeamColumn struct {
	P, M        float64
	Pn, Pno, PE float64
	Mn, Cm      float64
}

// AISIASD gives the two interaction sums of AISI S100 H1.2 with safety factors
// (memory). P and M are service effects. The result is +Inf at or beyond the
// Euler load.
func (b BeamColumn) AISIASD() (buckling, strength float64) {
	return b.aisi(1/OmegaColumn, 1/OmegaBending, OmegaColumn)
}

// AISILRFD gives the same sums with resistance factors; P and M are factored
// effects.
func (b BeamColumn) AISILRFD() (buckling, strength float64) {
	return b.aisi(PhiColumn, PhiBending, 1)
}

// aisi evaluates both sums with the strength factors fc (column) and fb
// (bending). raise brings P to its ultimate level for the amplification: the
// allowable-stress form needs that, factored effects are there already.
func (b BeamColumn) aisi(fc, fb, raise float64) (buckling, strength float64) {
	strength = b.P/(fc*b.Pno) + b.M/(fb*b.Mn)
	left := 1 - raise*b.P/b.PE
	if left <= 0 {
		return math.Inf(1), strength
	}
	return b.P/(fc*b.Pn) + b.Cm*b.M/(fb*b.Mn*left), strength
}

// H1 is the interaction sum of AISC 360 H1-1 for required strengths pr, mr and
// available strengths pc, mc, all in compatible units (memory).
func H1(pr, pc, mr, mc float64) float64 {
	p, m := pr/pc, mr/mc
	if p >= 0.2 {
		return p + 8.0/9*m
	}
	return p/2 + m
}

// SecantMoment is the exact second-order midspan moment of a pinned strip of
// span l and stiffness ei under the uniform load q and the axial compression
// p: q/k2·(sec(kl/2) - 1), k2 = p/ei (beam-column theory, derived). It is +Inf
// at or beyond the Euler load, and ql2/8 where p is 0. Tension (p < 0) is not
// counted: it would only straighten the strip.
func SecantMoment(q, p, ei, l float64) float64 {
	u, first := secantArg(p, ei, l), q*l*l/8
	switch {
	case u >= math.Pi/2:
		return math.Inf(1)
	case u < smallArg:
		return first * (1 + 5*u*u/12)
	}
	// sec u - 1 by half angles, without cancellation.
	s := math.Sin(u / 2)
	return first * 4 * s * s / (u * u * math.Cos(u))
}

// SecantSag is the exact second-order midspan deflection of the same strip,
// m; +Inf at or beyond the Euler load.
func SecantSag(q, p, ei, l float64) float64 {
	u := secantArg(p, ei, l)
	first := 5 * q * math.Pow(l, 4) / (384 * ei)
	switch {
	case u >= math.Pi/2:
		return math.Inf(1)
	case u < smallSagArg:
		return first * (1 + 61*u*u/150)
	}
	return (SecantMoment(q, p, ei, l) - q*l*l/8) / p
}

// Below these half-span angles the series is more exact than the closed form.
const (
	smallArg    = 1e-4
	smallSagArg = 1e-2
)

func secantArg(p, ei, l float64) float64 { return l / 2 * math.Sqrt(math.Max(p, 0)/ei) }
