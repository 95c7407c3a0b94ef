package seepage

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"

	"hillset/engine/quantity"
	"hillset/engine/tables"
)

// cmDay turns centimetres a day into m/s.
const cmDay = 0.01 / 86400

// textured is the ground of a class of the table.
func textured(t *testing.T, id string) Retention {
	t.Helper()
	row, ok := tables.Default().Texture(id)
	if !ok {
		t.Fatalf("no class %s", id)
	}
	return Retention{row.Alpha, row.N, row.Ks}
}

// SE-15: rain above a water table (derived from Gardner's form, memory).
func TestSE15(t *testing.T) {
	for _, c := range [][2]float64{{0.25, -0.1947}, {0.5, -0.3780}, {1, -0.7046}, {2, -1.1768}, {4, -1.5387}} {
		s, err := GardnerSuction(2e-7, 1e-6, 1, c[0])
		if err != nil {
			t.Fatal(err)
		}
		near(t, fmt.Sprintf("pressure head at %g m", c[0]), -s, c[1], 0.01*-c[1])
		// second route: Darcy's law by Simpson's rule for the way up to that suction
		way := func(s float64) float64 { return 1 / (1 - 0.2*math.Exp(s)) }
		near(t, "height by quadrature", quad.Fixed(way, 0, s, 40, quad.Legendre{}, 0), c[0], 1e-9*c[0])
	}
	if _, err := GardnerSuction(2e-6, 1e-6, 1, 1); !errors.Is(err, quantity.ErrRange) {
		t.Errorf("more rain than the ground takes: %v", err)
	}
}

// SE-16: retention and conductivity of two class means at suctions of 50 and 100
// cm, and a steady rain through loam (Carsel and Parrish 1988, van Genuchten 1980,
// memory; derived), within 0.5 %.
func TestSE16(t *testing.T) {
	for id, c := range map[string][4]float64{ // Se at both, K in cm a day at both
		"loam": {0.6377, 0.4663, 0.2578, 0.0339}, "sandy-loam": {0.2971, 0.1647, 0.0772, 0.00455},
	} {
		r := textured(t, id)
		for i, s := range []float64{0.5, 1} {
			near(t, id+" saturation", r.Saturation(s), c[i], 0.005*c[i])
			near(t, id+" conductivity", r.Conductivity(s)/cmDay, c[2+i], 0.005*c[2+i])
			near(t, id+" suction and back", r.Suction(r.Saturation(s)), s, 1e-9)
		}
	}
	for _, c := range [][2]float64{{0.25, -14.38}, {0.5, -17.31}, {1, -17.67}} {
		s, err := textured(t, "loam").SuctionAt(2.496*cmDay, c[0])
		if err != nil {
			t.Fatal(err)
		}
		near(t, fmt.Sprintf("pressure head at %g m", c[0]), -100*s, c[1], 0.005*-c[1])
	}
}

// The profile of every class by another route: the height at which a suction is
// reached is the integral of ds/(1 - q/K(s)), here by Gauss and Legendre in steps
// that halve towards the water table, where the conductivity of clay falls
// steeply.
func TestProfileByQuadrature(t *testing.T) {
	for _, id := range tables.Default().TextureIDs() {
		r := textured(t, id)
		for _, share := range []float64{0, 1e-4, 1e-2, 0.1} {
			q := share * r.Ks
			for _, z := range []float64{0.05, 0.3, 1.5} {
				s, err := r.SuctionAt(q, z)
				if err != nil {
					t.Fatal(err)
				}
				way := func(s float64) float64 { return 1 / (1 - q/r.Conductivity(s)) }
				if k := r.Conductivity(s); q > 0.95*k {
					continue // all but even with the rain: any height has this suction
				}
				sum := 0.0
				for hi := s; hi > 1e-9; hi /= 2 {
					sum += quad.Fixed(way, hi/2, hi, 30, quad.Legendre{}, 0)
				}
				near(t, fmt.Sprintf("%s under %g of what it takes: height", id, share), sum, z, 0.001*z+2e-5)
			}
		}
	}
}

// How high ground stays nearly saturated: without rain as high as the suction of
// that saturation, with rain higher, and all the way up where it leads no more
// than the rain.
func TestReach(t *testing.T) {
	last := 0.0
	for _, c := range []struct {
		id   string
		want float64 // m, by hand: ((0.9^(-1/m) - 1)^(1/n))/alpha
	}{{"sand", 0.0366}, {"loam", 0.1393}, {"silt-loam", 0.2781}, {"clay", 2.98}} {
		r := textured(t, c.id)
		z, err := r.Reach(0.9, 0)
		if err != nil {
			t.Fatal(err)
		}
		near(t, c.id, z, c.want, 0.01*c.want)
		if z <= last {
			t.Errorf("%s holds water %.3f m high, the coarser one before it %.3f m", c.id, z, last)
		}
		last = z
		wet, err := r.Reach(0.9, 0.5*r.Conductivity(r.Suction(0.9)))
		if err != nil || !(wet > z) {
			t.Errorf("%s: %.3f m under rain, %.3f m without (%v)", c.id, wet, z, err)
		}
		if s, err := r.SuctionAt(0.5*r.Conductivity(r.Suction(0.9)), wet); err != nil || math.Abs(r.Saturation(s)-0.9) > 1e-4 {
			t.Errorf("%s: saturation %.5f at its reach (%v)", c.id, r.Saturation(s), err)
		}
		if all, err := r.Reach(0.9, r.Conductivity(r.Suction(0.9))); err != nil || !math.IsInf(all, 1) {
			t.Errorf("%s: %g m under a rain that keeps it wet (%v)", c.id, all, err)
		}
	}
	for name, err := range map[string]error{
		"rain":       second(textured(t, "loam").Reach(0.9, 1)),
		"NaN":        second(textured(t, "loam").Reach(math.NaN(), 0)),
		"height":     second(textured(t, "loam").SuctionAt(0, -1)),
		"alpha":      second(Retention{0, 2, 1e-6}.SuctionAt(0, 1)),
		"n":          second(Retention{1, 1, 1e-6}.SuctionAt(0, 1)),
		"saturation": second(textured(t, "loam").Reach(0, 0)),
	} {
		if !errors.Is(err, quantity.ErrRange) {
			t.Errorf("%s: error %v", name, err)
		}
	}
}

func second(_ float64, err error) error { return err }
