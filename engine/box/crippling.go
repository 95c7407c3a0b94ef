package box

import (
	"math"
	"strconv"

	"hillset/engine/check"
	"hillset/engine/quantity"
	"hillset/engine/steel"
	"hillset/engine/tables"
)

const srcCrippling = "AISI S100 G5, decks with many webs, one flange loaded (memory)"

// Crests is a sheet where a bar presses on its crests: a wale on a wall, a
// purlin under the roof.
type Crests struct {
	Profile steel.Profile // as it is, dented and rusted
	Steel   Material
	Row     tables.Crippling
	Bearing steel.Bearing
	Load    Pair // kN per m of the bar, pressing the bar on the sheet
	Case    Cases
	On      string // what bears, e.g. "a wale"
}

// CrestsResult is what comes out of it.
type CrestsResult struct {
	Strength steel.Crippling
	Ratio    Pair
}

// Solve rates the webs under the bar. A load that pulls the bar off the sheet
// asks nothing of it.
func (in Crests) Solve() (CrestsResult, error) {
	var r CrestsResult
	if err := in.Load.check("load of the bar"); err != nil {
		return r, err
	}
	var err error
	if r.Strength, err = in.Profile.Cripple(in.Row, in.Bearing, in.Steel.Fy); err != nil {
		return r, err
	}
	pn := r.Strength.Pn
	r.Ratio = Pair{math.Max(0, in.Load.ASD) * in.Row.Omega / pn, math.Max(0, in.Load.LRFD) / (in.Row.Phi * pn)}
	return r, nil
}

// CrestsUnderBar checks the webs of a sheet against crippling under a bar.
func CrestsUnderBar(in Crests) (check.Check, CrestsResult, error) {
	r, err := in.Solve()
	if err != nil {
		return check.Check{}, r, err
	}
	c := check.Check{
		ID: "crippling", Title: "Crests of the sheet under " + in.On, Method: "Web crippling of a sheet with many webs, ASD and LRFD",
		Source: srcCrippling + "; " + in.Row.Name + "; bend radius (memory)",
		Assumptions: []string{
			"The bar touches every crest along its flat side; rounded corners do not bear.",
			"Bending over the bar is not added: the standard leaves it out for decks with webs no further apart than " + quantity.Brief.Text(0.254, quantity.Thickness) + " (memory).",
			"The edges of the sheet are welded to the rails all along and do not cripple.",
		},
		Validity: "Webs at 45 to 90 degrees, up to 200 times the thickness deep; bend radius up to " + strconv.FormatFloat(in.Row.RTMax, 'g', -1, 64) + " times the thickness; crests without dents beyond the one given.",
		Demand:   quantity.Of("P", math.Max(0, in.Load.ASD), quantity.LineLoad), Capacity: quantity.Of("Pn/Ω", r.Strength.Pn/in.Row.Omega, quantity.LineLoad),
		Ratio: r.Ratio.ASD, RatioLRFD: r.Ratio.LRFD,
		Working: crestLines(in, &r),
	}
	c.Case, c.CaseLRFD = in.Case.orWall()
	if most := c.Worst(); most > 1 {
		need := r.Strength.NeedBearing(in.Profile, most)
		if math.IsInf(need, 1) {
			c.Remedy = "No bearing is long enough: pack the troughs under the bar and put a pad over two corrugations, or share the load between more bars. It must not exceed {0}."
			c.RemedyQ = []quantity.Q{quantity.Of("", in.Load.ASD/most, quantity.LineLoad)}
		} else {
			c.Remedy = "A bearing {0} long in the direction of the corrugations, by a wider bar or a plate under it; or packed troughs with a pad over two corrugations."
			c.RemedyQ = []quantity.Q{quantity.Of("", need, quantity.Thickness)}
		}
	}
	return c, r, nil
}

// crestLines write the working.
func crestLines(in Crests, r *CrestsResult) []check.Line {
	s, t := &r.Strength, in.Profile.T
	none := func(sym string, v float64) quantity.Q { return quantity.Of(sym, v, quantity.None) }
	mm := func(sym string, v float64) quantity.Q { return quantity.Of(sym, v, quantity.Thickness) }
	return []check.Line{{
		Text: "Slope of the webs, and their depth in their own plane", Formula: "θ = atan(hm/s), h = √(hm² + s²)",
		Terms:  []quantity.Q{mm("hm", in.Profile.H), mm("s", in.Profile.S), mm("h", s.H)},
		Result: quantity.Of("θ", s.Theta, quantity.Angle), Source: "derived",
	}, {
		Text: "Bearing length that counts, of the flat side of the bar", Formula: "N = min(Nbar, 3·h, 210·t)",
		Terms:  []quantity.Q{mm("Nbar", in.Bearing.Length), mm("h", s.H), mm("t", t)},
		Result: mm("N", s.N), Source: srcCrippling,
	}, {
		Text: "Strength of one web", Formula: "Pw = C·t²·Fy·sin θ·(1 − CR·√(R/t))·(1 + CN·√(N/t))·(1 − Ch·√(h/t))",
		Terms: []quantity.Q{
			none("C", in.Row.C), none("CR", in.Row.CR), none("CN", in.Row.CN), none("Ch", in.Row.Ch),
			mm("R", in.Bearing.Radius), mm("t", t), quantity.Of("Fy", in.Steel.Fy, quantity.Stress),
		},
		Result: quantity.Of("Pw", s.PerWeb, quantity.Force), Source: srcCrippling,
	}, {
		Text: "Strength along the bar, two webs in a corrugation", Formula: "Pn = 2·Pw/p",
		Terms:  []quantity.Q{mm("p", in.Profile.Pitch())},
		Result: quantity.Of("Pn", s.Pn, quantity.LineLoad), Source: "derived",
	}, {
		Text: "Allowable strength", Formula: "r = P·Ω/Pn",
		Terms:  []quantity.Q{quantity.Of("P", in.Load.ASD, quantity.LineLoad), quantity.Of("Ω", in.Row.Omega, quantity.Factor)},
		Result: quantity.Of("r", r.Ratio.ASD, quantity.Ratio), Source: srcCrippling,
	}, {
		Text: "Load and resistance factors", Formula: "r = Pu/(φ·Pn)",
		Terms:  []quantity.Q{quantity.Of("Pu", in.Load.LRFD, quantity.LineLoad), quantity.Of("φ", in.Row.Phi, quantity.Factor)},
		Result: quantity.Of("r", r.Ratio.LRFD, quantity.Ratio), Source: srcCrippling,
	}}
}
