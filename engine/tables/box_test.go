package tables

import (
	"math"
	"testing"
)

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: %g, want %g", what, got, want)
	}
}

// Outside dimensions of ISO 668 (verified) are feet and inches to the
// millimetre; a check against the nominal lengths, written out here.
func TestBoxesAgainstFeetAndInches(t *testing.T) {
	in := func(feet, inches float64) float64 { return feet*0.3048 + inches*0.0254 }
	for id, c := range map[string]struct{ l, h, rating float64 }{
		"45hc": {in(45, 0), in(9, 6), 30480}, "40hc": {in(40, 0), in(9, 6), 30480}, "40std": {in(40, 0), in(8, 6), 30480},
		"40low": {in(40, 0), in(8, 0), 30480}, "20std": {in(19, 10.5), in(8, 6), 30480}, "20low": {in(19, 10.5), in(8, 0), 30480},
		"10std": {in(9, 9.75), in(8, 0), 10160},
	} {
		b, ok := Default().Box(id)
		if !ok {
			t.Errorf("no box %s", id)
			continue
		}
		near(t, id+" length", b.L, c.l, 0.0008) // printed to the millimetre
		near(t, id+" width", b.W, in(8, 0), 0.0008)
		near(t, id+" height", b.H, c.h, 0.0008)
		near(t, id+" rating", b.Rating, c.rating, 0)
	}
	if n := len(Default().BoxIDs()); n != 7 {
		t.Errorf("%d boxes, want 7", n)
	}
}

// Test loads of ISO 1496-1 as pressure on the inside faces, kPa, as worked out
// by hand (derived): they hang on rating, tare and all
// three inside dimensions. Rows with other ratings or tares are left out.
func TestBoxTestPressures(t *testing.T) {
	for id, want := range map[string]struct{ side, end float64 }{
		"10std": {8.47, 6.79}, "20std": {12.06, 20.25}, "40std": {5.58, 19.16}, "40hc": {4.91, 16.86}, "45hc": {4.20, 16.29},
	} {
		b, _ := Default().Box(id)
		p := (b.Rating - b.Tare) * 9.81 / 1000
		near(t, id+" side", 0.6*p/(b.InL*b.InH), want.side, 0.006)
		near(t, id+" end", 0.4*p/(b.InW*b.InH), want.end, 0.006)
	}
}

// The casting of ISO 1161 (verified) and the post against the stacking test:
// a post must carry what it is tested with (847.3 kN, ST-16).
func TestCornersOfBoxes(t *testing.T) {
	for _, id := range Default().BoxIDs() {
		b, _ := Default().Box(id)
		near(t, id+" casting length", b.CastL, 0.178, 1e-9)
		near(t, id+" casting width", b.CastW, 0.162, 1e-9)
		near(t, id+" casting height", b.CastH, 0.118, 1e-9)
		if b.PostStrength < 847.3 || b.UnderClearance < 0.0125-1e-9 || b.UnderClearance > 0.0145 {
			t.Errorf("%s: post %g kN, clearance %g m", id, b.PostStrength, b.UnderClearance)
		}
	}
}

// fibres sums area and second moment of a midline in short pieces about its
// own centroid: a second route to the closed form.
func fibres(s Sheet) (area, inertia float64) {
	h := s.D - s.T
	type seg struct{ x0, y0, x1, y1 float64 }
	segs := []seg{
		{0, h / 2, s.A, h / 2}, {s.A, h / 2, s.A + s.S, -h / 2},
		{s.A + s.S, -h / 2, s.A + s.S + s.B, -h / 2}, {s.A + s.S + s.B, -h / 2, s.A + 2*s.S + s.B, h / 2},
	}
	const n = 2000
	var a, ay, ayy float64
	for _, g := range segs {
		da := math.Hypot(g.x1-g.x0, g.y1-g.y0) * s.T / n
		for i := range n {
			y := g.y0 + (g.y1-g.y0)*(float64(i)+0.5)/n
			a, ay, ayy = a+da, ay+da*y, ayy+da*y*y
		}
	}
	p := s.A + s.B + 2*s.S
	return a / p, (ayy - ay*ay/a) / p
}

// The dimensions of the sheets give the published area, second moment, pitch
// and mass (ST-01, ST-02, ST-13; derived).
func TestSheets(t *testing.T) {
	for id, c := range map[string]struct{ pitch, area, inertia, mass float64 }{
		"S1":   {278, 1694, 328260, 13.3},
		"S2":   {278, 2115, 401200, 16.6},
		"E1":   {250, 2467, 932720, 19.4},
		"roof": {209, 2172, 153300, 2172 * 7.85e-3},
		"door": {256, 0, 0, 0},
	} {
		s, ok := Default().Sheet(id)
		if !ok {
			t.Errorf("no sheet %s", id)
			continue
		}
		near(t, id+" pitch, mm", (s.A+s.B+2*s.S)*1000, c.pitch, 1e-6)
		if c.area == 0 {
			continue
		}
		a, i := fibres(s)
		near(t, id+" area, mm2/m", a*1e6, c.area, c.area*0.001)
		near(t, id+" second moment, mm4/m", i*1e12, c.inertia, c.inertia*0.005) // own thickness left out
		near(t, id+" mass, kg/m2", a*7850, c.mass, c.mass*0.005)
	}
}

// Channels and hollow sections give the printed areas and masses (exact
// rounded corners, derived; RHS from the EN 10219 table, verified).
func TestBars(t *testing.T) {
	for id, c := range map[string]struct{ cm2, kgm float64 }{
		"shs50x3": {5.41, 4.25}, "shs50x4": {6.95, 5.45}, "shs60x3": {6.61, 5.19}, "shs60x4": {8.55, 6.71},
		"shs75x4": {10.95, 8.59}, "shs75x5": {13.36, 10.5}, "shs80x5": {14.36, 11.3}, "shs100x5": {18.36, 14.4}, "shs100x6": {21.63, 17.0},
		"rhs50x30x3": {4.21, 0}, "rhs60x40x3": {5.41, 0},
		"c122x45x40x4": {7.96, 0}, "c122x75x45x4": {9.36, 0}, "c158x48x30x4.5": {10.21, 0}, "flat50x12": {6.00, 0},
	} {
		b, ok := Default().Bar(id)
		if !ok {
			t.Errorf("no bar %s", id)
			continue
		}
		a := b.H * b.T
		switch b.Shape {
		case "shs", "rhs": // less the corners: outer radius 2t, inner t
			cut := 4 - math.Pi
			a = b.H*b.B - cut*4*b.T*b.T - ((b.H-2*b.T)*(b.B-2*b.T) - cut*b.T*b.T)
		case "c":
			a = (b.B+b.Lip)*b.T + (b.H-2*b.T)*b.T
		}
		near(t, id+" area, cm2", a*1e4, c.cm2, c.cm2*0.002)
		if c.kgm > 0 {
			near(t, id+" mass, kg/m", a*7850, c.kgm, 0.06)
		}
	}
	if _, ok := Default().Bar("c158x48x30x4"); !ok {
		t.Error("no end sill")
	}
}

// Grades: JIS G3125 as read (343 to 345, 480 to 490 MPa) and the value for an
// unknown maker (common practice).
func TestGrades(t *testing.T) {
	g, _ := Default().Grade("corten")
	near(t, "corten Fy, kPa", g.Fy, 345e3, 0)
	if g.Fu < 480e3 || g.Fu > 490e3 {
		t.Errorf("corten Fu %g kPa", g.Fu)
	}
	u, _ := Default().Grade("unknown")
	near(t, "unknown Fy, kPa", u.Fy, 250e3, 0)
	for _, id := range Default().GradeIDs() {
		g, _ := Default().Grade(id)
		near(t, id+" E, kPa", g.E, 200e6, 0)
	}
}
