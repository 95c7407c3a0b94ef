package box

import (
	"math"

	"hillset/engine/check"
	"hillset/engine/frame"
	"hillset/engine/quantity"
	"hillset/engine/steel"
)

// Portal is the door end of a box under a push across it: two posts, header and
// sill with stiff corners. The door leaves, which hang in gaskets, are not
// counted.
type Portal struct {
	Push          Pair // kN at the top
	Post          steel.Post
	Header, Sill  steel.Bar
	Steel         Material
	Width, Height float64 // m between the middles of the members
	// Load is what the roof brings to each post, kN, and Strength its lower bound
	// in compression.
	Load     Effects
	Strength float64
}

// PortalPart is a part of the door end.
type PortalPart int

// Parts of the door end, in the order of the members of its frame.
const (
	PortalSill PortalPart = iota
	PortalRight
	PortalHeader
	PortalLeft
	portalParts
)

// String names the part.
func (p PortalPart) String() string { return [...]string{"sill", "post", "header", "post"}[p] }

// PortalRating is the worst that befalls the door end under the combinations
// of one kind.
type PortalRating struct {
	Part      PortalPart
	Combo     string
	M, N      float64 // kNm with sway amplification; kN, size
	Ma, Na    float64 // available strengths
	Amplified float64 // B2
	Ratio     float64
}

// PortalResult is what comes out of the door end.
type PortalResult struct {
	ASD, LRFD PortalRating
	Stiff     float64             // kN/m: push that moves the top by 1 m
	Unit      [portalParts]Effect // under a push of 1 kN
	Sway      float64             // m under the service push
}

// Effect is the largest moment and the axial force of a member, kNm and kN.
type Effect struct{ M, N float64 }

func (in *Portal) check() error {
	for _, err := range []error{
		in.Push.check("push on the door end"), in.Steel.check(),
		quantity.Within("width of the door end", in.Width, 0.5, 6, quantity.Length),
		quantity.Within("height of the door end", in.Height, minHeight, maxHeight, quantity.Length),
		quantity.Within("post area", in.Post.Area, 1e-6, 1, quantity.Area),
		quantity.Within("header area", in.Header.Area, 1e-6, 1, quantity.Area),
		quantity.Within("sill area", in.Sill.Area, 1e-6, 1, quantity.Area),
		quantity.Within("post strength", in.Strength, 1, 1e5, quantity.Stress),
		in.Load.check("roof load on the post"),
	} {
		if err != nil {
			return err
		}
	}
	return nil
}

// ReadyPortal is a door end with what does not depend on its load worked out
// once. Goroutines may share it.
type ReadyPortal struct {
	in       Portal
	unit     [portalParts]Effect
	stiff    float64
	strength [portalParts]barStrength
}

// Ready solves the frame of a door end for a push of 1 kN and finds the
// strengths of its parts. Its loads are set aside.
func (in Portal) Ready() (*ReadyPortal, error) {
	if err := in.check(); err != nil {
		return nil, err
	}
	out := &ReadyPortal{in: in}
	e, b, h := in.Steel.E, in.Width, in.Height
	f := frame.Frame{
		Nodes: []frame.Node{{X: true, Y: true}, {Px: b, Y: true}, {Px: b, Py: h}, {Py: h}},
		Members: []frame.Member{
			PortalSill:   {I: 0, J: 1, E: e, A: in.Sill.Area, Iz: in.Sill.Ix},
			PortalRight:  {I: 1, J: 2, E: e, A: in.Post.Area, Iz: in.Post.Iy},
			PortalHeader: {I: 2, J: 3, E: e, A: in.Header.Area, Iz: in.Header.Ix},
			PortalLeft:   {I: 3, J: 0, E: e, A: in.Post.Area, Iz: in.Post.Iy},
		},
	}
	sol, err := f.Solve(frame.LoadCase{Nodes: [][3]float64{{}, {}, {0.5}, {0.5}}})
	if err != nil {
		return nil, err
	}
	for k := range sol.Lines {
		out.unit[k] = Effect{math.Abs(sol.Lines[k].MMax), math.Abs(sol.N[k])}
	}
	out.stiff = 2 / (sol.U[2][0] + sol.U[3][0])
	return out, out.strengths()
}

// strengths finds the nominal strengths of the parts: bars by their kind, posts
// to first yield and as columns that may give way about any axis.
func (p *ReadyPortal) strengths() error {
	in := &p.in
	for part, bar := range map[PortalPart]steel.Bar{PortalSill: in.Sill, PortalHeader: in.Header} {
		s := &p.strength[part]
		var err error
		if s.mn, err = bar.Moment(steel.X, in.Steel.Fy, in.Steel.E); err != nil {
			return err
		}
		if s.pn, err = weakColumn(bar, in.Steel, in.Width); err != nil {
			return err
		}
	}
	fn, _, err := steel.ColumnStress(in.Steel.Fy, in.Steel.E, in.Height/in.Post.RMin)
	if err != nil {
		return err
	}
	post := barStrength{mn: in.Post.Sy * in.Steel.Fy, pn: math.Min(in.Strength, fn*in.Post.Area)}
	p.strength[PortalLeft], p.strength[PortalRight] = post, post
	return nil
}

// Under rates the door end under a push and the load on each of its posts.
func (p *ReadyPortal) Under(push Pair, load Effects) (PortalResult, error) {
	r := PortalResult{Stiff: p.stiff, Unit: p.unit}
	if err := push.check("push on the door end"); err != nil {
		return r, err
	}
	if err := load.check("roof load on the post"); err != nil {
		return r, err
	}
	h := math.Abs(push.ASD)
	r.ASD = p.see(Allowable, asdForm, h, load)
	r.LRFD = p.see(Strength, lrfdForm, h, load)
	r.Sway = h / p.stiff
	return r, nil
}

// see rates all parts under all combinations of one kind.
func (p *ReadyPortal) see(combos []Combo, form strengthForm, push float64, load Effects) (out PortalRating) {
	for k, c := range combos {
		axial := math.Max(0, c.Of(load))
		b2 := math.Inf(1)
		if left := 1 - form.raise*2*axial/(p.stiff*p.in.Height); left > 0 {
			b2 = 1 / left
		}
		h := c.H * push
		for part := range portalParts {
			u, s := p.unit[part], p.strength[part]
			one := PortalRating{Part: part, Combo: c.Name, Amplified: b2, Ma: s.mn * form.bend, Na: s.pn * form.axial}
			if h > 0 {
				one.M, one.N = u.M*h*b2, u.N*h
			}
			if part == PortalLeft || part == PortalRight {
				one.N += axial
			}
			one.Ratio = steel.H1(one.N, one.Na, one.M, one.Ma)
			if k == 0 && part == 0 || one.Ratio > out.Ratio {
				out = one
			}
		}
	}
	return out
}

// DoorEnd checks the door end under a push across the box.
func DoorEnd(in Portal) (check.Check, PortalResult, error) {
	ready, err := in.Ready()
	if err != nil {
		return check.Check{}, PortalResult{}, err
	}
	return ready.Check(in.Push, in.Load)
}

// Check is DoorEnd of a door end made ready.
func (p *ReadyPortal) Check(push Pair, load Effects) (check.Check, PortalResult, error) {
	r, err := p.Under(push, load)
	if err != nil {
		return check.Check{}, r, err
	}
	c := check.Check{
		ID: "end-frame", Title: "Door end pushed crosswise", Method: "Frame of posts, header and sill with sway amplification",
		Source: "stiffness solver (derived); post outline (memory); " + srcH1 + "; sway amplification of AISC 360 App. 8 (memory); " + srcCombos,
		Assumptions: []string{
			"The door leaves are not counted: they hang in gaskets and may stand open.",
			"Posts, header and sill meet in stiff corners. Header and sill of this end are taken as those of the blind end.",
			"The frame stands on its two castings; the sill ties them, one is held sideways.",
			"Each post carries as much of the roof as the most loaded one. Posts bend to first yield only.",
		},
		Validity: "Small movements: the sway shown is linear. The racking test of a new box has its doors shut and lasts minutes.",
		Demand:   quantity.Of("r", r.ASD.Ratio, quantity.Ratio), Capacity: quantity.Of("", 1, quantity.Ratio),
		Ratio: r.ASD.Ratio, RatioLRFD: r.LRFD.Ratio, Case: r.ASD.Combo, CaseLRFD: r.LRFD.Combo,
		Working: append(pushLines(push), p.working(&r)...),
	}
	if most := c.Worst(); most > 1 {
		c.Remedy = "Ribs that take the sway, one of them close behind the doors; or raise both sides of the fill together: the push on this end is {0}."
		c.RemedyQ = []quantity.Q{quantity.Of("", math.Abs(push.ASD), quantity.Force)}
	}
	return c, r, nil
}

func (p *ReadyPortal) working(r *PortalResult) []check.Line {
	u := r.Unit
	out := []check.Line{{
		Text: "Moments of the frame under a push of " + quantity.Brief.Text(1, quantity.Force) + ": posts, header, sill", Formula: "stiffness method",
		Terms: []quantity.Q{
			quantity.Of("post", u[PortalRight].M, quantity.Moment), quantity.Of("header", u[PortalHeader].M, quantity.Moment),
			quantity.Of("sill", u[PortalSill].M, quantity.Moment),
		},
		Result: quantity.Of("k", r.Stiff, quantity.LineLoad), Source: "push that moves the top by one unit of length (derived)",
	}, {
		Text: "Sway under the service push", Formula: "u = H/k",
		Result: quantity.Of("u", r.Sway, quantity.Thickness), Source: "linear (derived)",
	}}
	for _, one := range []struct {
		kind string
		r    *PortalRating
	}{{"allowable strength", &r.ASD}, {"load and resistance factors", &r.LRFD}} {
		out = append(out, check.Line{
			Text: "What the sway adds to the moments, " + one.kind, Formula: "B2 = 1/(1 − α·ΣP/(k·h))",
			Terms:  []quantity.Q{quantity.Of("h", p.in.Height, quantity.Length)},
			Result: quantity.Of("B2", one.r.Amplified, quantity.Factor), Source: "AISC 360 App. 8 (memory)",
		}, check.Line{
			Text: "Worst part: " + one.r.Part.String() + ", " + one.r.Combo, Formula: "N/Na ≥ 0.2: N/Na + 8/9·M/Ma, else N/(2·Na) + M/Ma",
			Terms: []quantity.Q{
				quantity.Of("N", one.r.N, quantity.Force), quantity.Of("Na", one.r.Na, quantity.Force),
				quantity.Of("M", one.r.M, quantity.Moment), quantity.Of("Ma", one.r.Ma, quantity.Moment),
			},
			Result: quantity.Of("r", one.r.Ratio, quantity.Ratio), Source: srcH1,
		})
	}
	return out
}
