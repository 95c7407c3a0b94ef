package box

import (
	"math"
	"testing"

	"hillset/engine/frame"
)

func girder() Girder {
	const l = 5.88
	return Girder{Web: Panel{Profile: profile(rowS1), Steel: corten, Height: 2.35}, Length: l, Depth: 2.46,
		Dead: frame.Uniform(12, l), Live: frame.Uniform(2, l), Snow: frame.Uniform(0.5, l),
		Places: []GirderPlace{{At: 0, Bend: Pair{0.4, 0.42}}, {At: l / 2, Bend: Pair{0.5, 0.53}}, {At: l, Bend: Pair{0.4, 0.42}}},
		Top:    tube(60, 3), Bottom: tube(75, 4), Steel: corten, Bed: 4e4}
}

// TestGirder: an evenly loaded wall by the beam formulas (V = wL/2, M = wL²/8).
func TestGirder(t *testing.T) {
	in := girder()
	l := in.Length
	c, r, err := SideGirder(in)
	if err != nil {
		t.Fatal(err)
	}
	sane(t, c)
	v := 14 * l / 2 / in.Depth
	near(t, "shear flow at a corner", r.ASD.Flow, v, exact)
	near(t, "web", c.Ratio, v*2/r.Web.Whole+0.4, exact)
	if c.Case != "D + H + F + L" || r.ASD.At != 0 && r.ASD.At != l {
		t.Errorf("case %q at %g", c.Case, r.ASD.At)
	}
	vu := (1.2*12 + 1.6*2 + 0.5*0.5) * l / 2 / in.Depth
	near(t, "load factors", c.RatioLRFD, vu/(0.8*r.Web.Whole)+0.42, exact)

	in.Push, in.Open = Pair{20, 32}, 1.0
	_, p, err := SideGirder(in)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "push of the end adds", p.ASD.Flow-r.ASD.Flow, 20/(l-1.0), exact)

	in = girder()
	in.Dead = frame.Uniform(60, l) // now the top rail governs at midspan
	for k := range in.Places {
		in.Places[k].Bend = Pair{}
	}
	in.Web.Profile.T = 5e-3
	in.TopBend, in.Chord = Pair{0.3, 0.32}, Pair{7, 11.2}
	c, r, err = SideGirder(in)
	if err != nil {
		t.Fatal(err)
	}
	sane(t, c)
	n := 62*l*l/8/in.Depth + 7
	near(t, "chord", r.ASD.N, n, exact)
	near(t, "top rail", c.Ratio, n*1.67/r.Strut.Pn+0.3*8/9, exact)
	near(t, "bottom rail", r.ASD.Bottom, (n-7)*1.67/r.Tie, exact)

	// A hole takes its height from the web where it stands.
	in = girder()
	in.Places = append(in.Places, GirderPlace{At: 0.5, Bend: Pair{0.4, 0.42}, Hole: 1.5})
	_, h, err := SideGirder(in)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "beside a hole", h.ASD.Flow, 14*(l/2-0.5)/(in.Depth-1.5), exact)
	for _, bad := range []func(*Girder){
		func(x *Girder) { x.Places = nil }, func(x *Girder) { x.Places[0].At = 9 }, func(x *Girder) { x.Places[0].Hole = 3 },
		func(x *Girder) { x.Depth = 0 }, func(x *Girder) { x.Dead = frame.Uniform(math.NaN(), l) }, func(x *Girder) { x.Bed = 0 },
	} {
		x := girder()
		bad(&x)
		if _, _, err := SideGirder(x); err == nil {
			t.Errorf("taken: %+v", x)
		}
	}
}
