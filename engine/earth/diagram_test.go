package earth

import (
	"math"
	"math/rand"
	"testing"
)

// line makes a diagram of straight total pressure from level, pressure pairs.
func line(v ...float64) Diagram {
	var d Diagram
	for i := 0; i < len(v); i += 2 {
		d = append(d, Row{Level: v[i], Depth: -v[i], Soil: v[i+1], Total: v[i+1], Layer: "soil"})
	}
	return d
}

// random is a diagram with bends and jumps from top down to foot.
func random(rnd *rand.Rand, top, foot float64) Diagram {
	v := []float64{top, 10 * rnd.Float64()}
	for z := top; ; {
		z -= .1 + rnd.Float64()
		if z <= foot {
			break
		}
		v = append(v, z, 20*rnd.Float64())
		if rnd.Intn(2) == 0 {
			v = append(v, z, 20*rnd.Float64())
		}
	}
	return line(append(v, foot, 20*rnd.Float64())...)
}

func TestResultantByIntegration(t *testing.T) {
	rnd := rand.New(rand.NewSource(11))
	for range 30 {
		d := random(rnd, 2, -2)
		const n = 40000
		var p, m float64
		for i := range n {
			z := 2 - 4*(float64(i)+.5)/n
			v := d.At(z).Total * 4 / n
			p, m = p+v, m+v*z
		}
		thrust, level := d.Resultant()
		near(t, "thrust", thrust, p, 1e-4)
		if math.Abs(level-m/p) > 1e-3 {
			t.Errorf("level %v, want %v", level, m/p)
		}
		// parts of a slice make up the whole
		cut := 2 - 4*rnd.Float64()
		a, za := d.Slice(2, cut).Resultant()
		b, zb := d.Slice(cut, -2).Resultant()
		near(t, "slices", a+b, thrust, 1e-9)
		near(t, "between levels", d.Thrust(cut, -3), b, 1e-9)
		near(t, "their moment", a*za+b*zb, thrust*level, 1e-9)
		s, zs := d.Scale(1.6).Resultant()
		near(t, "scaled", s, 1.6*thrust, 1e-9)
		near(t, "scaled level", zs, level, 1e-9)
		most, at := d.MaxTotal()
		for _, r := range d {
			if r.Total > most {
				t.Error("MaxTotal missed a row")
			}
		}
		if math.Max(d.At(at).Total, d.AtAbove(at).Total) != most {
			t.Error("MaxTotal stands at its level")
		}
	}
}

func TestAtAndSlice(t *testing.T) {
	d := line(0, 1, -1, 3, -1, 6, -2, 8)
	for _, c := range []struct{ z, at, above float64 }{
		{0, 1, 1}, {-.5, 2, 2}, {-1, 6, 3}, {-1.5, 7, 7}, {-2, 8, 8}, {.1, 0, 0}, {-2.1, 0, 0},
	} {
		if d.At(c.z).Total != c.at || d.AtAbove(c.z).Total != c.above {
			t.Errorf("at %v: %v and %v", c.z, d.At(c.z).Total, d.AtAbove(c.z).Total)
		}
	}
	if r := d.At(math.NaN()); r.Total != 0 {
		t.Error("no level, no pressure")
	}
	s := d.Slice(-1, -2)
	if len(s) != 2 || s[0].Total != 6 {
		t.Errorf("a slice below a jump: %v", s)
	}
	s = d.Slice(5, -1)
	if len(s) != 2 || s[0].Level != 0 || s[1].Total != 3 {
		t.Errorf("a slice above a jump, beyond the top: %v", s)
	}
	if d.Slice(-3, -4) != nil || d.Slice(-1, -1) != nil || d.Slice(-2, -1) != nil || Diagram(nil).Slice(1, 0) != nil {
		t.Error("slices that hold nothing")
	}
	if p, z := (Diagram{}).Resultant(); p != 0 || z != 0 {
		t.Error("an empty diagram")
	}
	if p, z := (Diagram{}).MaxTotal(); p != 0 || z != 0 {
		t.Error("an empty diagram has no maximum")
	}
	if r := (Diagram{}).At(1); r.Total != 0 || r.Level != 1 {
		t.Error("an empty diagram at a level")
	}
	u := Diagram{{Level: 1, U: 2, Surcharge: 3, Compaction: 4, Quake: 5, SigmaV: 6, K: 7, Total: 14}}.Scale(2)[0]
	if u.U != 4 || u.Surcharge != 6 || u.Compaction != 8 || u.Quake != 10 || u.SigmaV != 6 || u.K != 7 || u.Total != 28 {
		t.Errorf("scaled row: %+v", u)
	}
}

func TestMerge(t *testing.T) {
	rnd := rand.New(rand.NewSource(12))
	for range 100 {
		a := random(rnd, 2+rnd.Float64(), -2)
		b := random(rnd, 2, -2-rnd.Float64())
		for _, m := range []Diagram{Merge(a, b), Merge(b, a)} {
			for i := range m {
				if i > 0 && m[i].Level > m[i-1].Level {
					t.Fatal("levels out of order")
				}
				if math.Abs(m[i].Soil-m[i].Total) > 1e-9 {
					t.Fatal("the parts must make up the total")
				}
			}
			for range 50 {
				z := 3.2 - 6.4*rnd.Float64()
				if want := math.Max(a.At(z).Total, b.At(z).Total); math.Abs(m.At(z).Total-want) > 1e-9 {
					t.Fatalf("at %v: %v, want %v", z, m.At(z).Total, want)
				}
			}
		}
	}
	a, b := line(2, 1, 1, 1), line(0, 5, -1, 5)
	gap := Merge(a, b)
	if gap.At(.5).Total != 0 {
		t.Error("nothing acts between diagrams that do not meet")
	}
	if p, _ := gap.Resultant(); p != 6 {
		t.Errorf("thrust %v", p)
	}
	if m := Merge(a, nil); len(m) != 2 || m[0] != a[0] {
		t.Error("merged with nothing")
	}
	if len(Merge(nil, nil)) != 0 {
		t.Error("nothing merged with nothing")
	}
}

func TestAddSurchargeIsExactEnough(t *testing.T) {
	rnd := rand.New(rand.NewSource(13))
	worst := 0.0
	for range 40 {
		h := 1.5 + 3*rnd.Float64()
		d := random(rnd, 0, -h)
		base, _ := d.Resultant()
		x := .02 + h*rnd.Float64()
		loads := map[string]WallLoad{
			"line":  must(LineLoad(10, x, h)),
			"point": must(PointLoad(60, x, h, 0)),
			"strip": must(StripLoad(15, x-.01, x+.5, h)),
			"area":  must(AreaLoad(15, x, x+.3, -.1, .4, 0, h)),
		}
		for name, p := range loads {
			out := must(d.AddSurcharge(0, p))
			thrust, _ := out.Resultant()
			want, arm := sum(p, h, 20000)
			miss := math.Abs(thrust-base-want) / want
			worst = math.Max(worst, miss)
			if miss > 2e-3 {
				t.Errorf("%s at %v on %v: off by %.2g", name, x, h, miss)
			}
			q, z := out.ResultantOf(func(r *Row) float64 { return r.Surcharge })
			near(t, "surcharge alone", q, thrust-base, 1e-6)
			if math.Abs(z+h-arm) > 2e-3*h {
				t.Errorf("%s: arm %v, want %v", name, z+h, arm)
			}
			if len(out) > 400 {
				t.Errorf("%s: %d rows", name, len(out))
			}
		}
	}
	t.Logf("largest miss of a resultant: %.2g", worst)
}

func TestAddSurchargeEdges(t *testing.T) {
	d := line(1, 2, -2, 2)
	out := must(d.AddSurcharge(0, func(float64) float64 { return 10 }))
	if out.AtAbove(0).Total != 2 || out.At(0).Total != 12 || out.At(-2).Surcharge != 10 {
		t.Errorf("a load that stands inside the face: %+v", out)
	}
	if len(out) != 4 {
		t.Errorf("straight lines need no more rows: %d", len(out))
	}
	above := must(d.AddSurcharge(3, func(z float64) float64 { return z }))
	if above.At(1).Surcharge != 2 || above.At(-2).Surcharge != 5 {
		t.Error("a load above the face counts from where it stands")
	}
	below := must(d.AddSurcharge(-5, func(float64) float64 { return 1 }))
	if p, _ := below.Resultant(); p != 6 {
		t.Error("a load below the face does nothing")
	}
	if _, err := d.AddSurcharge(0, func(float64) float64 { return math.NaN() }); err == nil {
		t.Error("NaN must be an error")
	}
	_, err := d.AddSurcharge(math.Inf(1), func(float64) float64 { return 1 })
	refused(t, "level", "from", err)
	if none := must(Diagram(nil).AddSurcharge(0, func(float64) float64 { return 1 })); none != nil {
		t.Error("nothing to add to")
	}
}

func TestAddQuake(t *testing.T) {
	d := line(2, 1, -3, 1)
	out := must(d.AddQuake(33.3, 1, -2))
	q, z := out.ResultantOf(func(r *Row) float64 { return r.Quake })
	near(t, "thrust", q, 33.3, 1e-9)
	near(t, "at six tenths", z+2, 1.8, 1e-9)
	if out.At(1.5).Quake != 0 || out.At(-2.5).Quake != 0 {
		t.Error("only between the levels")
	}
	p, _ := out.Resultant()
	near(t, "total", p, 38.3, 1e-9)
	part := must(line(0, 0, -2, 0).AddQuake(33.3, 1, -2)) // a face under cover
	q, _ = part.Resultant()
	near(t, "what falls on the face", q, 33.3*(1-(1.6+1.2)/2/3), 1e-9)
	_, err := d.AddQuake(-1, 1, 0)
	refused(t, "thrust", "dp", err)
	_, err = d.AddQuake(1, 0, 0)
	refused(t, "height", "top - bottom", err)
}

// TestCompactionUnderWater has the water rise after the lifts were compacted:
// the stress stays locked in.
func TestCompactionUnderWater(t *testing.T) {
	c := sand(4, 18, 20, 34)
	e := must(CompactionEnvelope(20, 18, .44, 0, 0))
	c.Water = -1
	d := must(c.Lateral(AtRest, 0, -4)).AddCompaction(e)
	for z := .05; z < 4; z += .1 {
		r := d.At(-z)
		near(t, "soil and compaction", r.Soil+r.Compaction, math.Max(r.Soil, math.Min(e.Max, e.Max*z/e.Zc)), 1e-9)
		near(t, "total", r.Total, r.Soil+r.U+r.Compaction, 1e-9)
	}
	free := must(c.Lateral(AtRest, 1, -4)).AddCompaction(e)
	if free.At(.5).Compaction != 0 {
		t.Error("nothing is compacted above the fill")
	}
}

func BenchmarkMerge(b *testing.B) {
	rnd := rand.New(rand.NewSource(1))
	p, q := random(rnd, 0, -4), random(rnd, 0, -4)
	for b.Loop() {
		Merge(p, q)
	}
}

func BenchmarkAddSurcharge(b *testing.B) {
	d := must(threeLayers().Lateral(AtRest, 0, -3.8))
	p := must(WheelLoads([]PlanLoad{{40, 1, 0}, {40, 2.5, 0}, {40, 1, 1.8}, {40, 2.5, 1.8}}, .3, 3.8))
	for b.Loop() {
		must(d.AddSurcharge(0, p))
	}
}

func BenchmarkWheelsThroughCover(b *testing.B) {
	w := []Patch{{40, 0, 0, .5, .25}, {40, 1.8, 0, .5, .25}, {40, 0, 2.4, .5, .25}, {40, 1.8, 2.4, .5, .25}}
	for b.Loop() {
		must(WheelsThroughCover(w, 1.2, LLDFGranular, true))
	}
}
