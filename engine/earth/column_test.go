package earth

import (
	"math"
	"math/rand"
	"testing"
)

// threeLayers is a box wall's usual company: topsoil, fill, natural clay.
func threeLayers() Column {
	return Column{Layers: []Layer{
		{Name: "topsoil", Top: 0, Bottom: -0.3, Gamma: 16, GammaSat: 18, Phi: deg(28), OCR: 1},
		{Name: "fill", Top: -0.3, Bottom: -2, Gamma: 18, GammaSat: 20, Phi: deg(34), OCR: 1},
		{Name: "clay", Top: -2, Bottom: -4, Gamma: 19, GammaSat: 20.5, Phi: deg(26), Cohesion: 8, OCR: 2},
	}, Water: -2.6, Q: 5}
}

func TestColumnRefusals(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range []struct {
		field string
		set   func(*Column)
	}{
		{"q", func(c *Column) { c.Q = -1 }},
		{"q", func(c *Column) { c.Q = nan }},
		{"beta", func(c *Column) { c.Beta = inf }},
		{"k_floor", func(c *Column) { c.KFloor = 2 }},
		{"water", func(c *Column) { c.Water = nan }},
		{"water", func(c *Column) { c.Water = inf }},
		{"layers[1].phi", func(c *Column) { c.Layers[1].Phi = 30 }}, // degrees by mistake
		{"layers[1].phi", func(c *Column) { c.Layers[1].Phi = -.1 }},
		{"layers[0].gamma", func(c *Column) { c.Layers[0].Gamma = 0 }},
		{"layers[0].gamma", func(c *Column) { c.Layers[0].Gamma = 1800 }}, // kg/m3 by mistake
		{"layers[2].gamma_sat", func(c *Column) { c.Layers[2].GammaSat = 18 }},
		{"layers[2].gamma_sat", func(c *Column) { c.Layers[2].GammaSat = 0 }},
		{"layers[0].gamma_sat", func(c *Column) { c.Layers[0].GammaSat = nan }},
		{"layers[2].cohesion", func(c *Column) { c.Layers[2].Cohesion = -1 }},
		{"layers[2].ocr", func(c *Column) { c.Layers[2].OCR = 0 }},
		{"layers[1].top", func(c *Column) { c.Layers[1].Top = -0.4 }},
		{"layers[2].top", func(c *Column) { c.Layers[2].Bottom = -2 }},
		{"layers[2].bottom", func(c *Column) { c.Layers[2].Bottom = -inf }},
	} {
		col := threeLayers()
		c.set(&col)
		refused(t, c.field, c.field, col.Validate())
		if _, err := col.Lateral(AtRest, 0, -3); err == nil {
			t.Errorf("%s: Lateral must refuse it too", c.field)
		}
	}
	if (Column{}).Validate() == nil {
		t.Error("a column without a layer")
	}
	col := threeLayers()
	col.Layers[0].GammaSat = 0 // dry there: never asked for
	if err := col.Validate(); err != nil {
		t.Error(err)
	}
	col.Layers[1].Top += seam / 2 // a seam no one can measure
	d := must(col.Lateral(AtRest, 0, -4))
	for i := 1; i < len(d); i++ {
		if d[i].Level > d[i-1].Level {
			t.Error("levels out of order at a seam")
		}
	}
}

func TestLateralRefusals(t *testing.T) {
	col := threeLayers()
	_, err := col.Lateral(AtRest, -1, -4.5)
	refused(t, "too short a column", "bottom", err)
	_, err = col.Lateral(AtRest, -2, -2)
	refused(t, "no height", "top", err)
	_, err = col.Lateral(AtRest, math.NaN(), -2)
	refused(t, "NaN", "top", err)
	if _, err = col.Lateral(State(7), -1, -2); err == nil {
		t.Error("no such state")
	}
	col.Beta = deg(27)
	_, err = col.Lateral(AtRest, -1, -4)
	refused(t, "steeper than the clay stands", "layers[2].beta", err)
	if _, err = col.Lateral(AtRest, -0.1, -1.5); err != nil {
		t.Errorf("only the layers beside the face count: %v", err)
	}
}

func TestLayersJump(t *testing.T) {
	d := must(threeLayers().Lateral(AtRest, -0.3, -4))
	up, down := d.AtAbove(-2), d.At(-2)
	if up.Level != down.Level || up.SigmaV != down.SigmaV || up.Layer != "fill" || down.Layer != "clay" {
		t.Fatalf("jump: %+v / %+v", up, down)
	}
	sv := 5 + .3*16 + 1.7*18
	near(t, "sv", up.SigmaV, sv, 1e-9)
	near(t, "above", up.Soil, must(K0(deg(34), 1))*sv, 1e-9)
	near(t, "below", down.Soil, must(K0(deg(26), 2))*sv, 1e-9)
	if d[0].Layer != "fill" || d[0].Level != -0.3 {
		t.Errorf("the face starts in the fill: %+v", d[0])
	}
	near(t, "foot", d.At(-4).SigmaV, sv+.6*19+1.4*(20.5-GammaW), 1e-9)
	near(t, "depth", d.At(-3).Depth, 3, 1e-12)
}

func TestPartialFillAndStandingWater(t *testing.T) {
	for _, c := range []struct {
		water, at, u, soil float64
	}{
		{math.Inf(-1), 1, 0, 0},             // above the surface nothing
		{0.5, 1, 0, 0},                      // above the water nothing
		{0.5, 0.2, .3 * GammaW, 0},          // water above the surface
		{0.5, -1, 1.5 * GammaW, .5 * 10.19}, // submerged from the surface down
		{3, 2, GammaW, 0},                   // water above the face
	} {
		col := sand(3, 18, 20, 30)
		col.Water = c.water
		d := must(col.Lateral(AtRest, 2, -2))
		if d[0].Level != 2 || d[len(d)-1].Level != -2 {
			t.Errorf("rows from %v to %v", d[0].Level, d[len(d)-1].Level)
		}
		r := d.At(c.at)
		near(t, "u", r.U, c.u, 1e-9)
		near(t, "soil", r.Soil, c.soil, 1e-9)
		near(t, "depth", r.Depth, -c.at, 1e-12)
	}
	col := sand(3, 18, 20, 30)
	col.Water = 1.5
	d := must(col.Lateral(AtRest, 2, 1))
	p, z := d.Resultant()
	near(t, "water only", p, GammaW*.125, 1e-9)
	near(t, "its level", z, 1+.5/3, 1e-9)
	col.Water = math.Inf(-1)
	if p, z := must(col.Lateral(AtRest, 2, 1)).Resultant(); p != 0 || z != 1 {
		t.Error("a bare wall")
	}
	col.Q = 10
	d = must(col.Lateral(AtRest, 1, -1))
	if d.AtAbove(0).Soil != 0 || d.At(0).Soil != 5 {
		t.Error("the surcharge starts with a jump at the surface")
	}
}

func TestSlopeInLateral(t *testing.T) {
	col := sand(4, 18, 20, 34)
	col.Beta = deg(20)
	near(t, "at rest", must(col.Lateral(AtRest, 0, -3)).At(-3).Soil, must(K0Slope(deg(34), 1, deg(20)))*54, 1e-9)
	near(t, "active, horizontal part", must(col.Lateral(Active, 0, -3)).At(-3).Soil, .3381*math.Cos(deg(20))*54, tolA)
	level := sand(4, 18, 20, 34)
	col.Beta = deg(-20)
	for _, st := range []State{AtRest, Active} {
		a, _ := must(col.Lateral(st, 0, -3)).Resultant()
		b, _ := must(level.Lateral(st, 0, -3)).Resultant()
		near(t, "falling ground takes the level value", a, b, 1e-12)
	}
}

func TestCrackAndFloor(t *testing.T) {
	col := sand(6, 17.4, 20, 26)
	col.Layers[0].Cohesion = 14.36
	plain := must(col.Lateral(Active, 0, -6))
	near(t, "rest neglects cohesion", must(col.Lateral(AtRest, 0, -6)).At(-6).Soil, (1-math.Sin(deg(26)))*6*17.4, 1e-9)
	z0 := 2.6411
	col.CrackWater = true
	wet := must(col.Lateral(Active, 0, -6))
	near(t, "water in the crack", wet.At(-2).U, 2*GammaW, 1e-9)
	near(t, "at its foot", wet.AtAbove(-z0).U, z0*GammaW, tolA)
	if wet.At(-2.7).U != 0 {
		t.Error("no water below the crack")
	}
	p, _ := wet.Resultant()
	dry, _ := plain.Resultant()
	near(t, "thrust of the crack water", p-dry, GammaW*z0*z0/2, tolA)
	// the face may start inside the crack, or below it
	part := must(col.Lateral(Active, -1, -6))
	near(t, "inside", part.At(-1).U, GammaW, 1e-9)
	if u := must(col.Lateral(Active, -3, -6)).At(-3).U; u != 0 {
		t.Error("below the crack")
	}
	col.Water = -1.5 // still water in the crack as well: the higher one counts
	near(t, "higher water", must(col.Lateral(Active, 0, -6)).At(-2).U, 2*GammaW, 1e-9)
	if must(col.Lateral(AtRest, 0, -6)).At(-1).U != 0 {
		t.Error("no crack at rest")
	}
	col = sand(6, 17.4, 20, 26)
	col.Layers[0].Cohesion = 14.36
	col.KFloor = 0.25
	floor := must(col.Lateral(Active, 0, -6))
	for z := 0.1; z < 6; z += .1 {
		near(t, "floor", floor.At(-z).Soil, math.Max(.25*17.4*z, plain.At(-z).Soil), 1e-9)
	}
	col.Layers[0].Cohesion = 0
	col.KFloor = 0.9
	near(t, "no floor without cohesion", must(col.Lateral(Active, 0, -6)).At(-6).Soil, .3905*6*17.4, tolA)
}

// TestCrackEndsAtSoundSoil has a clay over sand: the crack cannot go on below
// soil that is in compression.
func TestCrackEndsAtSoundSoil(t *testing.T) {
	col := Column{CrackWater: true, Water: math.Inf(-1), Layers: []Layer{
		{Top: 0, Bottom: -1, Gamma: 18, GammaSat: 20, Phi: deg(25), Cohesion: 30, OCR: 1},
		{Top: -1, Bottom: -2, Gamma: 18, GammaSat: 20, Phi: deg(35), OCR: 1},
		{Top: -2, Bottom: -3, Gamma: 18, GammaSat: 20, Phi: deg(25), Cohesion: 60, OCR: 1},
	}}
	d := must(col.Lateral(Active, 0, -3))
	if d.AtAbove(-1).U != GammaW || d.At(-1).U != 0 || d.At(-2.5).U != 0 {
		t.Errorf("crack water: %v, %v, %v", d.AtAbove(-1).U, d.At(-1).U, d.At(-2.5).U)
	}
	if d.At(-2.5).Soil != 0 {
		t.Error("tension is not counted anywhere")
	}
	col.Q = 1000
	if must(col.Lateral(Active, 0, -3)).At(-.5).U != 0 {
		t.Error("a surcharge that closes the crack keeps the water out")
	}
}

// slow is the pressure at one level worked out from the definition: stress by
// summing thin slices, no shortcuts.
func slow(c *Column, st State, z float64) (soil, u float64) {
	u = GammaW * math.Max(0, c.Water-z)
	if z >= c.Layers[0].Top {
		return 0, u
	}
	const n = 4000
	sv, dz := c.Q, (c.Layers[0].Top-z)/n
	var l *Layer
	for i := range n {
		m := c.Layers[0].Top - (float64(i)+.5)*dz
		for j := range c.Layers {
			if c.Layers[j].Bottom < m {
				l = &c.Layers[j]
				break
			}
		}
		g := l.Gamma
		if m < c.Water {
			g = l.GammaSat - GammaW
		}
		sv += g * dz
	}
	s := math.Sin(l.Phi)
	if st == AtRest {
		k := (1 - s) * math.Pow(l.OCR, s)
		if c.Beta > 0 {
			k *= 1 + math.Sin(c.Beta)
		}
		return k * sv, u
	}
	ka := (1 - s) / (1 + s)
	drop := 2 * l.Cohesion * math.Sqrt(ka)
	if c.Beta > 0 {
		cb := math.Cos(c.Beta)
		root := math.Sqrt(cb*cb - math.Pow(math.Cos(l.Phi), 2))
		ka = cb * (cb - root) / (cb + root) * cb
	}
	if l.Cohesion == 0 {
		return ka * sv, u
	}
	return math.Max(ka*sv-drop, c.KFloor*sv), u
}

func TestLateralAgainstDefinition(t *testing.T) {
	rnd := rand.New(rand.NewSource(1))
	for range 60 {
		c := Column{Q: 20 * rnd.Float64(), Water: 2 - 8*rnd.Float64(), Beta: deg(40*rnd.Float64() - 20), KFloor: .3 * rnd.Float64() * float64(rnd.Intn(2))}
		z := rnd.Float64()
		for range 1 + rnd.Intn(4) {
			g := 14 + 6*rnd.Float64()
			l := Layer{Top: z, Bottom: z - .2 - 2*rnd.Float64(), Gamma: g, GammaSat: g + 2, Phi: deg(22 + 18*rnd.Float64()),
				Cohesion: 15 * rnd.Float64() * float64(rnd.Intn(2)), OCR: 1 + 2*rnd.Float64()}
			z = l.Bottom
			c.Layers = append(c.Layers, l)
		}
		for _, st := range []State{AtRest, Active} {
			top := c.Surface() + 2*rnd.Float64() - 1
			d, err := c.Lateral(st, top, math.Min(z, top-.1))
			if err != nil {
				if top-.1 < z {
					continue
				}
				t.Fatal(err)
			}
			for range 20 {
				l := d[0].Level - (d[0].Level-d[len(d)-1].Level)*rnd.Float64()
				soil, u := slow(&c, st, l)
				r := d.At(l)
				// slices that straddle a boundary cost a few parts in ten thousand
				if math.Abs(r.Soil-soil) > 2e-3*(1+soil) || math.Abs(r.U-u) > 1e-9 {
					t.Fatalf("state %d at %v: %v and %v, want %v and %v", st, l, r.Soil, r.U, soil, u)
				}
			}
		}
	}
}

func FuzzLateral(f *testing.F) {
	f.Add(18.0, 20.0, .6, 5.0, 1.0, -1.0, 5.0, .1, 0.0, -3.0, -1.5, true)
	f.Add(18.0, 20.0, .6, 0.0, 1.0, math.Inf(-1), 0.0, 0.0, 1.0, -3.0, 0.0, false)
	f.Add(16.0, 0.0, .0, 50.0, 3.0, 4.0, 0.0, -.3, -1.0, -2.9, -1.0, true)
	f.Fuzz(func(t *testing.T, gamma, sat, phi, c, ocr, water, q, beta, top, bottom, mid float64, crack bool) {
		col := Column{Water: water, Q: q, Beta: beta, CrackWater: crack, KFloor: .2, Layers: []Layer{
			{Top: 0, Bottom: mid, Gamma: gamma, GammaSat: sat, Phi: phi, Cohesion: c, OCR: ocr},
			{Top: mid, Bottom: -4, Gamma: 18, GammaSat: 20, Phi: .6, Cohesion: c / 2, OCR: 1}}}
		for _, st := range []State{AtRest, Active} {
			d, err := col.Lateral(st, top, bottom)
			if err != nil {
				continue
			}
			for i, r := range d {
				for _, v := range []float64{r.Level, r.Depth, r.SigmaV, r.U, r.K, r.Soil, r.Total} {
					if math.IsNaN(v) || math.IsInf(v, 0) {
						t.Fatalf("row %d: %+v", i, r)
					}
				}
				if r.Soil < 0 || r.U < 0 || i > 0 && r.Level > d[i-1].Level {
					t.Fatalf("row %d: %+v", i, r)
				}
			}
			p, z := d.Resultant()
			if math.IsNaN(p) || math.IsNaN(z) || p > 0 && (z > top || z < bottom) {
				t.Fatalf("resultant %v at %v", p, z)
			}
		}
	})
}

func BenchmarkLateral(b *testing.B) {
	c := threeLayers()
	b.ReportAllocs()
	for b.Loop() {
		must(c.Lateral(AtRest, -0.2, -3.8))
	}
}

func BenchmarkLateralActiveCrack(b *testing.B) {
	c := threeLayers()
	c.Layers[0].Cohesion, c.CrackWater, c.Q = 5, true, 0
	for b.Loop() {
		must(c.Lateral(Active, -0.2, -3.8))
	}
}
