package scene

import (
	"math"
	"testing"

	"hillset/geom"
	"hillset/ui/units"
)

// The ground that is shown holds all works and the asked strip beside them,
// and never more than the view has.
func TestLandHoldsTheWorks(t *testing.T) {
	for name, v := range named() {
		all := content(v)
		for _, beyond := range []float64{0.5, 2.5, 100} {
			r := Land(v, beyond)
			if r.Min[0] < all.Min[0] || r.Max[0] > all.Max[0] || r.Min[1] < all.Min[1] || r.Max[1] > all.Max[1] {
				t.Errorf("%s: land %v is more than the view's %v", name, r, all)
			}
			if v.HasBox && (!r.Contains(v.Box.Min) || !r.Contains(v.Box.Max) || !r.Contains(v.Crest) || !r.Contains(v.Toe)) {
				t.Errorf("%s: land %v does not hold the works", name, r)
			}
			if d := v.Box.Min[0] - r.Min[0]; v.HasBox && d < min(beyond, v.Box.Min[0]-all.Min[0])-1e-9 {
				t.Errorf("%s: %.2f m beside the box, want %g", name, d, beyond)
			}
		}
		if Land(v, 0) != all || Land(v, math.NaN()) != all {
			t.Errorf("%s: without a strip the land is not the whole view", name)
		}
	}
	if Land(natural(), 2) != content(natural()) {
		t.Error("a hill without works is not shown whole")
	}
}

func TestWindowLeavesMargins(t *testing.T) {
	v := service()
	land, win := Window(v, math.Inf(1)), Window(v, 20)
	if land != content(v) {
		t.Errorf("window without margins is %v, want %v", land, content(v))
	}
	if d := (land.Min[0] - win.Min[0]) * 20; math.Abs(d-marginSide) > 1e-9 {
		t.Errorf("%.2f mm at the side, want %g", d, marginSide)
	}
	if d := (land.Min[1] - win.Min[1]) * 20; math.Abs(d-marginBottom) > 1e-9 {
		t.Errorf("%.2f mm below, want %g", d, marginBottom)
	}
}

// Ground outside of Land is not drawn; texts still may stand there.
func TestLandCropsTheGround(t *testing.T) {
	v := service()
	land := geom.Rect{Min: geom.Vec{4, 97.5}, Max: geom.Vec{18, 104}}
	s := mustBuild(t, v, Options{Land: land, Units: units.US, Soils: soils})
	examine(t, "cropped", s, Framed(land, 20))
	for _, it := range s.Items {
		if p := it.Path; p != nil && (p.Layer == Ground || p.Layer == Fills) {
			for _, c := range p.Parts {
				for _, q := range c {
					if !land.Expand(0.03).Contains(q) {
						t.Fatalf("%s reaches out of the land at %v", p.Tag, q)
					}
				}
			}
		}
	}
}
