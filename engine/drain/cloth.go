package drain

import (
	"math"

	"hillset/engine/check"
	"hillset/engine/earth/limit"
	q "hillset/engine/quantity"
	"hillset/engine/tables"
)

const (
	srcCloth   = "Christopher and Holtz, FHWA-NHI-07-092 (memory)"
	srcDefault = "AASHTO M 288, subsurface drainage, as reproduced in UFGS 02373 (verified)"
	srcSieve   = "UFC 3-270-04: openings not finer than the No. 100 sieve, no cloth alone on soil with 85 % fines (verified)"
)

// Retention is the largest apparent opening size (O95) that holds a soil back
// in steady flow, mm.
type Retention struct {
	Cu, B float64
	AOS   float64 // B·D85, and not above 0.30 mm where more than half is fines
}

// clothFines is the AOS that is not passed where more than half of a soil is
// finer than 0.075 mm, mm.
const clothFines = 0.30

// RetainCloth gives the opening size B·D85 for a soil with D10, D60 and D85 in
// mm, all of the part finer than 4.75 mm, and its share of fines.
func RetainCloth(d10, d60, d85, fines float64, woven bool) (Retention, error) {
	err := limit.First(
		limit.Within("d10", d10, 1e-5, gravelSize, q.Grain),
		limit.Within("d60", d60, d10, gravelSize, q.Grain),
		limit.Within("d85", d85, d60, gravelSize, q.Grain),
		limit.Within("fines", fines, 0, 1, q.None))
	if err != nil {
		return Retention{}, err
	}
	r := Retention{Cu: d60 / d10}
	switch {
	case fines > 0.5 && woven:
		r.B = 1
	case fines > 0.5:
		r.B = 1.8
	case r.Cu <= 2 || r.Cu >= 8:
		r.B = 1
	case r.Cu <= 4:
		r.B = 0.5 * r.Cu
	default:
		r.B = 8 / r.Cu
	}
	r.AOS = r.B * d85
	if fines > 0.5 {
		r.AOS = math.Min(r.AOS, clothFines)
	}
	return r, nil
}

// DefaultCloth is the row of the standard by the fines of the soil in place,
// a share.
func DefaultCloth(fines float64) (tables.ClothRow, error) {
	if err := limit.Within("fines", fines, 0, 1, q.None); err != nil {
		return tables.ClothRow{}, err
	}
	rows := tables.Default().Cloths()
	// The first step is below its end, the second up to and with it.
	if fines < rows[0].FinesTo {
		return rows[0], nil
	}
	for _, r := range rows[1:] {
		if fines <= r.FinesTo {
			return r, nil
		}
	}
	panic("drain: the table of cloths does not reach all fines")
}

// ClothIn is a drainage cloth against a soil.
type ClothIn struct {
	Soil  Grading
	SoilK float64 // permeability of the soil, m/s

	AOS          float64 // of the cloth, mm
	Permittivity float64 // 1/s
	K            float64 // of the cloth, m/s
	Woven        bool

	Critical bool // failure would be costly: ten times the permeability of the soil
	// Special is why the default row does not cover the soil: it is silt without
	// cohesion, gap-graded, laminated or dispersive. Empty where it does.
	Special string
	// Signed says that a designer answers for the cloth: the opening size then
	// follows the grading, not the smaller default.
	Signed bool
}

// Cloth is what the rules ask for.
type Cloth struct {
	Retention
	Default tables.ClothRow
	MaxAOS  float64 // mm, the one that counts
	MinK    float64 // m/s
	Fines   float64 // share, of the whole soil
}

// mm, No. 100 sieve: a finer cloth clogs; and the fines above which no cloth
// is laid on the soil alone.
const (
	sieve100   = 0.15
	aloneFines = 0.85
)

const sandStage = "a stage of sand between the soil and the cloth"

// ClothFor gives what a cloth on a soil must be.
func ClothFor(in ClothIn) (Cloth, error) {
	fine, err := in.Soil.Regraded()
	if err != nil {
		return Cloth{}, limit.In("soil", err)
	}
	d, err := fine.sizes(0.10, 0.60, 0.85)
	if err != nil {
		return Cloth{}, limit.In("soil", err)
	}
	own, err := fine.Fines()
	if err != nil {
		return Cloth{}, limit.In("soil", err)
	}
	var c Cloth
	if c.Fines, err = in.Soil.Fines(); err != nil {
		return Cloth{}, limit.In("soil", err)
	}
	if c.Retention, err = RetainCloth(d[0], d[1], d[2], own, in.Woven); err != nil {
		return Cloth{}, limit.In("soil", err)
	}
	if c.Default, err = DefaultCloth(c.Fines); err != nil {
		return Cloth{}, err
	}
	if err := limit.Within("soil_k", in.SoilK, minK, maxK, q.Permeability); err != nil {
		return Cloth{}, err
	}
	c.MaxAOS, c.MinK = c.Retention.AOS, in.SoilK
	if !in.Signed {
		c.MaxAOS = math.Min(c.MaxAOS, c.Default.AOS)
	}
	if in.Critical {
		c.MinK *= 10
	}
	return c, nil
}

// ClothCheck holds a cloth against a soil. For the soils that the default does
// not cover it is made only where a designer signs.
func ClothCheck(in ClothIn) (check.Check, error) {
	const id, title, part = "filter-cloth", "Drainage cloth against soil", "filter"
	err := limit.First(
		limit.Within("aos", in.AOS, 0.01, 5, q.Grain),
		limit.Within("permittivity", in.Permittivity, 1e-4, 100, q.Permittivity),
		limit.Within("k", in.K, minK, maxK, q.Permeability))
	if err != nil {
		return check.Check{}, err
	}
	r, err := ClothFor(in)
	if err != nil {
		return check.Check{}, err
	}
	if in.Special != "" && !in.Signed {
		return check.Unchecked(id, title, part, "the soil "+in.Special+": it needs a cloth designed for the site, or a sand filter"), nil
	}
	c := check.Check{ID: id, Title: title, Part: part, Method: "Opening size, permittivity and permeability",
		Source:      srcCloth + "; " + srcDefault + "; " + srcSieve,
		Assumptions: []string{"steady flow out of the soil", "the cloth lies tight on the soil, laps as its maker says", "no second cloth round the pipe inside"},
		Validity:    "Grading of the part finer than gravel."}
	if in.Signed {
		c.Assumptions = append(c.Assumptions, "a designer answers for an opening above the default")
	}
	aos, psi := q.Of("O95", in.AOS, q.Grain), q.Of("ψ", in.Permittivity, q.Permittivity)
	lim := q.Of("O95max", r.MaxAOS, q.Grain)
	c.Working = append(c.Working,
		check.Step("Opening that holds the soil", "O95 = B·D85", srcCloth, q.Of("O95s", r.Retention.AOS, q.Grain), q.Of("Cu", r.Cu, q.Factor), q.Of("B", r.B, q.Factor)),
		check.Step("Opening by default", "table by the fines", srcDefault, q.Of("O95d", r.Default.AOS, q.Grain), q.Of("fines", r.Fines, q.Ratio)))
	least := q.Of("O95min", sieve100, q.Grain)
	holds := condition{text: "Holds the soil back", formula: "r = O95/O95max", src: srcCloth, demand: aos, capacity: lim, remedy: "a cloth with openings of {0} at most", remedyQ: lim}
	clogs := condition{text: "Does not clog", formula: "r = O95min/O95", src: srcSieve, demand: least, capacity: aos, remedy: "a cloth with openings of {0} at least", remedyQ: least}
	if r.MaxAOS < sieve100 { // no opening does both
		holds.remedy, holds.remedyQ = "no cloth holds this soil without clogging: "+sandStage, q.Q{}
		clogs.remedy, clogs.remedyQ = holds.remedy, q.Q{}
	}
	govern(&c, []condition{holds, clogs,
		{text: "Lets the water through", formula: "r = ψmin/ψ", src: srcDefault, demand: q.Of("ψmin", r.Default.Permittivity, q.Permittivity), capacity: psi,
			remedy: "a cloth with a permittivity of {0}", remedyQ: q.Of("ψmin", r.Default.Permittivity, q.Permittivity)},
		{text: "More permeable than the soil", formula: "r = kmin/kg", src: srcCloth, demand: q.Of("kmin", r.MinK, q.Permeability), capacity: q.Of("kg", in.K, q.Permeability),
			remedy: "a cloth with a permeability of {0}", remedyQ: q.Of("kmin", r.MinK, q.Permeability)},
		{text: "Fines of the soil", formula: "r = fines/0.85", src: srcSieve, demand: q.Of("fines", r.Fines, q.Ratio), capacity: q.Of("most", aloneFines, q.Ratio),
			remedy: sandStage},
	})
	return c, nil
}
