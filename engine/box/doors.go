package box

import (
	"math"

	"hillset/engine/check"
	"hillset/engine/quantity"
	"hillset/engine/steel"
)

// Doors is earth or water against the door leaves. Leaf is a strip of a leaf
// between its bars under the pressure; the leaves themselves hang in gaskets,
// held by cams and lock bars, and are given no capacity for a lasting load.
type Doors struct {
	Leaf  Strip
	Earth float64 // m of earth above the underside of the box
	Water float64 // m of water above it
	Sill  float64 // m, top of the door sill above it
}

// DoorsCheck refuses earth and water against the doors; the working holds what
// the sheet of a leaf alone would use.
func DoorsCheck(in Doors) (check.Check, StripResult, error) {
	r, err := in.Leaf.Solve()
	if err != nil {
		return check.Check{}, r, err
	}
	p := math.Max(r.FieldRatio.ASD, r.ShearRatio.ASD)
	c := check.Check{
		ID: "doors", Title: "Earth or water against the doors", Method: "Refused: a gasketed leaf is no retaining wall",
		Source: "gaskets are weather seals, not water seals: container specifications (verified); the leaf as a strip of sheet: " + srcEff + "; " + srcBend,
		Assumptions: []string{
			"Earth lies at rest against the leaves; water stands level.",
			"Cams, lock bars and hinges are made to keep doors shut on the road: nothing is known of what they hold for years.",
		},
		Validity: "No capacity is given to the doors, whatever the sheet of a leaf would carry.",
		Demand:   quantity.Of("p", r.load(), quantity.LineLoad), Capacity: quantity.Of("0", 0, quantity.LineLoad),
		Ratio: math.Inf(1), RatioLRFD: math.Inf(1), Case: Allowable[1].Name, CaseLRFD: Strength[1].Name,
		Remedy: "Keep earth and water away from the doors, or build a wall across the front that holds them.",
	}
	c.Working = []check.Line{{
		Text: "Earth and water against the doors, above the underside of the box", Formula: "sill, earth, water",
		Terms: []quantity.Q{
			quantity.Of("earth", in.Earth, quantity.Length), quantity.Of("water", in.Water, quantity.Length),
		},
		Result: quantity.Of("sill", in.Sill, quantity.Length), Source: "as given",
	}, {
		Text: "Load along a leaf, service", Formula: "W = ∫ p dz",
		Terms:  []quantity.Q{quantity.Of("L", in.Leaf.Height, quantity.Length)},
		Result: quantity.Of("W", r.load(), quantity.LineLoad), Source: srcStat,
	}, {
		Text: "Moment in the sheet of the leaf", Formula: "V(z) = 0 → M",
		Terms:  []quantity.Q{quantity.Of("z", r.FieldAt, quantity.Length)},
		Result: quantity.Of("M", r.Field.ASD, quantity.LineMoment), Source: srcStat,
	}, {
		Text: "What the sheet of the leaf alone would use, allowable strength; shown, not counted", Formula: "the larger of M·Ω/Mn and V·Ω/Vn",
		Terms: []quantity.Q{
			quantity.Of("Mn", r.Outer.Mn, quantity.LineMoment), quantity.Of("Ω", steel.OmegaBending, quantity.Factor),
		},
		Result: quantity.Of("r", p, quantity.Ratio), Source: srcBend,
	}, {
		Text: "The same, load and resistance factors; shown, not counted", Formula: "the larger of Mu/(φ·Mn) and Vu/(φ·Vn)",
		Result: quantity.Of("ru", math.Max(r.FieldRatio.LRFD, r.ShearRatio.LRFD), quantity.Ratio), Source: srcLoad,
	}}
	return c, r, nil
}
