package box

import (
	"fmt"
	"math"

	"hillset/engine/check"
	"hillset/engine/frame"
	"hillset/engine/quantity"
	"hillset/engine/steel"
)

// Girder is a long wall that carries its half of the roof from corner to
// corner: the box stands on its castings. The sheet is the web, which the earth
// bends at the same time, the rails are the chords.
type Girder struct {
	Web    Panel
	Length float64 // m between the middles of the castings
	Depth  float64 // m between the middles of the rails
	// Dead, Live and Snow are what this wall carries, kN per m, from the door end.
	Dead, Live, Snow frame.Load
	Places           []GirderPlace
	// Push is the push of the blind end at the top of this wall, kN, and Open the
	// length of wall that openings take.
	Push Pair
	Open float64
	// Chord is what the roof as a diaphragm presses in the top rail, kN.
	Chord             Pair
	Top, Bottom       steel.Bar
	Steel             Material  // of the rails
	TopBend, FootBend Pair      // share of their bending strength that the rails use
	Bed               float64   // RailBed
	Cuts              []RoofCut // where the roof sheet does not hold the top rail
}

// GirderPlace is a place along the wall.
type GirderPlace struct {
	At   float64 // m from the door end
	Bend Pair    // share of its strength that the sheet uses against the earth there
	Hole float64 // m of its depth that an opening takes there
}

// GirderRating is the worst of a girder under the combinations of one kind.
type GirderRating struct {
	Combo            string
	At               float64 // m
	V, Flow, Bend    float64 // kN, kN/m, share used by the earth
	N, NFoot         float64 // kN in the top and the bottom rail
	Web, Top, Bottom float64 // ratios
}

// governs is what governs of the three.
func (r *GirderRating) governs() (float64, int) { return worst(r.Web, r.Top, r.Bottom) }

// ratio is the largest of the three.
func (r *GirderRating) ratio() float64 { return max(r.Web, r.Top, r.Bottom) }

// GirderResult is what comes out of a girder.
type GirderResult struct {
	Web       PanelStrength
	Strut     bedded
	Tie       float64 // kN, A·Fy of the bottom rail
	ASD, LRFD GirderRating
}

// Ratio is the ratio that decides.
func (r *GirderResult) Ratio() float64 {
	return math.Max(r.ASD.ratio(), r.LRFD.ratio())
}

func (in *Girder) check() error {
	for _, err := range []error{
		in.Steel.check(),
		quantity.Within("length of the wall", in.Length, 0.5, 20, quantity.Length),
		quantity.Within("depth of the wall", in.Depth, minHeight, maxHeight, quantity.Length),
		quantity.Within("openings of the wall", in.Open, 0, in.Length-0.1, quantity.Length),
		quantity.Within("top rail area", in.Top.Area, 1e-6, 1, quantity.Area),
		quantity.Within("bottom rail area", in.Bottom.Area, 1e-6, 1, quantity.Area),
		in.Push.check("push of the blind end"), in.Chord.check("force of the diaphragm"),
		in.TopBend.check("bending of the top rail"), in.FootBend.check("bending of the bottom rail"),
	} {
		if err != nil {
			return err
		}
	}
	if len(in.Places) == 0 {
		return fmt.Errorf("%w: places along the wall = 0, allowed 1 and more", quantity.ErrRange)
	}
	for _, p := range in.Places {
		for _, err := range []error{
			quantity.Within("place along the wall", p.At, 0, in.Length, quantity.Length), p.Bend.check("bending of the sheet"),
			quantity.Within("height of an opening", p.Hole, 0, in.Depth-0.05, quantity.Length),
		} {
			if err != nil {
				return err
			}
		}
	}
	return nil
}

// Solve does the statics and rates web and rails.
func (in Girder) Solve() (GirderResult, error) {
	var r GirderResult
	if err := in.check(); err != nil {
		return r, err
	}
	var err error
	if r.Web, err = in.Web.Strength(); err != nil {
		return r, err
	}
	if r.Strut, err = beddedStrut(in.Top, in.Steel, bed{in.Bed, in.Cuts, in.Length}); err != nil {
		return r, err
	}
	r.Tie = in.Bottom.Area * in.Steel.Fy
	var beams [3]frame.Beam
	for k, load := range [...]frame.Load{in.Dead, in.Live, in.Snow} {
		if beams[k], err = frame.Simple(in.Length, load, 1); err != nil {
			return r, err
		}
	}
	asd, lrfd := girderForm{&asdForm, Allowable, &r.ASD, -1}, girderForm{&lrfdForm, Strength, &r.LRFD, -1}
	see := func(p *GirderPlace) {
		var v, m [3]float64
		for k := range beams {
			v[k], m[k] = beams[k].At(p.At)
		}
		in.see(&r, p, &v, &m, &asd)
		in.see(&r, p, &v, &m, &lrfd)
	}
	for k := range in.Places {
		see(&in.Places[k])
	}
	see(&GirderPlace{At: beams[0].SMax}) // where the roof bends the wall most it need not stand at a place
	return r, nil
}

// girderForm is a girder under the combinations of one kind, with the worst so
// far.
type girderForm struct {
	*strengthForm
	combos []Combo
	out    *GirderRating
	most   float64
}

// see rates web and rails at a place under the combinations of one kind. v and
// m are the shear and the moment there by kind of load.
func (in *Girder) see(r *GirderResult, p *GirderPlace, v, m *[3]float64, f *girderForm) {
	top, tie := r.Strut.Pn*f.axial, r.Tie*f.axial
	bends := [3]float64{p.Bend.ASD, in.TopBend.ASD, in.FootBend.ASD}
	if f.strengthForm == &lrfdForm {
		bends = [3]float64{p.Bend.LRFD, in.TopBend.LRFD, in.FootBend.LRFD}
	}
	push, roof := math.Abs(in.Push.ASD), math.Abs(in.Chord.ASD)
	for k := range f.combos {
		c := &f.combos[k]
		one := GirderRating{Combo: c.Name, At: p.At, V: math.Abs(c.D*v[0] + c.L*v[1] + c.S*v[2])}
		h := c.H * push
		one.Flow = one.V/(in.Depth-p.Hole) + h/(in.Length-in.Open)
		topBend, footBend := 0.0, 0.0
		if c.H > 0 {
			one.Bend, topBend, footBend = bends[0], bends[1], bends[2]
		}
		chord := max(0, c.D*m[0]+c.L*m[1]+c.S*m[2]) / in.Depth
		one.N = chord + h*p.At/in.Length + c.H*roof
		one.NFoot = chord + h
		one.Web = r.Web.used(f.strengthForm, one.Flow, one.Bend)
		one.Top, one.Bottom = steel.H1(one.N, top, topBend, 1), steel.H1(one.NFoot, tie, footBend, 1)
		if worse := one.ratio(); worse > f.most {
			f.most, *f.out = worse, one
		}
	}
}

// SideGirder checks a long wall as a girder.
func SideGirder(in Girder) (check.Check, GirderResult, error) {
	r, err := in.Solve()
	if err != nil {
		return check.Check{}, r, err
	}
	return SideGirderOf(in, &r), r, nil
}

// SideGirderOf is SideGirder of a wall that is solved.
func SideGirderOf(in Girder, r *GirderResult) check.Check {
	c := check.Check{
		ID: "girder", Title: "Long wall as a girder", Method: "Deep beam from corner to corner: sheet as web, rails as chords",
		Source: "beam statics (derived); " + srcEasley + "; " + srcShear + "; " + srcTogether + "; " + srcH1 + "; " + srcCombos,
		Assumptions: []string{
			"The box stands on its four castings. They stand proud of the rails and the cross members, so on rock or a slab, too, nothing carries the bottom rail between them.",
			"Each long wall carries half of the roof, and more of what stands to its side. The fill beside the walls holds nothing up.",
			"The sheet bent by the earth is the web: its flats share as on a circle, buckling of the whole sheet adds in full (derived, the more severe).",
			bedAssume,
			"The push of the blind end is added as if it went the same way as the weight.",
		},
		Validity: "Walls welded all round; holes no wider than a quarter of the height of the wall.",
		Case:     r.ASD.Combo, CaseLRFD: r.LRFD.Combo, Working: in.working(r),
	}
	in.Web.told(&c)
	var at int
	c.Ratio, at = r.ASD.governs()
	c.RatioLRFD = r.LRFD.ratio()
	one := quantity.Of("", 1, quantity.Ratio)
	c.Demand, c.Capacity = quantity.Of([...]string{"rW", "rT", "rB"}[at], c.Ratio, quantity.Ratio), one
	if c.Worst() > 1 {
		c.Remedy = [...]string{
			"Less earth against the wall or less cover, or pads under the bottom rails between the corners, packed tight: the sheet carries a shear flow of {0} and uses the share {1} against the earth.",
			"Less cover, pads under the bottom rails between the corners, packed tight, or a bar along the top rail: it is pressed with {2}.",
			"Less cover, pads under the bottom rails between the corners, packed tight, or a bar along the bottom rail: it is pulled with {3}.",
		}[at]
		c.RemedyQ = []quantity.Q{
			quantity.Of("", r.ASD.Flow, quantity.LineLoad), quantity.Of("", r.ASD.Bend, quantity.Ratio),
			quantity.Of("", r.ASD.N, quantity.Force), quantity.Of("", r.ASD.NFoot, quantity.Force),
		}
	}
	return c
}

func (in *Girder) working(r *GirderResult) []check.Line {
	sum := func(l frame.Load) float64 { t, _ := l.Total(); return t }
	out := []check.Line{{
		Text: "What this wall carries: lasting, live, snow", Formula: "W = Σ w·Δx",
		Terms: []quantity.Q{
			quantity.Of("D", sum(in.Dead), quantity.Force), quantity.Of("L", sum(in.Live), quantity.Force), quantity.Of("S", sum(in.Snow), quantity.Force),
		},
		Result: quantity.Of("W", sum(in.Dead)+sum(in.Live)+sum(in.Snow), quantity.Force), Source: srcStat,
	}}
	out = append(out, panelLines(in.Web, r.Web)...)
	out = append(out, r.Strut.lines(in.Top, in.Steel, in.Bed)...)
	for _, one := range []struct {
		kind string
		r    *GirderRating
	}{{"allowable strength", &r.ASD}, {"load and resistance factors", &r.LRFD}} {
		g := one.r
		out = append(out, check.Line{
			Text: "Shear flow where it is worst, " + g.Combo, Formula: "v = V/h + H/(L − openings)",
			Terms: []quantity.Q{
				quantity.Of("x", g.At, quantity.Length), quantity.Of("V", g.V, quantity.Force),
				quantity.Of("h", in.Depth, quantity.Length), quantity.Of("H", math.Abs(in.Push.ASD), quantity.Force),
			},
			Result: quantity.Of("v", g.Flow, quantity.LineLoad), Source: srcStat,
		}, check.Line{
			Text: "Sheet: shear together with the earth that bends it, " + one.kind, Formula: "the larger of √((v/vya)² + m²) and v/vcra + m",
			Terms:  []quantity.Q{quantity.Of("m", g.Bend, quantity.Ratio)},
			Result: quantity.Of("rW", g.Web, quantity.Ratio), Source: srcTogether,
		}, check.Line{
			Text: "Top rail, pressed and bent, " + one.kind, Formula: "N = M/h + H·x/L + diaphragm; N/Na with m by H1-1",
			Terms:  []quantity.Q{quantity.Of("N", g.N, quantity.Force)},
			Result: quantity.Of("rT", g.Top, quantity.Ratio), Source: srcH1,
		}, check.Line{
			Text: "Bottom rail, pulled and bent, " + one.kind, Formula: "T = M/h + H; T/(A·Fy) with m by H1-1",
			Terms: []quantity.Q{
				quantity.Of("T", g.NFoot, quantity.Force), quantity.Of("A·Fy", r.Tie, quantity.Force),
			},
			Result: quantity.Of("rB", g.Bottom, quantity.Ratio), Source: srcH1,
		})
	}
	return out
}
