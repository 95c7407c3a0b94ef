package ground

import (
	"fmt"
	"math"

	"hillset/engine/check"
	"hillset/engine/earth/limit"
	q "hillset/engine/quantity"
)

// PadCheck is the bearing pressure below the worst of four pads as a check:
// against Allowable where that is given, else as a factor of safety Required on
// Ultimate.
func PadCheck(in PadsIn) (check.Check, error) {
	p, err := LoadPads(in)
	if err != nil {
		return check.Check{}, err
	}
	err = limit.First(limit.AtLeast("allowable", in.Allowable, 0, q.Pressure), limit.AtLeast("ultimate", in.Ultimate, 0, q.Pressure))
	if err != nil {
		return check.Check{}, err
	}
	var c check.Check
	switch {
	case in.Allowable > 0:
		c = check.Check{Demand: q.Of("q", p.Max, q.Pressure), Capacity: q.Of("q all", in.Allowable, q.Pressure),
			Ratio: p.Max / in.Allowable}
	case in.Ultimate > 0:
		if err := required("required", in.Required); err != nil {
			return check.Check{}, err
		}
		c = factors("", "", in.Required, over(in.Ultimate, p.Max))
	default:
		return check.Check{}, fmt.Errorf("ground: allowable = %s, ultimate = %s: one of them must be above 0", q.Text(in.Allowable, q.Pressure), q.Text(in.Ultimate, q.Pressure))
	}
	c.ID, c.Title, c.RatioLRFD = "pad-bearing", "Bearing below the pads", math.NaN()
	c.Method = "Load shared by four pads below a stiff box"
	c.Source = srcPads
	if in.Basis != "" {
		c.Source += "; bearing: " + in.Basis
	}
	c.Assumptions = []string{"the box is stiff against the ground", "the pressure below a pad is even", "a pad takes no tension"}
	c.Working = in.working(p, c)
	if c.Ratio > 1 {
		in.remedy(p, &c)
	}
	return c, nil
}

func (in *PadsIn) working(p Pads, c check.Check) []check.Line {
	v := q.Of("V", in.Vertical, q.Force)
	area := q.Of("A", in.Length*in.Width, q.Area)
	own := q.Of("Wp", in.Own, q.Force)
	formula := "R = V/4·(1 ± 2ex/sx ± 2ey/sy)"
	if p.Three {
		formula = "three pads by equilibrium: V/2·(1 − 2ex/sx), V/2·(1 − 2ey/sy) and the rest"
	}
	var lines []check.Line
	if p.Off {
		return append(lines, check.Step("The load lies outside the pads", "|ex| > sx/2 or |ey| > sy/2", srcPads,
			q.Of("ex", in.Ex, q.Length), q.Of("sx", in.SpanX, q.Length), q.Of("ey", in.Ey, q.Length), q.Of("sy", in.SpanY, q.Length)))
	}
	for i, name := range []string{"front right", "front left", "back right", "back left"} {
		r := q.Of("R", p.Force[i], q.Force)
		lines = append(lines,
			check.Step("Load on the pad "+name, formula, srcPads, r, v, q.Of("ex", in.Ex, q.Length), q.Of("sx", in.SpanX, q.Length),
				q.Of("ey", in.Ey, q.Length), q.Of("sy", in.SpanY, q.Length)),
			check.Step("Pressure below it", "q = (R + Wp)/A", srcPads, q.Of("q", p.Pressure[i], q.Pressure), r, own, area))
	}
	if c.Capacity.Kind == q.Factor {
		lines = append(lines, check.Step("Factor of safety", "FS = qult/q", srcPads, c.Capacity,
			q.Of("qult", in.Ultimate, q.Pressure), q.Of("q", p.Max, q.Pressure)))
	}
	return lines
}

// remedy is the area of pads as thick as these that would do: a pad's own
// weight presses the same however large it is.
func (in *PadsIn) remedy(p Pads, c *check.Check) {
	if p.Off {
		c.Remedy = "the load lies outside the pads: lower what pushes the box over, pads do not help"
		return
	}
	area := in.Length * in.Width
	room := p.Max/c.Ratio - in.Own/area
	if room <= 0 {
		c.Remedy = "the pads alone are too heavy for the ground: it must be improved"
		return
	}
	c.Remedy = "pads of {0} each, as thick as these"
	c.RemedyQ = []q.Q{q.Of("A", (p.Max-in.Own/area)*area/room, q.Area)}
}
