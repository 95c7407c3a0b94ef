package assess

import (
	"math"

	"hillset/engine/check"
	"hillset/engine/drain"
	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/engine/section"
	"hillset/geom"
)

// interceptor checks the pipe of the drain uphill against the computed flow,
// with what runs down a tight layer as a second figure where there is one.
func (d *drainage) interceptor() {
	g := gap{id: "interceptor-pipe", title: "Interceptor, flow", part: curtain}
	dr := &d.p.Defence.Drain
	if d.unknown(g) {
		return
	}
	row, ok := d.t.Pipe(dr.Pipe)
	flow := d.times * d.flow.interceptor
	if d.lacks(g, need{"the pipe, a row of the table of pipes", ok}, need{"its bore", dr.Diameter > 0}, need{"its fall", dr.Fall > 0},
		need{"its depth below the ground", dr.UphillDepth > 0}, need{"water: in no stage does any come to the interceptor", flow >= leastDrain}) {
		return
	}
	c, err := drain.PipeCheck(drain.PipeIn{Pipe: drain.Pipe{Bore: dr.Diameter, N: row.N, Fall: dr.Fall, Camp: dr.Camp}, Flow: flow, Fines: dr.Cloth.AOS == 0, Laser: dr.Laser})
	if err != nil {
		d.offer(g, c, err)
		return
	}
	c.ID, c.Title, c.Part = g.id, g.title, g.part
	q := quantity.Of("Qi", d.flow.interceptor, quantity.Flow)
	lines := []check.Line{{Text: "Water to the interceptor by the long section, across the whole cut", Formula: "Qi = q·L", Source: srcFlowIn, Result: q,
		Terms: []quantity.Q{quantity.Of("q", d.flow.per, quantity.LineFlow), quantity.Of("L", d.flow.li, quantity.Length)}}}
	if d.times > 1 {
		lines = append(lines, check.Line{Text: "The permeability of the hill is not measured: ten times as much counts", Formula: "Q = 10·Qi", Source: "common practice",
			Terms: []quantity.Q{q}, Result: quantity.Of("Q", flow, quantity.Flow)})
	}
	if in, ok := d.tight(); ok {
		if r, err := drain.CurtainFlow(in); err == nil {
			lines = append(lines, check.Line{Text: "For comparison, all that runs down the tight layer", Formula: "Qc = K·D·sin β·L", Source: "Darcy along the bed (derived)",
				Terms: []quantity.Q{quantity.Of("K", in.K, quantity.Permeability), quantity.Of("D", in.Thickness, quantity.Length),
					quantity.Of("β", in.Slope, quantity.Angle), quantity.Of("L", in.Length, quantity.Length)},
				Result: quantity.Of("Qc", r.Flow, quantity.Flow)})
		}
	} else {
		c.Assumptions = append(c.Assumptions, "no layer ten times tighter lies under the interceptor: Darcy along a bed has nothing to compare with, and water passes beneath it")
	}
	c.Working = append(lines, c.Working...)
	d.offer(g, c, nil)
}

// tightBy is how many times tighter a layer must be for water to run on it.
const tightBy = 10

// tight is the water above a tight layer under the interceptor, in the hill as
// found; false where there is none.
func (d *drainage) tight() (in drain.CurtainIn, ok bool) {
	pipes := d.sr.view.Interceptor(d.p)
	far := d.field.Far[d.sr.st.Water]
	if len(pipes) == 0 || far == nil {
		return in, false
	}
	x := pipes[0].At[0]
	table, known := far.Table.At(x)
	for i := 1; i < len(d.p.Site.Strata); i++ {
		s := &d.p.Site.Strata[i]
		above, ok1 := section.SoilByID(d.p, d.p.Site.Strata[i-1].Soil)
		below, ok2 := section.SoilByID(d.p, s.Soil)
		top := polyOf(s.Top)
		z, ok3 := top.At(x)
		a, ok4 := top.At(x - bedReach)
		b, ok5 := top.At(x + bedReach)
		if !(known && ok1 && ok2 && ok3 && ok4 && ok5) || below.Kx*tightBy > above.Kx || table <= z || b <= a {
			continue
		}
		slope := math.Atan2(b-a, 2*bedReach)
		return drain.CurtainIn{K: above.Kx, Thickness: (table - z) * math.Cos(slope), Slope: slope, Length: d.flow.li}, true
	}
	return in, false
}

// bedReach is how far on both sides of the interceptor its bed is looked at for
// its slope, m.
const bedReach = 1.0

// Roughness of a grassed swale: mown grass runs faster, long grass deeper (the
// ends of UDFCD 1990 table 2-4, verified).
const (
	mown = 0.035
	long = 0.10
)

// swale checks the ditch above the box against the storm of the site.
func (d *drainage) swale() {
	g := gap{id: "swale", title: "Swale above the box", part: swalePart}
	r := &d.p.Defence.Runoff
	cover, okCover := d.t.Runoff(r.Cover)
	lining, okLining := d.t.Lining(r.Lining)
	rain := d.p.Site.Climate.DesignRain
	if d.lacks(g, need{"the area that drains to it", r.Area > 0}, need{"its cover, a row of the table of runoff", okCover}, need{"the longest way of the water", r.Length > 0},
		need{"the slope of that way", r.Slope > 0}, need{"the design rain of the climate", rain > 0}, need{"the return period", r.Years > 0},
		need{"width or sides of the swale", r.Bottom > 0 || r.SwaleSide > 0}, need{"its fall", r.SwaleFall > 0}, need{"its depth", r.SwaleRoom > 0}, need{"its lining", okLining}) {
		return
	}
	c, err := drain.RareRunoff(cover.C, r.Years)
	if err != nil {
		d.offer(g, check.Check{}, err)
		return
	}
	flow, err := drain.Rational(c, rain/1000/3600, r.Area)
	if err != nil {
		d.offer(g, check.Check{}, err)
		return
	}
	lines, err := d.storm(c, flow)
	if err != nil {
		d.offer(g, check.Check{}, err)
		return
	}
	in := drain.SwaleIn{Swale: drain.Swale{Bottom: r.Bottom, Left: r.SwaleSide, Right: r.SwaleSide, N: mown, Grade: r.SwaleFall}, Long: long, Flow: flow, Room: r.SwaleRoom, Lining: lining, Erodes: r.Erodes}
	made, err := drain.SwaleCheck(in)
	if err == nil && made.Missing == "" {
		made.Working = append(lines, made.Working...)
		made.Assumptions = append(made.Assumptions, "the design rain of the climate is that of a storm as long as the time of concentration")
		made.Source += "; " + cover.Src.Text + " (" + string(cover.Src.Mark) + ")"
	}
	d.offer(g, made, err)
}

// storm writes how the flow of the storm came about, with the runoff of a day by
// the curve number as a second figure where it is asked for.
func (d *drainage) storm(c, flow float64) ([]check.Line, error) {
	r := &d.p.Defence.Runoff
	tc, err := drain.Kirpich(r.Length, r.Slope)
	if err != nil {
		return nil, err
	}
	dur, _, err := drain.StormDuration(tc, false)
	if err != nil {
		return nil, err
	}
	i := d.p.Site.Climate.DesignRain / 1000 / 3600
	area := quantity.Of("A", r.Area, quantity.Area)
	out := []check.Line{
		{Text: "Time of concentration", Formula: "tc = 0.0078·L^0.77·S^−0.385 min, L in units of {length 0.3048 typed}", Source: drain.SourceKirpich, Result: quantity.Of("tc", tc, quantity.Duration),
			Terms: []quantity.Q{quantity.Of("L", r.Length, quantity.Length), quantity.Of("S", r.Slope, quantity.Gradient)}},
		{Text: "Length of the storm to look up", Formula: "t = max(tc, 10 min)", Source: drain.SourceKirpich, Result: quantity.Of("t", dur, quantity.Duration), Terms: []quantity.Q{quantity.Of("tc", tc, quantity.Duration)}},
		{Text: "Peak runoff, the coefficient raised for a rare storm", Formula: "Q = C·i·A", Source: drain.SourceRational, Result: quantity.Of("Q", flow, quantity.Flow),
			Terms: []quantity.Q{quantity.Of("C", c, quantity.None), quantity.Of("i", i, quantity.Rate), area}},
	}
	row, ok := d.t.CurveNumber(r.Curve)
	if k := group(r.Group); ok && k >= 0 && r.Rain24 > 0 {
		p := r.Rain24 / 1000
		depth, err := drain.CurveRunoff(p, row.CN[k])
		if err != nil {
			return nil, err
		}
		out = append(out, check.Line{Text: "Runoff of a whole day, for a pond or a soakaway", Formula: "V = (P − 0.2·S)²/(P + 0.8·S)·A", Source: drain.SourceCN, Result: quantity.Of("V", depth*r.Area, quantity.Volume),
			Terms: []quantity.Q{quantity.Of("P", p, quantity.Length), quantity.Of("S", drain.Retained(row.CN[k]), quantity.Length), area}})
	}
	return out, nil
}

// group is the place of a hydrologic soil group in a row of curve numbers; -1
// for none.
func group(name string) int {
	for i, g := range []string{"A", "B", "C", "D"} {
		if g == name {
			return i
		}
	}
	return -1
}

// membranes hold every membrane on the walls against the highest water that
// stands there with the drains blocked.
func (d *drainage) membranes(stages []stageResult) {
	g := gap{id: "membrane", title: "Membrane under a head of water", part: skinPart}
	head, at := d.worstHead(stages)
	asked := need{"a stage in service with the drains blocked", at != nil}
	if d.field == nil {
		asked.what = "a stage in service with water"
	}
	for _, l := range d.p.Defence.Layers {
		if l.Kind != "membrane" {
			continue
		}
		row, ok := d.t.Membrane(l.Row)
		g.title = "Membrane under a head of water: " + l.Name
		if d.lacks(g, need{"the kind of " + l.Name + ", a row of the table of membranes", ok}, asked) {
			continue
		}
		c, err := drain.MembraneCheck(drain.MembraneIn{Kind: row, Thickness: l.Thickness, Head: math.Max(0, head-d.p.Box.Level)})
		c.Title = g.title
		c.Assumptions = append(c.Assumptions, d.headWords(at.st)...)
		d.offerAt(at.st.ID, g, c, err)
	}
}

// worstHead is the highest level of water at the walls in a finished stage in
// which nothing takes it away, m, and that stage, nil where there is none; -Inf
// where it stays below the box. A level that is given is the one at the walls,
// drains or not.
func (d *drainage) worstHead(stages []stageResult) (level float64, at *stageResult) {
	level = math.Inf(-1)
	for i := range stages {
		sr := &stages[i]
		var z float64
		switch w := d.wet(sr.st); {
		case sr.st.Kind != model.StageService || sr.view == nil:
			continue
		case d.field == nil && math.IsNaN(sr.view.Water), d.field != nil && (w == nil || d.drained() && !sr.st.Blocked):
			continue
		case d.field == nil:
			z = sr.view.Water
		default:
			z = highestBeside(w)
		}
		if at == nil || z > level {
			level, at = z, sr
		}
	}
	return level, at
}

// headWords say which head a membrane was held against.
func (d *drainage) headWords(st model.Stage) []string {
	if d.field == nil {
		return []string{"the head is that of the level given for stage “" + st.Name + "”"}
	}
	out := []string{"the head is that of stage “" + st.Name + "”, with " + wetWords[st.Water]}
	if st.Water != model.WaterHigh && d.drained() {
		out = append(out, "high water with the drains blocked is in no stage: its head may be larger")
	}
	return out
}

// polyOf is a boundary of a stratum as a line.
func polyOf(line []model.Vec) geom.Polyline {
	out := make(geom.Polyline, len(line))
	for i, v := range line {
		out[i] = geom.Vec(v)
	}
	return out
}
