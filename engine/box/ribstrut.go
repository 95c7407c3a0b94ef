package box

import (
	"fmt"
	"math"

	"hillset/engine/check"
	"hillset/engine/quantity"
	"hillset/engine/steel"
)

// bump is the accidental side load in the middle of a cross strut, kN: hands
// and stored goods (common practice).
const bump = 0.5

// Factors of the loads of a strut itself beside the force along it, which has
// those of the combination.
const (
	strutDead = 1.2
	strutBump = 1.6
)

// longStrut is the slenderness that a strut should not exceed (AISC 360 E2, user
// note, memory).
const longStrut = 200

// StrutRating is the worst that befalls a cross strut, over all combinations of
// each kind.
type StrutRating struct {
	ASD, LRFD StrutForce
	Sag       float64 // m, the largest under service loads, raised by the force
	SagForce  float64 // kN, the force that raises it; negative pulls
	SagCombo  string
}

// StrutForce is a strut in one combination.
type StrutForce struct {
	Combo  string
	N      float64 // kN, compression positive
	Mx, My float64 // kNm in the middle, upright and sideways, raised by the bow
	Ratio  float64 // AISC H1-1
}

// strutStrength is a strut without its force: nominal strengths and the moments
// of its own weight and of the side load.
type strutStrength struct {
	pn, tn, mnx, mny, pex, pey float64
	dead, side                 float64 // kNm
	sag                        float64 // m, of both loads, without force
	klr                        float64
}

// strutStrength works a strut out over the width between the posts' axes,
// hinged at both ends.
func (in Rib) strutStrength(s CrossBar) (out strutStrength, err error) {
	m, l := in.Steel, in.Width
	x, err := s.Bar.Column(steel.X, m.Fy, m.E, l)
	if err != nil {
		return out, err
	}
	y, err := s.Bar.Column(steel.Y, m.Fy, m.E, l)
	if err != nil {
		return out, err
	}
	if out.mnx, err = s.Bar.Moment(steel.X, m.Fy, m.E); err != nil {
		return out, err
	}
	if out.mny, err = s.Bar.Moment(steel.Y, m.Fy, m.E); err != nil {
		return out, err
	}
	out.pn, out.tn, out.klr = math.Min(x.Pn, y.Pn), s.Bar.Area*m.Fy, math.Max(x.KLr, y.KLr)
	out.pex, out.pey = x.PE, y.PE
	g := s.Bar.Mass * gravity
	out.dead, out.side = g*l*l/8, bump*l/4
	out.sag = (5*g*l/8 + bump) * l * l * l / (48 * m.E * s.Bar.Ix)
	return out, nil
}

// see rates a strut under the force n along it and keeps the worst.
func (s *strutStrength) see(n float64, name string, form *strengthForm, out *StrutRating) {
	worst, dead, side := &out.ASD, s.dead, s.side
	if form == &lrfdForm {
		worst, dead, side = &out.LRFD, strutDead*s.dead, strutBump*s.side
	}
	if form == &asdForm {
		if sag := s.sag * bowing(n, s.pex); sag > out.Sag {
			out.Sag, out.SagForce, out.SagCombo = sag, n, name
		}
	}
	gx, gy := bowing(n*form.raise, s.pex), bowing(n*form.raise, s.pey)
	axial := s.pn
	if n < 0 {
		axial = s.tn
	}
	for _, m := range [2][2]float64{{dead + side, 0}, {dead, side}} { // the side load down or sideways
		one := StrutForce{Combo: name, N: n, Mx: m[0] * gx}
		if m[1] > 0 {
			one.My = m[1] * gy
		}
		bent := one.Mx/(s.mnx*form.bend) + one.My/(s.mny*form.bend)
		if one.Ratio = steel.H1(math.Abs(n), axial*form.axial, bent, 1); one.Ratio >= worst.Ratio {
			*worst = one
		}
	}
}

// checkStruts refuses struts that do not lie between tie and beam.
func (in Rib) checkStruts() error {
	last := in.Tie.H / 2
	for k, s := range in.Struts {
		if err := quantity.Within(fmt.Sprintf("area of cross strut %d", k+1), s.Bar.Area, 1e-6, 1, quantity.Area); err != nil {
			return err
		}
		low, high := last+s.Bar.H/2, in.Height-in.Beam.H/2-s.Bar.H/2
		if err := quantity.Within(fmt.Sprintf("height of cross strut %d", k+1), s.Height, low, high, quantity.Length); err != nil {
			return err
		}
		last = s.Height + s.Bar.H/2
	}
	return nil
}

// WorstStrut is the strut with the largest ratio, with that ratio; -1 without
// struts.
func (r *RibResult) WorstStrut() (at int, ratio Pair) {
	at = -1
	for k, s := range r.Struts {
		if at < 0 || math.Max(s.ASD.Ratio, s.LRFD.Ratio) > ratio.largest() {
			at, ratio = k, Pair{s.ASD.Ratio, s.LRFD.Ratio}
		}
	}
	return at, ratio
}

// StrutCheck checks the worst cross strut of a rib as a column over the width
// of the room, bent by its own weight and by what leans on it.
func StrutCheck(in Rib) (check.Check, RibResult, error) { return in.checked(StrutCheckOf) }

// StrutCheckOf is StrutCheck of a rib that is solved.
func StrutCheckOf(in Rib, r *RibResult) (check.Check, error) {
	at, ratio := r.WorstStrut()
	if at < 0 {
		return check.Check{}, quantity.Range("number of cross struts", 0, 1, 100)
	}
	bar, a, l := in.Struts[at], r.Struts[at].ASD, r.Struts[at].LRFD
	st, err := in.strutStrength(bar)
	if err != nil {
		return check.Check{}, err
	}
	c := check.Check{
		ID: "strut", Title: "Cross strut as a column",
		Method: "Force from the frame, bending by own weight and a side load, ASD and LRFD",
		Source: "AISC 360 E3 (curve verified), H1-1, App. 8 (memory); side load (common practice)",
		Assumptions: []string{
			"Hinged at both ends, at the middle of the posts; it buckles either way over the width of the room.",
			"A side load of " + quantity.Brief.Text(bump, quantity.Force) + " in its middle, downward or sideways, for hands and stored goods (common practice). Its own weight counts 1.2 and the side load 1.6 by load factors.",
			ribShareWords(in), ribWallWords(in),
		},
		Validity: "Straight struts without holes; nothing is hung on them.",
		Demand:   quantity.Of("ΣN,M", a.Ratio, quantity.Ratio), Capacity: quantity.Of("", 1, quantity.Ratio),
		Ratio: ratio.ASD, RatioLRFD: ratio.LRFD, Case: a.Combo, CaseLRFD: l.Combo,
		Working: strutWorking(in, bar, &st, a, l),
	}
	if c.Worst() > 1 {
		c.Remedy = "A heavier cross strut, or ribs about {0} apart."
		c.RemedyQ = []quantity.Q{quantity.Of("", in.Spacing/c.Worst(), quantity.Length)}
	}
	return c, nil
}

func strutWorking(in Rib, bar CrossBar, st *strutStrength, a, l StrutForce) []check.Line {
	axial := st.pn
	if a.N < 0 {
		axial = st.tn
	}
	return []check.Line{{
		Text: "Force along the strut, " + a.Combo, Formula: "K·u = F",
		Terms: []quantity.Q{
			quantity.Of("z", bar.Height, quantity.Length), quantity.Of("s", in.Spacing, quantity.Length),
		},
		Result: quantity.Of("N", a.N, quantity.Force), Source: srcRing,
	}, {
		Text: "Strength along it", Formula: "Pn = A·Fn, about the weaker axis; A·Fy in tension",
		Terms: []quantity.Q{
			quantity.Of("A", bar.Bar.Area, quantity.Area), quantity.Of("L", in.Width, quantity.Length), quantity.Of("KL/r", st.klr, quantity.None),
		},
		Result: quantity.Of("Pn", axial, quantity.Force), Source: srcColumn,
	}, {
		Text: "Moment of its own weight and of a load leaning on it", Formula: "M = g·L²/8, F·L/4",
		Terms: []quantity.Q{
			quantity.Of("Mg", st.dead, quantity.Moment), quantity.Of("F", bump, quantity.Force),
		},
		Result: quantity.Of("MF", st.side, quantity.Moment), Source: "beam statics (derived); side load (common practice)",
	}, {
		Text: "The same with the bow under the force, upright and sideways", Formula: "M/(1 − α·N/PE), α = 1.6",
		Terms: []quantity.Q{
			quantity.Of("PEx", st.pex, quantity.Force), quantity.Of("PEy", st.pey, quantity.Force), quantity.Of("Mx", a.Mx, quantity.Moment),
		},
		Result: quantity.Of("My", a.My, quantity.Moment), Source: "AISC 360 App. 8 (memory)",
	}, {
		Text: "Compression with bending, allowable strength", Formula: "N/Nc ≥ 0.2: N/Nc + 8/9·(Mx/Mcx + My/Mcy); else N/(2·Nc) + Mx/Mcx + My/Mcy",
		Terms: []quantity.Q{
			quantity.Of("Mnx", st.mnx, quantity.Moment), quantity.Of("Mny", st.mny, quantity.Moment), quantity.Of("Ω", steel.OmegaTube, quantity.Factor),
		},
		Result: quantity.Of("r", a.Ratio, quantity.Ratio), Source: "AISC 360 H1-1 (memory)",
	}, {
		Text: "The same by load and resistance factors, " + l.Combo, Formula: "Nu, Mu against φ·Pn, φ·Mn",
		Terms: []quantity.Q{
			quantity.Of("Nu", l.N, quantity.Force), quantity.Of("φ", steel.PhiTube, quantity.Factor),
		},
		Result: quantity.Of("r", l.Ratio, quantity.Ratio), Source: srcRing,
	}}
}
