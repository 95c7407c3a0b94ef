package box

import (
	"math"
	"testing"

	"hillset/engine/frame"
	"hillset/engine/steel"
)

// wheel is a narrow load of p kN/m in the middle at s.
func wheel(p, s float64) frame.Load {
	const w = 0.002 // m: its width lowers the moment by p·w/8, a thousandth of any here
	return frame.Load{{S: s - w/2}, {S: s - w/2, P: p / w}, {S: s + w/2, P: p / w}, {S: s + w/2}}
}

// TestRoofWheels: one force on a beam over equal spans against the beam tables
// (memory; the three-moment equation gives the same), bays of 0.8 m, live load
// only, 1 kN/m.
func TestRoofWheels(t *testing.T) {
	const l, p = 0.8, 1.0
	for _, c := range []struct {
		name       string
		purlins    int
		at         float64
		field, hog float64   // of p·l
		purlin     []float64 // of p
	}{
		{"one bay", 0, l / 2, 1. / 4, 0, nil},
		{"two bays, middle of the first", 1, l / 2, 13. / 64, 3. / 32, []float64{11. / 16}},
		{"three bays, middle of the second", 2, 3 * l / 2, 7. / 40, 3. / 40, []float64{23. / 40, 23. / 40}},
		{"three bays, middle of the last", 2, 5 * l / 2, 0.2, 0.1, []float64{-0.15, 0.725}},
	} {
		t.Run(c.name, func(t *testing.T) {
			in := roof(0, 0)
			in.Span = l * float64(c.purlins+1)
			for k := range c.purlins {
				in.Supports = append(in.Supports, l*float64(k+1))
			}
			in.Wheels = wheel(p, c.at)
			check, r, err := RoofSheet(in)
			if err != nil {
				t.Fatal(err)
			}
			sane(t, check)
			near(t, "field", r.ASD.Field, c.field*p*l, tol05)
			near(t, "factored field", r.LRFD.Field, 1.6*c.field*p*l, tol05)
			if c.hog > 0 {
				near(t, "hog", r.ASD.Hog, c.hog*p*l, tol05)
			}
			for k, want := range c.purlin {
				want := math.Max(0, want) // a purlin that is lifted has no load: D alone, which is none here
				if math.Abs(r.Purlins[k].ASD-want*p) > 5e-3 || math.Abs(r.Purlins[k].LRFD-1.6*want*p) > 8e-3 {
					t.Errorf("purlin %d: %+v, want %.3f", k+1, r.Purlins[k], want*p)
				}
			}
		})
	}
}

// TestRoofWheelsEven: wheels that lie evenly give what the same live load
// gives, in every number that decides.
func TestRoofWheelsEven(t *testing.T) {
	for _, supports := range [][]float64{nil, {1.2}, {0.8, 1.6}} {
		even := roof(1.8, 6)
		even.Supports, even.Live, even.Snow = supports, 4, 1
		lying := even
		lying.Live, lying.Wheels = 0, frame.Uniform(4, even.Span)
		_, a, err := RoofSheet(even)
		_, b, err2 := RoofSheet(lying)
		if err != nil || err2 != nil {
			t.Fatal(err, err2)
		}
		near(t, "allowable ratio", b.ASD.Ratio, a.ASD.Ratio, 1e-9)
		near(t, "strength ratio", b.LRFD.Ratio, a.LRFD.Ratio, 1e-9)
		near(t, "edge", b.Edge.LRFD, a.Edge.LRFD, 1e-9)
		near(t, "sag", b.Deflection, a.Deflection, tol1) // secant form against the Euler load
		for k := range supports {
			near(t, "purlin", b.Purlins[k].ASD, a.Purlins[k].ASD, 1e-9)
		}
	}
}

func TestRoofWheelsRefused(t *testing.T) {
	for name, w := range map[string]frame.Load{
		"pull":    {{S: 0, P: -1}, {S: 1, P: 0}},
		"outside": {{S: 0, P: 1}, {S: 9, P: 1}},
		"NaN":     {{S: 0, P: math.NaN()}, {S: 1, P: 0}},
	} {
		in := roof(1, 1)
		in.Wheels = w
		if _, _, err := RoofSheet(in); err == nil {
			t.Errorf("RoofSheet accepts: %s", name)
		}
		ring := rib(nil, nil)
		ring.Wheels = w
		if _, _, err := RibRing(ring); err == nil {
			t.Errorf("RibRing accepts: %s", name)
		}
	}
}

// TestRibPurlins: a rib under purlins against a frame of its own with forces at
// nodes where the purlins bear: of an even load over three equal bays each
// purlin brings 1.1 and each edge 0.4 of a bay (beam tables), the edges over
// the posts.
func TestRibPurlins(t *testing.T) {
	in := rib(nil, nil)
	in.Dead, in.RoofSpan, in.Share = 10, 2.52, 1.1
	in.Purlins = []float64{0.84, 1.68}
	c, r := ring(t, in)
	if len(c.Assumptions) < 3 {
		t.Error("the assumptions do not tell of the purlins")
	}
	const bay = 0.84
	w, h, off := in.Width, in.Height, (in.RoofSpan-in.Width)/2
	f := frame.Frame{Nodes: []frame.Node{{Y: true, X: true}, {Px: w, Y: true}, {Px: w, Py: h},
		{Px: 2*bay - off, Py: h}, {Px: bay - off, Py: h}, {Py: h}}}
	add := func(i, j int, b steel.Bar) {
		f.Members = append(f.Members, frame.Member{I: i, J: j, E: in.Steel.E, A: b.Area, Iz: b.Ix})
	}
	add(0, 1, in.Tie)
	add(1, 2, in.Post)
	add(2, 3, in.Beam)
	add(3, 4, in.Beam)
	add(4, 5, in.Beam)
	add(5, 0, in.Post)
	q := in.Dead * in.Spacing * 1.1
	s, err := f.Solve(frame.LoadCase{Nodes: [][3]float64{2: {0, -0.4 * q * bay}, 3: {0, -1.1 * q * bay}, 4: {0, -1.1 * q * bay}, 5: {0, -0.4 * q * bay}}})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "beam at a purlin", r.Service.Lines[2].MMax, s.Lines[3].MMax, tol1)
	near(t, "corner", r.Corner, math.Max(math.Abs(s.Lines[2].M(0)), math.Abs(s.Lines[0].M(0))), tol1)
	near(t, "post", r.Service.N[1], s.N[1], tol1)
}

// TestRibWheelsSide: a wheel over the left purlin bends the beam on the left.
func TestRibWheelsSide(t *testing.T) {
	in := rib(nil, nil)
	in.RoofSpan, in.Purlins, in.Wheels = 2.52, []float64{0.84, 1.68}, wheel(20, 0.84)
	_, r := ring(t, in)
	if at := r.ASD[RoofBeam].At; math.Abs(at-0.78) > 0.02 { // 0.84 less half of what the sheet is wider
		t.Errorf("largest moment %.2f m from the left, want 0.78", at)
	}
	in.Purlins = nil
	_, r = ring(t, in)
	if at := r.ASD[RoofBeam].At; math.Abs(at-0.78) > 0.02 {
		t.Errorf("without purlins the largest moment is %.2f m from the left, want 0.78", at)
	}
}

// TestInnerShare: beam tables (memory).
func TestInnerShare(t *testing.T) {
	for spans, want := range map[int]float64{1: 1, 2: 1.25, 3: 1.1, 5: 1.1} {
		near(t, "share", InnerShare(spans), want, exact)
	}
	a, b := rib(soil(), soil().Scale(0.5)), rib(soil(), soil().Scale(0.5))
	b.Share = 1.25
	_, ra := ring(t, a)
	_, rb := ring(t, b)
	near(t, "corner", rb.Corner, 1.25*ra.Corner, 1e-9)
	b.Share = -1
	if _, _, err := RibRing(b); err == nil {
		t.Error("a negative share is taken")
	}
}
