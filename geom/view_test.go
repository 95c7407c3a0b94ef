package geom

import (
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
)

func TestView(t *testing.T) {
	v, err := NewView(20, Vec{10, 5}, Vec{400, 300}, true)
	if err != nil {
		t.Fatal(err)
	}
	nearVec(t, "anchor", v.Forward(Vec{10, 5}), Vec{400, 300}, 1e-12)
	nearVec(t, "up and right", v.Forward(Vec{11, 6}), Vec{420, 280}, 1e-12)
	nearVec(t, "back", v.Inverse(Vec{420, 280}), Vec{11, 6}, 1e-12)
	nearVec(t, "direction", v.Dir(Vec{0, 1}), Vec{0, -20}, 1e-12)
	nearVec(t, "direction back", v.InverseDir(Vec{40, -20}), Vec{2, 1}, 1e-12)
	nearVec(t, "panned", v.Pan(Vec{5, -7}).Forward(Vec{10, 5}), Vec{405, 293}, 1e-12)
	if v.Scale() != 20 || !v.Down() {
		t.Error("scale or sense")
	}
	up, err := NewView(20, Vec{10, 5}, Vec{400, 300}, false)
	if err != nil {
		t.Fatal(err)
	}
	nearVec(t, "second axis up", up.Forward(Vec{11, 6}), Vec{420, 320}, 1e-12)
	shown := v.InverseRect(Rect{Vec{400, 280}, Vec{420, 300}})
	if want := (Rect{Vec{10, 5}, Vec{11, 6}}); shown != want {
		t.Errorf("shown %v, want %v", shown, want)
	}
}

// There and back, and the matrix against the map, for random views.
func TestViewProperties(t *testing.T) {
	r := newRand(71)
	for range 200 {
		v, err := NewView(math.Exp(10*r.Float64()-5), Vec{r.Float64() * 100, r.Float64()}, Vec{r.Float64(), r.Float64() * 900}, r.IntN(2) == 0)
		if err != nil {
			t.Fatal(err)
		}
		w := Vec{r.Float64() * 200, r.Float64()*40 - 20}
		f := v.Forward(w)
		nearVec(t, "there and back", v.Inverse(f), w, 1e-9)
		m := v.Mat3().Mul3x1(mgl64.Vec3{w[0], w[1], 1})
		nearVec(t, "by the matrix", Vec{m[0], m[1]}, f, 1e-9*(1+math.Abs(f[0])+math.Abs(f[1])))
		still := Vec{r.Float64() * 800, r.Float64() * 600}
		z, err := v.Zoom(still, 1.25)
		if err != nil {
			t.Fatal(err)
		}
		nearVec(t, "still point", z.Forward(v.Inverse(still)), still, 1e-7)
		near(t, "zoomed scale", z.Scale(), 1.25*v.Scale(), 1e-12*v.Scale())
	}
}

// DR-02 sizes (site notes, derived): 18.3 x 7.4 m in 390 x 237 mm.
func TestFitView(t *testing.T) {
	world, sheet := Rect{Vec{-4, -1}, Vec{14.3, 6.4}}, Rect{Vec{20, 10}, Vec{410, 247}}
	v, err := FitView(world, sheet, true)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "scale, mm per m", v.Scale(), 390/18.3, 1e-12)
	nearVec(t, "centre", v.Forward(world.Center()), sheet.Center(), 1e-9)
	for _, c := range world.ToRing() {
		if f := v.Forward(c); !sheet.Expand(1e-9).Contains(f) {
			t.Errorf("corner %v lands on %v", c, f)
		}
	}
	level, err := FitView(Rect{Vec{0, 5}, Vec{10, 5}}, sheet, false)
	if err != nil || level.Scale() != 39 {
		t.Errorf("level line: scale %g, %v", level.Scale(), err)
	}
}

func TestViewErrors(t *testing.T) {
	nan := math.NaN()
	for _, c := range []struct {
		scale  float64
		at, on Vec
	}{
		{0, Vec{}, Vec{}}, {-1, Vec{}, Vec{}}, {nan, Vec{}, Vec{}}, {math.Inf(1), Vec{}, Vec{}}, {1, Vec{nan, 0}, Vec{}}, {1, Vec{}, Vec{0, nan}},
	} {
		if _, err := NewView(c.scale, c.at, c.on, true); err == nil {
			t.Errorf("%v taken", c)
		}
	}
	r := Rect{Vec{}, Vec{1, 1}}
	if _, err := FitView(Rect{}, r, true); err == nil {
		t.Error("nothing fitted")
	}
	if _, err := FitView(r, Rect{}, true); err == nil {
		t.Error("fitted into nothing")
	}
	v, _ := NewView(1, Vec{}, Vec{}, true)
	for _, f := range []float64{0, -1, nan, math.Inf(1)} {
		if _, err := v.Zoom(Vec{}, f); err == nil {
			t.Errorf("zoomed by %g", f)
		}
	}
}
