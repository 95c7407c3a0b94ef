package box

import (
	"math"
	"testing"

	"hillset/engine/frame"
)

// TestRibOnGround: on soft ground the floor takes the weight evenly, which is
// ST-12 (derived) with its soil reaction of 12.96 kN/m; firm ground takes more
// of it below the posts.
func TestRibOnGround(t *testing.T) {
	grounded := func(k float64) Rib {
		in := rib(soil(), soil())
		in.Dead, in.Ground = 12.96/1.2, k
		return in
	}
	t.Run("ST-12", func(t *testing.T) {
		c, r := ring(t, grounded(500))
		near(t, "Mt", math.Abs(r.Service.Lines[memberOf(&r, RoofBeam, 0)].M(0)), 8.018, tol05)
		near(t, "Mb", math.Abs(r.Service.Lines[memberOf(&r, FloorTie, 0)].M(0)), 10.224, 2e-2)
		near(t, "post", r.ASD[LeftPost].Bending, 1.72, 2e-2)
		if r.Lifts || c.Assumptions[len(c.Assumptions)-1] == ribGroundWords(rib(nil, nil), &r) {
			t.Errorf("lifts %v, %v", r.Lifts, c.Assumptions)
		}
	})
	soft, firm := grounded(500), grounded(40000)
	_, s := ring(t, soft)
	_, f := ring(t, firm)
	last := math.Inf(1)
	for _, k := range []float64{500, 2000, 20000, 80000} { // stiffer ground, flatter floor
		_, r := ring(t, grounded(k))
		if b := r.Bow[FloorTie]; b >= last {
			t.Errorf("ground of %g bends the floor by %g after %g", k, b, last)
		} else {
			last = b
		}
	}
	if math.Abs(s.Service.U[0][1]) < math.Abs(f.Service.U[0][1]) {
		t.Error("firmer ground settles more")
	}
	// What the ground carries is the weight, in every case.
	for _, r := range []*RibResult{&s, &f} {
		up := 0.0
		for _, re := range r.Service.React {
			up += re[1]
		}
		near(t, "ground", up, 12.96*2.40, 1e-6)
	}
}

// memberOf is the n-th member of a part.
func memberOf(r *RibResult, part RibPart, n int) int {
	for k, p := range r.Parts {
		if p == part {
			if n == 0 {
				return k
			}
			n--
		}
	}
	panic("no such member")
}

// TestRibLifts: pushed from one side with little weight, part of the floor lets
// go, and nowhere does the ground pull; without any weight the rib tips over
// and is refused, not solved.
func TestRibLifts(t *testing.T) {
	in := rib(soil().Scale(0.3), nil)
	in.Dead, in.Ground = 12, 20000
	c, r := ring(t, in)
	if !r.Lifts {
		t.Fatal("nothing lets go: the case tells nothing")
	}
	for n, re := range r.Service.React {
		if re[1] < -1e-6 {
			t.Errorf("the ground pulls node %d by %g", n, -re[1])
		}
	}
	if c.Ratio <= 0 {
		t.Errorf("ratio %g", c.Ratio)
	}
	in.Dead = 0
	if _, err := in.Solve(); err == nil {
		t.Error("a rib without weight stands on its ground")
	}
}

// TestSubgrade: k = E/(B(1 − ν²)) (memory): 30 MPa, ν 0.3, 2.44 m give 13.5 MPa/m.
func TestSubgrade(t *testing.T) {
	k, err := Subgrade(30e3, 0.3, 2.44)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "k", k, 13.51e3, tol01)
	for _, v := range [][3]float64{{0, 0.3, 2.4}, {math.NaN(), 0.3, 2.4}, {3e4, 0.6, 2.4}, {3e4, 0.3, 0}} {
		if _, err := Subgrade(v[0], v[1], v[2]); err == nil {
			t.Errorf("%v accepted", v)
		}
	}
}

// TestBarBows: deflections of wales and purlins against the three-moment
// equation, and the limit.
func TestBarBows(t *testing.T) {
	for _, spans := range []int{1, 2, 3, 5} {
		in := Rail{Bar: tube(60, 4), Steel: corten, Span: 1.2, Spans: spans, Load: Pair{12, 19}}
		n := min(spans, 3)
		places := make([]float64, n+1)
		for k := range places {
			places[k] = 1.2 * float64(k)
		}
		line, err := frame.Continuous(places, frame.Uniform(12, 1.2*float64(n)), in.Steel.E*in.Bar.Ix)
		if err != nil {
			t.Fatal(err)
		}
		want, _, _ := line.Sag()
		for _, kind := range []*RailKind{KindWale, KindPurlin} {
			c, err := kind.BowCheck(in)
			if err != nil {
				t.Fatal(err)
			}
			sane(t, c)
			near(t, "deflection", c.Demand.Val, math.Abs(want), 1e-4)
			w, ratio, _ := kind.Bow(in)
			near(t, "ratio", c.Ratio, w/(1.2/240), exact)
			near(t, "the same", ratio, c.Ratio, exact)
			ready, err := kind.Ready(in)
			if err != nil {
				t.Fatal(err)
			}
			full, _ := kind.Ratio(in)
			got, bow, err := ready.Ratio(Pair{-in.Load.ASD, -in.Load.LRFD}) // the sign does not matter
			if err != nil {
				t.Fatal(err)
			}
			near(t, "made ready", got, full, exact)
			near(t, "made ready, deflection", bow, ratio, exact)
			if _, _, err := ready.Ratio(Pair{math.NaN(), 1}); err == nil {
				t.Error("a load of NaN is taken")
			}
		}
	}
	in := Rail{Bar: tube(50, 3), Steel: corten, Span: 2.4, Spans: 1, Load: Pair{12, 19}}
	c, _ := KindWale.BowCheck(in)
	if c.Ratio <= 1 || len(c.RemedyQ) != 2 {
		t.Fatalf("ratio %g, %q", c.Ratio, c.Remedy)
	}
	in.Span = c.RemedyQ[0].Val
	c, _ = KindWale.BowCheck(in)
	near(t, "at the span of the remedy", c.Ratio, 1, 1e-9)
	if KindTopRail.BowID() != "" || KindPurlin.BowID() != "purlin-deflection" {
		t.Error("kinds and their deflection checks are mixed up")
	}
	if _, _, err := KindWale.Bow(Rail{}); err == nil {
		t.Error("a bar of nothing bends")
	}
}

// TestRibBow: the bow of pinned posts and beams is that of the simple beam
// (section 4, derived: 0.006522 wL⁴/EI and 5/384), with and without a node on
// the way; that of a rigid frame is measured from its chord.
func TestRibBow(t *testing.T) {
	tri := frame.Load{{S: 0, P: 30}, {S: 2.5, P: 0}}
	in := pinnedRib(true, true, tri, tri)
	in.Dead = 10
	c, r, err := RibDeflection(in)
	if err != nil {
		t.Fatal(err)
	}
	sane(t, c)
	near(t, "post", r.Bow[LeftPost], 0.006522*30*1.2*math.Pow(2.5, 4)/(200e6*in.Post.Ix), 1e-3)
	near(t, "beam", r.Bow[RoofBeam], 5.0/384*10*1.2*math.Pow(2.4, 4)/(200e6*in.Beam.Ix), 1e-6)
	near(t, "mirror", r.Bow[RightPost], r.Bow[LeftPost], 1e-9)
	near(t, "inward", r.Inward[0], r.Bow[LeftPost], 2e-2)
	waled := rib(soil(), soil(), 0.8, 1.6) // mirrored loads bend both posts alike, node by node
	w, err := waled.Solve()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "mirror with wales", w.Bow[LeftPost], w.Bow[RightPost], 1e-3)
	most := 0.0
	for k, part := range w.Parts {
		if part == LeftPost {
			for x := 0.0; x <= 1; x += 0.01 {
				dx, _ := w.Service.At(k, x*w.Service.Lines[k].L)
				most = math.Max(most, dx)
			}
		}
	}
	near(t, "inward by steps", w.Inward[0], most, 1e-3)
	side, err := rib(soil(), nil).Solve()
	if err != nil {
		t.Fatal(err)
	}
	if side.Inward[0] < side.Sway || side.Inward[1] >= side.Sway {
		t.Errorf("pushed from the left by %g the walls come in by %v", side.Sway, side.Inward)
	}
	if part, _, span, ratio := in.RibBow(&r); part == FloorTie || ratio <= 0 || span <= 0 {
		t.Errorf("%v bends most, %g of %g", part, ratio, span)
	}
}

// TestInwardBow: the sum against 25 mm (common practice).
func TestInwardBow(t *testing.T) {
	c, err := InwardBow(Inward{Sheet: 0.012, Wale: 0.003, Post: 0.020})
	if err != nil {
		t.Fatal(err)
	}
	sane(t, c)
	near(t, "ratio", c.Ratio, 35.0/25, exact)
	if _, err := InwardBow(Inward{Sheet: math.NaN()}); err == nil {
		t.Error("NaN accepted")
	}
}
