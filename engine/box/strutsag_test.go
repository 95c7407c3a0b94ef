package box

import (
	"math"
	"testing"

	"hillset/engine/check"
)

// TestStrutSag: SHS 60x4 over 2.4 m by hand: I 43.55 cm4, i 22.6 mm (section table of
// the structure reference, derived), own weight 0.0658 kN/m: w0 = (5·0.0658·2.4/8 +
// 0.5)·2.4³/(48·200e6·43.55e-8) = 1.980 mm; 20 kN against PE 149.6 raise it to 2.285
// mm, of L/240 = 10 mm (deflection limit of the reference); KL/r 106.2 of 200.
func TestStrutSag(t *testing.T) {
	in := strutted(rib(soil(), soil()), 1.25)
	st, err := in.strutStrength(in.Struts[0])
	if err != nil {
		t.Fatal(err)
	}
	near(t, "w0", st.sag, 1.980e-3, tol05)
	var one StrutRating
	st.see(20, "D", &asdForm, &one)
	near(t, "w", one.Sag, 2.285e-3, tol05)
	st.see(-50, "D", &asdForm, &one) // a pull raises nothing
	st.see(90, "U", &lrfdForm, &one) // nor do factored loads
	near(t, "w stays", one.Sag, 2.285e-3, tol05)
	sag, slender := in.limber(in.Struts[0], &one)
	near(t, "sag", sag, 0.2285, tol05)
	near(t, "slenderness", slender, 0.531, tol05)

	c, r, err := StrutSag(in)
	if err != nil {
		t.Fatal(err)
	}
	sane(t, c)
	if _, ratio := in.StrutLimber(&r); c.Ratio != ratio || c.Verdict() != check.Within {
		t.Errorf("ratio %g, check %g", ratio, c.Ratio)
	}
	thin := in
	thin.Struts = []CrossBar{{Height: 1.25, Bar: tube(25, 2)}} // i 9.3 mm: KL/r 258
	if c, _, err = StrutSag(thin); err != nil || c.Verdict() != check.Beyond || len(c.RemedyQ) == 0 {
		t.Errorf("a strut of 25 mm: %+v, %v", c, err)
	}
	sane(t, c)
	st.see(st.pex, "D", &asdForm, &one)
	if !math.IsInf(one.Sag, 1) {
		t.Errorf("at its Euler load it sags %g", one.Sag)
	}
	in.Struts = nil
	if _, _, err := StrutSag(in); err == nil {
		t.Error("a rib without struts is checked")
	}
}
