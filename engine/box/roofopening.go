package box

import (
	"math"

	"hillset/engine/check"
	"hillset/engine/quantity"
	"hillset/engine/steel"
)

// RoofOpening is a framed hole in the roof: two trimmers beside it span from
// rail to rail, and bars along the box from trimmer to trimmer.
type RoofOpening struct {
	Sheet    RoofStrip // the loads of a metre of roof there
	Width    float64   // m along the box
	Bar      steel.Bar
	BarSteel Material
}

// RoofOpeningResult is what comes out of it.
type RoofOpeningResult struct {
	Trib           float64 // m of roof on a trimmer
	M, P           Pair    // kNm, kN of a trimmer, first order
	Mn, Pn, PE     float64
	Grow           Pair // by which the push raises the moment
	Trimmer, Cross Pair // ratios
	Case, CaseLRFD string
}

// Solve does the statics and rates the frame. The bars along the box are taken
// to carry the roof as far as its middle.
func (in RoofOpening) Solve() (RoofOpeningResult, error) {
	var r RoofOpeningResult
	for _, err := range []error{
		in.Sheet.checkSheet(), in.Sheet.checkLoads(), in.BarSteel.check(),
		quantity.Within("width of the opening", in.Width, 0.01, 14, quantity.Length), quantity.Within("bar area", in.Bar.Area, 1e-6, 1, quantity.Area),
	} {
		if err != nil {
			return r, err
		}
	}
	var err error
	if r.Mn, err = in.Bar.Moment(steel.X, in.BarSteel.Fy, in.BarSteel.E); err != nil {
		return r, err
	}
	if r.Pn, err = weakColumn(in.Bar, in.BarSteel, in.Sheet.Span); err != nil {
		return r, err
	}
	r.Trib = (in.Width + in.Sheet.Profile.Pitch()) / 2
	l := in.Sheet.Span
	var q Pair
	q.ASD, r.Case = Largest(Allowable, in.Sheet.effects())
	q.LRFD, r.CaseLRFD = Largest(Strength, in.Sheet.effects())
	r.M, r.P = q.Times(r.Trib*l*l/8), in.Sheet.Thrust.Times(r.Trib)
	r.P = Pair{math.Max(0, r.P.ASD), math.Max(0, r.P.LRFD)}
	if r.PE, err = steel.Euler(in.BarSteel.E, in.Bar.Ix, l); err != nil {
		return r, err
	}
	r.Grow = Pair{bowing(r.P.ASD*asdForm.raise, r.PE), bowing(r.P.LRFD*lrfdForm.raise, r.PE)}
	r.Trimmer = Pair{
		steel.H1(r.P.ASD, r.Pn/steel.OmegaTube, bowed(r.M.ASD, r.Grow.ASD), r.Mn/steel.OmegaBending),
		steel.H1(r.P.LRFD, r.Pn*steel.PhiTube, bowed(r.M.LRFD, r.Grow.LRFD), r.Mn*steel.PhiBending),
	}
	m := q.Times(l / 2 * in.Width * in.Width / 8)
	r.Cross = Pair{m.ASD * steel.OmegaBending / r.Mn, m.LRFD / (steel.PhiBending * r.Mn)}
	return r, nil
}

// Ratio is what governs.
func (r *RoofOpeningResult) Ratio() Pair {
	return Pair{math.Max(r.Trimmer.ASD, r.Cross.ASD), math.Max(r.Trimmer.LRFD, r.Cross.LRFD)}
}

// FramedRoof checks the frame of a hole in the roof.
func FramedRoof(in RoofOpening) (check.Check, RoofOpeningResult, error) {
	r, err := in.Solve()
	if err != nil {
		return check.Check{}, r, err
	}
	p := r.Ratio()
	c := check.Check{
		ID: "opening", Title: "Roof opening with a frame", Method: "Trimmers from rail to rail, bars from trimmer to trimmer, pinned",
		Source: "beam statics (derived); " + srcH1 + "; " + srcCombos,
		Assumptions: []string{
			"Each trimmer takes half of the opening and half a corrugation, load from above and push of the walls; nothing holds it sideways.",
			"The frame is welded to the sheet all round and to both rails. Purlins are not counted.",
			"Wheels count as the even load that stands for them.",
		},
		Validity: "A hole with round corners. A roof that is cut counts as no diaphragm.",
		Demand:   quantity.Of("r", p.ASD, quantity.Ratio), Capacity: quantity.Of("", 1, quantity.Ratio),
		Ratio: p.ASD, RatioLRFD: p.LRFD, Case: r.Case, CaseLRFD: r.CaseLRFD,
		Working: []check.Line{{
			Text: "Width of roof on a trimmer", Formula: "t = (b + p)/2",
			Terms:  []quantity.Q{quantity.Of("b", in.Width, quantity.Length), quantity.Of("p", in.Sheet.Profile.Pitch(), quantity.Length)},
			Result: quantity.Of("t", r.Trib, quantity.Length), Source: "half of the opening and half a corrugation (derived)",
		}, {
			Text: "Moment of a trimmer, " + r.Case, Formula: "M = q·t·L²/8",
			Terms:  []quantity.Q{quantity.Of("L", in.Sheet.Span, quantity.Length), quantity.Of("Mn", r.Mn, quantity.Moment)},
			Result: quantity.Of("M", r.M.ASD, quantity.Moment), Source: srcStat,
		}, {
			Text: "Push of the walls on it", Formula: "P = N·t",
			Terms:  []quantity.Q{quantity.Of("Pn", r.Pn, quantity.Force)},
			Result: quantity.Of("P", r.P.ASD, quantity.Force), Source: srcStat,
		}, {
			Text: "What the push adds to the moment of a trimmer", Formula: "B1 = 1/(1 − 1.6·P/PE)",
			Terms:  []quantity.Q{quantity.Of("PE", r.PE, quantity.Force)},
			Result: quantity.Of("B1", r.Grow.ASD, quantity.Factor), Source: "AISC 360 App. 8, Cm = 1 (memory)",
		}, {
			Text: "Trimmer, allowable strength; load factors", Formula: "H1-1 with P and B1·M",
			Terms:  []quantity.Q{quantity.Of("ru", r.Trimmer.LRFD, quantity.Ratio)},
			Result: quantity.Of("r", r.Trimmer.ASD, quantity.Ratio), Source: srcH1,
		}, {
			Text: "Bars between the trimmers, allowable strength; load factors", Formula: "rc = Ω·q·(L/2)·b²/(8·Mn)",
			Terms:  []quantity.Q{quantity.Of("ru", r.Cross.LRFD, quantity.Ratio)},
			Result: quantity.Of("rc", r.Cross.ASD, quantity.Ratio), Source: srcStat,
		}},
	}
	if c.Worst() > 1 {
		c.Remedy = "A stronger bar round the opening, a narrower opening, or less cover."
	}
	return c, r, nil
}

// BareRoofOpening checks the corrugation beside a hole in the roof without a
// frame: it carries its own load and that of half the opening.
func BareRoofOpening(in RoofStrip, width float64) (check.Check, RoofResult, error) {
	if err := quantity.Within("width of the opening", width, 0.01, 14, quantity.Length); err != nil {
		return check.Check{}, RoofResult{}, err
	}
	k := 1 + width/2/in.Profile.Pitch()
	c, r, err := RoofSheet(in.times(k))
	if err != nil {
		return c, r, err
	}
	c.ID, c.Title = "opening", "Roof opening without a frame"
	c.Assumptions = append([]string{
		"The corrugation on each side of the opening carries its own load and push, and those of half the opening.",
		"What is left of the sheet hangs on to the sheet beside it.",
	}, c.Assumptions...)
	c.Validity = "A hole with round corners. A roof that is cut counts as no diaphragm. " + c.Validity
	c.Working = append([]check.Line{{
		Text: "Load of the corrugation beside the opening, as a multiple of its own: all loads below are so raised", Formula: "k = 1 + b/(2·p)",
		Terms:  []quantity.Q{quantity.Of("b", width, quantity.Length), quantity.Of("p", in.Profile.Pitch(), quantity.Length)},
		Result: quantity.Of("k", k, quantity.Factor), Source: "equilibrium, within one corrugation (derived)",
	}}, c.Working...)
	if c.Worst() > 1 {
		c.Remedy, c.RemedyQ = "A frame round it from rail to rail, a narrower opening, or less cover.", nil
	}
	return c, r, nil
}

// times raises all loads of a strip of roof.
func (s RoofStrip) times(k float64) RoofStrip {
	s.Dead, s.Live, s.Snow, s.Water = s.Dead*k, s.Live*k, s.Snow*k, s.Water*k
	s.Wheels, s.Thrust = s.Wheels.Scale(k), s.Thrust.Times(k)
	return s
}
