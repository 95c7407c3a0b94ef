package drain

import (
	"hillset/engine/check"
	"hillset/engine/earth/limit"
	q "hillset/engine/quantity"
)

const (
	srcRetain = "D15F/D85B and D50F/D50B: Horonjeff p. 439 (verified); D15F/D15B up to 40: Corps of Engineers, coastal hydraulics (verified)"
	srcPass   = "D15F/D15B at least 5: Horonjeff and Corps of Engineers (verified)"
	srcEven   = "Cu of a filter at most 20: Horonjeff p. 439 (verified)"
	srcHoles  = "USBR, at least 2 (memory); Corps of Engineers eq. 9-10 ask for 1.0 to 1.2 at holes and 1.2 to 1.4 at slots (verified)"
)

// Ratios of the classic filter rules.
const (
	retain85 = 5.0  // D15F/D85B at most
	retain15 = 40.0 // D15F/D15B at most
	retain50 = 25.0 // D50F/D50B at most
	pass15   = 5.0  // D15F/D15B at least
	evenCu   = 20.0
	holes    = 2.0 // D85 of the rock over the opening, at least
)

// ClassicLimits are the bounds that the classic rules set on a filter, mm.
type ClassicLimits struct {
	MinD15, MaxD15 float64
	MaxD50         float64 // 0 where the D50 of the base was not given
}

// Classic gives the bounds of a filter for a base soil with the sizes d15, d50
// and d85, mm; d50 may be 0, not known.
func Classic(d15, d50, d85 float64) (ClassicLimits, error) {
	err := limit.First(
		limit.Within("d15", d15, 1e-5, 1000, q.Grain),
		limit.Within("d85", d85, d15, 1000, q.Grain))
	if err == nil && d50 != 0 {
		err = limit.Within("d50", d50, d15, d85, q.Grain)
	}
	if err != nil {
		return ClassicLimits{}, err
	}
	return ClassicLimits{MinD15: pass15 * d15, MaxD15: min(retain85*d85, retain15*d15), MaxD50: retain50 * d50}, nil
}

// ClassicCheck holds a filter against a base soil by the classic ratios, both
// as full gradings.
func ClassicCheck(base, filter Grading) (check.Check, error) {
	b, err := base.sizes(0.15, 0.50, 0.85)
	if err != nil {
		return check.Check{}, limit.In("base", err)
	}
	f, err := filter.sizes(0.10, 0.15, 0.50, 0.60)
	if err != nil {
		return check.Check{}, limit.In("filter", err)
	}
	l, err := Classic(b[0], b[1], b[2])
	if err != nil {
		return check.Check{}, err
	}
	c := check.Check{ID: "filter-classic", Title: "Filter against soil, classic ratios", Part: "filter",
		Method: "Retention and permeability ratios", Source: srcRetain + "; " + srcPass + "; " + srcEven,
		Assumptions: []string{"the curves are those of the materials on the site", "the filter has no gap in its grading"},
		Validity:    "Soils that are not dispersive; for soil with gravel the rules by category are better founded."}
	d15 := q.Of("D15F", f[1], q.Grain)
	c.Working = append(c.Working,
		check.Step("Largest D15 of the filter", "D15max = least of 5·d85 and 40·d15", srcRetain, q.Of("D15max", l.MaxD15, q.Grain), q.Of("d85", b[2], q.Grain), q.Of("d15", b[0], q.Grain)),
		check.Step("Least D15 of the filter", "D15min = 5·d15", srcPass, q.Of("D15min", l.MinD15, q.Grain), q.Of("d15", b[0], q.Grain)))
	govern(&c, []condition{
		{text: "Retention", formula: "r = D15F/D15max", src: srcRetain, demand: d15, capacity: q.Of("D15max", l.MaxD15, q.Grain),
			remedy: "a finer filter, with a D15 of {0} at most", remedyQ: q.Of("D15max", l.MaxD15, q.Grain)},
		{text: "Permeability", formula: "r = D15min/D15F", src: srcPass, demand: q.Of("D15min", l.MinD15, q.Grain), capacity: d15,
			remedy: "a coarser filter, with a D15 of {0} at least", remedyQ: q.Of("D15min", l.MinD15, q.Grain)},
		{text: "Like curves", formula: "r = D50F/(25·d50)", src: srcRetain, demand: q.Of("D50F", f[2], q.Grain), capacity: q.Of("25·d50", l.MaxD50, q.Grain),
			remedy: "a filter with a D50 of {0} at most", remedyQ: q.Of("D50max", l.MaxD50, q.Grain)},
		{text: "Grains do not part when placed", formula: "r = Cu/20", src: srcEven, demand: q.Of("Cu", f[3]/f[0], q.Factor), capacity: q.Of("Cu max", evenCu, q.Factor),
			remedy: "a filter of grains more alike"},
	})
	return c, nil
}

// SizesCheck holds a filter against a base soil by the classic ratios where only
// some sizes are known, mm: d15 and d85 of the base and D15 of the filter; d50 of
// both may be 0, not known.
func SizesCheck(d15, d50, d85, f15, f50 float64) (check.Check, error) {
	l, err := Classic(d15, d50, d85)
	if err := limit.First(err, limit.Within("D15 of the filter", f15, 1e-5, 1000, q.Grain)); err != nil {
		return check.Check{}, err
	}
	c := check.Check{ID: "filter-classic", Title: "Filter against soil, classic ratios", Part: "filter",
		Method: "Retention and permeability ratios", Source: srcRetain + "; " + srcPass,
		Assumptions: []string{"the sizes are those of the materials on the site", "how even the filter is was not compared: its sieves are not given"},
		Validity:    "Soils that are not dispersive; for soil with gravel the rules by category are better founded."}
	d := q.Of("D15F", f15, q.Grain)
	conds := []condition{
		{text: "Retention", formula: "r = D15F/D15max, D15max = least of 5·d85 and 40·d15", src: srcRetain, demand: d, capacity: q.Of("D15max", l.MaxD15, q.Grain),
			remedy: "a finer filter, with a D15 of {0} at most, or a cloth", remedyQ: q.Of("D15max", l.MaxD15, q.Grain)},
		{text: "Permeability", formula: "r = D15min/D15F, D15min = 5·d15", src: srcPass, demand: q.Of("D15min", l.MinD15, q.Grain), capacity: d,
			remedy: "a coarser filter, with a D15 of {0} at least", remedyQ: q.Of("D15min", l.MinD15, q.Grain)},
	}
	if d50 > 0 && f50 > 0 {
		conds = append(conds, condition{text: "Like curves", formula: "r = D50F/(25·d50)", src: srcRetain, demand: q.Of("D50F", f50, q.Grain), capacity: q.Of("25·d50", l.MaxD50, q.Grain),
			remedy: "a filter with a D50 of {0} at most", remedyQ: q.Of("D50max", l.MaxD50, q.Grain)})
	}
	govern(&c, conds)
	return c, nil
}

// OpeningIn is a pipe with holes or slots in rock.
type OpeningIn struct {
	D85  float64 // of the rock round the pipe, mm
	Size float64 // diameter of the holes or width of the slots, mm
	Slot bool
}

// Openings holds the ratio of rock to opening and what the rules say to it.
type Openings struct {
	Ratio float64 // D85 over the opening
	// Corps says whether the lower and the upper end of the Corps' rule are
	// met: 1.0 and 1.2 for holes, 1.2 and 1.4 for slots.
	Corps [2]bool
	USBR  bool // at least 2: the rule of the check
}

// Opening compares the rock round a pipe with its openings.
func Opening(in OpeningIn) (Openings, error) {
	err := limit.First(
		limit.Within("d85", in.D85, 1e-3, 1000, q.Grain),
		limit.Within("opening", in.Size, 0.1, 100, q.Grain))
	if err != nil {
		return Openings{}, err
	}
	lo, hi := 1.0, 1.2
	if in.Slot {
		lo, hi = 1.2, 1.4
	}
	r := in.D85 / in.Size
	return Openings{Ratio: r, Corps: [2]bool{r >= lo, r >= hi}, USBR: r >= holes}, nil
}

// OpeningCheck asks for rock of twice the opening, so that it cannot run into
// the pipe.
func OpeningCheck(in OpeningIn) (check.Check, error) {
	o, err := Opening(in)
	if err != nil {
		return check.Check{}, err
	}
	c := check.Check{ID: "drain-openings", Title: "Openings of the pipe against the rock", Part: "drain", Method: "Rock size over opening", Source: srcHoles,
		Assumptions: []string{"the rock touches the pipe all round"}}
	c.Working = append(c.Working, check.Step("Rock over opening", "a = D85/d", srcHoles, q.Of("a", o.Ratio, q.Factor), q.Of("D85", in.D85, q.Grain), q.Of("d", in.Size, q.Grain)))
	govern(&c, []condition{{text: "Asked for", formula: "r = 2/a", src: srcHoles, demand: q.Of("a req", holes, q.Factor), capacity: q.Of("a", o.Ratio, q.Factor),
		remedy: "rock with a D85 of {0} round the pipe, or a pipe with finer openings", remedyQ: q.Of("D85", holes*in.Size, q.Grain)}})
	return c, nil
}
