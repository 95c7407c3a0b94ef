package assess

import (
	"context"
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/tables"
)

func curve(t testing.TB, p *model.Project, id string) Curve {
	t.Helper()
	c, err := CurveOf(context.Background(), run(t, p), tables.Default(), id)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// TestCurvesAgreeWithTheHeader: the header walks in even steps of its own, the
// curve along its points; both end at the same limit.
func TestCurvesAgreeWithTheHeader(t *testing.T) {
	p := demo(t, "put-right")
	r := run(t, p)
	if err := Answers(context.Background(), r, tables.Default()); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		id   string
		want Answer
	}{{"cover", r.Depth}, {"water", r.WaterUp}} {
		got := curve(t, p, c.id).Answer
		if math.Abs(got.Value-c.want.Value) > 2*tolAnswer || got.Governs != c.want.Governs {
			t.Errorf("%s: curve %.4f by %s, header %.4f by %s", c.id, got.Value, got.Governs, c.want.Value, c.want.Governs)
		}
	}
}

// TestCurvesByScan: a plain scan in small steps, from the value where the walk
// begins, meets the first value beyond limits just where the answer is.
func TestCurvesByScan(t *testing.T) {
	p := demo(t, "put-right")
	b, _ := tables.Default().Box("20std")
	for _, c := range []struct {
		id       string
		lo, hi   float64
		step     float64
		counts   func(rated) bool
		answerOf func(Curve) CurveAnswer
	}{
		{"cover", 0.3, 0.7, 0.02, rated.ofBox, func(c Curve) CurveAnswer { return c.Answer }},
		{"cover", 0.3, 1.0, 0.05, rated.ofPart, func(c Curve) CurveAnswer { return c.PartsOnly }},
		{"water", 0, 0.7, 0.05, rated.ofBox, func(c Curve) CurveAnswer { return c.Answer }},
		{"vehicle", 0, 24, 2, rated.ofBox, func(c Curve) CurveAnswer { return c.Answer }},
		{"years", 0, 80, 8, rated.ofBox, func(c Curve) CurveAnswer { return c.Answer }},
		{"backfill", 0.2, 2.59, 0.2, rated.ofBox, func(c Curve) CurveAnswer { return c.Answer }},
	} {
		q := ask(&Result{Project: p}, tables.Default(), b, c.id)
		last := math.NaN()
		for v := c.lo; v <= c.hi; v += c.step {
			at, heavier := q.at(v)
			tr, err := tryKept(context.Background(), at, tables.Default(), kept{heavier: heavier})
			if err != nil {
				t.Fatal(err)
			}
			if !holds(&tr, c.counts) {
				break
			}
			last = v
		}
		got := c.answerOf(curve(t, p, c.id)).Value
		if !(got >= last-q.tol && got <= last+c.step) {
			t.Errorf("%s: answer %.3f; the scan holds up to %.3f and not at %.3f", c.id, got, last, last+c.step)
		}
	}
}

// TestCurvesOfTheDemo: every curve has its points in order, the value as drawn
// among them, nine or more, closer together about its limit.
func TestCurvesOfTheDemo(t *testing.T) {
	cs, err := Curves(context.Background(), run(t, demo(t, "put-right")), tables.Default())
	if err != nil {
		t.Fatal(err)
	}
	for i, c := range cs {
		if c.ID != questionIDs[i] || c.Question == "" || c.Axis == "" || !strings.Contains(c.Held, "kept as drawn") {
			t.Errorf("%+v", c)
		}
		if len(c.Points) < 9 || !slices.IsSortedFunc(c.Points, func(a, b CurvePoint) int { return int(math.Copysign(1, a.V-b.V)) }) {
			t.Errorf("%s: points %v", c.ID, c.Points)
		}
		near := func(v float64) bool {
			return slices.ContainsFunc(c.Points, func(p CurvePoint) bool { return p.V == v })
		}
		if !math.IsNaN(c.Now) && !near(c.Now) {
			t.Errorf("%s: the value as drawn, %g, is not among the points", c.ID, c.Now)
		}
		if !c.Answer.AtLeast && !near(c.Answer.Value) {
			t.Errorf("%s: the limit %g is not among the points", c.ID, c.Answer.Value)
		}
		for _, p := range c.Points {
			if (p.Why == "") == math.IsNaN(p.Ratio) || (p.Governs == "") != math.IsNaN(p.Ratio) {
				t.Errorf("%s at %g: %+v", c.ID, p.V, p)
			}
			if !math.IsNaN(p.Parts) && p.Parts > p.Ratio {
				t.Errorf("%s at %g: parts %g above all, %g", c.ID, p.V, p.Parts, p.Ratio)
			}
		}
	}
}

// TestCurveBeyondWhateverTheValue: the store as drawn slides whatever vehicle
// stands there: there is no answer, the check is named, and the curve still
// shows what the vehicle does.
func TestCurveBeyondWhateverTheValue(t *testing.T) {
	// Alone: below half a metre the empty box slides along the contour as one side
	// runs ahead, which leaves less than its sheets take.
	c := curve(t, demo(t, "as-drawn"), "backfill")
	if a := c.Answer; !a.None || !math.IsNaN(a.Value) || a.Governs != "sliding" || a.Why == "" || !(a.Alone > 0.4) {
		t.Errorf("answer %+v", a)
	}
	// ST reference: without ribs, the bare sheet takes fill to somewhat below a metre
	if a := c.PartsOnly; a.None || !(a.Value > 0.5 && a.Value < 1.5) {
		t.Errorf("parts %+v", a)
	}
	if c := curve(t, demo(t, "as-drawn"), "vehicle"); !c.Answer.None || len(c.Points) < 9 || math.IsNaN(c.Points[0].Ratio) {
		t.Errorf("%+v", c)
	}
}

// TestMoreCoverIsNoRelief: more cover never lowers a check of the roof, nor of
// the pads in the dry (monotone: only weight is added there).
func TestMoreCoverIsNoRelief(t *testing.T) {
	for _, name := range []string{"as-drawn", "put-right"} {
		p := demo(t, name)
		last := map[slot]float64{}
		for _, v := range []float64{0.15, 0.3, 0.45, 0.6, 0.75, 0.9} {
			tr, err := try(context.Background(), coverTo(p, v), tables.Default())
			if err != nil {
				t.Fatal(err)
			}
			for _, c := range tr.checks {
				if !strings.HasPrefix(c.part, "roof") || c.id == "diaphragm" {
					continue
				}
				if c.ratio < last[c.slot]-1e-9 {
					t.Errorf("%s, %s at %.2f of cover: %.4f, less than %.4f before", name, c.id, v, c.ratio, last[c.slot])
				}
				last[c.slot] = c.ratio
			}
		}
	}
}

// TestTwiceTheVehicle: a vehicle with its wheels scaled by two does the same as
// two of it on the same spot (superposition, an independent way).
func TestTwiceTheVehicle(t *testing.T) {
	p := demo(t, "put-right").Clone()
	p.Site.Surcharges[0].X1 = 13 // over the box, so that roof, walls and pads feel it
	twice, err := tryKept(context.Background(), p, tables.Default(), kept{heavier: map[string]float64{p.Site.Surcharges[0].ID: 2}})
	if err != nil {
		t.Fatal(err)
	}
	q := p.Clone()
	second := q.Site.Surcharges[0]
	second.ID = "second"
	q.Site.Surcharges = append(q.Site.Surcharges, second)
	for i := range q.Stages {
		if len(q.Stages[i].Surcharges) > 0 {
			q.Stages[i].Surcharges = append(slices.Clone(q.Stages[i].Surcharges), "second")
		}
	}
	two, err := try(context.Background(), q, tables.Default())
	if err != nil {
		t.Fatal(err)
	}
	one, _ := try(context.Background(), p, tables.Default())
	changed := 0
	for _, c := range twice.checks {
		if got := two.ratioAt(c.slot); math.Abs(got-c.ratio) > 1e-9*c.ratio {
			t.Errorf("%s %s: scaled %.6f, two of it %.6f", c.id, c.part, c.ratio, got)
		}
		if !alikeRatio(c.ratio, one.ratioAt(c.slot)) {
			changed++
		}
	}
	if changed == 0 {
		t.Error("the vehicle touches nothing: the test tests nothing")
	}
}

// TestNearestWheel: at a distance of 1 m the nearest wheel begins 1 m behind the
// back wall, whichever way the vehicle points.
func TestNearestWheel(t *testing.T) {
	set := tables.Default()
	b, _ := set.Box("20std")
	for _, heading := range []string{"along", "up"} {
		p := demo(t, "put-right").Clone()
		p.Site.Surcharges[0].Heading = heading
		q := ask(&Result{Project: p}, set, b, "distance")
		at, _ := q.at(1)
		wheels, err := patchesOf(at.Site.Surcharges[0], set)
		if err != nil {
			t.Fatal(err)
		}
		near := math.Inf(1)
		for _, w := range wheels {
			near = math.Min(near, w.X-w.A/2-(p.Box.Front+section.Depth(p, b)))
		}
		if math.Abs(near-1) > 1e-9 {
			t.Errorf("%s: %.4f m", heading, near)
		}
	}
}

// TestVehicleThatNobodyGave: a project without a vehicle is asked with one that
// is named, and its own stage.
func TestVehicleThatNobodyGave(t *testing.T) {
	p := demo(t, "put-right").Clone()
	p.Site.Surcharges = nil
	for i := range p.Stages {
		p.Stages[i].Surcharges = nil
	}
	before := p.Clone()
	for _, id := range []string{"vehicle", "distance"} {
		c := curve(t, p, id)
		if !strings.Contains(c.Held, "No vehicle acts") || !math.IsNaN(c.Now) || len(c.Points) == 0 || c.Points[0].Why != "" {
			t.Errorf("%s: %+v", id, c)
		}
	}
	if len(p.Stages) != len(before.Stages) || len(p.Site.Surcharges) != 0 {
		t.Error("the project was changed")
	}
	p.Stages = p.Stages[:3] // nothing in service
	for _, id := range []string{"vehicle", "distance", "years", "water"} {
		if c := curve(t, p, id); c.Answer.Why == "" || len(c.Points) > 0 || !math.IsNaN(c.Answer.Value) {
			t.Errorf("%s without a stage in service: %+v", id, c)
		}
	}
}

// TestCurveRefuses: an id that is none, a project that cannot be computed, a
// run that is given up, a surface drawn by hand.
func TestCurveRefuses(t *testing.T) {
	p := demo(t, "put-right")
	if _, err := CurveOf(context.Background(), run(t, p), tables.Default(), "depth"); err == nil || !strings.Contains(err.Error(), "cover") {
		t.Errorf("unknown id: %v", err)
	}
	done, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := Curves(done, run(t, p), tables.Default()); !errors.Is(err, context.Canceled) {
		t.Errorf("given up: %v", err)
	}
	q := p.Clone()
	q.Site.Ground = nil
	if c := curve(t, q, "cover"); c.Answer.Why == "" || len(c.Points) > 0 {
		t.Errorf("without ground: %+v", c)
	}
	q = p.Clone()
	q.Fill.Line = []model.Vec{{0, 98}, {9, 103}, {16, 103.5}, {32, 107.4}}
	if c := curve(t, q, "cover"); c.Answer.Why != drawnByHand {
		t.Errorf("drawn by hand: %+v", c.Answer)
	}
}
