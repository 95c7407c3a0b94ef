package slope

import (
	"math"
	"testing"
)

// SL-01 (F5, F6 derived), within 0.1 %.
func TestSkinSL01(t *testing.T) {
	in := SkinIn{Beta: 20 * deg, Depth: 1.5, Gamma: 18, C: 3, Phi: 30 * deg}
	wet := func(dip float64) SkinIn {
		w := in
		w.Gamma, w.Seepage = 19.5, Seepage{1, dip * deg}
		return w
	}
	flat := SkinIn{Beta: 26.565 * deg, Depth: 1, Gamma: 20, Phi: 34 * deg}
	flowing := flat
	flowing.Seepage = Seepage{1, flat.Beta}
	for _, c := range []struct {
		id   string
		in   SkinIn
		want float64
	}{
		{"SL-01 a dry", in, 1.932}, {"SL-01 b parallel", wet(20), 1.107}, {"SL-01 c horizontal", wet(0), 1.002},
		{"SL-01 d 10° down", wet(10), 1.056}, {"SL-01 e dry", flat, 1.349}, {"SL-01 e parallel", flowing, 0.687},
	} {
		t.Run(c.id, func(t *testing.T) {
			f, err := Skin(c.in)
			if err != nil {
				t.Fatal(err)
			}
			near(t, "factor", f, c.want, 0.001)
		})
	}
	d := wet(10)
	near(t, "pore pressure of d", d.Pore(), 13.83, 0.001)
}

// SL-02 (public examination 2014 with posted solution, verified): its unit weight
// of water is 10, so the weight is raised by as much as ours is less.
func TestSteepestSL02(t *testing.T) {
	beta, err := SteepestSkin(SkinIn{Beta: 10 * deg, Depth: 1, Gamma: 18 * gammaW / 10, Phi: 34 * deg, Seepage: Seepage{Share: 1}}, 1.5)
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(beta/deg-11.3) > 0.05 {
		t.Errorf("steepest = %.3f°, want 11.3° within 0.05°", beta/deg)
	}
}
