// Package box checks the members of a container under the loads of a hill:
// wall and roof sheets, rails, headers, wales, ribs as rings, corner posts,
// and the roof as a diaphragm. The checks are pure functions of their inputs;
// part, stage and station are filled in by whoever calls them.
//
// Units are m, kN, kPa. Pressure on a wall is positive inward, places on a
// wall run up from its bottom support, and a positive moment has its tension
// on the room side. Values per metre are per metre of wall, or of box length
// for the roof.
//
// Every check is made twice: with service loads against strength over a safety
// factor (Ratio), and with factored loads against strength times a resistance
// factor (RatioLRFD). The larger one decides.
package box

import (
	"math"

	"hillset/engine/frame"
	"hillset/engine/quantity"
	"hillset/engine/steel"
	"hillset/engine/tables"
)

// factorWall is the load factor of everything that presses on a wall: 1.6 for
// earth with ground water (H) and 1.6 for live load that adds to it (structure
// reference, section 7, verified). Ground water has no known highest level and
// so counts as H, not as a fluid. Checks of walls scale by it; should the two
// factors ever differ, they must solve twice.
const factorWall = 1.6

// Pressures is what presses on a wall, split by origin, kPa over the height.
// A nil part is none.
type Pressures struct {
	Earth frame.Load // soil, compaction, wide surcharge that stays
	Water frame.Load // ground water
	Live  frame.Load // wheels and other loads that come and go
}

// Service is the sum at its true size. It may share memory with its parts.
func (p Pressures) Service() frame.Load {
	if len(p.Water) == 0 && len(p.Live) == 0 {
		return p.Earth
	}
	return frame.Add(p.Earth, p.Water, p.Live)
}

// Factored is the sum for load and resistance factors: 1.6H + 1.6L.
func (p Pressures) Factored() frame.Load { return p.Service().Scale(factorWall) }

// total is the whole push at its true size, kN per m of wall.
func (p Pressures) total() float64 {
	sum := 0.0
	for _, part := range [...]frame.Load{p.Earth, p.Water, p.Live} {
		w, _ := part.Total()
		sum += w
	}
	return sum
}

// check refuses parts that are not loads on a wall of height h.
func (p Pressures) check(h float64) error {
	for _, part := range []frame.Load{p.Earth, p.Water, p.Live} {
		if err := part.Check(h); err != nil {
			return err
		}
	}
	return nil
}

// OnRoof are the loads on a roof, kPa: dead load, live load, snow and water
// standing on it.
type OnRoof struct{ Dead, Live, Snow, Water float64 }

// Pair is one effect under service loads and under factored loads.
type Pair struct{ ASD, LRFD float64 }

// Times multiplies both.
func (p Pair) Times(k float64) Pair { return Pair{p.ASD * k, p.LRFD * k} }

// Plus adds another pair.
func (p Pair) Plus(o Pair) Pair { return Pair{p.ASD + o.ASD, p.LRFD + o.LRFD} }

// check refuses an effect that is not finite.
func (p Pair) check(field string) error {
	const most = 1e6 // kN, kN/m; the names are put together only when needed
	if math.Abs(p.ASD) <= most && math.Abs(p.LRFD) <= most {
		return nil
	}
	if err := quantity.Range(field+" (service)", p.ASD, -most, most); err != nil {
		return err
	}
	return quantity.Range(field+" (factored)", p.LRFD, -most, most)
}

// size is the pair without signs: a bar bends either way.
func (p Pair) size() Pair { return Pair{math.Abs(p.ASD), math.Abs(p.LRFD)} }

// largest is the larger of the two.
func (p Pair) largest() float64 { return math.Max(p.ASD, p.LRFD) }

// Material is a grade of steel as the checks use it.
type Material struct {
	Fy, E float64 // kPa
}

// Of takes the material from a row of the table of grades.
func Of(g tables.Grade) Material { return Material{Fy: g.Fy, E: g.E} }

// check refuses what is not structural steel.
func (m Material) check() error {
	if err := quantity.Within("yield strength Fy", m.Fy, 100e3, 700e3, quantity.Stress); err != nil {
		return err
	}
	return quantity.Within("modulus E", m.E, 150e6, 250e6, quantity.Stress)
}

// Sources that several checks name.
const (
	srcEff    = "AISI S100 App. 1, effective width of a flat held at both edges, k = 4 (memory)"
	srcBend   = "AISI S100-16: Mn = Se·Fy, Ω 1.67, φ 0.90 (memory)"
	srcStat   = "beam statics (derived)"
	srcLoad   = "load factors 1.6H + 1.6L of the building code form (verified)"
	srcShear  = "AISI S100 G2.1, Ω 1.60, φ 0.95 (memory)"
	srcColumn = "column curve of AISI S100 E2 and AISC 360 E3 (curve verified)"
)

// worst keeps the larger of two ratios with the index of its source.
func worst(ratios ...float64) (float64, int) {
	at := 0
	for k, r := range ratios {
		if r > ratios[at] {
			at = k
		}
	}
	return ratios[at], at
}

// sides of a sheet as words.
func flatName(s steel.Side) string { return s.String() + " flat" }

// nan stands for a ratio that the method does not have.
var nan = math.NaN()

func abs(v float64) float64 { return math.Abs(v) }
