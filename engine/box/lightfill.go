package box

import (
	"math"

	"hillset/engine/check"
	"hillset/engine/quantity"
	"hillset/engine/tables"
)

// LightFill is a layer of block foam over the roof with what stands on it, kPa.
type LightFill struct {
	Foam  tables.Geofoam
	Gamma float64 // kN/m3, unit weight that the project counts for it
	// Lasting is everything above that stays, water included; Live comes and
	// goes, and so does Snow.
	Lasting, Live, Snow float64
}

// LightFillResult is what comes out of a layer of block foam.
type LightFillResult struct {
	Lasting float64 // ratio of what stays
	Ratio   float64 // of everything
	Most    float64 // kPa, the largest combination
	Case    string
	// Light is true where the unit weight counted is below the least of the
	// type.
	Light bool
	Least float64 // kN/m3, least of the type
}

const srcFoam = "ASTM D6817 as quoted by a data sheet (verified)"

// Solve sets what stands on the foam against its resistance at 1 % strain: what
// stays, and that with what comes and goes (common practice of the guides for
// block foam in embankments).
func (in LightFill) Solve() (LightFillResult, error) {
	var r LightFillResult
	for _, err := range []error{
		quantity.Within("resistance of the foam at 1 %", in.Foam.S1, 1, 1000, quantity.Pressure),
		quantity.Within("unit weight of the foam", in.Gamma, 0, 30, quantity.UnitWeight),
		quantity.Within("lasting load on the foam", in.Lasting, 0, 1e4, quantity.Pressure),
		quantity.Within("live load on the foam", in.Live, 0, 1e5, quantity.Pressure),
		quantity.Within("snow on the foam", in.Snow, 0, 1e3, quantity.Pressure),
	} {
		if err != nil {
			return r, err
		}
	}
	r.Most, r.Case = Largest(Allowable, Effects{D: in.Lasting, L: in.Live, S: in.Snow})
	r.Lasting, r.Ratio = in.Lasting/in.Foam.S1, r.Most/in.Foam.S1
	r.Least = in.Foam.Density * gravity / 1000
	r.Light = in.Gamma < r.Least*(1-typedTo)
	return r, nil
}

// Check makes the check of a layer of block foam.
func (in LightFill) Check() (check.Check, LightFillResult, error) {
	r, err := in.Solve()
	if err != nil {
		return check.Check{}, r, err
	}
	kPa := func(sym string, v float64) quantity.Q { return quantity.Of(sym, v, quantity.Pressure) }
	c := check.Check{
		ID: "light-fill", Title: "Stress on the light fill", Method: "Stress on top of the blocks against their resistance at 1 % strain",
		Source: srcFoam + "; 1 % for what stays, and together with what comes and goes (common practice)",
		Demand: kPa("σ", r.Most), Capacity: kPa("σ1%", in.Foam.S1), Ratio: r.Ratio, RatioLRFD: math.NaN(), Case: r.Case,
		Assumptions: []string{
			"The blocks lie tight and even; what is above them presses straight down on them.",
			"Dry foam: what water it takes up in the ground is not counted.",
		},
		Validity: "Foam does not burn well, and fuel or solvents dissolve it: cover and a sheet over it are taken for granted. Creep beyond 1 % is not computed.",
		Working: []check.Line{{
			Text: "What stays: all that lies above, and water", Formula: "r = σd/σ1%",
			Terms:  []quantity.Q{kPa("σd", in.Lasting), kPa("σ1%", in.Foam.S1)},
			Result: quantity.Of("r", r.Lasting, quantity.Ratio), Source: srcFoam,
		}, {
			Text: "With what comes and goes, " + r.Case, Formula: "σ = σd + L + S",
			Terms:  []quantity.Q{kPa("L", in.Live), kPa("S", in.Snow)},
			Result: kPa("σ", r.Most), Source: "load combinations of the building code form (verified)",
		}},
	}
	if r.Light {
		c.Assumptions = append(c.Assumptions, "The unit weight given for it is below the least of its type: a block of this type weighs more than is counted.")
		c.Working = append(c.Working, check.Line{Text: "Least unit weight of the type, above the one given", Formula: "γ = ρ·g",
			Terms:  []quantity.Q{quantity.Of("γ given", in.Gamma, quantity.UnitWeight)},
			Result: quantity.Of("γ", r.Least, quantity.UnitWeight), Source: srcFoam})
	}
	if c.Ratio > 1 {
		c.Remedy = "A type with a resistance of at least {0} at 1 %, or less on it."
		c.RemedyQ = []quantity.Q{kPa("", r.Most)}
	}
	return c, r, nil
}

// typedTo is how far rounding may bring a typed unit weight below the least.
const typedTo = 0.01
