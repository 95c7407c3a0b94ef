package box

import (
	"math"

	"hillset/engine/check"
	"hillset/engine/frame"
	"hillset/engine/quantity"
	"hillset/engine/steel"
)

// Fresh is the unit weight of fresh concrete, which presses like a fluid, kN/m3
// (structure reference, section 5, derived).
const Fresh = 24.0

// factorFluid is the load factor of a fluid of known greatest height: 1.4(D + F)
// (structure reference, section 7, verified).
const factorFluid = 1.4

// Pour is fresh concrete poured in lifts between the outside of a wall and a
// form or the cut.
type Pour struct {
	Strip Strip   // the wall as it stands inside, without load
	Lift  float64 // m, height of one pour
}

// PourResult is what comes out of a pour.
type PourResult struct {
	Strip StripResult // under the worst lift
	Span  float64     // m, of the sheet above what has hardened, for that lift
	Base  float64     // m above the bottom support, where that lift starts
	Ratio Pair
	Bow   float64 // m, largest of that lift
	Most  float64 // m, the largest lift within limits; the whole height where all are
}

// minLift is the least lift that is looked at, m.
const minLift = 0.1

// Solve loads the sheet with one lift after the other. What is poured stands
// until it holds by itself, so that a lift starts at a new support of the sheet:
// its head presses on the sheet from there up.
func (in Pour) Solve() (PourResult, error) {
	var r PourResult
	ready, err := in.Strip.Ready()
	if err != nil {
		return r, err
	}
	h := in.Strip.Height
	if err := quantity.Within("lift of the pour", in.Lift, minLift, 10, quantity.Length); err != nil {
		return r, err
	}
	if r, err = ready.pour(math.Min(in.Lift, h)); err != nil {
		return r, err
	}
	r.Most, err = ready.mostLift()
	return r, err
}

// pour is the worst of the lifts of one height.
func (s *ReadyStrip) pour(lift float64) (PourResult, error) {
	var worst PourResult
	h := s.strip.Height
	for base := 0.0; base < h-minGap; base += lift {
		r := PourResult{Base: base, Span: h - base, Strip: s.strength}
		places := []float64{0}
		for _, w := range s.places[1:] {
			if w-base > minGap {
				places = append(places, w-base)
			}
		}
		top := math.Min(lift, r.Span)
		if err := r.Strip.statics(places, frame.Load{{S: 0, P: Fresh * top}, {S: top, P: 0}}); err != nil {
			return r, err
		}
		v := r.Strip.worst() // by the factor of earth
		asd := math.Max(math.Max(r.Strip.FieldRatio.ASD, r.Strip.HogRatio.ASD), math.Max(r.Strip.ShearRatio.ASD, r.Strip.TogetherRatio.ASD))
		lrfd := math.Max(math.Max(r.Strip.FieldRatio.LRFD, r.Strip.HogRatio.LRFD), math.Max(r.Strip.ShearRatio.LRFD, r.Strip.TogetherRatio.LRFD))
		r.Ratio = Pair{asd, lrfd * factorFluid / factorWall}
		if v > worst.Strip.worst() || base == 0 {
			r.Bow = r.Strip.Sag
			worst = r
		}
	}
	return worst, nil
}

// mostLift is the largest lift up to which the sheet is within limits: the first
// one beyond is looked for in coarse steps, as over wales more is not always
// worse.
func (s *ReadyStrip) mostLift() (float64, error) {
	const coarse, fine = 0.05, 1e-3 // m
	within := func(lift float64) (bool, error) {
		r, err := s.pour(lift)
		return r.Ratio.largest() <= 1, err
	}
	good := 0.0
	for good < s.strip.Height {
		v := math.Min(math.Max(minLift, good+coarse), s.strip.Height)
		ok, err := within(v)
		if err != nil {
			return 0, err
		}
		if ok {
			good = v
			continue
		}
		for v-good > fine {
			mid := (v + good) / 2
			if ok, err = within(math.Max(mid, fine)); err != nil {
				return 0, err
			}
			if ok {
				good = mid
			} else {
				v = mid
			}
		}
		return good, nil
	}
	return s.strip.Height, nil
}

// Check makes the check of a sheet under fresh concrete.
func (in Pour) Check() (check.Check, PourResult, error) {
	r, err := in.Solve()
	if err != nil {
		return check.Check{}, r, err
	}
	c := check.Check{
		ID: "pour", Title: "Fresh concrete against the sheet",
		Method: "Fluid head of one lift on the bare sheet, ASD and LRFD",
		Source: "structure reference section 5, " + quantity.Brief.Text(Fresh, quantity.UnitWeight) + " as a fluid over the lift (derived); " + srcEff + "; " + srcBend + "; load factor 1.4F (verified)",
		Assumptions: []string{
			"Each lift stands until the one below it has hardened.",
			"The sheet is pinned along its edges and above what has hardened; bars inside that are drawn are in before the pour.",
			"No fill stands beside the box yet, and nothing leans on it from inside.",
			"What the fresh concrete bends the sheet stays in it; it is not added to what the earth does later.",
		},
		Validity: "Full fluid head: no relief by setting while it is poured. A form on the other side must hold the same pressure; it is not checked.",
		Case:     Allowable[0].Name, CaseLRFD: Strength[0].Name,
	}
	r.Strip.govern(&c)
	c.RatioLRFD = r.Ratio.LRFD
	c.Working = []check.Line{{
		Text: "Pressure at the foot of the worst lift", Formula: "p = γc·h",
		Terms:  []quantity.Q{quantity.Of("γc", Fresh, quantity.UnitWeight), quantity.Of("h", math.Min(in.Lift, r.Span), quantity.Length)},
		Result: quantity.Of("p", Fresh*math.Min(in.Lift, r.Span), quantity.Pressure), Source: "structure reference, section 5 (derived)",
	}, {
		Text: "Largest moment of the sheet", Formula: "Rt = γc·h³/(6·L), M = Rt·(L − h) + ⅔·Rt·h·√(h/(3·L)) without wales",
		Terms: []quantity.Q{quantity.Of("L", r.Span, quantity.Length), quantity.Of("lift from", r.Base, quantity.Length),
			quantity.Of("M over a wale", r.Strip.Hog.ASD, quantity.LineMoment)},
		Result: quantity.Of("M", r.Strip.Field.ASD, quantity.LineMoment), Source: srcStat,
	}}
	c.Working = append(c.Working, effLines(&r.Strip.Outer, "between supports")...)
	c.Working = append(c.Working, check.Line{
		Text: "Allowable strength", Formula: "r = M·Ω/Mn", Result: quantity.Of("r", r.Ratio.ASD, quantity.Ratio), Source: srcBend,
	}, check.Line{
		Text: "Bow of the sheet under that lift", Formula: "E·I·w'''' = p", Result: quantity.Of("w", r.Bow, quantity.Thickness), Source: srcStat,
	}, check.Line{
		Text: "Largest lift within limits", Formula: "ratio of the worst lift = 1", Result: quantity.Of("hmax", r.Most, quantity.Length), Source: "solved",
	})
	if c.Worst() > 1 {
		c.Remedy = "Lifts of no more than {0}, or props inside while it is poured."
		c.RemedyQ = []quantity.Q{quantity.Of("", r.Most, quantity.Length)}
	}
	return c, r, nil
}

// Ratio is the ratio of the worst lift, without its working or the largest lift.
func (in Pour) Ratio() (Pair, error) {
	if err := quantity.Within("lift of the pour", in.Lift, minLift, 10, quantity.Length); err != nil {
		return Pair{}, err
	}
	ready, err := in.Strip.Ready()
	if err != nil {
		return Pair{}, err
	}
	r, err := ready.pour(math.Min(in.Lift, in.Strip.Height))
	return r.Ratio, err
}

// PropSpan is the largest upright span of a sheet that runs over several lines
// of props, within limits under an even pressure in kPa, m: w·L²/10 (derived).
func PropSpan(s Strip, p float64) (float64, error) {
	if err := quantity.Within("pressure on the sheet", p, 0.1, 1e3, quantity.Pressure); err != nil {
		return 0, err
	}
	ready, err := s.Ready()
	if err != nil {
		return 0, err
	}
	r := &ready.strength
	m := math.Min(r.Outer.Mn, r.Inner.Mn)
	can := math.Min(m/steel.OmegaBending, m*steel.PhiBending/factorFluid)
	return math.Min(math.Sqrt(10*can/p), s.Height), nil
}
