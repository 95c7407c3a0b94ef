package earth

import (
	"math"

	"hillset/engine/earth/limit"
	"hillset/engine/quantity"
)

// Caps of the factor on the prism of soil over a box.
const (
	feCompacted = 1.15 // sides compacted (a state culvert manual, verified)
	feLoose     = 1.40 // sides not compacted (memory)
)

// Prism is the weight of soil straight above a roof of width bc, kN per m:
// gamma h bc (UFC 3-220-10 4-9, second-hand).
func Prism(gamma, h, bc float64) (float64, error) {
	if err := roofInput(gamma, h, bc); err != nil {
		return 0, err
	}
	return gamma * h * bc, nil
}

// EmbankmentFactor is Fe = 1 + 0.20 h/bc, at most 1.15 with compacted fill
// beside the box and 1.40 without (AASHTO LRFD 12.11.2.2.1, verified in a
// state manual; the higher cap memory).
func EmbankmentFactor(h, bc float64, compacted bool) (float64, error) {
	if err := roofInput(1, h, bc); err != nil {
		return 0, err
	}
	most := feLoose
	if compacted {
		most = feCompacted
	}
	return math.Min(1+0.20*h/bc, most), nil
}

// RoofEarth is the pressure of soil of depth h on a roof of width bc, kPa:
// Fe gamma h. A box in a wide cut lies under an embankment; relief by arching
// is never taken.
func RoofEarth(gamma, h, bc float64, compacted bool) (pressure, fe float64, err error) {
	if err := roofInput(gamma, h, bc); err != nil {
		return 0, 0, err
	}
	fe, err = EmbankmentFactor(h, bc, compacted)
	return fe * gamma * h, fe, err
}

func roofInput(gamma, h, bc float64) error {
	return limit.First(
		limit.Positive("gamma", gamma, quantity.UnitWeight),
		limit.AtLeast("h", h, 0, quantity.Length),
		limit.Positive("bc", bc, quantity.Length))
}

// TrenchLoad is the load of the fill of a trench of width bd and depth h, kN
// per m, and Marston's coefficient Cd = (1 - exp(-2 kmu h/bd))/(2 kmu) (UFC
// 3-220-10 4-6 and 4-7, second-hand). It is for comparison: it counts on the
// friction of trench walls that a box in a wide cut does not have.
func TrenchLoad(gamma, h, bd, kmu float64) (load, cd float64, err error) {
	if err := limit.First(roofInput(gamma, h, bd), limit.Within("kmu", kmu, 0.01, 1, quantity.None)); err != nil {
		return 0, 0, err
	}
	cd = -math.Expm1(-2*kmu*h/bd) / (2 * kmu)
	return cd * gamma * bd * bd, cd, nil
}

// Projecting is Marston's load on a box that stands up from the ground under
// an embankment.
type Projecting struct {
	Cc       float64 // coefficient of gamma bc2
	Load     float64 // kN per m
	He       float64 // height of the plane of equal settlement, m
	Complete bool    // the cover does not reach that plane
	Prism    float64 // load over the weight of the prism
}

// ProjectingLoad works out Marston's positive projecting conduit (memory): the
// shear of the fill beside pulls the prism over the box down. kmu is K mu,
// 0.19 as a rule; rsdp is the settlement ratio times the projection ratio.
func ProjectingLoad(gamma, h, bc, kmu, rsdp float64) (Projecting, error) {
	err := limit.First(roofInput(gamma, h, bc),
		limit.Positive("h", h, quantity.Length),
		limit.Within("kmu", kmu, 0.01, 1, quantity.None),
		limit.Within("rsdp", rsdp, 1e-3, 10, quantity.None))
	if err != nil {
		return Projecting{}, err
	}
	k := 2 * kmu
	x := equalSettlement(1 + k*rsdp)
	p := Projecting{He: x * bc / k}
	p.Complete = h <= p.He
	if p.Complete {
		p.Cc = math.Expm1(k*h/bc) / k
	} else {
		p.Cc = math.Expm1(x)/k + (h-p.He)/bc*math.Exp(x)
	}
	p.Load = p.Cc * gamma * bc * bc
	p.Prism = p.Cc * bc / h
	return p, nil
}

// equalSettlement solves exp(x) - x = c for x above 0; c is above 1.
func equalSettlement(c float64) float64 {
	// exp(x) - x - 1 >= x²/2 bounds the root from above; Newton's steps on a
	// convex function come down to it from there.
	x := math.Sqrt(2 * (c - 1))
	for range 100 {
		dx := (math.Expm1(x) - x - (c - 1)) / math.Expm1(x)
		x -= dx
		if math.Abs(dx) <= 1e-15*x {
			break
		}
	}
	return x
}
