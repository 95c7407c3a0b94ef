package assess

import (
	"fmt"
	"math"

	"hillset/engine/check"
	"hillset/engine/ground"
	"hillset/engine/quantity"
	"hillset/engine/tables"
)

// Sources of the checks of the wings, with how far each was seen.
const (
	srcWingPlan = "splayed wing wall in plan (derived)"
	srcWedge    = "UFC 3-220-20 4-10 (second-hand)"
	srcWingWall = "UFC 3-220-20 4-23 to 4-28 (second-hand)"
	srcWingDry  = "dry-stacked blocks take no tension (statics, derived)"
	srcMO       = "UFC 3-220-20 4-15 (second-hand)"
)

// sourceOf is a source with its mark.
func sourceOf(src tables.Source) string { return fmt.Sprintf("%s (%s)", src.Text, src.Mark) }

// blockSource is where weight and friction of the blocks come from.
func (s *wingSide) blockSource() string { return sourceOf(s.block.Src) }

// start is a check of the case with what all of them share.
func (c *wingCase) start(id string) check.Check {
	return check.Check{ID: id, Title: titleOfWing(id), RatioLRFD: math.NaN(), Assumptions: c.taken()}
}

// taken is what the checks take for granted.
func (c *wingCase) taken() []string {
	out := []string{
		"Every strip of the wall stands by itself, and each wing without the other and without the box: blocks laid dry carry nothing along the wall.",
		"Nothing before the wall holds it: the yard is cleared to the formation, and passive pressure is left out.",
		"The wall yields: active pressure. What compaction locked in is left out: it is gone with the first movement. Heavy plant stays off the fill behind the blocks.",
		"Before the front of the box the fill behind the wall falls with the hill; the wall steps down with it.",
		"Blocks of concrete with plain faces, without shear keys: " + c.s.blockSource() + ".",
	}
	if c.st.key.water > c.s.wall.Base {
		out = append(out, "Water stands behind the wall as high as in the section, not above the fill or the wall, though blocks laid dry drain; none stands before it.")
	} else {
		out = append(out, "No water stands behind the wall: the section has none above its foot.")
	}
	if c.s.wall.Setback > 0 {
		out = append(out, "The fill comes up with the courses: a wall that leans back rests on it, and a resultant behind the middle is not held against it.")
	}
	if c.st.key.kh > 0 {
		out = append(out, "In an earthquake the blocks are shaken as well; the resultant may lie anywhere in the middle half (EM 1110-2-2100, unusual loads, memory).")
	}
	return out
}

// where says which place and joint is worst.
func (c *wingCase) where() check.Line {
	text := "Worst place along the wall, from the box"
	switch {
	case c.joint > 0:
		text += fmt.Sprintf("; joint under course %d of %d", c.joint+1, c.pt.col.Courses)
	default:
		text += fmt.Sprintf("; base of %d courses", c.pt.col.Courses)
	}
	return line(text, "t", srcWingPlan, quantity.Of("t", c.pt.along, quantity.Length))
}

// line is one step of a working.
func line(text, formula, src string, result quantity.Q, terms ...quantity.Q) check.Line {
	return check.Line{Text: text, Formula: formula, Terms: terms, Result: result, Source: src}
}

// pushed are the steps to the thrust on the metre of wall.
func (c *wingCase) pushed() []check.Line {
	pt, w := c.pt, c.s.wall
	p := &pt.in.Push
	out := []check.Line{
		c.where(),
		line("Fill behind, above the foot", "H = z − z0", "the section", quantity.Of("H", pt.surface-w.Base, quantity.Length),
			quantity.Of("z", pt.surface, quantity.Length), quantity.Of("z0", w.Base, quantity.Length)),
		line("Slope of the fill square to the wall, splay "+quantity.Brief.Text(w.Splay, quantity.Angle), "tan β = (z at 2·H behind − z)/(2·H), not below 0", srcWingPlan+"; broken surface by AASHTO LRFD Fig. 3.11.5.8.1-3 (memory)",
			quantity.Of("β", pt.beta, quantity.Angle), quantity.Of("H", pt.surface-w.Base, quantity.Length)),
	}
	if p.H <= 0 {
		return out
	}
	for i := range pt.push.Column.Layers {
		l := &pt.push.Column.Layers[i]
		if l.Bottom >= math.Min(pt.surface, pt.push.Top) || l.Top <= w.Base {
			continue
		}
		ka, ok := wedgeOf(pt, i)
		if !ok {
			continue
		}
		out = append(out, line("Active coefficient, "+l.Name, "Ka(φ, δ, β, θ), Coulomb", srcWedge, quantity.Of("Ka", ka, quantity.None),
			quantity.Of("φ", l.Phi, quantity.Angle), quantity.Of("δ", pt.push.Delta[i], quantity.Angle), quantity.Of("β", pt.beta, quantity.Angle), quantity.Of("θ", -w.Batter, quantity.Angle),
			quantity.Of("γ", l.Gamma, quantity.UnitWeight)))
	}
	terms := []quantity.Q{quantity.Of("soil", p.Soil, quantity.LineLoad)}
	formula := "P = soil"
	for _, part := range []struct {
		sym string
		v   float64
	}{{"water", p.Fluid}, {"wheels", p.Load}, {"earthquake", p.Quake}} {
		if part.v > 0 {
			formula += " + " + part.sym
			terms = append(terms, quantity.Of(part.sym, part.v, quantity.LineLoad))
		}
	}
	if q := pt.push.Column.Q; q > 0 {
		out = append(out, line("Snow and area loads on the fill, in the thrust of soil", "q", "the project", quantity.Of("q", q, quantity.Pressure)))
	}
	src := srcWedge
	if p.Quake > 0 {
		src += "; " + srcMO
	}
	return append(out,
		line("Thrust across the whole wall: of soil the sum of Ka·σ'v·cos(δ + θ) down it", formula, src, quantity.Of("P", p.H, quantity.LineLoad), terms...),
		line("Its part down on the back", "Pv", srcWedge, quantity.Of("Pv", p.V, quantity.LineLoad)))
}

// wedgeOf is the active coefficient of a layer behind a metre of wall.
func wedgeOf(pt *wingPoint, i int) (float64, bool) {
	one := pt.push
	l := one.Column.Layers[i]
	one.Column.Layers = one.Column.Layers[i : i+1]
	one.Delta, one.Kh, one.Load, one.Room = one.Delta[i:i+1], 0, nil, nil
	one.Top, one.Bottom = l.Top, l.Bottom
	one.Column.Water = math.Inf(-1)
	p, err := ground.PushStack(one)
	return p.Ka, err == nil
}

// jointLines are the forces at the joint of the case.
func (c *wingCase) jointLines() []check.Line {
	jt, in := &c.pt.joints[c.joint], &c.pt.in
	own := in.B * jt.Height * in.Gamma
	out := append(c.pushed(),
		line("Blocks above the joint", "W = b·h·γ", c.s.blockSource(), quantity.Of("W", own, quantity.LineLoad),
			quantity.Of("b", in.B, quantity.Length), quantity.Of("h", jt.Height, quantity.Length), quantity.Of("γ", in.Gamma, quantity.UnitWeight)))
	if up := own + jt.V - jt.Wall.V; up > 1e-9 {
		out = append(out, line("Water that lifts them, full at the back, none at the face", "U = γw·hw·b/2", "statics (derived)", quantity.Of("U", up, quantity.LineLoad)))
	}
	return append(out, line("Load on the joint", "V = W + Pv − U, above the joint", srcWingWall, quantity.Of("V", jt.Wall.V, quantity.LineLoad),
		quantity.Of("W", own, quantity.LineLoad), quantity.Of("Pv", jt.V, quantity.LineLoad)))
}

// height holds the fill against the top of the wall.
func (c *wingCase) height() (check.Check, error) {
	w, n := c.s.wall, c.pt.col.Courses
	out := c.start(wingHeightID)
	h, top := quantity.Of("H", c.pt.surface-w.Base, quantity.Length), quantity.Of("h", float64(n)*w.Height, quantity.Length)
	out.Demand, out.Capacity, out.Ratio = h, top, h.Val/top.Val
	out.Method, out.Source = "Fill behind the wall against its courses, both above the foot", srcWingPlan
	out.Working = []check.Line{c.where(),
		line("Fill behind, above the foot", "H = z − z0", "the section", h, quantity.Of("z", c.pt.surface, quantity.Length), quantity.Of("z0", w.Base, quantity.Length)),
		line(fmt.Sprintf("Height of %d courses", n), "h = n·hc", srcWingPlan, top, quantity.Of("hc", w.Height, quantity.Length))}
	if out.Ratio > 1 {
		out.Remedy = fmt.Sprintf("%d courses at the box, or the fill at the front lower by {0}.", int(math.Ceil(h.Val/w.Height-1e-6)))
		out.RemedyQ = []quantity.Q{quantity.Of("Δz", h.Val-top.Val, quantity.Length)}
	}
	return out, nil
}

// factored fills what a check by factors of safety has.
func (c *wingCase) factored(out *check.Check, respect string, found float64) float64 {
	f := c.j.asked(respect, c.st)
	out.Demand, out.Capacity = quantity.Of("FS req", f.Factor, quantity.Factor), quantity.Of("FS", found, quantity.Factor)
	out.Ratio = overFound(f.Factor, found)
	out.Source = f.Name + ": " + sourceOf(f.Src)
	return f.Factor
}

// slide is sliding on the base or on a joint.
func (c *wingCase) slide() (check.Check, error) {
	id := wingSlideID
	if c.joint > 0 {
		id = wingJointID
	}
	jt := &c.pt.joints[c.joint]
	out := c.start(id)
	tan := c.pt.in.TanBase
	src := c.baseSource()
	if c.joint > 0 {
		tan, src = c.pt.in.TanJoint, c.s.blockSource()
	}
	asked := c.factored(&out, slideID(c.joint), jt.Wall.FSSlide)
	out.Method = "Friction against the thrust above the joint, for a strip of wall"
	v, h := quantity.Of("V", jt.Wall.V, quantity.LineLoad), quantity.Of("P", jt.H, quantity.LineLoad)
	r := quantity.Of("R", jt.Wall.Resist, quantity.LineLoad)
	out.Working = append(c.jointLines(),
		line("Friction", "R = V·tan δ, not below 0", src, r, v, quantity.Of("tan δ", tan, quantity.None)),
		line("Factor of safety", "FS = R/P, P above the joint", srcWingWall, quantity.Of("FS", jt.Wall.FSSlide, quantity.Factor), r, h))
	c.remedy(&out, func(jt *ground.Joint, _ float64) float64 { return overFound(asked, jt.Wall.FSSlide) },
		"drained fill of more friction behind it")
	return out, nil
}

// baseSource is where the friction of the base comes from.
func (c *wingCase) baseSource() string {
	if c.s.rock > 0 {
		return "formed concrete on rock fill, not above the friction of the ground below: DM-7.02 ch. 3 table 1 (second-hand)"
	}
	return "concrete on the soil below, not above its own friction: DM-7.02 ch. 3 table 1 (second-hand), or yours"
}

// over is overturning about the front edge of a joint.
func (c *wingCase) over() (check.Check, error) {
	jt := &c.pt.joints[c.joint]
	out := c.start(wingOverID)
	asked := c.factored(&out, "overturning", jt.Wall.FSOver)
	out.Method = "Moments about the front edge of the worst joint, for a strip of wall"
	mr, mo := quantity.Of("MR", jt.Wall.Resisting, quantity.LineMoment), quantity.Of("MO", jt.Wall.Overturning, quantity.LineMoment)
	out.Working = append(c.jointLines(),
		line("Blocks and what hangs on their back", "MR = ΣW·a + Pv·av", srcWingWall, mr),
		line("Thrust, and water that lifts", "MO = P·zP + U·2b/3", srcWingWall, mo, quantity.Of("P", jt.H, quantity.LineLoad)),
		line("Factor of safety", "FS = MR/MO", srcWingWall, quantity.Of("FS", jt.Wall.FSOver, quantity.Factor), mr, mo))
	c.remedy(&out, func(jt *ground.Joint, _ float64) float64 { return overFound(asked, jt.Wall.FSOver) }, "more lean into the hill")
	return out, nil
}

// middle asks whether the joint stays closed.
func (c *wingCase) middle() (check.Check, error) {
	jt, b := &c.pt.joints[c.joint], c.pt.in.B
	out := c.start(wingMidID)
	k := c.st.kern()
	sym := "b/6"
	if k != 1./6 {
		sym = "b/4"
	}
	e := quantity.Of("e", math.Max(0, jt.Wall.Base.E), quantity.Length)
	out.Demand, out.Capacity, out.Ratio = e, quantity.Of(sym, b*k, quantity.Length), e.Val/(b*k)
	out.Method = "Eccentricity of the resultant towards the face, at the worst joint"
	out.Source = srcWingWall + "; " + srcWingDry
	out.Working = append(c.jointLines(),
		line("Resultant from the front edge", "x0 = (MR − MO)/V", srcWingWall, quantity.Of("x0", jt.Wall.Base.X0, quantity.Length),
			quantity.Of("MR", jt.Wall.Resisting, quantity.LineMoment), quantity.Of("MO", jt.Wall.Overturning, quantity.LineMoment), quantity.Of("V", jt.Wall.V, quantity.LineLoad)),
		line("Eccentricity towards the face", "e = b/2 − x0, not below 0", srcWingWall, e, quantity.Of("b", b, quantity.Length), quantity.Of("x0", jt.Wall.Base.X0, quantity.Length)))
	c.remedy(&out, func(jt *ground.Joint, b float64) float64 { return math.Max(0, jt.Wall.Base.E) / (b * k) }, "more lean into the hill")
	return out, nil
}

// bearing is the pressure on the base rock or on the ground below it.
func (c *wingCase) bearing() (check.Check, error) {
	base := &c.pt.joints[0].Wall.Base
	out := c.start(wingBearID)
	allowed, name, _ := c.allowed()
	wide := c.spread(base.Width)
	p := math.Inf(1)
	if !base.Off {
		p = base.V / wide
	}
	q, all := quantity.Of("q", p, quantity.Pressure), quantity.Of("q all", allowed, quantity.Pressure)
	out.Demand, out.Capacity, out.Ratio = q, all, p/allowed
	out.Method = "Even pressure on the effective width below a strip of wall (Meyerhof)"
	out.Source = srcWingWall + "; bearing: presumptive value of " + name + " (IBC 1806.2 classes, verified; or yours)"
	v, b := quantity.Of("V", base.V, quantity.LineLoad), quantity.Of("b", c.pt.in.B, quantity.Length)
	out.Working = append(c.jointLines(),
		line("Effective width", "b' = b − 2·|e|", srcWingWall, quantity.Of("b'", base.Width, quantity.Length), b, quantity.Of("e", base.E, quantity.Length)))
	switch {
	case c.rock:
		out.Working = append(out.Working, line("Pressure on the base rock", "q = V/b'", srcWingWall, q, v, quantity.Of("b'", base.Width, quantity.Length)))
	case c.s.rock > 0:
		out.Working = append(out.Working, line("Pressure on the ground, spread 2:1 through the base rock", "q = V/(b' + t)", "spread 2:1 (memory)", q, v,
			quantity.Of("b'", base.Width, quantity.Length), quantity.Of("t", c.s.rock, quantity.Length)))
	default:
		out.Working = append(out.Working, line("Pressure on the ground", "q = V/b'", srcWingWall, q, v, quantity.Of("b'", base.Width, quantity.Length)))
	}
	if c.fallsAway() {
		out.Validity = "The bearing value is for level ground: here the ground falls away within twice the width of the blocks before the wall. Found it deeper, or have it looked at."
	}
	if out.Ratio > 1 {
		out.Remedy = "wider blocks, more lean into the hill, or fewer courses"
		if t := base.V/allowed - base.Width; !c.rock && !base.Off && t > 0 {
			out.Remedy = "{0} of base rock below the lowest course, or wider blocks or fewer courses"
			out.RemedyQ = []quantity.Q{quantity.Of("t", t, quantity.Length)}
		}
	}
	return out, nil
}

// fallsAway tells whether the ground before the foot of the wall falls away near
// by.
func (c *wingCase) fallsAway() bool {
	w := c.s.wall
	return w.Footing(c.pt.along, 2*w.Deep) < w.Base-gapAllowed
}

// alone is the whole wing: its thrust goes partly out of the hill and partly
// towards the entrance, and its own friction must hold both.
func (c *wingCase) alone() (check.Check, error) {
	t, w := &c.st.total, c.s.wall
	out := c.start(wingAloneID)
	asked := c.factored(&out, "sliding", t.fs)
	out.Method = "Friction below the whole wing against the whole thrust on it; the two wings do not prop each other"
	p, r := quantity.Of("P", t.thrust, quantity.Force), quantity.Of("R", t.resist, quantity.Force)
	splay := quantity.Of("s", w.Splay, quantity.Angle)
	wt := quantity.Of("W", t.weight, quantity.Force)
	out.Working = []check.Line{
		line("Fill above the foot at the box", "H1", "the section", quantity.Of("H1", t.near, quantity.Length)),
		line("Fill above the foot at the far end", "H2", "the section", quantity.Of("H2", t.far, quantity.Length), quantity.Of("L", t.length, quantity.Length)),
		line("Fill above the ground as found at the far end: to be sloped round the end of the wall", "ΔH, not below 0", "the section",
			quantity.Of("ΔH", math.Max(0, w.Base+t.far-w.Footing(t.length, 0)), quantity.Length)),
		line("Thrust across the whole wing, summed along it", "P = Σ(P1 + P2)/2·l", srcWingPlan, p),
		line("Where it acts, from the box", "t", srcWingPlan, quantity.Of("t", t.centre, quantity.Length)),
		line("Out of the hill", "Pa = P·cos s", srcWingPlan, quantity.Of("Pa", t.axial, quantity.Force), p, splay),
		line("Towards the entrance", "Pl = P·sin s", srcWingPlan, quantity.Of("Pl", t.lateral, quantity.Force), p, splay),
		line("Blocks of the wing", "W", c.s.blockSource(), wt),
		line("Friction below them", "R = Σ(W + Pv − U)·tan δ", c.baseSource(), r, wt, quantity.Of("Pv", t.down, quantity.Force), quantity.Of("U", t.uplift, quantity.Force), quantity.Of("tan δ", t.tan, quantity.None)),
		line("Factor of safety, in both directions alike", "FS = R/P", srcWingWall, quantity.Of("FS", t.fs, quantity.Factor), r, p),
	}
	if out.Ratio > 1 {
		out.Remedy = "{0} more friction below the wing: wider blocks or a lower wall; or less splay, so that less goes towards the entrance"
		out.RemedyQ = []quantity.Q{quantity.Of("ΔR", asked*t.thrust-t.resist, quantity.Force)}
	}
	return out, nil
}

// remedy says how wide the blocks would have to be, and what else helps.
func (c *wingCase) remedy(out *check.Check, ratio func(*ground.Joint, float64) float64, also string) {
	if out.Ratio <= 1 {
		return
	}
	if b, ok := c.wider(ratio); ok {
		out.Remedy, out.RemedyQ = "blocks {0} from face to back, "+also+", or fewer courses", []quantity.Q{b}
		return
	}
	out.Remedy = "wider blocks alone do not help: " + also + ", or fewer courses"
}

// wingsAbsent lists what stays unchecked of wings that are given.
func (j *job) wingsAbsent(found *worstOf, add func(id, title, part, why string)) {
	if !j.p.Wings.Given() {
		return
	}
	for _, s := range j.wings {
		if found.best[slot{wingSlideID, s.part}] != nil {
			continue
		}
		why := "no stage has fill behind it"
		if s.fault == nil && s.wall == nil {
			why = "no fill is brought to that side of the box: nothing lies behind it"
		}
		add(wingSlideID, titleOfWing(wingSlideID), s.part, why)
	}
	add("wing-walls", "Wing walls, the rest", "wing walls",
		"settlement, frost under the lowest course, blocks that are not level or not whole, the corner where blocks meet the box, and what holds the soil over the doors between the wings")
}
