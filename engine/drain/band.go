package drain

import (
	"errors"
	"fmt"
	"math"

	"hillset/engine/check"
	"hillset/engine/earth/limit"
	q "hillset/engine/quantity"
	"hillset/engine/tables"
)

const srcBand = "NRCS NEH 633 chapter 26 (memory, part of it confirmed second-hand)"

// Band is the filter that a base soil asks for: what a grading chart shows.
type Band struct {
	Base     Grading // as given
	Regraded Grading // its part finer than 4.75 mm; Base where it has no gravel
	Fines    float64 // A, share of Regraded finer than 0.075 mm
	D85      float64 // of Regraded, mm
	Category int     // 1 to 4

	MinD15, MaxD15 float64 // mm
	MinD10, MaxD10 float64
	MinD60, MaxD60 float64
	MinD5          float64
	MaxD90         float64
	MaxD100        float64
	// PermD15 is the least D15 that permeability alone asks for; MinD15 is
	// larger where the band was narrowed to five times.
	PermD15 float64
	// Fine and Coarse are the two limits of the band as curves.
	Fine, Coarse Grading
}

// Numbers of the method, mm and shares.
const (
	leastD15   = 0.1
	floorD15   = 0.2 // of the largest D15 in category 1
	sandD15    = 0.7 // of category 2
	sandDisp   = 0.5
	bandWidth  = 5.0
	d15over10  = 1.2
	d60over10  = 6.0
	largest    = 75.0
	passFactor = 4.0
)

// ErrNoBand is the refusal of a soil, mostly gravel, whose fine part must be
// held back by a filter that is tighter than the soil as a whole.
var ErrNoBand = errors.New("no filter holds the fine part of this soil back and still drains the whole of it: " +
	"it needs a designer, or a cloth or several stages")

// FilterBand is the band within which a filter for a base soil must lie, by
// the categories of NEH 633 chapter 26 with the gravel regraded. Dispersive
// clays have narrower limits.
func FilterBand(base Grading, dispersive bool) (Band, error) {
	b := Band{Base: base}
	var err error
	if b.Regraded, err = base.Regraded(); err != nil {
		return Band{}, limit.In("base", err)
	}
	if b.Fines, err = b.Regraded.Fines(); err != nil {
		return Band{}, limit.In("base", err)
	}
	if b.D85, err = b.Regraded.D(0.85); err != nil {
		return Band{}, limit.In("base", err)
	}
	d15, err := base.D(0.15)
	if err != nil {
		return Band{}, limit.In("base", err)
	}
	b.Category, b.MaxD15 = category(b.Fines, b.D85, dispersive)
	b.PermD15 = math.Max(passFactor*d15, leastD15)
	if b.PermD15 > b.MaxD15 {
		return Band{}, fmt.Errorf("%w (D15 at most %.3g mm, at least %.3g mm)", ErrNoBand, b.MaxD15, b.PermD15)
	}
	b.MinD15 = math.Max(b.PermD15, b.MaxD15/bandWidth)
	b.MaxD10, b.MinD10 = b.MaxD15/d15over10, b.MinD15/d15over10
	b.MaxD60 = d60over10 * b.MaxD10
	b.MinD60 = b.MaxD60 / bandWidth
	b.MinD5, b.MaxD100 = finesSize, largest
	if b.MaxD90, err = segregation(b.MinD10); err != nil {
		return Band{}, err
	}
	b.Fine = Grading{{b.MinD5, 0.05}, {b.MinD15, 0.15}, {math.Max(b.MinD60, b.MinD15*(1+1e-6)), 0.60}}
	// A limit higher up the curve is also one on everything finer.
	d90 := math.Min(b.MaxD90, b.MaxD100)
	d60 := math.Min(b.MaxD60, d90*(1-1e-6))
	b.Coarse = Grading{{math.Min(b.MaxD15, d60*(1-1e-6)), 0.15}, {d60, 0.60}, {d90, 0.90}, {b.MaxD100, 1}}
	return b, nil
}

// category gives the category of a base soil and the largest D15 of its
// filter, mm, from the regraded fines and d85.
func category(fines, d85 float64, dispersive bool) (int, float64) {
	sand := sandD15
	if dispersive {
		sand = sandDisp
	}
	switch {
	case fines > 0.85:
		k := 9.0
		if dispersive {
			k = 6.5
		}
		return 1, math.Max(k*d85, floorD15)
	case fines >= 0.40:
		return 2, sand
	case fines >= 0.15:
		return 3, sandD15 + (0.40-fines)/0.25*(math.Max(4*d85, sandD15)-sandD15)
	}
	return 4, 4 * d85
}

// segregation is the largest D90 of a filter whose least D10 is given, mm.
func segregation(d10 float64) (float64, error) {
	t := tables.Default().Segregation()
	for _, n := range t {
		if d10 < n.X {
			return n.Y, nil
		}
	}
	return 0, &limit.Error{Field: "min D10", Value: d10, Hi: t[len(t)-1].X, Kind: q.Grain, Why: "the table of segregation ends there"}
}

// BandCheck holds a filter against the band. Sizes that its curve does not
// reach are named in the assumptions. It is not made where no band exists.
func BandCheck(base, filter Grading, dispersive bool) (check.Check, Band, error) {
	const id, title, part = "filter-band", "Filter against soil, by category", "filter"
	b, err := FilterBand(base, dispersive)
	if errors.Is(err, ErrNoBand) {
		return check.Unchecked(id, title, part, err.Error()), Band{}, nil
	}
	if err != nil {
		return check.Check{}, Band{}, err
	}
	d15, err := filter.D(0.15)
	if err != nil {
		return check.Check{}, Band{}, limit.In("filter", err)
	}
	c := check.Check{ID: id, Title: title, Part: part,
		Method: "Filter band by the category of the base soil", Source: srcBand,
		Assumptions: []string{"the curves are those of the materials on the site", "the filter has no gap in its grading"},
		Validity:    "Base soil as tested; a gap in its grading or dispersive clay needs its own tests.",
		Working:     b.working(dispersive)}
	one := q.Of("D15F", d15, q.Grain)
	fine := "Permeability"
	if b.MinD15 > b.PermD15 {
		fine = "Not finer than the band"
	}
	conds := []condition{
		{text: "Retention", formula: "r = D15F/D15max", src: srcBand, demand: one, capacity: q.Of("D15max", b.MaxD15, q.Grain),
			remedy: "a finer filter, with a D15 of {0} at most, or a cloth or a stage of sand before it", remedyQ: q.Of("D15max", b.MaxD15, q.Grain)},
		{text: fine, formula: "r = D15min/D15F", src: srcBand, demand: q.Of("D15min", b.MinD15, q.Grain), capacity: one,
			remedy: "a coarser filter, with a D15 of {0} at least", remedyQ: q.Of("D15min", b.MinD15, q.Grain)},
	}
	for _, s := range []struct {
		share      float64
		name       string
		least, top float64
	}{{0.05, "D5", b.MinD5, 0}, {0.10, "D10", 0, b.MaxD10}, {0.60, "D60", b.MinD60, b.MaxD60}, {0.90, "D90", 0, b.MaxD90}, {1, "D100", 0, b.MaxD100}} {
		d, err := filter.D(s.share)
		if err != nil {
			c.Assumptions = append(c.Assumptions, s.name+" is not on the curve of the filter and was not compared")
			continue
		}
		got := q.Of(s.name+"F", d, q.Grain)
		if s.least > 0 {
			m := q.Of(s.name+"min", s.least, q.Grain)
			conds = append(conds, condition{text: "Least " + s.name, formula: "r = " + m.Sym + "/" + got.Sym, src: srcBand, demand: m, capacity: got,
				remedy: "a filter with " + s.name + " of {0} at least", remedyQ: m})
		}
		if s.top > 0 {
			m := q.Of(s.name+"max", s.top, q.Grain)
			conds = append(conds, condition{text: "Largest " + s.name, formula: "r = " + got.Sym + "/" + m.Sym, src: srcBand, demand: got, capacity: m,
				remedy: "a filter with " + s.name + " of {0} at most", remedyQ: m})
		}
	}
	govern(&c, conds)
	return c, b, nil
}

// working writes how the band was found.
func (b *Band) working(dispersive bool) []check.Line {
	d85, a := q.Of("d85", b.D85, q.Grain), q.Of("A", b.Fines, q.Ratio)
	rule := [...]string{"D15max = 9·d85, not below 0.2 mm", "D15max = 0.7 mm", "D15max = 0.7 + (0.40 − A)/0.25·(4·d85 − 0.7), 4·d85 not below 0.7", "D15max = 4·d85"}[b.Category-1]
	if dispersive {
		switch b.Category {
		case 1:
			rule = "D15max = 6.5·d85, not below 0.2 mm"
		case 2:
			rule = "D15max = 0.5 mm"
		}
	}
	top := q.Of("D15max", b.MaxD15, q.Grain)
	return []check.Line{
		check.Step("Soil finer than 4.75 mm: share finer than 0.075 mm", "A = p(0.075)/p(4.75)", srcBand, a),
		check.Step("Its d85", "d85, straight over log size", srcBand, d85),
		check.Step("Category of the base soil", "1 above 85 %, 2 from 40 %, 3 from 15 %, 4 below", srcBand, q.Of("category", float64(b.Category), q.None), a),
		check.Step("Largest D15 of the filter", rule, srcBand, top, d85, a),
		check.Step("Least D15 for permeability", "D15p = 4·d15 of the whole soil, not below 0.1 mm", srcBand, q.Of("D15p", b.PermD15, q.Grain)),
		check.Step("Least D15", "D15min = D15p, not below D15max/5", srcBand, q.Of("D15min", b.MinD15, q.Grain), top),
		check.Step("Largest D10 and D60", "D60max = 6·D15max/1.2", srcBand, q.Of("D60max", b.MaxD60, q.Grain), top),
		check.Step("Largest D90, so that it does not segregate", "table by D15min/1.2", srcBand, q.Of("D90max", b.MaxD90, q.Grain), q.Of("D15min", b.MinD15, q.Grain)),
	}
}
