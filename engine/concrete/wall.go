package concrete

import (
	"fmt"
	"math"

	"hillset/engine/box"
	"hillset/engine/check"
	"hillset/engine/frame"
	"hillset/engine/quantity"
)

// Wall is a metre of concrete skin, pinned at the bed and at the roof line of
// the box. Its bars, where it has any, are near the room side.
type Wall struct {
	Section
	Height float64    // m
	Load   frame.Load // kPa over the height from the bed
}

// factorWall is the load factor of all that presses on a wall: 1.6H + 1.6L.
const factorWall = 1.6

// WallResult is what comes out of a wall; forces are those of a metre.
type WallResult struct {
	Strength
	Beam        frame.Beam // service loads
	Mu, Vu      float64    // kNm/m, kN/m, factored
	Bend, Shear float64    // ratios
	Thin        bool       // too few bars: they do not count
}

// ReadyWall is a wall with its strength worked out once. Goroutines may share
// it.
type ReadyWall struct {
	wall Wall
	base WallResult
}

// Ready prepares a wall for many loads. Its own is set aside. Bars fewer than
// the least do not count: such a wall is plain.
func (w Wall) Ready() (*ReadyWall, error) {
	if err := quantity.Within("height of the concrete wall", w.Height, 0.3, 6, quantity.Length); err != nil {
		return nil, err
	}
	out := &ReadyWall{wall: w}
	if !w.Plain() && w.check() == nil && w.Bars.Area() < w.LeastWall() {
		out.base.Thin = true
		w.Bars = Bars{}
	}
	var err error
	out.base.Strength, err = w.Strength()
	return out, err
}

// EI is the stiffness of a metre of wall, uncracked, kNm2/m.
func (w *ReadyWall) EI() float64 { return w.base.EI }

// Plain tells whether no bars count.
func (w *ReadyWall) Plain() bool { return w.base.D == 0 }

// With is the wall under a load, to be checked.
func (w *ReadyWall) With(load frame.Load) Wall {
	out := w.wall
	out.Load = load
	return out
}

// Under solves the wall under another load.
func (w *ReadyWall) Under(load frame.Load) (WallResult, error) {
	r := w.base
	var err error
	if r.Beam, err = frame.Simple(w.wall.Height, load, r.EI); err != nil {
		return r, err
	}
	r.Mu, r.Vu = factorWall*math.Abs(r.Beam.MMax), factorWall*r.Beam.VMax
	r.Bend, r.Shear = r.Mu/(r.Phi*r.Mn), r.Vu/(r.PhiV*r.Vn)
	return r, nil
}

// Worst is the largest ratio of the wall.
func (r *WallResult) Worst() float64 { return math.Max(r.Bend, r.Shear) }

// Solve is Under for a single load.
func (w Wall) Solve() (WallResult, error) {
	ready, err := w.Ready()
	if err != nil {
		return WallResult{}, err
	}
	return ready.Under(w.Load)
}

// Check makes the check of a wall in bending and shear.
func (w Wall) Check() (check.Check, WallResult, error) {
	r, err := w.Solve()
	if err != nil {
		return check.Check{}, r, err
	}
	c := check.Check{
		ID: "concrete-skin", Title: "Concrete skin in bending", Method: "Upright strip pinned at the bed and the roof line, load factors",
		Source: srcPlain, Ratio: math.NaN(), RatioLRFD: r.Worst(), CaseLRFD: box.Strength[1].Name,
		Assumptions: []string{
			"The skin is so much stiffer than the sheet that it carries all of the pressure.",
			"It stands on a strip footing of its own, not on the box and not on the pads: that footing, and how the skin is held at its foot, are not checked.",
			"Its top leans on the edge of the roof, which carries on what it presses there.",
			"The weight of the skin, which helps a plain wall, is not counted.",
		},
		Validity: onlyLRFD,
		Working:  w.working(&r),
	}
	if r.D > 0 {
		c.Source = srcBars
		c.Assumptions = append(c.Assumptions, "The bars stand near the room side, without laps where the moment is largest; the other face is in compression.")
		c.Validity += " Cracking, and bars for shrinkage lengthwise, are not checked."
	}
	c.Demand, c.Capacity = quantity.Of("Mu", r.Mu, quantity.LineMoment), quantity.Of("φ·Mn", r.Phi*r.Mn, quantity.LineMoment)
	if r.Shear > r.Bend {
		c.Demand, c.Capacity = quantity.Of("Vu", r.Vu, quantity.LineLoad), quantity.Of("φ·Vn", r.PhiV*r.Vn, quantity.LineLoad)
	}
	if c.RatioLRFD > 1 {
		w.remedy(&c, &r)
	}
	return c, r, nil
}

// remedy names the thickness of a plain wall that would do.
func (w Wall) remedy(c *check.Check, r *WallResult) {
	if r.D > 0 {
		c.Remedy = "More bars or a thicker skin, a drained fill, or less fill."
		return
	}
	need := r.T*math.Max(math.Sqrt(r.Bend), r.Shear) + w.Thickness - r.T
	c.Remedy = "A plain skin {0} thick, or upright bars near the room side, a drained fill, or less fill."
	c.RemedyQ = []quantity.Q{quantity.Of("", need, quantity.Thickness)}
}

func (w Wall) working(r *WallResult) []check.Line {
	ratio := func(v float64) quantity.Q { return quantity.Of("r", v, quantity.Ratio) }
	out := []check.Line{{
		Text: "Largest factored moment", Formula: "Mu = 1.6·M, V(z) = 0 → M",
		Terms: []quantity.Q{quantity.Of("L", w.Height, quantity.Length), quantity.Of("z", r.Beam.SMax, quantity.Length),
			quantity.Of("M", math.Abs(r.Beam.MMax), quantity.LineMoment)},
		Result: quantity.Of("Mu", r.Mu, quantity.LineMoment), Source: srcStat + "; " + srcLoad,
	}}
	out = append(out, w.Section.lines(&r.Strength)...)
	if r.Thin {
		out = append(out, check.Line{Text: "Bars fewer than the least of a wall: they are not counted", Formula: "As < As,min",
			Terms:  []quantity.Q{quantity.Of("As", w.Bars.Area(), quantity.SheetArea)},
			Result: quantity.Of("As,min", w.LeastWall(), quantity.SheetArea), Source: "ACI 318 11.6.1 (memory)"})
	}
	out = append(out, check.Line{Text: "Bending", Formula: "r = Mu/(φ·Mn)",
		Terms:  []quantity.Q{quantity.Of("φ", r.Phi, quantity.None), quantity.Of("Mn", r.Mn, quantity.LineMoment)},
		Result: ratio(r.Bend), Source: srcStat},
		check.Line{Text: "Shear", Formula: "r = Vu/(φ·Vn)",
			Terms: []quantity.Q{quantity.Of("Vu", r.Vu, quantity.LineLoad), quantity.Of("φ", r.PhiV, quantity.None),
				quantity.Of("Vn", r.Vn, quantity.LineLoad)},
			Result: ratio(r.Shear), Source: srcBars})
	if f, ok := w.thinWall(r); ok {
		out = append(out, check.Line{Text: fmt.Sprintf("For comparison only: the residential rule ACI 332 allows a plain wall like this %.0f %% more", (f-1)*100), Formula: "r/1.5",
			Terms: []quantity.Q{ratio(r.Bend)}, Result: ratio(r.Bend / f), Source: "trade article on ACI 332-04 (verified)"})
	}
	return out
}

// thinWall is the factor of ACI 332 on the moment of plain walls, where its
// conditions hold: 7.5 in and up to 10 ft, or 5.5 in and up to 4 ft.
func (w Wall) thinWall(r *WallResult) (float64, bool) {
	const inch, foot = 0.0254, 0.3048
	return 1.5, r.D == 0 && (w.Thickness >= 7.5*inch-1e-9 && w.Height <= 10*foot || w.Thickness >= 5.5*inch-1e-9 && w.Height <= 4*foot)
}

// lines write how the strength of a section was found.
func (s Section) lines(r *Strength) []check.Line {
	fc := quantity.Of("f'c", s.Fc, quantity.Stress)
	if r.D == 0 {
		return []check.Line{{
			Text: "Plain section; what is cast against soil loses " + quantity.Brief.Text(againstSoil, quantity.Thickness), Formula: "S = t²/6",
			Terms:  []quantity.Q{quantity.Of("t", r.T, quantity.Thickness)},
			Result: quantity.Of("S", r.S, quantity.Modulus), Source: srcPlain,
		}, {
			Text: "Strength in bending", Formula: "Mn = 5·√f'c·S in psi, 0.415·√f'c·S in MPa",
			Terms: []quantity.Q{fc}, Result: quantity.Of("Mn", r.Mn, quantity.LineMoment), Source: srcPlain,
		}}
	}
	return []check.Line{{
		Text: "Stress block", Formula: "a = As·fy/(0.85·f'c)",
		Terms:  []quantity.Q{quantity.Of("As", r.As, quantity.SheetArea), quantity.Of("fy", s.Bars.Fy, quantity.Stress), fc},
		Result: quantity.Of("a", r.A, quantity.Thickness), Source: srcBars,
	}, {
		Text: "Strength in bending", Formula: "Mn = As·fy·(d − a/2)",
		Terms:  []quantity.Q{quantity.Of("d", r.D, quantity.Thickness)},
		Result: quantity.Of("Mn", r.Mn, quantity.LineMoment), Source: srcBars,
	}}
}
