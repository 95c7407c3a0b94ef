package box

import (
	"math"
	"math/rand/v2"
	"testing"

	"hillset/engine/check"
	"hillset/engine/steel"
	"hillset/engine/tables"
)

// whole fails when a check without an error holds a NaN.
func whole(t *testing.T, c check.Check, err error) {
	t.Helper()
	if err != nil {
		return
	}
	if math.IsNaN(c.Ratio) || math.IsNaN(c.RatioLRFD) || math.IsNaN(c.Demand.Val) || math.IsNaN(c.Capacity.Val) {
		t.Errorf("NaN in %+v", c)
	}
	for _, l := range c.Working {
		if math.IsNaN(l.Result.Val) {
			t.Errorf("%s: NaN in %q", c.ID, l.Formula)
		}
	}
}

// FuzzRails looks for panics and NaN in all bars under any numbers.
func FuzzRails(f *testing.F) {
	f.Add(0.06, 0.003, 1.2, 3, 15.12, 24.2, 345e3, 0)
	f.Add(0.158, 0.0045, 0.3, 1, -23.0, 1e5, 250e3, 2)
	f.Add(math.NaN(), 0.01, 5.0, 0, 0.0, 0.0, 1.0, 3)
	f.Fuzz(func(t *testing.T, h, th, span float64, spans int, asd, lrfd, fy float64, shape int) {
		kind := []string{steel.SHS, steel.RHS, steel.Chan, steel.Flat}[uint(shape)%4]
		bar, err := steel.BarProps(tables.Bar{Shape: kind, H: h, B: h, T: th})
		if err != nil {
			return
		}
		st := Material{Fy: fy, E: 200e6}
		for _, fn := range allRails {
			c, r, err := fn(Rail{Bar: bar, Steel: st, Span: span, Spans: spans, Load: Pair{asd, lrfd}})
			if whole(t, c, err); err == nil && (math.IsNaN(r.MaxSpan.ASD) || r.MaxSpan.ASD < 0) {
				t.Errorf("largest span %g", r.MaxSpan.ASD)
			}
		}
		c, _, err := Diaphragm(Deck{Profile: profile(rowRoof), Steel: st, Rail: bar, RailSteel: st, Length: span * 4, Width: span, Load: Pair{asd, lrfd}})
		whole(t, c, err)
		c, _, err = FloorCrossMember(CrossMember{Bar: bar, Steel: st, Length: span, Spacing: span / 4, Load: Pair{asd, lrfd}})
		whole(t, c, err)
		c, _, err = CornerPost(Post{Strength: fy / 300, Dead: asd, Live: lrfd, Length: span, Width: span / 2, EccX: h, EccY: th})
		whole(t, c, err)
	})
}

// TestComboProperties: combinations are linear in the effects, nothing that
// acts lowers the largest one, and load factors never fall below service.
func TestComboProperties(t *testing.T) {
	rng := rand.New(rand.NewPCG(27, 28))
	draw := func() Effects {
		return Effects{rng.Float64(), rng.Float64(), rng.Float64(), rng.Float64(), rng.Float64()}
	}
	for range 200 {
		a, b := draw(), draw()
		sum := Effects{a.D + b.D, a.L + b.L, a.H + b.H, a.F + b.F, a.S + b.S}
		for _, list := range [][]Combo{Strength, Allowable} {
			for _, c := range list {
				near(t, c.Name, c.Of(sum), c.Of(a)+c.Of(b), 1e-12)
			}
			va, _ := Largest(list, a)
			vs, name := Largest(list, sum)
			if vs < va || name == "" {
				t.Errorf("%+v gives %g, with more %g (%s)", a, va, vs, name)
			}
		}
		asd, _ := Largest(Allowable, a)
		lrfd, _ := Largest(Strength, a)
		if lrfd < asd*1.1 {
			t.Errorf("factored %g, service %g", lrfd, asd)
		}
	}
}
