package drain

import (
	"math"

	"hillset/engine/bisect"
	"hillset/engine/check"
	"hillset/engine/earth/limit"
	q "hillset/engine/quantity"
	"hillset/engine/tables"
)

const (
	srcSwale  = "Manning in a trapezoid (memory)"
	srcLining = "SCS-TP-61 as tabulated in two county codes (verified)"
	srcGrade  = "grade at least 0.5 %, lined above 8 %: Army EN5465 (verified)"
	srcGrass  = "n of grass: UDFCD 1990 table 2-4 (verified)"
)

// Swale is an open ditch with a flat bottom and straight sides.
type Swale struct {
	Bottom float64 // m; 0 for a V
	Left   float64 // side slopes, run per rise
	Right  float64
	N      float64 // Manning's n: 0.035 to 0.040 mown grass, up to 0.10 long
	Grade  float64 // m per m
}

// SwaleFlow is the state of a swale at one depth.
type SwaleFlow struct {
	Depth, Area, Wet, Top float64 // m, m2, m, m
	Velocity, Flow        float64 // m/s, m3/s
	Froude                float64 // above 1 the flow shoots
}

const deepestSwale = 5.0 // m

func (s *Swale) validate() error {
	err := limit.First(
		limit.Within("bottom", s.Bottom, 0, 20, q.Length),
		limit.Within("left", s.Left, 0, 20, q.Slope),
		limit.Within("right", s.Right, 0, 20, q.Slope),
		limit.Within("n", s.N, minN, maxN, q.None),
		limit.Within("grade", s.Grade, minFall, maxFall, q.Gradient))
	if err == nil && s.Bottom == 0 && s.Left+s.Right == 0 {
		return limit.Positive("bottom", s.Bottom, q.Length)
	}
	return err
}

func (s *Swale) at(y float64) SwaleFlow {
	f := SwaleFlow{Depth: y, Area: (s.Bottom + (s.Left+s.Right)/2*y) * y, Top: s.Bottom + (s.Left+s.Right)*y}
	f.Wet = s.Bottom + y*(math.Hypot(1, s.Left)+math.Hypot(1, s.Right))
	if f.Area > 0 {
		f.Velocity = math.Pow(f.Area/f.Wet, 2.0/3) * math.Sqrt(s.Grade) / s.N
		f.Froude = f.Velocity / math.Sqrt(gravity*f.Area/f.Top)
	}
	f.Flow = f.Velocity * f.Area
	return f
}

// Depth is the swale at its normal depth for a flow, m3/s (Manning).
func (s Swale) Depth(flow float64) (SwaleFlow, error) {
	if err := s.validate(); err != nil {
		return SwaleFlow{}, err
	}
	if err := limit.Within("flow", flow, 0, s.at(deepestSwale).Flow, q.Flow); err != nil {
		return SwaleFlow{}, err
	}
	return s.at(bisect.Rising(0, deepestSwale, func(y float64) float64 { return s.at(y).Flow - flow })), nil
}

// Permissible is the greatest velocity on a cover, m/s, at a grade, on soil
// that resists erosion or erodes easily. ok is false where the cover is not
// used at that grade.
func Permissible(l tables.Lining, grade float64, erodes bool) (v float64, ok bool) {
	i := 0
	switch {
	case grade > 0.10:
		i = 2
	case grade > 0.05:
		i = 1
	}
	v = l.Resist[i]
	if erodes {
		v = l.Erode[i]
	}
	return v, v > 0
}

// SwaleIn is a swale with what it has to carry.
type SwaleIn struct {
	Swale
	Long   float64 // Manning's n when the grass is not cut: it runs deepest then
	Flow   float64 // design flow, m3/s
	Room   float64 // depth of the swale, m
	Lining tables.Lining
	Erodes bool // the soil under the cover erodes easily
}

// Grades between which a swale of grass is laid, and the velocity above which
// only a good cover with upkeep holds, m/s.
const (
	leastGrade = 0.005
	lineAbove  = 0.08
	goodCover  = 1.5
)

// grassDepth is the least depth that n of grass is tabulated for, m: in
// shallower water it stands up and is rougher.
const grassDepth = 0.2

// SwaleCheck compares depth, velocity and grade of a swale with what it has: the
// velocity in mown grass, which runs fastest, the depth in long grass.
func SwaleCheck(in SwaleIn) (check.Check, error) {
	const id, title, part = "swale", "Swale above the box", "swale"
	err := limit.First(in.validate(), limit.Within("flow", in.Flow, 1e-7, most, q.Flow), limit.Within("room", in.Room, 0.02, deepestSwale, q.Length), limit.Within("long", in.Long, in.N, maxN, q.None))
	if err != nil {
		return check.Check{}, err
	}
	f, err := in.Depth(in.Flow)
	if err != nil {
		return check.Check{}, err
	}
	overgrown := in.Swale
	overgrown.N = in.Long
	deep, err := overgrown.Depth(in.Flow)
	if err != nil {
		return check.Check{}, err
	}
	vmax, ok := Permissible(in.Lining, in.Grade, in.Erodes)
	if !ok {
		return check.Unchecked(id, title, part, "this cover is not used at this grade: stone or a liner needs its own design"), nil
	}
	c := check.Check{ID: id, Title: title, Part: part, Method: "Normal depth and permissible velocity",
		Source:      srcSwale + "; " + srcGrass + "; " + in.Lining.Src.Text + " (" + string(in.Lining.Src.Mark) + "); " + srcGrade,
		Assumptions: []string{"even grade, free outlet", "the grass has grown in", "the velocity is that in mown grass, the depth that in long grass"},
		Validity:    "Even flow in a straight ditch."}
	if in.Grade > lineAbove {
		c.Validity += " At this grade a ditch is lined, not only grassed."
	}
	if f.Velocity > goodCover {
		c.Validity += " This velocity needs a good cover and upkeep."
	}
	if f.Froude > 1 {
		c.Validity += " The flow shoots: bends and the foot need stone."
	}
	if deep.Depth < grassDepth {
		c.Validity += " The water is shallower than n of grass is tabulated for: there grass is rougher, and the water deeper and slower than shown."
	}
	y, v := q.Of("y", f.Depth, q.Length), q.Of("V", f.Velocity, q.Velocity)
	top, fill, room := q.Of("yl", deep.Depth, q.Length), q.Of("yf", deep.Depth, q.Length), q.Of("h", in.Room, q.Length)
	spare, srcSpare := rule("swale-freeboard")
	fill.Val += spare.Value
	const manning = "Q = (1/n)·A·(A/P)^(2/3)·√S in m and s, A = (b + z·y)·y"
	c.Working = append(c.Working,
		check.Step("Depth in mown grass", manning, srcSwale, y, q.Of("Q", in.Flow, q.Flow), q.Of("n", in.N, q.None),
			q.Of("S", in.Grade, q.Gradient), q.Of("b", in.Bottom, q.Length), q.Of("z", (in.Left+in.Right)/2, q.Slope)),
		check.Step("Velocity in mown grass", "V = Q/A", srcSwale, v, q.Of("Q", in.Flow, q.Flow), q.Of("A", f.Area, q.Area)),
		check.Step("Depth in long grass", manning, srcGrass, top, q.Of("Q", in.Flow, q.Flow), q.Of("n", in.Long, q.None)),
		check.Step("With freeboard", "yf = yl + f", srcSpare, fill, top, q.Of("f", spare.Value, q.Length)),
		check.Step("Froude number", "Fr = V/√(g·A/T)", srcSwale, q.Of("Fr", f.Froude, q.None), v, q.Of("A", f.Area, q.Area), q.Of("T", f.Top, q.Length)))
	govern(&c, []condition{
		{text: "Velocity on the cover", formula: "r = V/Vmax", src: srcLining, demand: v, capacity: q.Of("Vmax", vmax, q.Velocity),
			remedy: "a wider or flatter swale, or a cover that stands {0}", remedyQ: v},
		{text: "Depth and freeboard", formula: "r = yf/h", src: srcSwale, demand: fill, capacity: room, remedy: "a swale {0} deep", remedyQ: fill},
		{text: "Grade", formula: "r = Smin/S", src: srcGrade, demand: q.Of("Smin", leastGrade, q.Gradient), capacity: q.Of("S", in.Grade, q.Gradient),
			remedy: "a grade of {0}", remedyQ: q.Of("Smin", leastGrade, q.Gradient)},
	})
	return c, nil
}
