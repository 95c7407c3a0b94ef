package box

import (
	"math"

	"hillset/engine/check"
	"hillset/engine/quantity"
	"hillset/engine/steel"
)

// Deck is the roof of a box without ribs, carrying a one-sided push of the
// soil to the end frames by its stiffness in its own plane: the sheet as web,
// the top rails as chords.
type Deck struct {
	Profile   steel.Profile // roof sheet, corrugations across the box
	Steel     Material
	Rail      steel.Bar
	RailSteel Material
	Length    float64 // m between the end frames
	Width     float64 // m between the top rails
	Load      Pair    // kN per m of box: top reaction of one wall less that of the other
}

// DeckResult is what comes out of the roof as a diaphragm.
type DeckResult struct {
	N         Pair    // kN in a rail at midlength
	Shear     Pair    // kN/m at the ends
	End       Pair    // kN pushed sideways into each end frame
	RailPn    float64 // kN, A·Fy
	YieldV    float64 // kN/m, 0.6·Fy·t
	BuckleV   float64 // kN/m, shear buckling of the whole sheet
	RailRatio Pair
	WebRatio  Pair
}

// Factors for shear buckling of a deck (deck design practice, memory).
const (
	omegaDeck  = 2.00
	phiDeck    = 0.80
	easleyBeta = 36.0 // Easley's coefficient, edges free to turn (memory)
)

func (in Deck) check() error {
	for _, err := range []error{
		in.Steel.check(), in.RailSteel.check(),
		quantity.Within("roof length", in.Length, 0.5, 20, quantity.Length),
		quantity.Within("roof width", in.Width, 0.5, 6, quantity.Length),
		quantity.Within("rail area", in.Rail.Area, 1e-6, 1, quantity.Area),
		in.Load.check("one-sided roof load"),
	} {
		if err != nil {
			return err
		}
	}
	return nil
}

func (in Deck) solve() (DeckResult, error) {
	var r DeckResult
	if err := in.check(); err != nil {
		return r, err
	}
	g, err := in.Profile.Props()
	if err != nil {
		return r, err
	}
	w, l, b := in.Load.size(), in.Length, in.Width
	r.N, r.Shear, r.End = w.Times(l*l/(8*b)), w.Times(l/(2*b)), w.Times(l/2)
	r.RailPn = in.Rail.Area * in.RailSteel.Fy
	p := in.Profile
	r.YieldV = 0.6 * in.Steel.Fy * p.T
	r.BuckleV = wholeSheet(p, g, b)
	r.RailRatio = Pair{r.N.ASD * steel.OmegaTube / r.RailPn, r.N.LRFD / (steel.PhiTube * r.RailPn)}
	r.WebRatio = Pair{
		r.Shear.ASD / math.Min(r.YieldV/steel.OmegaShear, r.BuckleV/omegaDeck),
		r.Shear.LRFD / math.Min(r.YieldV*steel.PhiShear, r.BuckleV*phiDeck),
	}
	return r, nil
}

// Diaphragm checks the roof in its own plane under a one-sided push. The end
// frames that take the push are not part of this check; their share is in the
// result.
func Diaphragm(in Deck) (check.Check, DeckResult, error) {
	r, err := in.solve()
	if err != nil {
		return check.Check{}, r, err
	}
	c := check.Check{
		ID: "roof-diaphragm", Title: "Roof as a diaphragm",
		Method: "Deep beam: sheet as web, top rails as chords",
		Source: "structure reference section 4, N = wL²/(8B), v = wL/(2B) (derived); shear buckling of a corrugated sheet after Easley (memory)",
		Assumptions: []string{
			"The roof sheet is welded all round and uncut.",
			"Both end frames stand: the blind end is whole, the door end has its doors shut and locked or a frame in their place. Whether they can take their share is not part of this check.",
		},
		Validity: "Roof and end frames uncut; ends no further apart than one box.",
		Case:     wallCase, CaseLRFD: wallCaseLRFD,
		Working: []check.Line{{
			Text: "Force in a rail", Formula: "N = w·L²/(8·B)",
			Terms: []quantity.Q{
				quantity.Of("w", math.Abs(in.Load.ASD), quantity.LineLoad),
				quantity.Of("L", in.Length, quantity.Length), quantity.Of("B", in.Width, quantity.Length),
			},
			Result: quantity.Of("N", r.N.ASD, quantity.Force), Source: srcStat,
		}, {
			Text: "Rail, allowable strength", Formula: "r = N·Ω/(A·Fy)",
			Terms: []quantity.Q{
				quantity.Of("A", in.Rail.Area, quantity.Area), quantity.Of("Fy", in.RailSteel.Fy, quantity.Stress),
				quantity.Of("Ω", steel.OmegaTube, quantity.Factor),
			},
			Result: quantity.Of("r", r.RailRatio.ASD, quantity.Ratio), Source: "AISC 360 D (memory)",
		}, {
			Text: "Shear flow at the ends", Formula: "v = w·L/(2·B)",
			Result: quantity.Of("v", r.Shear.ASD, quantity.LineLoad), Source: srcStat,
		}, {
			Text: "Shear yield of the sheet", Formula: "vy = 0.6·Fy·t",
			Terms: []quantity.Q{
				quantity.Of("Fy", in.Steel.Fy, quantity.Stress), quantity.Of("t", in.Profile.T, quantity.Thickness),
			},
			Result: quantity.Of("vy", r.YieldV, quantity.LineLoad), Source: srcShear,
		}, {
			Text: "Shear buckling of the whole sheet", Formula: "vcr = 36·Dx^¼·Dy^¾/B²",
			Result: quantity.Of("vcr", r.BuckleV, quantity.LineLoad), Source: srcEasley,
		}, {
			Text: "Push into each end frame", Formula: "H = w·L/2",
			Result: quantity.Of("H", r.End.ASD, quantity.Force), Source: srcStat,
		}},
	}
	c.Ratio, _ = worst(r.WebRatio.ASD, r.RailRatio.ASD)
	c.RatioLRFD, _ = worst(r.WebRatio.LRFD, r.RailRatio.LRFD)
	c.Demand = quantity.Of("v", r.Shear.ASD, quantity.LineLoad)
	c.Capacity = quantity.Of("va", math.Min(r.YieldV/steel.OmegaShear, r.BuckleV/omegaDeck), quantity.LineLoad)
	if r.RailRatio.ASD > r.WebRatio.ASD {
		c.Demand = quantity.Of("N", r.N.ASD, quantity.Force)
		c.Capacity = quantity.Of("Pn/Ω", r.RailPn/steel.OmegaTube, quantity.Force)
	}
	if most := c.Worst(); most > 1 {
		c.Remedy = "Raise both sides of the fill together so that the difference stays below {0}, or ribs that take the sway."
		c.RemedyQ = []quantity.Q{quantity.Of("", math.Abs(in.Load.ASD)/most, quantity.LineLoad)}
	}
	return c, r, nil
}
