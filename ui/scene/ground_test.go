package scene

import (
	"math"
	"strings"
	"testing"

	"hillset/engine/check"
	"hillset/engine/section"
	"hillset/geom"
	"hillset/ui/units"
)

func mustBuild(t *testing.T, v *section.View, o Options) *Scene {
	t.Helper()
	if o.MMPerM == 0 {
		o.MMPerM = 20
	}
	s, err := Build(v, result(), o)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// paths are the paths of a scene with a tag.
func paths(s *Scene, tag string) []*Path {
	var out []*Path
	for _, it := range s.Items {
		if it.Path != nil && it.Path.Tag == tag {
			out = append(out, it.Path)
		}
	}
	return out
}

func texts(s *Scene, tag string) []string {
	var out []string
	for _, it := range s.Items {
		if it.Label != nil && it.Label.Tag == tag {
			out = append(out, it.Label.Text)
		}
	}
	return out
}

func length(ps []*Path) float64 {
	sum := 0.0
	for _, p := range ps {
		for _, c := range p.Parts {
			sum += c.Length()
		}
	}
	return sum
}

// Existing ground is drawn once: full where it stays, dashed where it goes.
func TestGroundIsDrawnOnce(t *testing.T) {
	for name, v := range named() {
		s := mustBuild(t, v, Options{Land: content(v)})
		kept, gone := paths(s, "ground"), paths(s, "ground:altered")
		if got, want := length(kept)+length(gone), v.Ground.Length(); math.Abs(got-want) > 1e-6 {
			t.Errorf("%s: %.6f m of ground drawn, want %.6f", name, got, want)
		}
		if name == "natural" != (len(gone) == 0) {
			t.Errorf("%s: %d stretches of altered ground", name, len(gone))
		}
		for _, p := range gone {
			if p.Dash == nil {
				t.Errorf("%s: altered ground is not dashed", name)
			}
		}
	}
}

func TestSplitGround(t *testing.T) {
	a := geom.Polyline{{0, 0}, {10, 0}}
	for _, c := range []struct {
		name       string
		o          geom.Polyline
		same, away float64
	}{
		{"itself", a, 10, 0},
		{"shorter", geom.Polyline{{2, 0}, {5, 0}}, 3, 7},
		{"a trench", geom.Polyline{{0, 0}, {4, 0}, {4.5, -1}, {6, 0}, {10, 0}}, 8, 2},
		{"a line across", geom.Polyline{{0, -1}, {10, 1}}, 0, 10},
		{"elsewhere", geom.Polyline{{20, 0}, {30, 0}}, 0, 10},
		{"less than a millimetre off", geom.Polyline{{0, 5e-4}, {10, 5e-4}}, 10, 0},
	} {
		same, apart := splitGround(a, c.o)
		sum := func(ls []geom.Polyline) (l float64) {
			for _, p := range ls {
				l += p.Length()
			}
			return l
		}
		if math.Abs(sum(same)-c.same) > 1e-9 || math.Abs(sum(apart)-c.away) > 1e-9 {
			t.Errorf("%s: %.3f m together and %.3f m apart, want %g and %g", c.name, sum(same), sum(apart), c.same, c.away)
		}
	}
}

// Shared edges of slabs of one material are not drawn.
func TestRimOfSlabs(t *testing.T) {
	b := builder{land: geom.Rect{Min: geom.Vec{-100, -100}, Max: geom.Vec{100, 100}}}
	two := append(rectRegion(0, 0, 1, 2), rectRegion(1, 0, 3, 1)...)
	got := 0.0
	for _, p := range b.edges(two) {
		got += p.Length()
	}
	// Round an L of 1 x 2 and 2 x 1: 2+1+1+2+1+3.
	if math.Abs(got-10) > 1e-9 {
		t.Errorf("the outline is %.3f m long, want 10", got)
	}
}

func TestWaterStaysInTheGround(t *testing.T) {
	for _, name := range []string{"service", "across"} {
		v := named()[name]
		s := mustBuild(t, v, Options{})
		lines := paths(s, "water")
		if len(lines) == 0 {
			t.Fatalf("%s: no water line", name)
		}
		for _, p := range lines {
			for _, c := range p.Parts {
				mid := c[0].Add(c[1]).Mul(0.5)
				if z, _ := v.Finish.At(mid[0]); z < mid[1] || v.Box.Contains(mid) {
					t.Errorf("%s: water drawn at %v, in the air or the box", name, mid)
				}
				if mid[1] != v.Water || c[0][1] != c[1][1] {
					t.Errorf("%s: water line at %v is not level", name, c)
				}
			}
		}
		if got := texts(s, "water"); len(got) != 1 || got[0] != "water 99.90 m (design high)" {
			t.Errorf("%s: water text %q", name, got)
		}
	}
	dry := natural()
	if n := len(paths(mustBuild(t, dry, Options{}), "water")); n != 0 {
		t.Errorf("%d water lines without water", n)
	}
}

// The drawn diagram holds the thrust: its area over the scale is the sum of
// the pressures down the wall.
func TestPressureToScale(t *testing.T) {
	v := across()
	for _, per := range []float64{0, 0.5, 0.25} {
		s := mustBuild(t, v, Options{PressureMMPerKPa: per})
		scale := per // mm per kPa
		if per == 0 {
			scale = 0.5 // 42 kPa at 1-2-5 within 25 mm and 0.45 of 52 mm: 1 mm = 2 kPa
		}
		for _, face := range []section.Face{section.Left, section.Right} {
			ps := paths(s, "pressure:"+string(face))
			if len(ps) == 0 {
				t.Fatalf("no diagram on the %s face", face)
			}
			area := geom.Ring(ps[0].Parts[0]).Area()
			want := 0.0
			for _, l := range result().Loads {
				if l.Face != face {
					continue
				}
				for i := 1; i < len(l.Diagram); i++ {
					a, b := l.Diagram[i-1], l.Diagram[i]
					want += (a.Total + b.Total) / 2 * (a.Level - b.Level)
				}
			}
			if got := area * 20 / scale; math.Abs(got-want) > 1e-6 {
				t.Errorf("scale %g: %s diagram holds %.3f kN/m, want %.3f", per, face, got, want)
			}
		}
	}
}

func TestPressureScaleIsRound(t *testing.T) {
	for _, mm := range []float64{5, 10, 12.5, 20, 50} {
		for _, sys := range []units.System{units.Metric, units.US} {
			s := mustBuild(t, across(), Options{MMPerM: mm, Units: sys})
			got := texts(s, "pressure:scale")
			if len(got) != 1 {
				t.Errorf("%g mm/m: scale stated %d times", mm, len(got))
				continue
			}
			digits := strings.Trim(strings.Fields(strings.SplitAfter(got[0], "= ")[1])[0], "0.")
			if digits != "1" && digits != "2" && digits != "5" {
				t.Errorf("%g mm/m: %q is not of the series 1-2-5", mm, got[0])
			}
			for _, p := range append(paths(s, "pressure:left"), paths(s, "pressure:right")...) {
				for _, c := range p.Parts {
					if w := c.Bounds().W() * mm; w > deepest+1e-9 {
						t.Errorf("%g mm/m: a diagram is %.1f mm deep", mm, w)
					}
				}
			}
		}
	}
}

func TestOneTwoFive(t *testing.T) {
	for _, c := range []struct{ v, want float64 }{{1, 1}, {1.99, 1}, {2, 2}, {4.9, 2}, {5, 5}, {9.9, 5}, {10, 10}, {0.07, 0.05}, {370, 200}} {
		if got := oneTwoFive(c.v); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("oneTwoFive(%g) = %g, want %g", c.v, got, c.want)
		}
	}
}

// Dimensions say what they span, in both systems, and lie clear of each other.
func TestDimensionsSayWhatTheySpan(t *testing.T) {
	s := mustBuild(t, service(), Options{})
	for tag, want := range map[string]string{
		"dim:length": "6.06 m", "dim:height": "2.59 m", "dim:bed": "0.25 m", "dim:work:right": "0.90 m",
		"dim:rock:right": "0.30 m", "dim:cover:front": "0.31 m", "dim:cover:back": "0.61 m", "dim:cut": "3.40 m",
	} {
		got := texts(s, tag)
		if len(got) != 1 || !sameLength(got[0], want) {
			t.Errorf("%s = %q, want %s", tag, got, want)
		}
	}
	us := mustBuild(t, service(), Options{Units: units.US, MMPerM: 1000.0 / 48})
	if got := texts(us, "dim:height"); len(got) != 1 || got[0] != `8'−6"` && got[0] != `8'-6"` {
		t.Errorf("height in feet = %q", got)
	}
}

// sameLength compares texts in m by value to a centimetre: decimals are the
// business of package units.
func sameLength(a, b string) bool {
	num := func(s string) float64 {
		v := 0.0
		scale := 0.0
		for _, c := range strings.TrimSuffix(s, " m") {
			if c == '.' {
				scale = 1
				continue
			}
			v, scale = v*10+float64(c-'0'), scale*10
		}
		return v / math.Max(scale, 1)
	}
	return math.Abs(num(a)-num(b)) <= 0.0051
}

func TestBatterText(t *testing.T) {
	b := builder{}
	for _, c := range []struct {
		n    float64
		want string
	}{{1.5, "1.5:1 (H:V)"}, {0.75, "0.75:1 (H:V)"}, {1, "1:1 (H:V)"}, {0.5774, "0.58:1 (H:V)"}, {1e-4, "vertical"}} {
		if got := b.slope(c.n); got != c.want {
			t.Errorf("slope %g = %q, want %q", c.n, got, c.want)
		}
	}
	if got := texts(mustBuild(t, cutOpen(), Options{}), "batter"); len(got) != 1 || got[0] != "0.75:1 (H:V)" {
		t.Errorf("batters of the cut: %q", got)
	}
}

func TestVerdictWords(t *testing.T) {
	c := func(ratio float64) *check.Check { return &check.Check{Ratio: ratio, RatioLRFD: math.NaN()} }
	for _, x := range []struct {
		v    verdict
		want string
	}{
		{verdict{worst: c(0.62)}, "within 0.62"},
		{verdict{worst: c(1)}, "within 1.00"},
		{verdict{worst: c(1.0001)}, "beyond 1.01×"},
		{verdict{worst: c(1.8)}, "beyond 1.80×"},
		{verdict{worst: c(math.Inf(1))}, "beyond, nothing against it"},
		{verdict{worst: c(0.4), missing: 2}, "within 0.40, 2 not checked"},
		{verdict{missing: 1}, "not checked"},
	} {
		if got := x.v.words(); got != x.want {
			t.Errorf("%q, want %q", got, x.want)
		}
		if strings.Contains(x.v.words(), "safe") {
			t.Error("a verdict says safe")
		}
	}
}

// Each verdict has its own form, whatever the colours.
func TestVerdictForms(t *testing.T) {
	s := mustBuild(t, service(), Options{})
	for tag, want := range map[string]func(*Path) bool{
		"verdict:side walls": func(p *Path) bool { return len(p.Parts[0]) == 4 && p.Fill == BeyondMark && p.Dash == nil },
		"verdict:roof":       func(p *Path) bool { return len(p.Parts[0]) > 10 && p.Fill == Paper && p.Dash == nil },
		"verdict:ribs":       func(p *Path) bool { return len(p.Parts[0]) == 4 && p.Fill == Paper && p.Dash != nil },
	} {
		ps := paths(s, tag)
		if len(ps) != 1 || !want(ps[0]) {
			t.Errorf("%s is drawn with the wrong sign", tag)
		}
	}
}

func TestGatherTakesTheWorst(t *testing.T) {
	cs := []check.Check{
		{Part: "left side wall", Ratio: 1.2, RatioLRFD: math.NaN()}, {Part: "right side wall", Ratio: 0.5, RatioLRFD: 1.7},
		check.Unchecked("x", "X", "left side wall", "no value"),
	}
	long, cross := gather(cs, true), gather(cs, false)
	if len(long) != 1 || long[0].worst.Worst() != 1.7 || long[0].missing != 1 {
		t.Errorf("side walls together: %+v", long)
	}
	if len(cross) != 2 || cross[0].worst.Worst() != 1.2 || cross[0].missing != 1 {
		t.Errorf("side walls apart: %+v", cross)
	}
}
