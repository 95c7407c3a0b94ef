package concrete

import (
	"math"
	"testing"

	"hillset/engine/box"
	"hillset/engine/check"
)

func corner() SlabCorner {
	return SlabCorner{Section: Section{Thickness: 0.25, Fc: 2500 * psi, Soil: true}, P: box.Pair{ASD: 40, LRFD: 56},
		CastL: 0.178, CastW: 0.162, ReachL: 3.03, ReachW: 1.22, Allowable: 150, Basis: "by hand"}
}

// TestSlabCornerPlain: by hand, 40 kN on a slab of 0.25 m, f'c 2500 psi, on ground of
// 150 kPa: 150 − 24·0.25 = 144 kPa are left, 40/144 = 0.2778 m2 = (0.178 + c)(0.162 +
// c), c = 0.3571; q = 56/0.2778 = 201.6; Mu = 12.85 kNm/m against 0.6·5·50 psi·0.2²/6 =
// 6.895 (ACI 318 ch. 14, memory; derived here).
func TestSlabCornerPlain(t *testing.T) {
	in := corner()
	c, r, err := SlabCornerCheck(in)
	if err != nil {
		t.Fatal(err)
	}
	const tol = 1e-3
	near(t, "net", r.Net, 144, tol)
	near(t, "area", r.Area, 0.27778, tol)
	near(t, "beyond the casting", r.Over[0], 0.3571, tol)
	near(t, "q", r.Q, 201.6, tol)
	near(t, "Mu", r.M, 12.85, tol)
	near(t, "phi Mn", r.PhiMn, 6.895, tol)
	root := 50 * psi
	near(t, "shear", r.Cut, 201.6*(0.3571-0.2)/(0.6*4/3*root*0.2), tol)
	near(t, "punching", r.Punch, (56-201.6*0.278*0.262)/(0.6*2.66*root*(0.278+0.262)*0.2), tol)
	near(t, "ratio", c.RatioLRFD, 12.85/6.895, tol)
	near(t, "demand over capacity", c.Demand.Val/c.Capacity.Val, c.RatioLRFD, 1e-9)
	if c.Verdict() != check.Beyond || !math.IsNaN(c.Ratio) {
		t.Errorf("%+v", c)
	}
	in.Thickness = c.RemedyQ[0].Val
	if c, _, err = SlabCornerCheck(in); err != nil || c.RatioLRFD > 1.05 { // it weighs more as well
		t.Errorf("after its remedy %g, %v", c.RatioLRFD, err)
	}
}

// TestSlabCornerBars: 12 mm at 150 both ways, cover 50, in the same slab of 25 MPa: d =
// 250 − 50 − 18 = 182 mm, As 754 mm2, a = 754·420/(0.85·25·1000) = 14.9, φ·Mn = 0.9·754·
// 420·(182 − 7.45) = 49.7 kNm/m; one way φ·Vc = 0.75·0.166·√25·182 = 113.4 kN/m; round the
// corner b0 = 0.178 + 0.162 + 0.182 = 0.522 m, β 1.099, 20·0.182/0.522 + 2 = 8.97: 4·√f'c,
// λs 1.0 (2/(1 + 0.728) > 1), φ·Vc = 0.75·4·0.083·√25·522·182 = 118.4 kN (memory).
func TestSlabCornerBars(t *testing.T) {
	in := corner()
	in.Fc, in.Bars = 25e3, Bars{Diameter: 0.012, Spacing: 0.15, Cover: 0.05, Fy: rebar(t)}
	c, r, err := SlabCornerCheck(in)
	if err != nil {
		t.Fatal(err)
	}
	const tol = 0.005 // hand figures in MPa, the code in psi
	near(t, "d", r.D, 0.182, 1e-9)
	near(t, "phi Mn", r.PhiMn, 49.7, tol)
	near(t, "phi Vn", r.PhiVn, 113.4, tol)
	near(t, "phi Vp", r.PhiVp, 118.4, tol)
	if r.Plain || c.Verdict() != check.Within {
		t.Errorf("%+v", r)
	}
	in.Bars.Spacing = 0.6 // 188 mm2, less than 0.0018·250
	if _, r, err = SlabCornerCheck(in); err != nil || !r.Plain {
		t.Errorf("too few bars count: %+v, %v", r, err)
	}
}

// TestSlabCornerReach: where the slab ends across the box it reaches further along it,
// and where it ends both ways it says so; a heavier load never asks less.
func TestSlabCornerReach(t *testing.T) {
	in := corner()
	in.ReachW = 0.4
	_, r, err := SlabCornerCheck(in)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "across", r.Over[1], 0.4-0.162, 1e-9)
	near(t, "area", (0.178+r.Over[0])*0.4, 0.27778, 1e-3)
	in.ReachL = 0.5
	c, r, err := SlabCornerCheck(in)
	if err != nil || !r.Short || r.Area > 0.2+1e-9 {
		t.Errorf("%+v, %v: %s", r, err, c.Validity)
	}
	in, last := corner(), 0.0
	for p := 5.0; p < 400; p += 5 {
		in.P = box.Pair{ASD: p, LRFD: 1.4 * p}
		r, err := in.Solve()
		if err != nil {
			t.Fatal(err)
		}
		if r.Worst() < last {
			t.Errorf("%g kN: ratio %.3f, less load %.3f", p, r.Worst(), last)
		}
		last = r.Worst()
	}
	for _, bad := range []func(*SlabCorner){
		func(x *SlabCorner) { x.Fc = 0 }, func(x *SlabCorner) { x.Thickness = 0.05 }, func(x *SlabCorner) { x.ReachL = 0.1 },
		func(x *SlabCorner) { x.P.LRFD = math.NaN() }, func(x *SlabCorner) { x.Allowable = 5 },
	} {
		x := corner()
		bad(&x)
		if _, _, err := SlabCornerCheck(x); err == nil {
			t.Errorf("taken: %+v", x)
		}
	}
}
