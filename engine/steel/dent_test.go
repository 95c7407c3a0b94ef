package steel

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"hillset/engine/quantity"
	"hillset/engine/tables"
)

// No dent changes nothing, to the last bit, and deeper dents never help:
// inertia, moduli, strength in bending and in shear all fall.
func TestDentsOnlyWeaken(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 9))
	profiles := []Profile{profile(t, rowS1, rowS1.T), profile(t, rowE1, rowE1.T)}
	for range 40 {
		profiles = append(profiles, Profile{A: 0.05 + 0.1*rng.Float64(), S: 0.07 * rng.Float64(), B: 0.05 + 0.1*rng.Float64(),
			H: 0.02 + 0.03*rng.Float64(), T: (1 + rng.Float64()) * 1e-3})
	}
	for _, p := range profiles {
		same, err := p.Dented(0)
		if err != nil || same != p {
			t.Fatalf("no dent makes %+v of %+v, %v", same, p, err)
		}
		last := strengthsOf(t, p)
		for k := 1; k <= 20; k++ {
			d, err := p.Dented(p.MaxDent() * float64(k) / 20.001)
			if err != nil {
				t.Fatal(err)
			}
			if d.Pitch() != p.Pitch() {
				t.Errorf("a dent changes the pitch")
			}
			now := strengthsOf(t, d)
			for i := range now {
				if !(now[i] < last[i]) {
					t.Errorf("%+v, dent %d/20: value %d grows from %g to %g", p, k, i, last[i], now[i])
				}
			}
			last = now
		}
	}
}

// strengthsOf lists what a dent must not raise.
func strengthsOf(t *testing.T, p Profile) [4]float64 {
	t.Helper()
	g, err := p.Props()
	if err != nil {
		t.Fatal(err)
	}
	out, err := p.Effective(Outer, AISI, fy345, EAISI)
	if err != nil {
		t.Fatal(err)
	}
	in, err := p.Effective(Inner, AISI, fy345, EAISI)
	if err != nil {
		t.Fatal(err)
	}
	v, err := p.ShearStrength(fy345, EAISI)
	if err != nil {
		t.Fatal(err)
	}
	return [4]float64{g.Inertia, out.Mn, in.Mn, v}
}

// Second route: the dented sheet cut into short fibres, the flat in compression
// with its middle taken out, its neutral axis found by bisection on the stress.
// Nothing of the closed forms is used.
func TestDentByFibres(t *testing.T) {
	for _, c := range []struct {
		row  tables.Sheet
		dent float64 // mm
	}{{rowS1, 0}, {rowS1, 8}, {rowS1, 20}, {rowE1, 0}, {rowE1, 10}, {rowE1, 28}} {
		p := profile(t, c.row, c.row.T)
		d, err := p.Dented(c.dent * 1e-3)
		if err != nil {
			t.Fatal(err)
		}
		got, err := d.Effective(Outer, AISI, fy345, EAISI)
		if err != nil {
			t.Fatal(err)
		}
		h := p.H - c.dent*1e-3
		lo, hi := 1e3, fy345
		for range 80 {
			f := (lo + hi) / 2
			if _, _, stress := buckled(p, h, f); stress > f {
				lo = f
			} else {
				hi = f
			}
		}
		inertia, s, _ := buckled(p, h, (lo+hi)/2)
		near(t, "I", got.Inertia, inertia, 2e-3)
		near(t, "Mn", got.Mn, s*fy345, 4e-3)
	}
}

// buckled sums one corrugation of depth h with the outer flat buckled under the
// stress f: second moment and smaller modulus per metre, and the stress in that
// flat when the first fibre of the sheet yields.
func buckled(p Profile, h, f float64) (inertia, s, stress float64) {
	slender := 1.052 / 2 * p.A / p.T * math.Sqrt(f/EAISI)
	rho := 1.0
	if slender > 0.673 {
		rho = (1 - 0.22/slender) / slender
	}
	type fibre struct{ y, a, own float64 } // own: across its thickness
	var all []fibre
	const n = 2000
	slope := math.Hypot(p.S, h)
	for i := range n {
		u := (float64(i) + 0.5) / n
		if math.Abs(u-0.5) > (1-rho)/2 {
			all = append(all, fibre{h / 2, p.A * p.T / n, p.T * p.T / 12})
		}
		all = append(all, fibre{-h / 2, p.B * p.T / n, p.T * p.T / 12},
			fibre{(u - 0.5) * h, 2 * slope * p.T / n, p.T * p.T / 12 * (p.S / slope) * (p.S / slope)})
	}
	area, first := 0.0, 0.0
	for _, e := range all {
		area, first = area+e.a, first+e.a*e.y
	}
	y0 := first / area
	for _, e := range all {
		inertia += e.a * ((e.y-y0)*(e.y-y0) + e.own)
	}
	pitch := p.A + p.B + 2*p.S
	inertia /= pitch
	comp, tens := (h+p.T)/2-y0, (h+p.T)/2+y0
	return inertia, inertia / math.Max(comp, tens), fy345 * math.Min(1, comp/tens)
}

func TestDentRefuses(t *testing.T) {
	p := profile(t, rowS1, rowS1.T)
	if _, err := p.Dented(p.MaxDent() * 1.0001); !errors.Is(err, quantity.ErrRange) || !strings.Contains(err.Error(), "no corrugated sheet") {
		t.Errorf("a dent through the corrugations: %v", err)
	}
	for _, d := range []float64{-1e-3, math.NaN(), math.Inf(1)} {
		if _, err := p.Dented(d); !errors.Is(err, quantity.ErrRange) {
			t.Errorf("dent %g: %v", d, err)
		}
	}
	if _, err := (Profile{}).Dented(0); err == nil {
		t.Error("no profile is dented")
	}
}
