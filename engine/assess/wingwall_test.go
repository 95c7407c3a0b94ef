package assess

import (
	"math"
	"strings"
	"testing"

	"hillset/engine/check"
	"hillset/engine/earth"
	"hillset/engine/ground"
	"hillset/engine/model"
	"hillset/engine/tables"
)

// winged is a box in a hillside of 1 in 3 that is filled back to the ground as
// found, with wing walls as earth reference EP-21 has them: splay 45°, fill of
// 34° and 18 kN/m3, 2.44 m high at the box. The friction of the fill on the
// blocks is made that of Rankine, parallel to the slope.
func winged() *model.Project { return wingedOn(1. / 3) }

// wingedOn is the same in a hillside that rises so much per m.
func wingedOn(slope float64) *model.Project {
	p := ep26()
	b := math.Atan(math.Cos(math.Pi/4)/3) * 180 / math.Pi
	p.Site.Soils[0] = model.Soil{ID: "s", Name: "soil", USCS: "SM", Gamma: 18, GammaSat: 20, Phi: 34, OCR: 1, DeltaSt: 17, DeltaCo: b, DigClass: "C", Bearing: 150}
	foot := 100 - p.Bedding.PadThickness - p.Bedding.RockThickness
	at := func(x float64) model.Vec { return model.Vec{x, foot + 2.44 + (x-20)*slope} }
	p.Site.Ground = []model.Vec{at(0), at(60)}
	top := foot + 2.44 - 102.591
	p.Fill.FrontTop, p.Fill.BackTop, p.Fill.BackSlope, p.Fill.Shoulder = top, top+6.058*slope, slope, 30
	p.Wings = model.WingWalls{Courses: 4, BlockLength: 1.22, BlockWidth: 1.22, BlockHeight: .61, Splay: 45, Length: 3.66}
	return p
}

// wingOf gives the left wing of a project as the first stage presses it.
func wingOf(t *testing.T, p *model.Project) (*wingSide, *wingState) {
	t.Helper()
	j, err := newJob(p, tables.Default())
	if err != nil {
		t.Fatal(err)
	}
	worst := newWorst()
	stages := j.work(t.Context(), worst)
	if stages[0].err != nil || len(j.wings) != 2 || len(j.wings[0].states) == 0 {
		t.Fatal(stages[0].err, j.wings)
	}
	if j.wings[0].states[0].fault != nil {
		t.Fatal(j.wings[0].states[0].fault)
	}
	return j.wings[0], j.wings[0].states[0]
}

func nearly(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol*math.Max(1e-9, math.Abs(want))) {
		t.Errorf("%s: %.5g, want %.5g", what, got, want)
	}
}

// TestWingEP21: the whole assessment meets what EP-21 gives by plan geometry and
// Rankine (derived): the slope square to the wing, the fall of the ground along
// it, the thrust at the tall end. The far end is where the hill puts it; the
// whole wing agrees with the closed sums of the taper.
func TestWingEP21(t *testing.T) {
	s, st := wingOf(t, winged())
	const tol = 0.005
	near, far := st.points[0], st.points[len(st.points)-1]
	nearly(t, "slope square to the wing", near.beta*180/math.Pi, 13.263, tol)
	nearly(t, "Ka", near.in.Push.Ka, .3041, tol)
	nearly(t, "fill at the box", near.surface-s.wall.Base, 2.44, tol)
	nearly(t, "fall along the wing", near.surface-far.surface, .863, tol)
	nearly(t, "thrust at the tall end", math.Hypot(near.in.Push.H, near.in.Push.V), 16.29, tol)
	w, err := ground.SplayWing(ground.WingIn{Splay: math.Pi / 4, Beta: math.Atan(1. / 3), Phi: 34 * math.Pi / 180, Gamma: 18,
		H1: 2.44, H2: 2.44 - .8626, Length: 3.66})
	if err != nil {
		t.Fatal(err)
	}
	nearly(t, "whole thrust across", st.total.thrust, w.Horizontal, .01) // straight between the columns: a little high
	if st.total.thrust < w.Horizontal {
		t.Error("summed straight between the columns the thrust is on the high side")
	}
	nearly(t, "where it acts", st.total.centre, w.Centroid, .01)
	nearly(t, "out of the hill", st.total.axial, w.Axial, .01)
	nearly(t, "towards the entrance", st.total.lateral, w.Lateral, .01)
	nearly(t, "down", st.total.down, w.Vertical, .01)
}

// TestWingByHand: level fill and ground, a wall without lean in line with the
// front, one soil: every figure by hand from the statics of a block wall (earth
// reference EP-20, derived) and Coulomb's coefficient.
func TestWingByHand(t *testing.T) {
	p := winged()
	p.Site.Soils[0].DeltaCo = 20
	p.Site.Ground = []model.Vec{{0, 102.265}, {60, 102.265}} // 2.44 m above the formation
	p.Fill.FrontTop, p.Fill.BackTop, p.Fill.BackSlope = -.326, -.326, 0
	p.Wings.Splay = 0
	r := run(t, p)
	rad := math.Pi / 180
	ka, err := earth.CoulombKa(34*rad, 20*rad, 0, 0)
	if err != nil {
		t.Fatal(err)
	}
	pa := ka * 18 * 2.44 * 2.44 / 2
	h, v := pa*math.Cos(20*rad), pa*math.Sin(20*rad)
	w := 1.22 * 2.44 * 22.6
	x0 := (w*.61 + v*1.22 - h*2.44/3) / (w + v)
	upper := ka * 18 * 1.83 * 1.83 / 2
	for _, c := range []struct {
		id   string
		want float64
	}{
		{wingSlideID, 1.5 * h / ((w + v) * math.Tan(20*rad))},
		{wingOverID, 1.5 * h * 2.44 / 3 / (w*.61 + v*1.22)},
		{wingMidID, (.61 - x0) / (1.22 / 6)},
		{wingBearID, (w + v) / (2 * x0) / 150},
		{wingJointID, 1.5 * upper * math.Cos(20*rad) / ((1.22*1.83*22.6 + upper*math.Sin(20*rad)) * .55)},
		{wingHeightID, 1},
		{wingAloneID, 1.5 * h / ((w + v) * math.Tan(20*rad))}, // no taper: as a metre of it
	} {
		for _, part := range []string{leftWing, rightWing} {
			k := find(r, c.id, part)
			if k == nil || k.Verdict() == check.NotChecked {
				t.Fatalf("%s %s: %+v", c.id, part, k)
			}
			nearly(t, c.id+" "+part, k.Ratio, c.want, 1e-6)
			if len(k.Working) < 3 || k.Source == "" || k.Method == "" || k.Stage == "" || len(k.Assumptions) == 0 {
				t.Errorf("%s: working, source or method is missing: %+v", c.id, k)
			}
			if k.Ratio > 1 != (k.Remedy != "") {
				t.Errorf("%s: ratio %.3f, remedy %q", c.id, k.Ratio, k.Remedy)
			}
		}
	}
}

// TestWingSides: on ground that falls across, the two wings stand differently;
// level, they are alike.
func TestWingSides(t *testing.T) {
	p := winged()
	r := run(t, p)
	l, rt := find(r, wingSlideID, leftWing), find(r, wingSlideID, rightWing)
	nearly(t, "level across", l.Ratio, rt.Ratio, 1e-9)
	p.Fill.Shoulder, p.Site.CrossSlope = .5, .15
	r = run(t, p)
	if a, b := find(r, wingAloneID, leftWing), find(r, wingAloneID, rightWing); a == nil || b == nil || !(b.Ratio > a.Ratio) {
		t.Errorf("the side with higher ground presses more: left %+v, right %+v", a, b)
	}
}

// TestWingNever: what never helps and what never hurts, over random walls.
func TestWingNever(t *testing.T) {
	ratios := func(p *model.Project) map[string]float64 {
		t.Helper()
		out := map[string]float64{}
		r := run(t, p)
		for _, c := range r.Checks {
			if ofWing(c.ID) && c.Verdict() != check.NotChecked {
				out[c.ID+c.Part] = c.Ratio
			}
		}
		if len(out) == 0 {
			t.Fatal("no wing was checked", r.Blocks)
		}
		return out
	}
	worse := func(what string, a, b map[string]float64, ids ...string) {
		t.Helper()
		for _, id := range ids {
			for _, part := range []string{leftWing, rightWing} {
				if x, y := a[id+part], b[id+part]; !(y >= x*(1-1e-9)) {
					t.Errorf("%s: %s %s falls from %.4f to %.4f", what, id, part, x, y)
				}
			}
		}
	}
	all := []string{wingSlideID, wingJointID, wingOverID, wingMidID, wingAloneID}
	for k := range 6 {
		p := winged()
		p.Wings.Splay, p.Wings.Batter = 15*float64(k), float64(k)
		p.Site.Soils[0].DeltaCo = 17
		base := ratios(p)

		q := wingedOn(.4) // a steeper hill, the rest alike
		q.Wings, q.Site.Soils[0].DeltaCo = p.Wings, 17
		worse("more slope", base, ratios(q), wingSlideID, wingJointID, wingOverID, wingMidID) // the whole wing tapers more on it

		q = p.Clone() // higher fill, and a course more to hold it
		q.Fill.FrontTop, q.Fill.BackTop, q.Wings.Courses = p.Fill.FrontTop+.61, p.Fill.BackTop+.61, 5
		q.Site.Ground[0][1] += .61
		q.Site.Ground[1][1] += .61
		worse("a course more of fill", base, ratios(q), wingSlideID, wingJointID, wingOverID, wingMidID, wingBearID, wingAloneID)

		q = p.Clone() // wider blocks
		q.Wings.BlockWidth += .3
		worse("narrower blocks", ratios(q), base, all...)

		q = p.Clone() // longer blocks: the columns change, no metre of wall gets worse
		q.Wings.BlockLength = 1.83
		worse("shorter blocks", ratios(q), base, wingSlideID, wingOverID, wingMidID, wingJointID)

		q = p.Clone() // deeper below the yard: the same wall holds more earth
		q.Stages[0].Snow, q.Site.Climate.GroundSnow = true, 3
		worse("snow", base, ratios(q), all...)

		q = p.Clone()
		z := 101.5
		q.Site.Water.Seasonal, q.Stages[0].Water = &z, model.WaterSeasonal
		worse("water behind", base, ratios(q), all...)

		q = p.Clone()
		q.Site.Surcharges = []model.Surcharge{{ID: "a", Name: "heap", Kind: model.AreaLoad, X1: 19, X2: 30, Q: 10}}
		q.Stages[0].Surcharges = []string{"a"}
		worse("a heap behind", base, ratios(q), all...)

		q = p.Clone()
		y := 3.
		q.Site.Surcharges = []model.Surcharge{{ID: "v", Name: "tractor", Kind: model.Vehicle, Vehicle: "tractor-midi", X1: 21, Y1: &y, Heading: "up"}}
		q.Stages[0].Surcharges = []string{"v"}
		got := ratios(q)
		worse("a tractor behind the right wing", base, got, all...)
		if k < 5 && !(got[wingSlideID+rightWing] > base[wingSlideID+rightWing]) {
			t.Error("the tractor does not press on the wing before it")
		}
	}
	p := winged()
	p.Site.Soils[0].DeltaCo = 17
	still := ratios(p)
	p.Site.Climate.Kh, p.Stages[0].Quake = .2, true
	shaken := ratios(p)
	if !(shaken[wingSlideID+leftWing]*1.5/1.1 > still[wingSlideID+leftWing]) {
		t.Error("an earthquake presses")
	}
}

// TestWingRefuses: what the method does not hold for is said by name, and takes
// no other check with it.
func TestWingRefuses(t *testing.T) {
	for _, c := range []struct {
		name, want string
		change     func(*model.Project)
	}{
		{"a lining", "lean", func(p *model.Project) { p.Wings.Batter = 25 }},
		{"no width", "not all their sizes", func(p *model.Project) { p.Wings.BlockWidth = 0 }},
		{"steps of more than half a block", "setback", func(p *model.Project) { p.Wings.BlockWidth, p.Wings.Batter = .3, 20 }},
		{"off the ground line", "beyond the ground line", func(p *model.Project) { p.Wings.Length = 40 }},
		{"in the air", "above the ground as found", func(p *model.Project) { p.Wings.Splay, p.Wings.Length = 90, 9 }},
		{"a loose fill", "steep", func(p *model.Project) { p.Site.Soils[0].Phi, p.Wings.Splay = 14, 0 }},
		{"too many blocks", "too many blocks", func(p *model.Project) { p.Wings.BlockLength, p.Wings.Length = .1, 18 }},
	} {
		p := winged()
		c.change(p)
		r := run(t, p)
		k := find(r, wingSlideID, leftWing)
		if k == nil || k.Verdict() != check.NotChecked || !strings.Contains(k.Missing, c.want) {
			t.Errorf("%s: %+v", c.name, k)
			continue
		}
		if o := find(r, "sliding", "box"); o == nil || o.Verdict() == check.NotChecked && c.name != "a loose fill" {
			t.Errorf("%s: the box goes with it: %+v", c.name, o)
		}
	}
	p := winged()
	p.Wings.Courses = 3
	if k := find(run(t, p), wingHeightID, leftWing); k.Verdict() != check.Beyond || !strings.Contains(k.Remedy, "4 courses") {
		t.Errorf("a course short: %+v", k)
	}
	p = winged()
	p.Box.Orientation = model.Broadside
	if k := find(run(t, p), wingSlideID, leftWing); k == nil || !strings.Contains(k.Missing, "nothing lies behind") {
		t.Errorf("the door end of a box set broadside: %+v", k)
	}
	p.Wings = model.WingWalls{}
	r := run(t, p)
	for _, c := range r.Checks {
		if strings.Contains(c.Part, "wing") {
			t.Errorf("no wings are given: %+v", c)
		}
	}
}

// TestWingRemedy: the width of blocks that a remedy names brings that check to
// its limit, by the whole assessment.
func TestWingRemedy(t *testing.T) {
	p := winged()
	p.Wings.BlockWidth = .61
	p.Site.Soils[0].DeltaCo = 17
	r := run(t, p)
	seen := 0
	for _, id := range []string{wingSlideID, wingOverID, wingMidID} {
		c := find(r, id, leftWing)
		if c.Verdict() != check.Beyond || len(c.RemedyQ) == 0 {
			continue
		}
		seen++
		q := p.Clone()
		q.Wings.BlockWidth = c.RemedyQ[0].Val
		if k := find(run(t, q), id, leftWing); math.Abs(k.Ratio-1) > .01 {
			t.Errorf("%s: with blocks of %.3f m the ratio is %.4f", id, q.Wings.BlockWidth, k.Ratio)
		}
	}
	if seen < 2 {
		t.Errorf("%d remedies were tried", seen)
	}
}

// TestWingTakeoff: two walls of QT-01 of the site reference (derived): 11 whole
// and 2 half blocks each; their weight by the unit weight of the table.
func TestWingTakeoff(t *testing.T) {
	const ft = 0.3048
	p := winged()
	p.Site.Ground = []model.Vec{{0, 102.265}, {60, 102.265}}
	p.Fill.FrontTop, p.Fill.BackTop, p.Fill.BackSlope = -.326, -.326, 0
	p.Wings = model.WingWalls{Courses: 3, BlockLength: 6 * ft, BlockWidth: 2 * ft, BlockHeight: 2 * ft, Length: 24 * ft, BaseRock: .25}
	p.Prices = map[string]float64{"wall block": 95}
	k := takeoff(t, p)
	const size = "{length 1.8288 brief} x {length 0.6096 brief} x {length 0.6096 brief}"
	whole, half, rock := item(t, k, "blocks of the wing walls, "+size), item(t, k, "half blocks of the wing walls, of "+size), item(t, k, "base rock below the wing walls")
	if whole.Count != 22 || half.Count != 4 {
		t.Errorf("%d whole and %d half blocks", whole.Count, half.Count)
	}
	one := 24 * ft * ft * ft * 22.6 / 9.81
	nearly(t, "mass", whole.Mass+half.Mass, 24*one, 1e-9)
	nearly(t, "price", whole.Price, 22*95, 1e-12)
	nearly(t, "rock", rock.Quantity, 2*24*ft*(2*ft+.25)*.25, 1e-9)
}

// TestWingAdvice: a wall too low and too thin is mended by courses and wider
// blocks, each tried by the whole assessment.
func TestWingAdvice(t *testing.T) {
	p := demo(t, "put-right").Clone()
	p.Wings = model.WingWalls{Courses: 4, BlockLength: 1.83, BlockWidth: .61, BlockHeight: .61, Splay: 45, Length: 3.66, Batter: 5}
	before := run(t, p)
	if g := before.Governing(); g.Verdict() != check.Beyond || !ofWing(g.ID) {
		t.Fatalf("%s governs", g.ID)
	}
	as, err := Advise(t.Context(), before, tables.Default(), nil)
	if err != nil || len(as) == 0 {
		t.Fatal(err, as)
	}
	best := as[0]
	q := p.Clone()
	best.Apply(q)
	if q.Wings.Courses < 6 || q.Wings.BlockWidth <= p.Wings.BlockWidth {
		t.Errorf("%+v", q.Wings)
	}
	if g := run(t, q).Governing(); g.Verdict() != check.Within {
		t.Errorf("with %q %s of %s is beyond", best.Text, g.ID, g.Part)
	}
}
