package seepage

import (
	"errors"
	"fmt"
	"math"
	"math/rand"
	"strings"
	"testing"

	"hillset/engine/quantity"
	"hillset/geom"
)

// anySection is a slope of two or three layers with a body in it and a drain
// beside the body, drawn at random.
func anySection(r *rand.Rand) *Domain {
	in := func(a, b float64) float64 { return a + (b-a)*r.Float64() }
	slope, deep := in(0, 0.4), in(3, 8)
	layer := func(lo, hi float64) geom.Region {
		return geom.Region{{Outer: geom.Ring{{0, lo}, {30, lo + 30*slope}, {30, hi + 30*slope}, {0, hi}}}}
	}
	d := &Domain{Left: Side{Head: in(0.2, 0.8) * deep, Face: true}, Right: Side{Head: 30*slope + in(0.4, 1)*deep}, Pond: math.NaN()}
	lo := 0.0
	for i := range 2 + r.Intn(2) {
		hi := math.Min(deep, lo+in(0.2, 0.6)*deep)
		if i > 0 && r.Intn(2) == 0 || i == 2 {
			hi = deep
		}
		k := math.Pow(10, in(-8, -4))
		if hi-lo > 0.05 {
			d.Zones = append(d.Zones, ground(fmt.Sprint("layer ", i), layer(lo, hi), k, k*math.Pow(10, in(-1, 0))))
		}
		lo = hi
	}
	if lo < deep {
		d.Zones = append(d.Zones, ground("rest", layer(lo, deep), 1e-6, 1e-6))
	}
	x := in(8, 16)
	z := slope*x + in(0.2, 0.5)*deep
	d.Solids = []geom.Region{rect(x, z, x+4, z+deep)}
	d.Drains = []Drain{{"pipe", geom.Vec{x + 4.5, math.Max(z, slope*(x+4.5)+0.3)}, 0.1, r.Intn(4) == 0, 0}}
	if r.Intn(2) == 0 {
		d.Recharge = in(0, 3e-9)
	}
	return d
}

// Water is neither made nor lost, whatever the section, and the water table
// lies within it.
func TestRandomBalance(t *testing.T) {
	for seed := range int64(60) {
		r := rand.New(rand.NewSource(seed))
		d := anySection(r)
		m, err := d.Build(Grain{0.3, 1, 0.2})
		if err != nil {
			t.Fatal(seed, err)
		}
		f, err := m.Solve(nil)
		if err != nil {
			t.Errorf("section %d: %v", seed, err)
			continue
		}
		s := f.Sum(0, 0)
		tol := 1e-6
		if f.Along { // Newton's way may stop a little short
			tol = 0.01
		}
		if s.Within < 0 || s.Beyond < -0.01*(s.In+s.Rain) {
			t.Errorf("section %d: the air gives water: %+v", seed, s)
		}
		if b := s.Balance(); math.Abs(b) > tol*(s.In+s.Rain)+1e-15 {
			t.Errorf("section %d: %.3g in, %.3g rain, off by %.3g", seed, s.In, s.Rain, b)
		}
		if d.Drains[0].Closed && s.Drains[0] != 0 {
			t.Errorf("section %d: a closed drain takes %.3g", seed, s.Drains[0])
		}
		most := math.Max(d.Right.Head, d.Left.Head)
		for n, h := range f.Head {
			if d.Recharge == 0 && h > m.Nodes[n][1] && h > most+1e-3 {
				t.Errorf("section %d: head %.3f at %v above all that feeds it (%.3f)", seed, h, m.Nodes[n], most)
				break
			}
		}
	}
}

// A drop runs downhill in head all the way, from where water enters to where it
// leaves.
func TestPaths(t *testing.T) {
	open := dam(10, 10, 1e-5)
	open.Left.Head, open.Right = 10, Side{Head: 2, Face: true}
	for name, d := range map[string]*Domain{"block": open, "box and drain": boxAndDrain()} {
		t.Run(name, func(t *testing.T) {
			f := solve(t, d, Grain{0.1, 0.25, 0.1})
			paths := f.Paths(20)
			if len(paths) < 18 {
				t.Fatalf("%d paths of 20", len(paths))
			}
			total := 0.0
			for _, o := range f.Out {
				total += math.Max(0, o)
			}
			near(t, "flow of all paths", paths[0].Share*20, total, 1e-6*total)
			for i, p := range paths {
				last := math.Inf(1)
				for _, v := range p.Line {
					h, ok := f.HeadAt(v)
					if !ok {
						t.Fatalf("path %d leaves the ground at %v", i, v)
					}
					if h > last+1e-9 {
						t.Fatalf("path %d climbs from %.6f to %.6f at %v", i, last, h, v)
					}
					last = h
				}
				end, away := p.Line[len(p.Line)-1], math.Inf(1)
				for n, o := range f.Out {
					if o > 0 {
						away = math.Min(away, f.Mesh.Nodes[n].Sub(end).Len())
					}
				}
				if away > 0.3 {
					t.Errorf("path %d ends at %v, %.2f m from where any water leaves", i, end, away)
				}
			}
		})
	}
}

// A mesh with another level, or with its drains closed, gives what a new mesh
// gives, from whatever flow it starts.
func TestLikeMeshes(t *testing.T) {
	compared := 0
	for seed := range int64(12) {
		d := anySection(rand.New(rand.NewSource(seed)))
		d.Drains[0].Closed = false
		g := Grain{0.3, 1, 0.2}
		m, err := d.Build(g)
		if err != nil {
			t.Fatal(err)
		}
		first, err := m.Solve(nil)
		if err != nil {
			t.Fatal(err)
		}
		left, right := d.Left.Head+0.2, d.Right.Head-0.5
		warm, err := m.WithLevels(left, right).WithDrains(true).Solve(first)
		if err != nil {
			t.Fatal(err)
		}
		if m.domain.Right.Head != d.Right.Head || d.Drains[0].Closed {
			t.Fatal("the first mesh was changed")
		}
		d.Left.Head, d.Right.Head, d.Drains[0].Closed = left, right, true
		again, err := d.Build(g)
		if err != nil {
			t.Fatal(err)
		}
		cold, err := again.Solve(nil)
		if err != nil {
			t.Fatal(err)
		}
		if warm.Along != cold.Along {
			continue // the two ways of solving differ by more than two starts do
		}
		compared++
		for i, v := range cold.Table() {
			if w := warm.Table()[i]; math.Abs(w[1]-v[1]) > 0.02 {
				t.Errorf("section %d: water table %.4f warm, %.4f cold at x = %.2f", seed, w[1], v[1], v[0])
				break
			}
		}
	}
	if compared < 9 {
		t.Errorf("only %d sections were compared", compared)
	}
}

// Ground in which no level is given has an answer: dry without rain, and with
// rain what runs out at its lowest outlet; or a reason why there is none.
func TestAnchor(t *testing.T) {
	low := dam(10, 4, 1e-5)
	low.Left, low.Right.Head = Side{Head: -2, Face: true}, -1
	t.Run("levels below the foot", func(t *testing.T) {
		f := solve(t, low, Grain{0.5, 0.5, 0})
		for _, v := range f.Table() {
			near(t, "table", v[1], 0, 1e-6)
		}
		if q := f.Sum(0, 0); q.In != 0 || math.Abs(q.Balance()) > 1e-15 {
			t.Errorf("dry ground has flow: %+v", q)
		}
	})
	t.Run("and rain", func(t *testing.T) {
		d := *low
		d.Recharge = 1e-7
		f := solve(t, &d, Grain{0.25, 0.25, 0})
		// a closed right end, water leaving at the foot of the left: h2 = w L2 / k
		v, _ := f.Table().At(10)
		near(t, "table at the closed end", v, math.Sqrt(1e-7*100/1e-5), 0.05)
		near(t, "out", f.Sum(0, 0).Beyond, 1e-6, 1e-9)
	})
	t.Run("shut in", func(t *testing.T) {
		d := dam(10, 4, 1e-5)
		d.Recharge, d.Sealed = 1e-7, [][2]float64{{-1, 11}}
		m, err := d.Build(Grain{0.5, 0.5, 0})
		if err != nil {
			t.Fatal(err)
		}
		if _, err = m.Solve(nil); !errors.Is(err, ErrClosed) {
			t.Errorf("error %v, want %v", err, ErrClosed)
		}
	})
	t.Run("a heap by itself", func(t *testing.T) {
		d := dam(10, 4, 1e-5)
		d.Left.Head, d.Right.Head = 3, 2
		d.Zones = append(d.Zones, ground("heap", rect(4, 6, 6, 7), 1e-5, 1e-5))
		f := solve(t, d, Grain{0.5, 0.5, 0})
		near(t, "flow", f.outAt(func(v geom.Vec) bool { return v[0] == 10 }), 1e-5*(9-4)/20, 0.01*2.5e-6)
		if h, ok := f.HeadAt(geom.Vec{5, 6.5}); !ok || h > 6.01 {
			t.Errorf("head in the heap %.3f, want dry", h)
		}
	})
}

// What cannot be worked is refused by name, value and range.
func TestRefusals(t *testing.T) {
	good := Grain{0.5, 0.5, 0}
	for name, c := range map[string]struct {
		change func(d *Domain)
		g      Grain
		want   string
	}{
		"no zones":  {func(d *Domain) { d.Zones = nil }, good, "zones"},
		"no flow":   {func(d *Domain) { d.Zones[0].Kx = 0 }, good, "permeability kx of dam"},
		"too open":  {func(d *Domain) { d.Zones[0].Kz = 11 }, good, "permeability kz of dam"},
		"rain":      {func(d *Domain) { d.Recharge = -1 }, good, "recharge"},
		"bore":      {func(d *Domain) { d.Drains = []Drain{{Name: "pipe", At: geom.Vec{5, 1}}} }, good, "bore of drain pipe"},
		"fine":      {func(*Domain) {}, Grain{0.001, 1, 0}, "mesh size near"},
		"coarse":    {func(*Domain) {}, Grain{0.5, 100, 0}, "mesh size far"},
		"a point":   {func(d *Domain) { d.Held = []Held{{In: geom.Rect{Min: geom.Vec{5, 1}, Max: geom.Vec{5, 1}}, Head: 2}} }, good, "place 1 of known head"},
		"no extent": {func(d *Domain) { d.Zones[0].Region = rect(0, 0, 0, 1) }, good, "no extent"},
	} {
		t.Run(name, func(t *testing.T) {
			d := dam(10, 4, 1e-5)
			c.change(d)
			_, err := d.Build(c.g)
			if !errors.Is(err, quantity.ErrRange) || !strings.Contains(fmt.Sprint(err), c.want) {
				t.Errorf("error %v, want one of %s", err, c.want)
			}
		})
	}
}

// Rain on the cover of a box is not the water that presses from below: the level
// there is that to which the lower water would rise, with rain and without, until
// it stands over the box itself (statics).
func TestTableUnderBody(t *testing.T) {
	for _, c := range []struct {
		name       string
		head, rain float64
	}{{"dry cover", 2.5, 0}, {"rain on the cover", 2.5, 2e-7}, {"drowned", 3.5, 0}} {
		t.Run(c.name, func(t *testing.T) {
			d := dam(12, 4, 1e-5)
			d.Solids = []geom.Region{rect(4, 1, 8, 3)}
			d.Left.Head, d.Right.Head, d.Recharge = c.head, c.head, c.rain
			f := solve(t, d, Grain{0.2, 0.5, 0.1})
			for _, x := range []float64{5, 6, 7} {
				z, _ := f.Table().At(x)
				near(t, "level", z, f.headAt(t, x, 0.99), 0.01)
			}
		})
	}
}
