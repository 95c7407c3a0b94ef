package box

import (
	"math"
	"testing"

	"hillset/engine/check"
	"hillset/engine/steel"
	"hillset/engine/tables"
)

// crossC is the small cross member of the structure reference, section 2.
func crossC(t *testing.T) CrossMember {
	t.Helper()
	b, err := steel.BarProps(tables.Bar{Shape: steel.Chan, H: 0.122, B: 0.045, T: 4e-3, Lip: 0.040})
	if err != nil {
		t.Fatal(err)
	}
	return CrossMember{Bar: b, Steel: corten, Length: 2.35, Spacing: 0.30, Load: Pair{23.76, 1.6 * 23.76}, Floor: true}
}

func TestFloorCrossMember(t *testing.T) {
	// ST-07 bottom reaction on cross members at 0.3 m; by hand: r of 796 mm2
	// and 167.6 cm4 is 45.9 mm, KL/r 51.2, Fe 753 MPa, Fn 0.658^0.458·345.
	in := crossC(t)
	c, r, err := FloorCrossMember(in)
	if err != nil {
		t.Fatal(err)
	}
	sane(t, c)
	near(t, "P", r.P.ASD, 7.128, exact)
	near(t, "Pn", r.Pn, 796e-6*math.Pow(0.658, 345/752.7)*345e3, tol05)
	near(t, "ratio", c.Ratio, 7.128*1.67/r.Pn, exact)
	loose := in
	loose.Floor = false
	_, weak, err := FloorCrossMember(loose)
	if err != nil || weak.Pn >= r.Pn/2 {
		t.Errorf("without a floor it holds %g, with one %g (%v)", weak.Pn, r.Pn, err)
	}
	in.Load = in.Load.Times(100)
	if c, _, _ = FloorCrossMember(in); c.Verdict() != check.Beyond {
		t.Errorf("100 times the load: %g", c.Ratio)
	}
	sane(t, c)
	in.Spacing = c.RemedyQ[0].Val
	if c, _, err = FloorCrossMember(in); err != nil && in.Spacing >= 0.05 || err == nil && math.Abs(c.Worst()-1) > exact {
		t.Errorf("at the spacing of the remedy %g (%v)", c.Worst(), err)
	}
	for name, spoil := range map[string]func(*CrossMember){
		"NaN length": func(c *CrossMember) { c.Length = math.NaN() }, "NaN spacing": func(c *CrossMember) { c.Spacing = math.NaN() },
		"NaN load": func(c *CrossMember) { c.Load.LRFD = math.NaN() }, "no bar": func(c *CrossMember) { c.Bar = steel.Bar{} },
		"no steel": func(c *CrossMember) { c.Steel = Material{} },
	} {
		in := crossC(t)
		spoil(&in)
		if _, _, err := FloorCrossMember(in); err == nil {
			t.Errorf("FloorCrossMember accepts: %s", name)
		}
	}
}
