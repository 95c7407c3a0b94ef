package steel

import (
	"math"
	"testing"
)

// TestSlenderColumn: of walls that buckle before the column only the effective
// width carries: A_eff(Fn) of the structure reference, section 4, by hand.
func TestSlenderColumn(t *testing.T) {
	const e = 200e6
	// SHS 100x2 over 1 m: r 39.97 mm, KL/r 25.02, Fe 3154, Fn 0.658^(345/3154)·345 = 329.6 MPa;
	// flat 92/2 = 46, lambda 0.526·46·√(329.6/203000) = 0.9749, rho 0.7943: 4 walls
	// lose 0.2057·92·2 each.
	tube := bar(t, SHS, 100, 100, 2, 0)
	c, err := tube.Column(X, fy345, e, 1)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "Fn", c.Fn, 329.6e3, 1e-3)
	near(t, "area of the tube", c.Area, tube.Area-4*0.2057*92*2e-6, 1e-3)
	near(t, "Pn", c.Pn, c.Area*c.Fn, 1e-12)

	// The cross member C 122x45x40 rusted to 2.5 mm over 2.35 m: A 504.5 mm2, Fn
	// about 291 MPa; web 117/2.5 = 46.8: lambda 0.526·46.8·√(Fn/E); flanges 42.5 and
	// 37.5 by k = 0.43: lambda 1.052/√0.43·17·√(Fn/E).
	chn := bar(t, Chan, 122, 45, 2.5, 40)
	if c, err = chn.Column(X, fy345, e, 2.35); err != nil {
		t.Fatal(err)
	}
	root := math.Sqrt(c.Fn / 203e6)
	rho := func(lambda float64) float64 { return (1 - 0.22/lambda) / lambda }
	want := 504.5 - 117*2.5*(1-rho(0.526*46.8*root)) - 42.5*2.5*(1-rho(1.6043*17*root)) - 37.5*2.5*(1-rho(1.6043*15*root))
	near(t, "area of the channel", c.Area*1e6, want, 2e-3)

	// As new nothing of it buckles.
	chn = bar(t, Chan, 122, 45, 4, 40)
	if c, err = chn.Column(X, fy345, e, 2.35); err != nil || c.Area != chn.Area {
		t.Errorf("new channel: %g of %g m2 (%v)", c.Area, chn.Area, err)
	}
	if _, err = bar(t, Chan, 122, 45, 0.7, 40).Column(X, fy345, e, 2.35); err == nil {
		t.Error("an outstand of 63 times its thickness is rated")
	}
}

// TestSlenderColumnShrinks: a thinner bar never carries more.
func TestSlenderColumnShrinks(t *testing.T) {
	last := 0.0
	for mm := 0.8; mm <= 6; mm += 0.05 {
		c, err := bar(t, Chan, 122, 45, mm, 40).Column(X, fy345, 200e6, 2.35)
		if err != nil {
			t.Fatal(err)
		}
		if c.Pn < last {
			t.Errorf("%.2f mm carries %.2f kN, thinner %.2f", mm, c.Pn, last)
		}
		last = c.Pn
	}
}

// TestRated: a bar too slender to be bent says so.
func TestRated(t *testing.T) {
	if err := bar(t, SHS, 60, 60, 3, 0).Rated(fy345, 200e6); err != nil {
		t.Error(err)
	}
	if err := bar(t, SHS, 60, 60, 1.2, 0).Rated(fy345, 200e6); err == nil {
		t.Error("walls of 1.2 mm on 60 are bent")
	}
}
