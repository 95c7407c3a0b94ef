package sketch

import (
	"math"
	"math/rand"
	"testing"

	"hillset/geom"
)

func TestSnap(t *testing.T) {
	point := Target{Why: "at point", Kind: PointTarget, At: geom.Vec{5, 2}}
	level := Target{Why: "formation level", Kind: LevelTarget, At: geom.Vec{0, 3}}
	weak := Target{Why: "level with point", Kind: LevelTarget, At: geom.Vec{1, 3.3}, Weak: true}
	plumb := Target{Why: "plumb with the back", Kind: PlumbTarget, At: geom.Vec{8, 0}}
	ground := Target{Why: "on the ground line", Kind: LineTarget, At: geom.Vec{0, 0}, B: geom.Vec{10, 5}}
	all := []Target{point, level, weak, plumb, ground}
	for _, c := range []struct {
		name string
		in   SnapInput
		want geom.Vec
		why  string
	}{
		{"nothing near", SnapInput{At: geom.Vec{1.33, 7.77}, Tol: 0.2, Targets: all}, geom.Vec{1.33, 7.77}, ""},
		{"point", SnapInput{At: geom.Vec{5.1, 2.1}, Tol: 0.2, Targets: all}, geom.Vec{5, 2}, "at point"},
		{"point wins over its level and the grid", SnapInput{At: geom.Vec{5.06, 2.05}, Tol: 0.2, Grid: 0.1, Targets: all}, geom.Vec{5, 2}, "at point"},
		{"just out of reach of the point", SnapInput{At: geom.Vec{5.15, 1.5}, Tol: 0.2, Targets: []Target{point}}, geom.Vec{5.15, 1.5}, ""},
		{"level, the distance stays", SnapInput{At: geom.Vec{1.37, 3.15}, Tol: 0.2, Targets: []Target{level}}, geom.Vec{1.37, 3}, "formation level"},
		{"the nearer of two levels", SnapInput{At: geom.Vec{1.37, 3.24}, Tol: 0.2, Targets: all[1:3]}, geom.Vec{1.37, 3.3}, "level with point"},
		{"a weak level reaches half as far", SnapInput{At: geom.Vec{1.37, 3.45}, Tol: 0.2, Targets: []Target{weak}}, geom.Vec{1.37, 3.45}, ""},
		{"level and plumb together", SnapInput{At: geom.Vec{8.1, 2.9}, Tol: 0.2, Targets: []Target{level, plumb}}, geom.Vec{8, 3}, "plumb with the back, formation level"},
		{"on the line, square to it", SnapInput{At: geom.Vec{4.1, 1.8}, Tol: 0.3, Targets: []Target{ground}}, geom.Vec{4, 2}, "on the ground line"},
		{"where a level meets the line", SnapInput{At: geom.Vec{6.1, 2.95}, Tol: 0.2, Targets: []Target{level, ground}}, geom.Vec{6, 3}, "formation level, on the ground line"},
		{"beyond the end of the line", SnapInput{At: geom.Vec{10.1, 5.1}, Tol: 0.3, Targets: []Target{ground}}, geom.Vec{10.1, 5.1}, ""},
		{"grid", SnapInput{At: geom.Vec{1.337, 7.768}, Tol: 0.2, Grid: 0.1}, geom.Vec{1.3, 7.8}, "grid"},
		{"grid of 3 in", SnapInput{At: geom.Vec{0.230, 0.080}, Tol: 0.02, Grid: 0.0762}, geom.Vec{0.2286, 0.0762}, "grid"},
		{"grid out of reach when zoomed in", SnapInput{At: geom.Vec{1.35, 7.75}, Tol: 0.01, Grid: 0.1}, geom.Vec{1.35, 7.75}, ""},
		{"grid completes a level", SnapInput{At: geom.Vec{1.337, 3.1}, Tol: 0.2, Grid: 0.1, Targets: []Target{level}}, geom.Vec{1.3, 3}, "formation level, grid"},
		{"held off", SnapInput{At: geom.Vec{5.1, 2.1}, Tol: 0.2, Grid: 0.1, Targets: all, Off: true}, geom.Vec{5.1, 2.1}, ""},
		{"horizontal: the level never changes", SnapInput{At: geom.Vec{7.9, 3.05}, Axis: Horizontal, Tol: 0.2, Grid: 0.1, Targets: all}, geom.Vec{8, 3.05}, "plumb with the back"},
		{"vertical: the distance never changes", SnapInput{At: geom.Vec{7.9, 3.1}, Axis: Vertical, Tol: 0.2, Grid: 0.1, Targets: []Target{level, plumb}}, geom.Vec{7.9, 3}, "formation level"},
		{"vertical: meets the line plumb above", SnapInput{At: geom.Vec{4, 2.1}, Axis: Vertical, Tol: 0.2, Targets: []Target{ground}}, geom.Vec{4, 2}, "on the ground line"},
		{"horizontal: distance of a point", SnapInput{At: geom.Vec{5.1, 9}, Axis: Horizontal, Tol: 0.2, Targets: []Target{point}}, geom.Vec{5, 9}, "at point"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := Snap(c.in)
			if got.At.Sub(c.want).Len() > 1e-9 || got.Why != c.why {
				t.Errorf("got %v %q, want %v %q", got.At, got.Why, c.want, c.why)
			}
		})
	}
}

// Whatever is near: what the axis holds stays, a coordinate moves no further
// than a target reaches (a line can carry it further along its slope, but never
// the whole point beyond reach), and snapping says why it moved.
func TestSnapProperties(t *testing.T) {
	rnd := rand.New(rand.NewSource(11))
	for n := 0; n < 5000; n++ {
		in := SnapInput{At: geom.Vec{rnd.Float64() * 10, rnd.Float64() * 10}, Axis: Axis(rnd.Intn(3)), Tol: 0.05 + rnd.Float64(), Grid: 0.1}
		for k := rnd.Intn(6); k > 0; k-- {
			in.Targets = append(in.Targets, Target{Why: "x", Kind: TargetKind(rnd.Intn(4)), Weak: rnd.Intn(2) == 0,
				At: geom.Vec{rnd.Float64() * 10, rnd.Float64() * 10}, B: geom.Vec{rnd.Float64() * 10, rnd.Float64() * 10}})
		}
		out := Snap(in)
		if in.Axis == Horizontal && out.At[1] != in.At[1] || in.Axis == Vertical && out.At[0] != in.At[0] {
			t.Fatalf("%+v: moved across its axis to %v", in, out.At)
		}
		if d := out.At.Sub(in.At).Len(); d > in.Tol*math.Sqrt2+1e-9 {
			t.Fatalf("%+v: moved by %g, beyond reach", in, d)
		}
		if (out.At != in.At) != (out.Why != "") && out.At != in.At {
			t.Fatalf("%+v: moved without a reason", in)
		}
	}
}
