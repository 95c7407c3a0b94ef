package box

import (
	"math"

	"hillset/engine/check"
	"hillset/engine/frame"
	"hillset/engine/quantity"
	"hillset/engine/steel"
)

// Opening is a hole cut in an upright sheet. Without a frame the corrugations
// beside it take what the cut ones carried; with one its jambs span from the
// bottom to the top rail, and head and sill from jamb to jamb.
type Opening struct {
	Sheet     Strip   // a metre of the sheet where it presses most
	Width     float64 // m
	Low, High float64 // m above the foot of the sheet
	Framed    bool
	Bar       steel.Bar // all round
	BarSteel  Material
	// Rail is the top rail where the opening reaches it: it then carries the edge
	// of the roof over the opening by itself, RailLoad, kN/m. No load is no such
	// rail.
	Rail      steel.Bar
	RailSteel Material
	RailLoad  Pair
}

// OpeningResult is what comes out of an opening.
type OpeningResult struct {
	Share  float64 // of its own load on the strip beside an opening without frame
	Trib   float64 // m of wall on a jamb
	Strip  StripResult
	Beside Pair         // ratio of the strip beside it
	Bars   []OpeningBar // of the frame
}

// OpeningBar is a bar of a frame, service and nominal.
type OpeningBar struct {
	Name   string
	Span   float64 // m
	M, V   float64 // kNm, kN, service
	Mn, Vn float64
	Ratio  Pair
}

func (in *Opening) check() error {
	for _, err := range []error{
		quantity.Within("width of the opening", in.Width, 0.01, 14, quantity.Length),
		quantity.Within("foot of the opening", in.Low, 0, in.Sheet.Height-0.01, quantity.Length),
		quantity.Within("top of the opening", in.High, in.Low+0.01, in.Sheet.Height*(1+1e-9), quantity.Length),
	} {
		if err != nil {
			return err
		}
	}
	return nil
}

// Solve does the statics of an opening and rates what is beside it.
func (in Opening) Solve() (OpeningResult, error) {
	var r OpeningResult
	if err := in.check(); err != nil {
		return r, err
	}
	var err error
	if r.Strip, err = in.Sheet.Solve(); err != nil {
		return r, err
	}
	pitch := in.Sheet.Profile.Pitch()
	if !in.Framed {
		r.Share = 1 + in.Width/2/pitch
		for _, p := range [...]Pair{r.Strip.FieldRatio, r.Strip.HogRatio, r.Strip.ShearRatio, r.Strip.TogetherRatio} {
			r.Beside = Pair{math.Max(r.Beside.ASD, p.ASD), math.Max(r.Beside.LRFD, p.LRFD)}
		}
		r.Beside = r.Beside.Times(r.Share)
		return r, in.rail(&r, 0)
	}
	r.Trib = (in.Width + pitch) / 2
	load := in.Sheet.Load.Service()
	jamb, err := frame.Simple(in.Sheet.Height, load.Scale(r.Trib), in.BarSteel.E*in.Bar.Ix)
	if err != nil {
		return r, err
	}
	if err = in.add(&r, "jamb", in.Sheet.Height, math.Abs(jamb.MMax), jamb.VMax); err != nil {
		return r, err
	}
	own, err := frame.Simple(in.High-in.Low, load.Clip(in.Low, in.High), 1)
	if err != nil {
		return r, err
	}
	for _, b := range []struct {
		name     string
		from, to float64
		mine     float64 // kN/m of the opening itself
		top      bool    // the bar is at the top of that piece of sheet
	}{{"sill", 0, in.Low, own.Ra, true}, {"head", in.High, in.Sheet.Height, own.Rb, false}} {
		w := b.mine
		if b.to-b.from >= minGap {
			stub, err := frame.Simple(b.to-b.from, load.Clip(b.from, b.to), 1)
			if err != nil {
				return r, err
			}
			if w += stub.Ra; b.top {
				w += stub.Rb - stub.Ra
			}
		} else {
			continue // the rail itself is head or sill
		}
		w = math.Abs(w)
		if err := in.add(&r, b.name, in.Width, w*in.Width*in.Width/8, w*in.Width/2); err != nil {
			return r, err
		}
	}
	if in.High > in.Sheet.Height-minGap {
		return r, in.rail(&r, own.Rb)
	}
	return r, in.rail(&r, 0)
}

// rail rates the top rail over an opening that reaches it: upright under the
// roof, and sideways under what closes the opening, side kN/m; to first yield,
// the two added.
func (in *Opening) rail(r *OpeningResult, side float64) error {
	if in.RailLoad == (Pair{}) {
		return nil
	}
	for _, err := range []error{in.RailLoad.check("roof on the rail"), in.RailSteel.check(), quantity.Within("rail area", in.Rail.Area, 1e-6, 1, quantity.Area)} {
		if err != nil {
			return err
		}
	}
	k := in.Width * in.Width / 8
	up, across := in.Rail.YieldMoment(steel.X, in.RailSteel.Fy), in.Rail.YieldMoment(steel.Y, in.RailSteel.Fy)
	vn, err := in.Rail.Shear(steel.X, in.RailSteel.Fy, in.RailSteel.E)
	if err != nil {
		return err
	}
	b := OpeningBar{Name: "top rail over it", Span: in.Width, M: in.RailLoad.ASD * k, V: in.RailLoad.ASD * in.Width / 2, Mn: up, Vn: vn}
	side = math.Abs(side)
	b.Ratio = Pair{
		steel.OmegaBending * (in.RailLoad.ASD*k/up + side*k/across),
		(in.RailLoad.LRFD*k/up + factorWall*side*k/across) / steel.PhiBending,
	}
	r.Bars = append(r.Bars, b)
	return nil
}

// add rates a bar of the frame.
func (in *Opening) add(r *OpeningResult, name string, span, m, v float64) error {
	b := OpeningBar{Name: name, Span: span, M: m, V: v}
	var err error
	if b.Mn, err = in.Bar.Moment(steel.X, in.BarSteel.Fy, in.BarSteel.E); err != nil {
		return err
	}
	if b.Vn, err = in.Bar.Shear(steel.X, in.BarSteel.Fy, in.BarSteel.E); err != nil {
		return err
	}
	b.Ratio = Pair{
		math.Max(m*steel.OmegaBending/b.Mn, v*steel.OmegaTube/b.Vn),
		factorWall * math.Max(m/(steel.PhiBending*b.Mn), v/(steel.PhiTube*b.Vn)),
	}
	r.Bars = append(r.Bars, b)
	return nil
}

// Ratio is what governs, and which bar of the frame gives it; -1 is the sheet.
func (r *OpeningResult) Ratio() (p Pair, at int) {
	p, at = r.Beside, -1
	for k, b := range r.Bars {
		if b.Ratio.ASD > p.ASD {
			p.ASD, at = b.Ratio.ASD, k
		}
		p.LRFD = math.Max(p.LRFD, b.Ratio.LRFD)
	}
	return p, at
}

// WallOpening checks what is beside a hole in a wall.
func WallOpening(in Opening) (check.Check, OpeningResult, error) {
	r, err := in.Solve()
	if err != nil {
		return check.Check{}, r, err
	}
	p, _ := r.Ratio()
	c := check.Check{
		ID: "opening", Title: "Opening without a frame", Method: "Strip of sheet beside the opening",
		Source: srcEff + "; " + srcBend + "; share of the strip beside: half of the opening within one corrugation (derived)",
		Assumptions: []string{
			"The corrugation on each side of the opening carries its own load and that of half the opening.",
			"What is left of the sheet above and below hangs on to the sheet beside it.",
			"Whatever closes the opening brings its load to its sides.",
		},
		Validity: "A hole with round corners, cut clean, in a sheet without dents. A wall that takes its push in its own plane is judged in racking, girder and end frame.",
		Demand:   quantity.Of("r", p.ASD, quantity.Ratio), Capacity: quantity.Of("", 1, quantity.Ratio),
		Ratio: p.ASD, RatioLRFD: p.LRFD, Case: Allowable[1].Name, CaseLRFD: Strength[1].Name,
	}
	if in.Framed {
		c.Title, c.Method = "Opening with a frame", "Jambs from rail to rail, head and sill from jamb to jamb, pinned"
		c.Source = "beam statics (derived); AISC 360 F and G, Ω 1.67, φ 0.90 (memory); " + srcLoad
		c.Assumptions = []string{
			"Each jamb takes half of the opening and half a corrugation of sheet, over the whole height of the wall.",
			"The frame is welded to the sheet all round and to both rails; its bars stand square to the wall.",
			"Whatever closes the opening brings its load to the frame.",
		}
	}
	c.Working = in.working(&r)
	if c.Worst() > 1 {
		c.Remedy = "A frame round it, its jambs from rail to rail; or a narrower opening, or less earth at this place."
		if in.Framed {
			c.Remedy = "A frame of a bar with a modulus of {0}; or a narrower opening, or less earth at this place."
			need := 0.0
			for _, b := range r.Bars {
				need = math.Max(need, b.M*math.Max(steel.OmegaBending, factorWall/steel.PhiBending)/in.BarSteel.Fy)
			}
			c.RemedyQ = []quantity.Q{quantity.Of("", need, quantity.SectionModulus)}
		}
	}
	return c, r, nil
}

func (in *Opening) working(r *OpeningResult) []check.Line {
	pitch := in.Sheet.Profile.Pitch()
	var out []check.Line
	if !in.Framed {
		out = []check.Line{{
			Text: "Load of the corrugation beside the opening, as a multiple of its own", Formula: "k = 1 + b/(2·p)",
			Terms:  []quantity.Q{quantity.Of("b", in.Width, quantity.Length), quantity.Of("p", pitch, quantity.Length)},
			Result: quantity.Of("k", r.Share, quantity.Factor), Source: "equilibrium, within one corrugation (derived)",
		}, {
			Text: "Moment in the sheet without the opening", Formula: "V(z) = 0 → M",
			Terms:  []quantity.Q{quantity.Of("Mn", r.Strip.Outer.Mn, quantity.LineMoment)},
			Result: quantity.Of("M", r.Strip.Field.ASD, quantity.LineMoment), Source: srcStat,
		}, {
			Text: "Strip beside the opening, allowable strength", Formula: "r = k·(bending and shear of the sheet)",
			Result: quantity.Of("r", r.Beside.ASD, quantity.Ratio), Source: srcBend,
		}, {
			Text: "The same, load and resistance factors", Formula: "the same with φ",
			Result: quantity.Of("ru", r.Beside.LRFD, quantity.Ratio), Source: srcLoad,
		}}
		return append(out, barLines(r.Bars)...)
	}
	out = []check.Line{{
		Text: "Width of wall on a jamb", Formula: "t = (b + p)/2",
		Terms:  []quantity.Q{quantity.Of("b", in.Width, quantity.Length), quantity.Of("p", pitch, quantity.Length)},
		Result: quantity.Of("t", r.Trib, quantity.Length), Source: "half of the opening and half a corrugation (derived)",
	}}
	return append(out, barLines(r.Bars)...)
}

// barLines write the bars of a frame, and a rail over it.
func barLines(bars []OpeningBar) (out []check.Line) {
	for _, b := range bars {
		out = append(out, check.Line{
			Text: "Bar, " + b.Name + ": moment", Formula: "M from the pressure over its part",
			Terms: []quantity.Q{
				quantity.Of("L", b.Span, quantity.Length), quantity.Of("V", b.V, quantity.Force),
				quantity.Of("Mn", b.Mn, quantity.Moment), quantity.Of("Vn", b.Vn, quantity.Force),
			},
			Result: quantity.Of("M", b.M, quantity.Moment), Source: srcStat,
		}, check.Line{
			Text: "Bar, " + b.Name + ": allowable strength, load factors", Formula: "r = the larger of M·Ω/Mn and V·Ω/Vn, and the same with 1.6 and φ",
			Terms:  []quantity.Q{quantity.Of("ru", b.Ratio.LRFD, quantity.Ratio)},
			Result: quantity.Of("r", b.Ratio.ASD, quantity.Ratio), Source: "AISC 360 F, G (memory)",
		})
	}
	return out
}
