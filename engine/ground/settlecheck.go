package ground

import (
	"math"
	"strconv"

	"hillset/engine/check"
	"hillset/engine/earth/limit"
	q "hillset/engine/quantity"
)

// Sources of the settlement.
const (
	srcElastic  = "elastic half-space under a rectangle (UFC 3-220-10, second-hand; the average derived)"
	srcLayers   = "elastic ground, a layer as the difference of two depths (Boussinesq, Steinbrenner, memory)"
	srcBed      = "constrained modulus under the pressure at mid-depth, spread 2:1 (derived)"
	srcDiffer   = "differences of the four pads (derived)"
	mostDeeper  = 1.5 // m, of a thicker rock bed looked at as a remedy
	deeperStep  = 0.05
	widerStep   = 0.05 // m
	goesOnWords = "Elastic ground by the moduli given, which must be those of drained ground, loaded slowly: silt and clay take weeks to years to come to it, and creep after that is not counted. Soft clay and organic soil are refused; made ground, and clay loaded beyond what it has ever carried, settle more than this. Ground is never as even as its layers are drawn."
)

// SettleCase is a load on pads that go down.
type SettleCase struct {
	Ready *Settling
	Load  PadsIn // with the pads of Ready
	Limit float64
	Basis string // where the limit comes from
	Wider bool   // the pads could be made wider
	// Bedded is false where no bed rock is there to take the place of soil.
	Bedded bool
	Notes  []string // what was taken for granted of the ground
}

// Solve shares the load among the pads and lets them down. Off is true where
// the load lies outside the pads.
func (c *SettleCase) Solve() (p Pads, s Settled, err error) {
	if p, err = LoadPads(c.Load); err != nil || p.Off {
		return p, s, err
	}
	s, err = c.Ready.Under(p.Pressure)
	return p, s, err
}

// measure is what one of the three checks holds against its limit.
type measure struct {
	id, title, sym, field string
	kind                  q.Kind
	of                    func(s *Settled) float64
	lines                 func(c *SettleCase, s *Settled) []check.Line // what follows from the four pads; nil where that is the largest
}

// The three checks of a box that goes down.
var (
	measureSettle = measure{"settlement", "Settlement of the pads", "s", "limit of settlement", q.Thickness,
		func(s *Settled) float64 { return s.Most }, nil}
	measureTilt  = measure{"tilt", "Tilt of the box as it settles", "i", "limit of tilt", q.Gradient, (*Settled).Tilt, (*SettleCase).tiltLines}
	measureTwist = measure{"twist", "Twist of the box as it settles", "d", "limit of twist", q.Thickness,
		func(s *Settled) float64 { return s.Twist }, (*SettleCase).twistLines}
)

// SettlementCheck holds the pad that goes down most against the limit, m.
func SettlementCheck(c SettleCase) (check.Check, error) { return measureSettle.check(&c) }

// TiltCheck holds the steeper tilt of a side or an end against the limit, m per m.
func TiltCheck(c SettleCase) (check.Check, error) { return measureTilt.check(&c) }

// TwistCheck holds how far one corner leaves the plane of the others against
// the limit, m: what racks the door frame.
func TwistCheck(c SettleCase) (check.Check, error) { return measureTwist.check(&c) }

func (m *measure) check(c *SettleCase) (check.Check, error) {
	if err := limit.Positive(m.field, c.Limit, m.kind); err != nil {
		return check.Check{}, err
	}
	p, s, err := c.Solve()
	if err != nil {
		return check.Check{}, err
	}
	if p.Off {
		return check.Unchecked(m.id, m.title, "", "the load lies outside the pads: the box tips, see overturning"), nil
	}
	v := m.of(&s)
	out := check.Check{ID: m.id, Title: m.title,
		Demand: q.Of(m.sym, v, m.kind), Capacity: q.Of(m.sym+" limit", c.Limit, m.kind),
		Ratio: v / c.Limit, RatioLRFD: math.NaN(),
		Method: "Load shared by four pads; rock bed as a layer that cannot spread, elastic ground in layers below it",
		Source: srcPads + "; " + srcElastic + "; " + srcLayers + "; " + srcBed + "; limit: " + c.Basis,
		Assumptions: append([]string{
			"The box settles from the day it is set: all that comes on it counts, and what was dug away before is not taken off.",
			"Only what stands on the pads presses: fill beside the box, where more is heaped up than was dug there, is not counted.",
			"A pad settles by the average of its area, and draws down the ground under the others; stress spreads as in even ground, whatever the layers.",
		}, c.Notes...),
		Validity: goesOnWords,
	}
	if m.lines != nil {
		out.Assumptions = append(out.Assumptions, "The box follows its pads: that its frame resists, and so bends and twists less, is not counted on.")
	}
	out.Working = c.working(p, &s, m)
	if out.Ratio > 1 {
		m.remedy(c, &out)
	}
	return out, nil
}

// working writes the worst pad out layer by layer and the others in one line.
func (c *SettleCase) working(p Pads, s *Settled, m *measure) []check.Line {
	in := &c.Ready.In
	var lines []check.Line
	if in.Bed.Thickness > 0 {
		lines = append(lines, check.Step("Constrained modulus of the rock bed, "+in.Bed.Name, "M = E·(1 − ν)/((1 + ν)·(1 − 2·ν))", srcBed,
			q.Of("M", c.Ready.modulus, q.Stress), q.Of("E", in.Bed.E, q.Stress), q.Of("ν", in.Bed.Nu, q.None)))
	}
	lines = append(lines, c.padLines(s.Worst, p, s)...)
	for i := range PadNames {
		if i != s.Worst {
			lines = append(lines, check.Step("In the same way, the pad "+PadNames[i], "s = sb + sg", srcLayers, q.Of("s", s.Pad[i], q.Thickness),
				q.Of("q", p.Pressure[i], q.Pressure), q.Of("sb", s.Bed[i], q.Thickness), q.Of("sg", s.Ground[i], q.Thickness)))
		}
	}
	if m.lines != nil {
		lines = append(lines, m.lines(c, s)...)
	}
	return lines
}

// padLines are the way of one pad.
func (c *SettleCase) padLines(i int, p Pads, s *Settled) []check.Line {
	r := c.Ready
	in := &r.In
	name := PadNames[i]
	press := q.Of("q", p.Pressure[i], q.Pressure)
	lines := []check.Line{check.Step("Pressure below the pad "+name, "q = (R + Wp)/A", srcPads, press,
		q.Of("R", p.Force[i], q.Force), q.Of("Wp", c.Load.Own, q.Force), q.Of("A", in.Length*in.Width, q.Area))}
	area := q.Of("A", in.Length*in.Width, q.Area)
	if in.Bed.Thickness > 0 {
		lines = append(lines, check.Step("The rock bed is squeezed", "sb = q·(A/A½)·t/M", srcBed, q.Of("sb", s.Bed[i], q.Thickness),
			press, area, q.Of("A½", in.Length*in.Width/r.share, q.Area), q.Of("t", in.Bed.Thickness, q.Length), q.Of("M", r.modulus, q.Stress)))
	}
	ground := q.Of("q'", s.Pressure[i], q.Pressure)
	lines = append(lines, check.Step("Pressure on the ground, spread 2:1 through the bed", "q' = q·A/(L'·W')", srcBed, ground,
		press, area, q.Of("L'", r.Length, q.Length), q.Of("W'", r.Width, q.Length)))
	at := r.rects()
	at[i].squeeze(at[i], in.Below[i], func(l *Layer, from, to, part float64) {
		terms := []q.Q{ground, q.Of("E", l.E, q.Stress), q.Of("ν", l.Nu, q.None), q.Of("z1", from, q.Length)}
		text, formula, src := l.Name+", all below", "s = q'·I(z1), I the mean of (1 + ν)/(2πE)·∫(2(1 − ν)/R + z²/R³)dA", srcElastic
		if !math.IsInf(to, 1) {
			terms = append(terms, q.Of("z2", to, q.Length))
			text, formula, src = l.Name, "s = q'·(I(z1) − I(z2)), I the mean of (1 + ν)/(2πE)·∫(2(1 − ν)/R + z²/R³)dA", srcLayers
		}
		lines = append(lines, check.Step(text, formula, src, q.Of("s", part*s.Pressure[i], q.Thickness), terms...))
	})
	if len(in.Below[i]) == 0 {
		lines = append(lines, check.Step("Rock carries the bed", "sg = 0", "", q.Of("sg", 0, q.Thickness)))
	}
	var others []q.Q
	for k, p := range s.Pressure {
		if k != i {
			others = append(others, q.Of("q'"+strconv.Itoa(k+1), p, q.Pressure))
		}
	}
	return append(lines,
		check.Step("The other pads draw the ground down with them", "sn = Σq'·I, I of their areas at this one", srcLayers, q.Of("sn", s.Ground[i]-s.Own[i], q.Thickness), others...),
		check.Step("Together, the pad "+name, "s = sb + Σs + sn", srcLayers, q.Of("s", s.Pad[i], q.Thickness),
			q.Of("sb", s.Bed[i], q.Thickness), q.Of("Σs", s.Own[i], q.Thickness), q.Of("sn", s.Ground[i]-s.Own[i], q.Thickness)))
}

// tiltLines are the two differences.
func (c *SettleCase) tiltLines(s *Settled) []check.Line {
	in := &c.Ready.In
	most := func(a, b, x, y int) (q.Q, q.Q, string) {
		side := PadNames[a] + " against " + PadNames[b]
		if math.Abs(s.Pad[x]-s.Pad[y]) > math.Abs(s.Pad[a]-s.Pad[b]) {
			a, b, side = x, y, PadNames[x]+" against "+PadNames[y]
		}
		return q.Of("s1", s.Pad[a], q.Thickness), q.Of("s2", s.Pad[b], q.Thickness), side
	}
	s1, s2, side := most(0, 2, 1, 3)
	lines := []check.Line{check.Step("Tilt along, "+side, "i = |s1 − s2|/sx", srcDiffer, q.Of("i", s.Along, q.Gradient), s1, s2, q.Of("sx", in.SpanX, q.Length))}
	s1, s2, side = most(0, 1, 2, 3)
	return append(lines, check.Step("Tilt across, "+side, "i = |s1 − s2|/sy", srcDiffer, q.Of("i", s.Across, q.Gradient), s1, s2, q.Of("sy", in.SpanY, q.Length)))
}

// twistLines are the corner out of the plane.
func (c *SettleCase) twistLines(s *Settled) []check.Line {
	return []check.Line{check.Step("A corner out of the plane of the three others", "d = |s1 − s2 − s3 + s4|", srcDiffer, q.Of("d", s.Twist, q.Thickness),
		q.Of("s1", s.Pad[0], q.Thickness), q.Of("s2", s.Pad[1], q.Thickness), q.Of("s3", s.Pad[2], q.Thickness), q.Of("s4", s.Pad[3], q.Thickness))}
}

// remedy looks for wider pads, then for bed rock in the place of soil.
func (m *measure) remedy(c *SettleCase, out *check.Check) {
	holds := func(in SettleIn) bool {
		r, err := ReadySettle(in)
		if err != nil {
			return false
		}
		t := *c
		t.Ready = r
		t.Load.Own *= in.Length * in.Width / (c.Load.Length * c.Load.Width)
		t.Load.Length, t.Load.Width = in.Length, in.Width
		p, s, err := t.Solve()
		return err == nil && !p.Off && m.of(&s) <= c.Limit
	}
	say := func(text string, v float64) {
		if out.Remedy != "" {
			text = ", or " + text
		}
		out.Remedy += text
		out.RemedyQ = append(out.RemedyQ, q.Of("", v, q.Length))
	}
	in := c.Ready.In
	for side := math.Max(in.Length, in.Width) + widerStep; c.Wider && side <= math.Min(in.MostLength, in.MostWidth); side += widerStep {
		wide := in
		wide.Length, wide.Width = side, side
		if holds(wide) {
			say("pads {0} square, as thick as these", side)
			break
		}
	}
	for more := deeperStep; c.Bedded && in.Bed.E > 0 && more <= mostDeeper; more += deeperStep {
		deep := in
		deep.Bed.Thickness += more
		for i := range deep.Below {
			deep.Below[i] = dugOut(in.Below[i], more)
		}
		if holds(deep) {
			text := "a rock bed {0} thick in the place of the soil under this one"
			if len(out.RemedyQ) > 0 {
				text = "a rock bed {1} thick in the place of the soil under this one"
			}
			say(text, deep.Bed.Thickness)
			break
		}
	}
	switch {
	case out.Remedy == "":
		out.Remedy = "dig the soft soil out below the pads and fill with rock, or found the box where the ground is stiffer: no wider pads and no thicker bed alone do it"
	case m.lines != nil:
		out.Remedy += "; best of all found both ends and both sides on the same ground"
	}
}

// dugOut takes soil away from the top of the layers.
func dugOut(below []Layer, depth float64) []Layer {
	for i, l := range below {
		if l.Thickness > depth {
			out := append([]Layer{l}, below[i+1:]...)
			out[0].Thickness -= depth
			return out
		}
		depth -= l.Thickness
	}
	return nil
}
