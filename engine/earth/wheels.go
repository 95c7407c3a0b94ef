package earth

import (
	"math"

	"hillset/engine/earth/limit"
	"hillset/engine/quantity"
)

// Growth of a wheel's patch per unit of cover, both sides together (AASHTO
// LRFD 3.6.1.2.6).
const (
	LLDFGranular = 1.15 // select granular fill (second-hand)
	LLDFOther    = 1.00 // any other fill (memory)
)

const foot = 0.3048 // m

// MinSpreadCover is the least cover, m, for which the spread of a wheel by
// LLDF holds (2 ft). With less the roof feels the patch itself.
const MinSpreadCover = 2 * foot

// DynamicAllowance is the share by which a wheel's load grows for impact under
// a cover in m: 33 % (1 - 0.125 D), D the cover in feet, nothing from 8 ft
// (AASHTO LRFD 3.6.2.2, second-hand; one summary says metres, wrongly).
func DynamicAllowance(cover float64) (float64, error) {
	if err := limit.AtLeast("cover", cover, 0, quantity.Length); err != nil {
		return 0, err
	}
	return 0.33 * math.Max(0, 1-0.125*cover/foot), nil
}

// LiveNegligible says whether wheels may be neglected on a single span, m:
// cover over 8 ft and over the span (AASHTO, memory).
func LiveNegligible(cover, span float64) bool {
	return cover > 8*foot && cover > span
}

// SpreadPressure is the mean pressure, kPa, of a wheel of load kN on a patch a
// by b below a cover, each side grown by lldf times the cover in total, without
// impact and whatever the cover: WheelsThroughCover minds where it holds.
func SpreadPressure(load, a, b, cover, lldf float64) (float64, error) {
	err := limit.First(
		Patch{P: load, A: a, B: b}.Validate(),
		limit.AtLeast("cover", cover, 0, quantity.Length),
		limit.Within("lldf", lldf, 0, 2, quantity.None))
	if err != nil {
		return 0, err
	}
	return load / ((a + lldf*cover) * (b + lldf*cover)), nil
}

// RoofLive is what wheels do to a roof below a cover.
type RoofLive struct {
	Cover  float64
	Impact float64 // dynamic allowance, a share
	// Spread are the grown patches, those that overlap made into one that
	// carries their loads together, impact included.
	Spread []Patch
	Mean   float64 // largest mean pressure of Spread, kPa
	// Peak is the largest pressure under the patches by Boussinesq, kPa, impact
	// included, and where it is. It is the check of Mean.
	Peak, PeakX, PeakY float64
	// Pressure is Mean where the spread holds, Peak where the cover is too thin
	// for it.
	Pressure float64
	Method   string
	Validity string // what to mind; empty where the method holds
}

// WheelsThroughCover works out the pressure of wheels on a roof below a cover
// by the AASHTO spread (LRFD 3.6.1.2.6, second-hand), and by the exact stress
// under the patches. Under MinSpreadCover the exact stress is used and Validity
// says so. impact adds the DynamicAllowance.
func WheelsThroughCover(wheels []Patch, cover, lldf float64, impact bool) (RoofLive, error) {
	err := limit.First(
		limit.AtLeast("cover", cover, 0, quantity.Length),
		limit.Within("lldf", lldf, 0, 2, quantity.None),
		patchesValid(wheels))
	if err != nil {
		return RoofLive{}, err
	}
	r := RoofLive{Cover: cover, Method: "AASHTO spread through the cover"}
	if impact {
		if r.Impact, err = DynamicAllowance(cover); err != nil {
			return RoofLive{}, err
		}
	}
	for _, w := range wheels {
		w.P *= 1 + r.Impact
		w.A += lldf * cover
		w.B += lldf * cover
		r.Spread = append(r.Spread, w)
	}
	r.Spread = combine(r.Spread)
	for _, w := range r.Spread {
		r.Mean = math.Max(r.Mean, w.P/(w.A*w.B))
	}
	r.Peak, r.PeakX, r.PeakY = peak(wheels, cover)
	r.Peak *= 1 + r.Impact
	r.Pressure = r.Mean
	if cover < MinSpreadCover-slack {
		r.Pressure = r.Peak
		r.Method = "exact stress under the wheel patch"
		r.Validity = "the cover is thinner than the spread rule holds for; the peak under the patch is used, and the roof must be checked as a slab under wheels"
	}
	return r, nil
}

// combine makes patches that overlap into one rectangle around both, until
// none do; the load of a new one is that of all in it.
func combine(ps []Patch) []Patch {
	for i := 0; i < len(ps); i++ {
		for j := i + 1; j < len(ps); j++ {
			if !overlap(ps[i], ps[j]) {
				continue
			}
			ps[i] = around(ps[i], ps[j])
			ps = append(ps[:j], ps[j+1:]...)
			i = -1 // the larger one may now reach others
			break
		}
	}
	return ps
}

func overlap(p, q Patch) bool {
	return math.Abs(p.X-q.X) < (p.A+q.A)/2 && math.Abs(p.Y-q.Y) < (p.B+q.B)/2
}

func around(p, q Patch) Patch {
	x1, x2 := math.Min(p.X-p.A/2, q.X-q.A/2), math.Max(p.X+p.A/2, q.X+q.A/2)
	y1, y2 := math.Min(p.Y-p.B/2, q.Y-q.B/2), math.Max(p.Y+p.B/2, q.Y+q.B/2)
	return Patch{P: p.P + q.P, X: (x1 + x2) / 2, Y: (y1 + y2) / 2, A: x2 - x1, B: y2 - y1}
}

// peak finds the largest stress of patches at a depth: from the best of their
// middles and the points halfway between, in ever smaller steps.
func peak(ps []Patch, z float64) (s, x, y float64) {
	try := func(px, py float64) bool {
		v := patchSum(ps, px, py, z)
		if v <= s {
			return false
		}
		s, x, y = v, px, py
		return true
	}
	for i, p := range ps {
		for _, q := range ps[i:] {
			try((p.X+q.X)/2, (p.Y+q.Y)/2)
		}
	}
	for step := z / 2; step > z/1000; step /= 2 {
		for try(x+step, y) || try(x-step, y) || try(x, y+step) || try(x, y-step) {
		}
	}
	return s, x, y
}
