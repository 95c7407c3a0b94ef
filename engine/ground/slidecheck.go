package ground

import (
	"math"

	"hillset/engine/check"
	q "hillset/engine/quantity"
)

// SlidingCheck is the sliding of SlideBox as a check. Where passive resistance
// is given, it is counted with RequiredPassive, and left out with Required;
// the better of the two counts.
func SlidingCheck(in SlideIn) (check.Check, error) {
	s, err := SlideBox(in)
	if err != nil {
		return check.Check{}, err
	}
	if err := required("required", in.Required); err != nil {
		return check.Check{}, err
	}
	c := factors("sliding", "Sliding out of the hill", in.Required, s.FS)
	if in.Passive > 0 {
		if err := required("required_passive", in.RequiredPassive); err != nil {
			return check.Check{}, err
		}
		if p := factors(c.ID, c.Title, in.RequiredPassive, s.FSPassive); p.Ratio < c.Ratio {
			c = p
		}
	}
	c.Method = "Friction of the base and of the sides against the thrust on the back"
	c.Source = srcSlide + "; " + srcSides
	c.Assumptions = in.slideAssumptions()
	c.Working = in.slideWorking(s)
	if c.Ratio > 1 {
		lacks := in.Required*s.Driving - s.Base - s.Side
		c.Remedy = "{0} more resistance without passive pressure: friction of proven fill on the sides, deadmen, wing walls tied to the box; or drain the fill behind"
		c.RemedyQ = []q.Q{q.Of("ΔR", lacks, q.Force)}
	}
	return c, nil
}

func (in *SlideIn) slideAssumptions() []string {
	a := []string{"nothing holds the open front"}
	if in.Side*in.Share > 0 {
		a = append(a, "the fill beside the box is proven and holds its sides by friction")
	}
	if in.Passive > 0 {
		a = append(a, "the ground before the toe beam stays and is level")
	}
	return a
}

func (in *SlideIn) slideWorking(s Slide) []check.Line {
	n, e, uh := q.Of("N", s.Normal, q.Force), q.Of("E", in.Earth, q.Force), q.Of("Uh", in.Water, q.Force)
	t := q.Of("tan δ", in.TanBase, q.None)
	side := q.Of("C·F", s.Side, q.Force)
	lines := []check.Line{
		check.Step("Load on the base", "N = W − U", srcSlide, n, q.Of("W", in.Weight, q.Force), q.Of("U", in.Uplift, q.Force)),
		check.Step("Friction of the base", "Rb = N·tan δ, not below 0", srcSlide, q.Of("Rb", s.Base, q.Force), n, t),
		check.Step("Share of the friction on the sides", "C·F", srcSides, side, q.Of("C", in.Share, q.Ratio), q.Of("F", in.Side, q.Force)),
		check.Step("Factor of safety by the base alone", "FSb = Rb/(E + Uh)", srcSlide, q.Of("FSb", s.FSBase, q.Factor), q.Of("Rb", s.Base, q.Force), e, uh),
		check.Step("Factor of safety", "FS = (N·tan δ + C·F)/(E + Uh)", srcSlide, q.Of("FS", s.FS, q.Factor), n, t, side, e, uh),
	}
	if in.Passive > 0 {
		p := q.Of("Pp", s.Passive, q.Force)
		lines = append(lines, check.Step("With passive pressure on the toe beam", "FSp = (N·tan δ + C·F + Pp)/(E + Uh)", srcSlide,
			q.Of("FSp", s.FSPassive, q.Factor), n, t, side, p, e, uh))
	}
	if in.EarthActive > 0 {
		lines = append(lines, check.Step("Once the box has moved and the soil relaxed", "FSa = (N·tan δ + C·F)/(Ea + Uh)", srcSlide,
			q.Of("FSa", s.FSActive, q.Factor), n, t, side, q.Of("Ea", in.EarthActive, q.Force), uh))
	}
	return lines
}

// OverturningCheck is the overturning of SlideBox about the lower front edge
// as a check.
func OverturningCheck(in SlideIn) (check.Check, error) {
	s, err := SlideBox(in)
	if err != nil {
		return check.Check{}, err
	}
	if err := required("required", in.Required); err != nil {
		return check.Check{}, err
	}
	c := factors("overturning", "Overturning about the front edge", in.Required, s.FSOver)
	c.Method = "Moments about the lower front edge"
	c.Source = srcOver
	c.Assumptions = []string{"friction on the sides is left out"}
	mr, mo := q.Of("MR", s.Resisting, q.Moment), q.Of("MO", s.Overturning, q.Moment)
	c.Working = []check.Line{
		check.Step("Resisting moment", "MR = W·a", srcOver, mr, q.Of("W", in.Weight, q.Force), q.Of("a", s.Resisting/in.Weight, q.Length)),
		check.Step("Overturning moment", "MO = E·zE + Uh·zU + U·xU", srcOver, mo,
			q.Of("E", in.Earth, q.Force), q.Of("zE", in.EarthLevel, q.Length),
			q.Of("Uh", in.Water, q.Force), q.Of("zU", in.WaterLevel, q.Length),
			q.Of("U", in.Uplift, q.Force), q.Of("xU", in.Length/2+in.UpliftBehind, q.Length)),
		check.Step("Factor of safety", "FS = MR/MO", srcOver, q.Of("FS", s.FSOver, q.Factor), mr, mo),
	}
	if c.Ratio > 1 {
		c.Remedy = "lower the water or the soil behind the box by so much that the overturning moment comes down to {0}"
		c.RemedyQ = []q.Q{q.Of("MO", s.Resisting/in.Required, q.Moment)}
	}
	return c, nil
}

// ResultantCheck asks whether the resultant of SlideBox stays in the middle
// third of the base: the eccentricity is the demand, a sixth of the length the
// capacity.
func ResultantCheck(in SlideIn) (check.Check, error) {
	s, err := SlideBox(in)
	if err != nil {
		return check.Check{}, err
	}
	c := check.Check{ID: "resultant", Title: "Resultant in the middle third", RatioLRFD: math.NaN(),
		Method: "Eccentricity of the resultant on the base", Source: srcMiddle,
		Assumptions: []string{"friction on the sides is left out", "the base takes no tension"}}
	e, l := math.Abs(s.E), q.Of("L", in.Length, q.Length)
	c.Demand, c.Capacity = q.Of("e", e, q.Length), q.Of("L/6", in.Length/6, q.Length)
	c.Ratio = e / (in.Length / 6)
	n := q.Of("N", s.Normal, q.Force)
	x0 := q.Of("x0", s.X0, q.Length)
	c.Working = []check.Line{
		check.Step("Resultant from the front edge", "x0 = (MR − MO)/N", srcMiddle, x0,
			q.Of("MR", s.Resisting, q.Moment), q.Of("MO", s.Overturning, q.Moment), n),
		check.Step("Eccentricity", "e = |L/2 − x0|", srcMiddle, c.Demand, l, x0),
		check.Step("Pressure at the front edge", "q = N/(L·B)·(1 + 6e/L), or 2N/(3·x0·B) beyond L/6", srcMiddle, q.Of("q", s.Under.Toe, q.Pressure), n, l,
			q.Of("B", in.Width, q.Length), q.Of("e", s.E, q.Length)),
		check.Step("Pressure at the back edge", "q = N/(L·B)·(1 − 6e/L), not below 0", srcMiddle, q.Of("q", s.Under.Heel, q.Pressure), n, l,
			q.Of("B", in.Width, q.Length), q.Of("e", s.E, q.Length)),
	}
	if c.Ratio > 1 && s.Normal > 0 {
		c.Remedy = "bring the moment of the thrusts and of uplift about the middle of the base down to {0}"
		c.RemedyQ = []q.Q{q.Of("M", s.Normal*in.Length/6, q.Moment)}
	}
	return c, nil
}
