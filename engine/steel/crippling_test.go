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

func cripplingRow(t *testing.T, id string) tables.Crippling {
	t.Helper()
	row, ok := tables.Default().Crippling(id)
	if !ok {
		t.Fatalf("no row %s", id)
	}
	return row
}

// By hand (AISI S100 G5 form, coefficients from memory), in N and mm.
func TestCrippleByHand(t *testing.T) {
	for _, c := range []struct {
		name    string
		p       Profile
		id      string
		n, r    float64 // mm
		fy      float64 // MPa
		perWeb  float64 // N
		perMetr float64 // kN/m
	}{
		// E1: h 43.6, s 47.169, sin 67.57° 0.92433; 8·4·250·0.92433 = 7394.6;
		// × (1 − 0.1·√4) 0.8 × (1 + 0.17·√29.5) 1.92334 × (1 − 0.004·√23.585) 0.98057
		{"blind end under a wale", profile(t, rowE1, 2e-3), "inner-loose", 59, 8, 250, 7394.6 * 0.8 * 1.92334 * 0.98057, 2 * 11.1567 / 0.250},
		// roof: h 18, s 22.5, sin 53.13° 0.8; 8·4·345·0.8 = 8832; × 0.82679 (√3)
		// × (1 + 0.17·√24) 1.83283 × (1 − 0.004·√11.25) 0.98658
		{"roof on a purlin", profile(t, rowRoof, 2e-3), "inner-fastened", 48, 6, 345, 8832 * 0.826795 * 1.832827 * 0.986584, 0},
		// at an edge, loose: 3·4·345·0.8 = 3312; (1 − 0.04·√3) 0.930718,
		// (1 + 0.29·√24) 2.420704, (1 − 0.028·√11.25) 0.906086
		{"roof at an edge", profile(t, rowRoof, 2e-3), "end-loose", 48, 6, 345, 3312 * 0.930718 * 2.420704 * 0.906086, 0},
	} {
		got, err := c.p.Cripple(cripplingRow(t, c.id), Bearing{Length: c.n * 1e-3, Edge: 1, Radius: c.r * 1e-3}, c.fy*1e3)
		if err != nil {
			t.Fatal(err)
		}
		near(t, c.name, got.PerWeb*1e3, c.perWeb, 1e-4)
		near(t, c.name+", per metre", got.Pn, 2*got.PerWeb/c.p.Pitch(), 1e-12)
		if c.perMetr > 0 {
			near(t, c.name+", per metre", got.Pn, c.perMetr, 1e-3)
		}
	}
}

// The side sheet stands too flat for the standard, new or dented, at any
// thickness: it is refused, not rated.
func TestCrippleRefusesTheSideSheet(t *testing.T) {
	for _, row := range []tables.Sheet{rowS1, rowS2} {
		for _, th := range []float64{0.8e-3, 1.6e-3, 2e-3} {
			_, err := profile(t, row, th).Cripple(cripplingRow(t, "inner-loose"), Bearing{Length: 0.05, Edge: 1, Radius: 6e-3}, fy345)
			if !errors.Is(err, ErrFlatSlope) || !strings.Contains(err.Error(), "27 degrees") {
				t.Errorf("%s: %v", row.ID, err)
			}
		}
	}
	// Just on either side of 45 degrees.
	p := Profile{A: 0.08, B: 0.08, S: 0.03, H: 0.0301, T: 1.6e-3}
	b := Bearing{Length: 0.05, Edge: 1, Radius: 5e-3}
	if _, err := p.Cripple(cripplingRow(t, "inner-loose"), b, fy345); err != nil {
		t.Errorf("45.1 degrees: %v", err)
	}
	p.H = 0.0299
	if _, err := p.Cripple(cripplingRow(t, "inner-loose"), b, fy345); !errors.Is(err, ErrFlatSlope) {
		t.Errorf("44.9 degrees: %v", err)
	}
}

// More steel, more bearing and tighter bends never weaken the webs; no more of
// a long contact counts than the formula was made for; the bearing length
// needed gives what was asked of it.
func TestCrippleMoves(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 5))
	rows := tables.Default().CripplingIDs()
	for range 300 {
		p := Profile{A: 0.05 + 0.1*rng.Float64(), B: 0.05 + 0.1*rng.Float64(), S: 0.02 * rng.Float64(), H: 0.021 + 0.05*rng.Float64(), T: (1.2 + rng.Float64()) * 1e-3}
		b := Bearing{Length: 0.01 + 0.1*rng.Float64(), Edge: 0.5, Radius: (1 + 6*rng.Float64()) * 1e-3}
		row := cripplingRow(t, rows[rng.IntN(len(rows))])
		base, err := p.Cripple(row, b, fy345)
		if err != nil {
			t.Fatal(err)
		}
		for name, other := range map[string]func() (Crippling, error){
			"thicker":      func() (Crippling, error) { q := p; q.T *= 1.1; return q.Cripple(row, b, fy345) },
			"stronger":     func() (Crippling, error) { return p.Cripple(row, b, fy345*1.1) },
			"longer":       func() (Crippling, error) { c := b; c.Length *= 1.2; return p.Cripple(row, c, fy345) },
			"tighter":      func() (Crippling, error) { c := b; c.Radius /= 1.2; return p.Cripple(row, c, fy345) },
			"steeper webs": func() (Crippling, error) { q := p; q.H, q.S = p.Slope(), 0; return q.Cripple(row, b, fy345) },
		} {
			got, err := other()
			if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			if got.PerWeb < base.PerWeb*(1-1e-12) {
				t.Errorf("%s: %g kN, before %g", name, got.PerWeb, base.PerWeb)
			}
		}
		most := MostBearing(p, math.Inf(1))
		if most != math.Min(3*p.Slope(), 210*p.T) || base.N > most || base.N > b.Length {
			t.Errorf("%g m of %g count, at most %g", base.N, b.Length, most)
		}
		for _, f := range []float64{1, 1.1, 1.5, 9} {
			need := base.NeedBearing(p, f)
			if math.IsInf(need, 1) {
				c := b
				c.Length = 1
				if long, err := p.Cripple(row, c, fy345); err != nil || long.PerWeb > base.PerWeb*f*(1+1e-9) {
					t.Errorf("a longer bearing would do: %g of %g, %v", long.PerWeb, base.PerWeb*f, err)
				}
				continue
			}
			c := b
			c.Length = math.Max(need, 5e-3)
			long, err := p.Cripple(row, c, fy345)
			if err != nil {
				t.Fatal(err)
			}
			near(t, "strength at the length needed", long.PerWeb, base.PerWeb*f, 1e-9)
		}
	}
}

func TestCrippleRefuses(t *testing.T) {
	good := profile(t, rowE1, 2e-3)
	row := cripplingRow(t, "inner-loose")
	b := Bearing{Length: 0.05, Edge: 1, Radius: 6e-3}
	for _, c := range []struct {
		name string
		p    Profile
		b    Bearing
		fy   float64
		want string
	}{
		{"bends too round for rusted steel", Profile{A: good.A, B: good.B, S: good.S, H: good.H, T: 0.5e-3}, b, fy345, "bend radius"},
		{"no contact", good, Bearing{Edge: 1, Radius: 6e-3}, fy345, "bearing length"},
		{"not a number", good, Bearing{Length: math.NaN(), Edge: 1, Radius: 6e-3}, fy345, "bearing length"},
		{"beyond the edge", good, Bearing{Length: 0.05, Edge: -0.01, Radius: 6e-3}, fy345, "edge"},
		{"deep web", Profile{A: 0.1, B: 0.1, S: 0, H: 0.25, T: 1.2e-3}, b, fy345, "depth of a web"},
		{"webs far apart", Profile{A: 0.3, B: 0.1, S: 0, H: 0.05, T: 2e-3}, b, fy345, "spacing of the webs"},
		{"strength", good, b, math.Inf(1), "yield"},
	} {
		if _, err := c.p.Cripple(row, c.b, c.fy); !errors.Is(err, quantity.ErrRange) || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v", c.name, err)
		}
	}
	for _, c := range []struct {
		edge     float64
		fastened bool
		want     string
	}{{0, false, "end-loose"}, {0.07, true, "end-fastened"}, {0.071, true, "inner-fastened"}, {1, false, "inner-loose"}} {
		// 1.5 times the web of 47.17 mm is 70.8 mm
		if got, err := CripplingRow(tables.Default(), good, Bearing{Edge: c.edge}, c.fastened); err != nil || got.ID != c.want {
			t.Errorf("edge %g: row %q, want %q, %v", c.edge, got.ID, c.want, err)
		}
	}
}
