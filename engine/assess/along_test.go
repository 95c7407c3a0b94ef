package assess

import (
	"math"
	"strings"
	"testing"

	"hillset/engine/check"
	"hillset/engine/model"
)

// result is the value that a working names by its symbol.
func result(t *testing.T, c *check.Check, sym string) float64 {
	t.Helper()
	if c == nil {
		t.Fatalf("no check that gives %s", sym)
	}
	for _, l := range c.Working {
		if l.Result.Sym == sym {
			return l.Result.Val
		}
		for _, q := range l.Terms {
			if q.Sym == sym {
				return q.Val
			}
		}
	}
	t.Fatalf("%s: the working has no %s", c.ID, sym)
	return 0
}

func within(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if d := got - want; d > tol*want || d < -tol*want {
		t.Errorf("%s = %.5g, want %.5g within %g", what, got, want, tol)
	}
}

// TestPushOfTheEnd: what the two posts of the blind end bring to their upper
// castings holds the thrust on the end wall against turning about the lower
// ones, by the diagram of the drawing: a second route past sheet, header and
// wales.
func TestPushOfTheEnd(t *testing.T) {
	for _, name := range []string{"as-drawn", "put-right"} {
		p := demo(t, name)
		r := run(t, p)
		for _, part := range []string{"left side wall", "right side wall"} {
			c := find(r, "racking", part)
			push := result(t, c, "H")
			for _, l := range r.Loads {
				if l.Stage != c.Stage || l.Face != "back" {
					continue
				}
				// Width of the wall and of the two posts beside it; the thrust below
				// the lower castings and above the upper ones is little.
				turn := l.Thrust * (2.438 + 0.162) * (l.Level - p.Box.Level - 0.059)
				within(t, name+" "+part, 2*push*2.473, turn, 0.08)
			}
		}
		if c := find(r, "end-post", blindPost); c == nil || c.Case == "" || c.CaseLRFD == "" {
			t.Errorf("%s: posts of the blind end %+v", name, c)
		}
	}
	p := demo(t, "as-drawn").Clone()
	p.Box.Orientation = model.Broadside
	r := run(t, p)
	if c := find(r, "racking", "back wall"); c == nil || c.Worst() <= 0 {
		t.Errorf("broadside, the fill on the blind end pushes along the box: %+v", c)
	}
}

// TestHoledWall: a wall with too much cut out of it is not counted, and says
// so; a small hole makes its sheet work harder.
func TestHoledWall(t *testing.T) {
	p := demo(t, "put-right").Clone()
	whole := find(run(t, p), "racking", "left side wall")
	p.Box.Openings = []model.Opening{{ID: "w", Wall: "left", From: 2, Width: 1.2, Sill: 1, Height: 0.6}}
	some := find(run(t, p), "racking", "left side wall")
	if result(t, some, "v") <= result(t, whole, "v") {
		t.Errorf("a hole changes nothing: %v, %v", some, whole)
	}
	p.Box.Openings[0].Width = 2.0
	r := run(t, p)
	if c := find(r, "racking", "left side wall"); c.Verdict() != check.NotChecked || !strings.Contains(c.Missing, "openings") {
		t.Errorf("%+v", c)
	}
	if c := find(r, "racking", "right side wall"); c.Verdict() == check.NotChecked {
		t.Errorf("%+v", c)
	}
}

// TestPushAcross: what the end frames take is what one long wall presses more
// at its top, and it goes to the end that is nearer.
func TestPushAcross(t *testing.T) {
	p := demo(t, "as-drawn")
	r := run(t, p)
	blind, door := find(r, "end-frame", blindFrame), find(r, "end-frame", doorFrame)
	if blind == nil || door == nil {
		t.Fatal("no end frames")
	}
	// Both walls and the deck of the roof see no more than the diaphragm check,
	// which takes the worst station for all of the box.
	most := result(t, find(r, "roof-diaphragm", "roof"), "H")
	for _, c := range []*check.Check{blind, door} {
		if h := result(t, c, "H"); !(h > 0) || h > most*(1+1e-9) {
			t.Errorf("%s takes %g of %g", c.Part, h, most)
		}
	}
	q := p.Clone()
	q.Box.Orientation = model.Broadside
	r = run(t, q)
	most = result(t, find(r, "roof-diaphragm", "roof"), "H")
	for _, part := range []string{blindFrame, doorFrame} {
		within(t, part+" broadside", result(t, find(r, "end-frame", part), "H"), most, 1e-9)
	}
	// level ground, no side ahead, no machine on one side: nothing to take
	q = p.Clone()
	q.Site.CrossSlope = 0
	for i := range q.Stages {
		q.Stages[i].OneSide, q.Stages[i].Surcharges = false, nil
	}
	if c := find(run(t, q), "end-frame", doorFrame); c != nil {
		t.Errorf("pushed by nothing: %g", c.Worst())
	}
	// ribs take the sway
	if c := find(run(t, demo(t, "put-right")), "end-frame", ""); c != nil {
		t.Errorf("ribs and end frames: %g", c.Worst())
	}
}

// TestCutRoofIsNoDiaphragm: a roof with a hole carries no push to the ends
// (structure reference, section 4: only if uncut); the rails feel it all the
// same.
func TestCutRoofIsNoDiaphragm(t *testing.T) {
	p := demo(t, "as-drawn").Clone()
	whole := run(t, p)
	p.Box.Openings = []model.Opening{{ID: "hatch", Wall: "roof", From: 2.5, Width: 0.5, Sill: 0.9, Height: 0.5, Framed: true, Bar: "shs60x4"}}
	cut := run(t, p)
	c := find(cut, "roof-diaphragm", "roof")
	if c == nil || c.Verdict() != check.NotChecked || !strings.Contains(c.Missing, "hatch") {
		t.Errorf("%+v", c)
	}
	a, b := find(whole, "girder", "left side wall"), find(cut, "girder", "left side wall")
	within(t, "girder", b.Worst(), a.Worst(), 1e-9)
}

// TestOneSideAhead: the push of a side that is ahead is K0·γ/2·(h1² − h2²)
// over the length of the box (Jaky, derived by hand for dry level fill).
func TestOneSideAhead(t *testing.T) {
	p := demo(t, "put-right").Clone()
	p.Site.CrossSlope, p.Fill.RockWidth = 0, 0
	p.Fill.FrontTop, p.Fill.BackTop, p.Fill.CapThickness, p.Fill.TopsoilThickness = 0, 0, 0, 0
	p.Fill.Backfill, p.Fill.Roof = "stone", nil
	p.Stages = []model.Stage{{ID: "lift", Name: "Lift", Kind: model.StageBackfill, FillTo: 0.5, OneSide: true}}
	r := run(t, p)
	if len(r.Blocks) > 0 {
		t.Fatal(r.Blocks)
	}
	c, tip := find(r, "sliding-across", "box"), find(r, "tipping-across", "box")
	const k0, gamma, length = 1 - 0.6156614753, 15.9, 6.058 // φ 38°
	const below = 0.45                                      // the fill comes up from the formation, under pads and bed
	h2 := 0.5*(2.591+below) - below
	h1 := h2 + 0.3
	push := k0 * gamma / 2 * (h1*h1 - h2*h2) * length
	within(t, "push", result(t, c, "ΔE"), push, 0.01)
	weight := (2230 + 7000) * 9.81e-3
	within(t, "friction", result(t, c, "Rb"), 0.4*weight, 1e-6)
	within(t, "sliding", c.Ratio, 1.5*push/(0.4*weight), 0.01)
	turn := k0 * gamma / 6 * (h1*h1*h1 - h2*h2*h2) * length
	within(t, "tipping", tip.Ratio, 1.5*turn/(weight*2.438/2), 0.01)
	p.Stages[0].OneSide = false
	if c := find(run(t, p), "sliding-across", "box"); c != nil {
		t.Errorf("both sides alike push by %g", c.Worst())
	}
}

// TestGirderOfDemo: what both walls carry is the box and everything that the
// roof loads add up to, by the loads of the result.
func TestGirderOfDemo(t *testing.T) {
	p := demo(t, "put-right")
	r := run(t, p)
	c := find(r, "girder", "left side wall")
	var xs, qs []float64
	for _, l := range r.Roofs {
		if l.Stage == c.Stage {
			xs, qs = append(xs, l.Station), append(qs, l.Layers+l.Soil)
		}
	}
	sum := 0.0
	for i, d := range tributary(xs) {
		sum += qs[i] * d * 2.438
	}
	own := (2230 + 7000) * 9.81e-3
	// the roof over the castings stands on them: 5.880 m of 6.058 m hang on the walls
	within(t, "half of the roof and of the box", result(t, c, "D"), (sum+own)/2*5.880/6.058, 1e-3)
	q := p.Clone()
	q.Box.Openings = []model.Opening{{ID: "door", Wall: "left", From: 2, Width: 0.9, Sill: 0, Height: 2}}
	if c := find(run(t, q), "girder", "left side wall"); c.Verdict() != check.NotChecked || !strings.Contains(c.Missing, "door") {
		t.Errorf("a wall cut through is a girder: %+v", c)
	}
	q.Box.Openings[0].Width, q.Box.Openings[0].Height = 0.4, 0.6
	if d := find(run(t, q), "girder", "left side wall"); !(d.Worst() > c.Worst()) {
		t.Errorf("a hole changes nothing: %g, %g", d.Worst(), c.Worst())
	}
}

// TestDoors: earth against the doors is refused in service, with what a leaf
// would use shown; water that can run off in front is listed; free doors are
// taken for granted, and said.
func TestDoors(t *testing.T) {
	p := demo(t, "put-right").Clone()
	p.Box.DoorFill = 1.0
	r := run(t, p)
	c := find(r, "doors", "doors")
	if c == nil || !math.IsInf(c.Worst(), 1) {
		t.Fatalf("%+v", c)
	}
	// K0·γ·h at the top of the sill, 1 − sin 38° and 15.9 kN/m³, dry: total h²/2
	const k0, gamma = 1 - 0.6156614753, 15.9
	h := 1.0 - 0.0125 - 0.158
	if w := result(t, c, "W"); w < k0*gamma*h*h/2*(1-1e-6) {
		t.Errorf("load on the leaf %g", w)
	}
	p.Box.DoorFill = 0.15 // below the top of the sill
	high := p.Box.Level + 0.1
	p.Site.Water.DesignHigh, p.Site.Water.Seasonal = &high, &high
	r = run(t, p)
	if c := find(r, "doors", "doors"); c != nil {
		t.Errorf("earth below the doors: %+v", c)
	}
	p.Box.DoorFill = 0
	high = p.Box.Level + 0.3
	r = run(t, p)
	if c := find(r, "doors", "doors"); c == nil || c.Verdict() != check.NotChecked || !strings.Contains(c.Missing, "runs off") && !strings.Contains(c.Missing, "run off") {
		t.Errorf("water at the doors: %+v", c)
	}
	if !strings.Contains(strings.Join(r.Assumed, "\n"), "doors are free of earth") {
		t.Error("free doors are not said")
	}
	// a hollow: the ground in front stands above the sill, and there is no apron
	p.Cut.Apron = 0
	for i := range p.Site.Ground {
		if p.Site.Ground[i][0] < p.Box.Front {
			p.Site.Ground[i][1] = p.Box.Level + 0.5
		}
	}
	if c := find(run(t, p), "doors", "doors"); c == nil || !math.IsInf(c.Worst(), 1) {
		t.Errorf("water that cannot run off: %+v", c)
	}
}

// TestCastings: without a strength of the concrete nothing is said of the pads;
// with one, the casting bears what the pads of the bearing check carry.
func TestCastings(t *testing.T) {
	p := demo(t, "put-right").Clone()
	p.Bedding.PadFc = 0
	for _, id := range []string{"casting", "pad-concrete"} {
		if c := find(run(t, p), id, ""); c == nil || c.Verdict() != check.NotChecked || !strings.Contains(c.Missing, "strength of the concrete") {
			t.Errorf("%s: %+v", id, c)
		}
	}
	p.Bedding.PadFc = 17
	r := run(t, p)
	c, pad := find(r, "casting", ""), find(r, "pad-concrete", "")
	if c == nil || pad == nil || c.Case == "" || pad.CaseLRFD == "" {
		t.Fatalf("%+v\n%+v", c, pad)
	}
	if area := result(t, c, "A1"); area < 0.02 || area > 0.178*0.162 {
		t.Errorf("area %g", area)
	}
	// never more than all of the weight, never less than a quarter of box and ballast
	if load := result(t, c, "P"); load < (2230+7000)*9.81e-3/4 || load > 400 {
		t.Errorf("load of a casting %g", load)
	}
	// plain pads of 15 cm under this weight are too thin (ACI 318 ch. 14)
	if pad.Verdict() != check.Beyond || pad.RemedyQ[0].Val < 0.2 {
		t.Errorf("%+v", pad)
	}
	p.Bedding.PadThickness = math.Ceil(pad.RemedyQ[0].Val*20) / 20
	if pad := find(run(t, p), "pad-concrete", ""); pad.Verdict() != check.Within {
		t.Errorf("after the remedy: %+v", pad)
	}
	p.Bedding.Kind = model.RockBedding
	if c := find(run(t, p), "casting", ""); c != nil {
		t.Errorf("concrete on a rock bed: %+v", c)
	}
}

// TestOpenings: a hole is judged where the wall is pressed beside it, a frame
// helps, and one that does not fit is a problem that names its field.
func TestOpenings(t *testing.T) {
	p := demo(t, "put-right").Clone()
	hole := model.Opening{ID: "w", Wall: "left", From: 2, Width: 0.5, Sill: 1.6, Height: 0.5}
	p.Box.Openings = []model.Opening{hole}
	bare := find(run(t, p), "opening", "opening w, left")
	if bare == nil {
		t.Fatal("the hole is not checked")
	}
	sheet := find(run(t, p), "side-sheet", "left side wall")
	within(t, "strip beside the hole", bare.Ratio, (1+0.25/0.278)*sheet.Ratio, 0.1)
	for _, c := range []struct {
		name, field string
		o           model.Opening
	}{
		{"past the end", "box.openings[1].width", model.Opening{ID: "x", Wall: "right", From: 5.8, Width: 0.5, Sill: 1, Height: 0.3}},
		{"past the edge", "box.openings[1].height", model.Opening{ID: "x", Wall: "right", From: 1, Width: 0.5, Sill: 2.2, Height: 0.5}},
		{"over another", "box.openings[1].from", model.Opening{ID: "x", Wall: "left", From: 2.4, Width: 0.5, Sill: 1.6, Height: 0.5}},
		{"across a wale", "box.openings[1].sill", model.Opening{ID: "x", Wall: "left", From: 4, Width: 0.5, Sill: 0.5, Height: 0.5}},
		{"across a rib", "box.openings[1].width", model.Opening{ID: "x", Wall: "right", From: 1, Width: 1.3, Sill: 1.6, Height: 0.5}},
		{"across a wale of the end", "box.openings[1].sill", model.Opening{ID: "x", Wall: "back", From: 0.5, Width: 0.5, Sill: 0.5, Height: 0.5}},
		{"past the roof", "box.openings[1].height", model.Opening{ID: "x", Wall: "roof", From: 1, Width: 0.5, Sill: 2, Height: 0.5}},
	} {
		q := p.Clone()
		q.Box.Openings = append(q.Box.Openings, c.o)
		r := run(t, q)
		if len(r.Blocks) != 1 || r.Blocks[0].Field != c.field {
			t.Errorf("%s: %+v", c.name, r.Blocks)
		}
		if find(r, "opening", "opening x, "+c.o.Wall) != nil {
			t.Errorf("%s: checked all the same", c.name)
		}
		if find(r, "opening", "opening w, left") == nil {
			t.Errorf("%s: hides the other", c.name)
		}
	}
	for _, o := range []model.Opening{
		{ID: "b", Wall: "back", From: 0.8, Width: 0.5, Sill: 1.5, Height: 0.5},
		{ID: "r", Wall: "roof", From: 2, Width: 0.5, Sill: 0.9, Height: 0.5},
		{ID: "d", Wall: "right", From: 2, Width: 0.5, Sill: 1.6, Height: 0.7},
	} {
		q := p.Clone()
		q.Box.Openings = []model.Opening{o}
		cut := find(run(t, q), "opening", "")
		q.Box.Openings[0].Framed, q.Box.Openings[0].Bar = true, "shs100x6"
		framed := find(run(t, q), "opening", "")
		if cut == nil || framed == nil || !(framed.Worst() > 0) || framed.Title == cut.Title {
			t.Errorf("%s: %+v\n%+v", o.Wall, cut, framed)
		}
	}
	q := p.Clone()
	q.Box.Orientation = model.Broadside
	q.Strengthening.Wales, q.Strengthening.BackWales = nil, nil
	q.Box.Openings = []model.Opening{{ID: "b", Wall: "back", From: 2, Width: 0.5, Sill: 1, Height: 0.5}, {ID: "r", Wall: "roof", From: 4, Width: 0.5, Sill: 1, Height: 0.5}}
	r := run(t, q)
	if find(r, "opening", "opening b, back") == nil || find(r, "opening", "opening r, roof") == nil {
		t.Errorf("broadside: %v", r.Blocks)
	}
}
