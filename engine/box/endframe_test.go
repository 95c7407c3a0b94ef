package box

import (
	"math"
	"testing"

	"hillset/engine/steel"
	"hillset/engine/tables"
)

func portal(t testing.TB) Portal {
	sill, err := steel.BarProps(tables.Bar{ID: "sill", Shape: steel.Chan, H: 0.158, B: 0.048, T: 4e-3, Lip: 0.030})
	if err != nil {
		t.Fatal(err)
	}
	return Portal{Push: Pair{10, 16}, Post: postOf(t, "rear"), Header: tube(60, 3), Sill: sill, Steel: corten, Width: 2.33, Height: 2.47, Strength: 923}
}

// TestPortal: a closed frame that sways has its moments by slope-deflection
// (derived here by hand, axial shortening left out): top corner moment
// (H·h/2)·(1 + ks)/(2 + kh + ks) with k = Ip·b/(3·h·I) of header and sill.
func TestPortal(t *testing.T) {
	in := portal(t)
	b, h, ip := in.Width, in.Height, in.Post.Iy
	kh, ks := ip*b/(3*h*in.Header.Ix), ip*b/(3*h*in.Sill.Ix)
	mt := h / 2 * (1 + ks) / (2 + kh + ks) // under 1 kN
	mb := h/2 - mt
	c, r, err := DoorEnd(in)
	if err != nil {
		t.Fatal(err)
	}
	sane(t, c)
	near(t, "header", r.Unit[PortalHeader].M, mt, tol1)
	near(t, "sill", r.Unit[PortalSill].M, mb, tol1)
	near(t, "post", r.Unit[PortalLeft].M, math.Max(mt, mb), tol1)
	near(t, "posts carry the shear of the header", r.Unit[PortalRight].N, 2*mt/b, tol1)
	turn := mt*b/(6*200e6*in.Header.Ix) + mb*b/(6*200e6*in.Sill.Ix)
	sway := h * (h/2*h/(2*200e6*ip) + 3*turn) / 6
	near(t, "stiffness", r.Stiff, 1/sway, 0.02)
	near(t, "sway of the push", r.Sway, 10/r.Stiff, exact)
	near(t, "no roof, no amplification", r.ASD.Amplified, 1, exact)
	// The header is the weakest: its moment with the force of half the push.
	if r.ASD.Part != PortalHeader {
		t.Errorf("worst part %v", r.ASD.Part)
	}
	pn, err := weakColumn(in.Header, corten, b)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "H1-1b of the header", c.Ratio, 10*mt*1.67/(in.Header.Zx*345e3)+10*r.Unit[PortalHeader].N*1.67/pn/2, tol1)

	in.Load = Effects{D: 20, S: 10}
	c, r, err = DoorEnd(in)
	if err != nil {
		t.Fatal(err)
	}
	sane(t, c)
	near(t, "B2", r.ASD.Amplified, 1/(1-1.6*2*30/(r.Stiff*h)), exact)
	if c.Case != "D + H + F + S" {
		t.Errorf("case %q", c.Case)
	}
	in.Load = Effects{D: 800}
	if c, _, err = DoorEnd(in); err != nil || !math.IsInf(c.Ratio, 1) {
		t.Errorf("a frame that cannot stand up under its load: %g, %v", c.Ratio, err)
	}
	in.Push = Pair{}
	if c, _, err = DoorEnd(in); err != nil || math.IsNaN(c.Ratio) || math.IsInf(c.Ratio, 0) {
		t.Errorf("without push: %g, %v", c.Ratio, err)
	}
	for _, bad := range []func(*Portal){
		func(x *Portal) { x.Width = 0 }, func(x *Portal) { x.Post.Area = 0 }, func(x *Portal) { x.Push.LRFD = math.Inf(1) }, func(x *Portal) { x.Steel.Fy = 0 },
	} {
		x := portal(t)
		bad(&x)
		if _, _, err := DoorEnd(x); err == nil {
			t.Errorf("taken: %+v", x)
		}
	}
}

// TestBlindEnd: shear flow, couple and interactions by hand.
func TestBlindEnd(t *testing.T) {
	in := EndWall{Push: Pair{60, 96}, Sheet: Panel{Profile: profile(rowE1), Steel: corten, Height: 2.35}, Width: 2.276,
		Header: tube(60, 3), Steel: corten, Rise: 2.591, Strength: 923}
	c, r, err := BlindEnd(in)
	if err != nil {
		t.Fatal(err)
	}
	sane(t, c)
	near(t, "shear flow", r.V.ASD, 60/2.276, exact)
	near(t, "couple", r.Couple.ASD, 60*2.591/2.276, exact)
	near(t, "sheet, buckling as a whole", r.SheetRatio.ASD, r.V.ASD*2/r.Panel.Whole, exact)
	near(t, "header", r.HeaderRatio.ASD, 60*1.67/r.HeaderPn, exact)
	in.Bend, in.HeaderBend = Pair{0.5, 0.6}, Pair{0.7, 0.75}
	c, r, err = BlindEnd(in)
	if err != nil {
		t.Fatal(err)
	}
	sane(t, c)
	near(t, "sheet bent as well", r.SheetRatio.ASD, r.V.ASD*2/r.Panel.Whole+0.5, exact)
	pe := math.Pi * math.Pi * 200e6 * in.Header.Iy / (2.276 * 2.276)
	near(t, "header bent as well", r.HeaderRatio.LRFD, 96/(0.9*r.HeaderPn)+0.75*8/9/(1-96/pe), exact)
	near(t, "B1", r.Grow.ASD, 1/(1-1.6*60/pe), exact)
	in.Post, in.HeaderBend = Effects{D: 900}, Pair{}
	c, _, err = BlindEnd(in)
	if err != nil {
		t.Fatal(err)
	}
	sane(t, c)
	near(t, "post", c.Ratio, (900+r.Couple.ASD)*1.67/923, exact)
	in.Width = 0
	if _, _, err := BlindEnd(in); err == nil {
		t.Error("no width is taken")
	}
}
