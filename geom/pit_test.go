package geom

import (
	"math"
	"testing"
)

// plane is z = a + b x + c y.
type plane struct{ a, b, c float64 }

func (p plane) at(v Vec) float64 { return p.a + p.b*v[0] + p.c*v[1] }

// above is the part of the plan, as a large rectangle, where p lies above q.
func above(p, q plane) Region {
	n, ok := Unit(Vec{p.b - q.b, p.c - q.c})
	if !ok {
		panic("geom: parallel planes in a test")
	}
	// a point of the line p = q, and the far side along the gradient
	o := n.Mul(-(p.a - q.a) / math.Hypot(p.b-q.b, p.c-q.c))
	const far = 500
	s, f := LeftNormal(n).Mul(far), n.Mul(far)
	return Ring{o.Sub(s), o.Sub(s).Add(f), o.Add(s).Add(f), o.Add(s)}.ToRegion()
}

// pitVolume clips, for each face of the pit, the part of the plan where that
// face is the highest and below the ground; there the depth is linear, so its
// mean is the depth at the centroid.
func pitVolume(t *testing.T, ground plane, faces []plane) (volume, area float64) {
	t.Helper()
	for i, f := range faces {
		part := above(ground, f)
		for j, g := range faces {
			if j == i {
				continue
			}
			var err error
			if part, err = Intersect(part, above(f, g)); err != nil {
				t.Fatal(err)
			}
		}
		if c, ok := part.Centroid(); ok {
			area += part.Area()
			volume += part.Area() * (ground.at(c) - f.at(c))
		}
	}
	return volume, area
}

// VO-03 in plan (site notes, derived there by exact rational clipping): floor
// z = 0 of y 0-4 m, back batter 1:1 from x = 8, sides 0.75:1, ground
// z = 1 + x/4. 144 m3 over 112 m2.
//
//	y  ______________
//	  |\            /\
//	4 | \__________/  |
//	  |  |  floor  |  |  back
//	0 |  |_________|  |
//	  | /          \  |
//	  |/____________\/
//	 x -4          8  12
func TestHillsidePitInPlan(t *testing.T) {
	ground := plane{1, 0.25, 0}
	faces := []plane{{0, 0, 0}, {-8, 1, 0}, {0, 0, -1 / 0.75}, {-4 / 0.75, 0, 1 / 0.75}}
	v, a := pitVolume(t, ground, faces)
	near(t, "VO-03 volume", v, 144, 0.001)
	near(t, "VO-03 plan area", a, 112, 0.001)
}

// The closed form of the site notes 3 (derived) for other pits of that shape:
// width W, side and back batters, ground 1:t.
func TestHillsidePitClosedForm(t *testing.T) {
	r := newRand(81)
	for range 40 {
		w, ns, nb := 2+6*r.Float64(), 0.3+1.2*r.Float64(), 0.3+1.2*r.Float64()
		slope := 0.1 + 0.4*r.Float64()
		gb := 1 + 3*r.Float64()
		u := gb / (1/nb - slope)
		want := (w*gb*gb/2+ns*gb*gb*gb/3)/slope + gb*u*(w/2+ns*u/(3*nb)) + ns*gb*gb*u/3
		// the back toe is at x = 0, where the ground stands gb over the floor
		v, _ := pitVolume(t, plane{gb, slope, 0},
			[]plane{{0, 0, 0}, {0, 1 / nb, 0}, {0, 0, -1 / ns}, {-w / ns, 0, 1 / ns}})
		near(t, "volume", v, want, 1e-4*want)
	}
}

// The section route of VO-03 for a pit cut straight into level ground: the
// layered batter of EX-03 (R8 of the site notes, derived), 2 m of C over 2.5 m
// of B, runs 1.5 x 2.0 + 1.0 x 2.5 = 5.5 m back from the toe.
func TestLayeredBatter(t *testing.T) {
	ground := Polyline{{-20, 0}, {20, 0}}
	toe := Vec{0, -4.5}
	layer, ok := RayHit(toe, Vec{1, 1}, Polyline{{-20, -2}, {20, -2}})
	if !ok {
		t.Fatal("the lower batter misses the layer line")
	}
	crest, ok := RayHit(layer, Vec{1.5, 1}, ground)
	if !ok {
		t.Fatal("the upper batter misses the ground")
	}
	nearVec(t, "EX-03a crest", crest, Vec{5.5, 0}, 1e-9)
	cut := Polyline{{-20, -4.5}, toe, layer, crest, {20, 1}}
	// right of the toe: a triangle 2.5 x 2.5, a rectangle 2.5 x 2, a triangle 3 x 2
	near(t, "EX-03a section right of the toe", AreaBetween(ground, cut, 0, 20), 3.125+5+3, 1e-9)
}
