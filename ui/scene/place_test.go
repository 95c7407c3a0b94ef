package scene

import (
	"math"
	"math/rand"
	"testing"

	"hillset/geom"
)

// touching is the second route for overlaps: two convex quads share ground
// when edges cross or one holds a corner of the other.
func touching(a, b [4]geom.Vec) bool {
	for i := range 4 {
		for j := range 4 {
			if crosses(geom.Segment{A: a[i], B: a[(i+1)%4]}, geom.Segment{A: b[j], B: b[(j+1)%4]}) {
				return true
			}
		}
	}
	return insideQuad(a, centre(b)) || insideQuad(b, centre(a))
}

func centre(q [4]geom.Vec) geom.Vec {
	return q[0].Add(q[1]).Add(q[2]).Add(q[3]).Mul(0.25)
}

func insideQuad(q [4]geom.Vec, p geom.Vec) bool {
	for i := range 4 {
		if geom.Cross(q[(i+1)%4].Sub(q[i]), p.Sub(q[i])) <= 0 {
			return false
		}
	}
	return true
}

func randomBox(r *rand.Rand) obox {
	angle := 0.0
	if r.Intn(2) == 1 {
		angle = r.Float64() * 2 * math.Pi
	}
	return newBox(geom.Vec{r.Float64() * 10, r.Float64() * 10}, angle, 0.2+2*r.Float64(), 0.2+r.Float64())
}

func TestOverlapsAgainstEdges(t *testing.T) {
	r := rand.New(rand.NewSource(1))
	yes := 0
	for range 20000 {
		a, b := randomBox(r), randomBox(r)
		got, want := a.overlaps(b), touching(a.corners(), b.corners())
		if got != want {
			t.Fatalf("boxes %v and %v: overlap %v, edges say %v", a.corners(), b.corners(), got, want)
		}
		if got != b.overlaps(a) {
			t.Fatal("overlap is not mutual")
		}
		if got {
			yes++
		}
	}
	if yes < 2000 || yes > 18000 {
		t.Errorf("only one answer was tried: %d of 20000 overlap", yes)
	}
}

func TestCutsAgainstSamples(t *testing.T) {
	r := rand.New(rand.NewSource(2))
	for range 5000 {
		b := randomBox(r)
		s := geom.Segment{A: geom.Vec{r.Float64() * 10, r.Float64() * 10}, B: geom.Vec{r.Float64() * 10, r.Float64() * 10}}
		deep := 0 // samples well inside: the segment must be found to cut
		for i := range 201 {
			p := s.A.Add(s.B.Sub(s.A).Mul(float64(i) / 200))
			d := p.Sub(b.c)
			if math.Abs(d.Dot(b.u)) < b.hw-1e-9 && math.Abs(d.Dot(geom.LeftNormal(b.u))) < b.hh-1e-9 {
				deep++
			}
		}
		got := b.cuts(s)
		if deep > 0 && !got {
			t.Fatalf("segment %v runs through %v unseen", s, b.corners())
		}
		// A step of the samples is at most 15 m / 200; a longer stretch inside
		// must show up among them.
		if got && deep == 0 && insideLength(b, s) > s.B.Sub(s.A).Len()/100 {
			t.Fatalf("segment %v is said to cut %v", s, b.corners())
		}
	}
}

// insideLength is how far the segment runs inside the box, by its edges.
func insideLength(b obox, s geom.Segment) float64 {
	c := b.corners()
	var hits []geom.Vec
	for i := range 4 {
		hits = append(hits, geom.Intersections(geom.Polyline{s.A, s.B}, geom.Polyline{c[i], c[(i+1)%4]})...)
	}
	if len(hits) < 2 {
		return 0
	}
	return hits[1].Sub(hits[0]).Len()
}

func TestLabelBox(t *testing.T) {
	l := Label{At: geom.Vec{3, 4}, Text: "H", Height: 2.5}
	for _, c := range []struct {
		name string
		a    Anchor
		// of the capital itself, relative to At, in mm
		x0, y0 float64
	}{
		{"baseline left", Anchor{0, 0}, 0, 0},
		{"middle", Anchor{0.5, 0.5}, -1.3, -1.25},
		{"top right", Anchor{1, 1}, -2.6, -2.5},
	} {
		l.Anchor = c.a
		k := LabelCorners(&l, 20)
		x, y := (k[0][0]-3)*20, (k[0][1]-4)*20
		// The room begins at the pen and reaches dropShare below the baseline.
		if w := (k[1][0] - k[0][0]) * 20; math.Abs(x-(-c.a.H*w)) > 1e-9 {
			t.Errorf("%s: room starts %.3f mm from the point", c.name, x)
		}
		if math.Abs(y-(c.y0-2.5*dropShare)) > 1e-9 {
			t.Errorf("%s: room starts %.3f mm above the point, want %.3f", c.name, y, c.y0-2.5*dropShare)
		}
	}
}

// A turned label has the room of the same label upright, turned about At.
func TestLabelBoxTurns(t *testing.T) {
	l := Label{At: geom.Vec{3, 4}, Text: "2.59 m", Height: 2.5, Anchor: Anchor{0.3, 0.7}}
	flat := LabelCorners(&l, 20)
	l.Angle = 0.7
	turned := LabelCorners(&l, 20)
	sin, cos := math.Sincos(0.7)
	for i := range 4 {
		d := flat[i].Sub(l.At)
		want := l.At.Add(geom.Vec{d[0]*cos - d[1]*sin, d[0]*sin + d[1]*cos})
		if turned[i].Sub(want).Len() > 1e-12 {
			t.Errorf("corner %d at %v, want %v", i, turned[i], want)
		}
	}
}

func TestPlacerFree(t *testing.T) {
	p := placer{win: geom.Rect{Max: geom.Vec{10, 10}}}
	p.take(newBox(geom.Vec{5, 5}, 0, 1, 1))
	p.leaders = append(p.leaders, geom.Segment{A: geom.Vec{0, 8}, B: geom.Vec{10, 8}})
	p.line(geom.Vec{0, 2}, geom.Vec{10, 2})
	for _, c := range []struct {
		name    string
		at      geom.Vec
		free    bool
		crossed int
	}{
		{"in the open", geom.Vec{2, 5}, true, 0},
		{"on a sign", geom.Vec{5.5, 5}, false, 0},
		{"side by side", geom.Vec{7, 5}, true, 0},
		{"on a leader", geom.Vec{2, 8}, false, 0},
		{"over a line", geom.Vec{2, 2}, true, 1},
		{"out of the window", geom.Vec{9.5, 5}, false, 0},
	} {
		b := newBox(c.at, 0, 1, 0.5)
		if got := p.free(b); got != c.free {
			t.Errorf("%s: free = %v", c.name, got)
		}
		if got := p.crossed(b); got != c.crossed {
			t.Errorf("%s: crosses %d lines, want %d", c.name, got, c.crossed)
		}
	}
	if p.clearPath(geom.Segment{A: geom.Vec{1, 5}, B: geom.Vec{9, 5}}) {
		t.Error("a leader runs through a sign")
	}
	if !p.clearPath(geom.Segment{A: geom.Vec{5, 5}, B: geom.Vec{9, 5}}) {
		t.Error("a leader cannot leave its own sign")
	}
}
