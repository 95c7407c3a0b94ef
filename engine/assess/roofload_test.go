package assess

import (
	"math"
	"testing"

	"hillset/engine/box"
	"hillset/engine/earth"
	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/tables"
)

// jobOf is a project ready for single loads.
func jobOf(t testing.TB, p *model.Project) *job {
	t.Helper()
	if problems := p.Validate(); len(problems) > 0 {
		t.Fatal(problems)
	}
	j, err := newJob(p, tables.Default())
	if err != nil {
		t.Fatal(err)
	}
	return j
}

// boussinesq is the stress of wheels at a point by summing point loads over
// their footprints: a second route beside the closed form.
func boussinesq(wheels []earth.Patch, x, y, z float64) float64 {
	const n = 12
	sum := 0.0
	for _, w := range wheels {
		for i := range n {
			for k := range n {
				dx := w.X + w.A*((float64(i)+0.5)/n-0.5) - x
				dy := w.Y + w.B*((float64(k)+0.5)/n-0.5) - y
				sum += 3 * w.P / (n * n) * z * z * z / (2 * math.Pi * math.Pow(dx*dx+dy*dy+z*z, 2.5))
			}
		}
	}
	return sum
}

// threeBays bends a beam over three equal bays by summing strips of its load:
// the largest moment in the bays and what presses on the two inner supports.
func threeBays(q func(s float64) float64, bay float64) (field, r1, r2 float64) {
	const n = 150
	d := bay / n
	var left, right, ra, rb [3]float64 // EI times end slopes of the bays pinned, their reactions
	for k := range 3 {
		for i := range n {
			s := (float64(i) + 0.5) * d
			w := q(float64(k)*bay+s) * d
			ra[k] += w * (bay - s) / bay
			rb[k] += w * s / bay
			left[k] += w * s * (bay - s) * (2*bay - s) / (6 * bay)
			right[k] += w * s * (bay - s) * (bay + s) / (6 * bay)
		}
	}
	a, b := -6*(right[0]+left[1])/bay, -6*(right[1]+left[2])/bay // 4M1 + M2 = a, M1 + 4M2 = b
	m := [4]float64{0, (4*a - b) / 15, (4*b - a) / 15, 0}
	for k := range 3 {
		v := ra[k] + (m[k+1]-m[k])/bay
		mom := m[k]
		for i := range n {
			w := q(float64(k)*bay+(float64(i)+0.5)*d) * d
			mom += (v - w/2) * d
			v -= w
			field = math.Max(field, mom)
		}
	}
	r1 = rb[0] + ra[1] - (m[1]-m[0])/bay + (m[2]-m[1])/bay
	r2 = rb[1] + ra[2] - (m[2]-m[1])/bay + (m[3]-m[2])/bay
	return field, r1, r2
}

// TestWheelsAsTheyLie: with two purlins and 0.32 m of cover the largest field
// moments of a tractor and of a truck facing uphill over the middle of the roof
// are 2.205 and 13.4 kNm/m, not 0.970 and 4.32 as of an even load (derived,
// independent route); the same numbers come from summed point loads and a beam
// cut into strips.
func TestWheelsAsTheyLie(t *testing.T) {
	j := jobOf(t, demo(t, "put-right"))
	const cover = 0.32
	impact := 1 + 0.33*(1-0.125*cover/0.3048)
	for _, c := range []struct {
		vehicle string
		want    float64
	}{{"tractor-midi", 2.205}, {"truck-hs20", 13.4}} {
		y := 0.0
		wheels, err := j.patches(model.Surcharge{Kind: model.Vehicle, Vehicle: c.vehicle, Heading: "up", X1: 12, Y1: &y})
		if err != nil {
			t.Fatal(err)
		}
		load, _, err := j.roll(wheels, 12, cover, impact)
		if err != nil {
			t.Fatal(err)
		}
		span := j.roofSpan()
		field, r1, r2 := threeBays(func(s float64) float64 { return impact * boussinesq(wheels, 12, s-span/2, cover) }, span/3)
		strip := box.RoofStrip{Profile: j.agedAt(0).roof.strip.Profile, Steel: j.metal, Span: span, Supports: j.purlinPlaces(), Straight: true, Wheels: load}
		r, err := strip.Solve()
		if err != nil {
			t.Fatal(err)
		}
		const tol = 0.005 // straight lines between points
		if math.Abs(r.ASD.Field-field) > tol*field || math.Abs(r.ASD.Field-c.want) > 0.015*c.want {
			t.Errorf("%s: field moment %.3f, by strips %.3f, reviewed %.3f", c.vehicle, r.ASD.Field, field, c.want)
		}
		for k, want := range []float64{r1, r2} {
			if math.Abs(r.Purlins[k].ASD-want) > tol*want {
				t.Errorf("%s: purlin %d takes %.2f, by strips %.2f kN/m", c.vehicle, k+1, r.Purlins[k].ASD, want)
			}
		}
	}
}

// TestWheelSampling: the points across the roof catch the whole of a wheel
// however thin the cover, down to tyres on the steel itself: the load on the
// line is that of strips ten times as fine (derived).
func TestWheelSampling(t *testing.T) {
	j := jobOf(t, demo(t, "put-right"))
	y := 0.1
	wheels, err := j.patches(model.Surcharge{Kind: model.Vehicle, Vehicle: "truck-hs20", Heading: "up", X1: 12, Y1: &y})
	if err != nil {
		t.Fatal(err)
	}
	span := j.roofSpan()
	for _, cover := range []float64{0, 0.001, 0.02, 0.1, 0.3, 0.7, 2} {
		load, even, err := j.roll(wheels, 12, cover, 1)
		if err != nil {
			t.Fatal(err)
		}
		const n = 4000
		want, first := 0.0, 0.0
		for i := range n {
			s := span * (float64(i) + 0.5) / n
			q, _ := earth.PatchStress(wheels, 12, s-span/2, cover)
			want += q * span / n
			first += q * span / n * s
		}
		got, at := load.Total()
		if math.Abs(got-want) > 0.01*want || math.Abs(at-first/want) > 0.01 {
			t.Errorf("cover %.3f: %.3f kN/m at %.3f, by fine strips %.3f at %.3f", cover, got, at, want, first/want)
		}
		if even < got/span {
			t.Errorf("cover %.3f: the even load %.2f is less than the mean %.2f", cover, even, got/span)
		}
	}
}

// TestRoofWithoutCover: before the cover is on, snow, a machine, stored goods
// and water press on the bare roof; only soil and build-up wait (derived: each
// is the load given, the tyre its contact pressure with 33 % for impact).
func TestRoofWithoutCover(t *testing.T) {
	p := demo(t, "put-right").Clone()
	y, y1, y2 := 0.0, -1.0, 1.0
	p.Site.Surcharges = []model.Surcharge{
		{ID: "truck", Name: "truck", Kind: model.Vehicle, Vehicle: "truck-hs20", Heading: "up", X1: 12, Y1: &y},
		{ID: "goods", Name: "goods", Kind: model.AreaLoad, X1: 11, X2: 13, Y1: &y1, Y2: &y2, Q: 4},
	}
	st := model.Stage{ID: "bare", Name: "bare", Kind: model.StageService, Snow: true, Surcharges: []string{"truck", "goods"}, Water: model.WaterHigh}
	z := p.Box.Level + 2.591 + 0.2
	p.Site.Water.DesignHigh = &z
	p.Stages = []model.Stage{st}
	j := jobOf(t, p)
	v, err := section.NewLong(p, j.t, st)
	if err != nil {
		t.Fatal(err)
	}
	r, err := (&place{j: j, x: 12}).roof(v)
	if err != nil {
		t.Fatal(err)
	}
	tyre := 71.17 / (0.254 * 0.508) * 1.33
	for _, c := range []struct {
		name      string
		got, want float64
	}{
		{"snow", r.load.Snow, p.Site.Climate.GroundSnow}, {"goods", r.load.Area, 4}, {"water", r.load.Water, 0.2 * 9.81},
		{"tyre on the steel", mostOf(r.wheels), tyre}, {"soil", r.load.Soil, 0}, {"build-up", r.load.Layers, 0},
	} {
		if math.Abs(c.got-c.want) > 0.01*c.want {
			t.Errorf("%s %.3f, want %.3f kPa", c.name, c.got, c.want)
		}
	}
	all := run(t, p)
	if c := find(all, "roof-sheet", "roof"); c == nil || c.Worst() < 1 {
		t.Errorf("a truck on the bare roof: %+v", c)
	}
}

// TestRoofThrust: the roof is pressed by the larger of the two tops, the
// pressure on the rail itself included; broadside by the whole top of the back
// wall (derived: statics of the edge); a top that pulls is no thrust.
func TestRoofThrust(t *testing.T) {
	pull := &wallLoad{top: box.Pair{ASD: -2, LRFD: -3}}
	push := &wallLoad{top: box.Pair{ASD: 5, LRFD: 8}}
	for name, c := range map[string]struct {
		walls []*wallLoad
		want  box.Pair
	}{
		"both":      {[]*wallLoad{{top: box.Pair{ASD: 3, LRFD: 4.8}}, push}, box.Pair{ASD: 5, LRFD: 8}},
		"one pulls": {[]*wallLoad{pull, push}, box.Pair{ASD: 5, LRFD: 8}},
		"pull":      {[]*wallLoad{pull, pull}, box.Pair{}},
	} {
		if got := (&job{p: &model.Project{}}).topThrust(c.walls...); got != c.want {
			t.Errorf("%s: thrust %+v, want %+v", name, got, c.want)
		}
	}
	for _, orientation := range []string{model.EndOn, model.Broadside} {
		p := demo(t, "as-drawn").Clone()
		p.Box.Orientation = orientation
		j := jobOf(t, p)
		sr := worked(t, j, "wet")
		if err := j.roofChecks(sr, newWorst()); err != nil {
			t.Fatal(err)
		}
		want := sr.back.top
		if orientation == model.EndOn {
			l, r := sr.sides[3].left, sr.sides[3].right
			want = box.Pair{ASD: math.Max(l.top.ASD, r.top.ASD), LRFD: math.Max(l.top.LRFD, r.top.LRFD)}
			if l.top.ASD <= l.result.Top.ASD {
				t.Errorf("the rail itself is not pressed: %.3f of %.3f", l.top.ASD, l.result.Top.ASD)
			}
		}
		if got := sr.tops[3].sheet.thrust; got != want || want.ASD <= 0 {
			t.Errorf("%s: thrust %+v, want %+v", orientation, got, want)
		}
	}
}

// worked is one stage of a job with its loads brought together.
func worked(t testing.TB, j *job, id string) *stageResult {
	t.Helper()
	for _, st := range j.p.Stages {
		if st.ID != id {
			continue
		}
		one := j.p.Clone()
		one.Stages = []model.Stage{st}
		j.p = one
		stages := j.work(t.Context(), newWorst())
		if stages[0].err != nil {
			t.Fatal(stages[0].err)
		}
		return &stages[0]
	}
	t.Fatalf("no stage %q", id)
	return nil
}

// TestRoofFactorWidth: Fe takes the width of the box however it lies (AASHTO
// LRFD 12.11.2.2.1, verified in a state manual): 1 + 0.2·0.6/2.438 = 1.0492.
func TestRoofFactorWidth(t *testing.T) {
	for _, orientation := range []string{model.EndOn, model.Broadside} {
		p := demo(t, "as-drawn").Clone()
		p.Box.Orientation = orientation
		top := worked(t, jobOf(t, p), "dry").tops[2]
		if math.Abs(top.fe-1.0492) > 1e-4 || math.Abs(top.load.Soil/top.prism-1.0492) > 1e-4 {
			t.Errorf("%s: Fe %.4f, pressure over prism %.4f, want 1.0492", orientation, top.fe, top.load.Soil/top.prism)
		}
	}
}
