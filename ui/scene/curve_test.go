package scene

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"hillset/engine/assess"
	"hillset/engine/quantity"
	"hillset/geom"
	"hillset/ui/units"
)

// curves are made-up answers of every kind.
func curves() map[string]assess.Curve {
	nan := math.NaN()
	rising := func(from, to float64, n int, f func(float64) float64) (out []assess.CurvePoint) {
		for i := range n {
			v := from + (to-from)*float64(i)/float64(n-1)
			out = append(out, assess.CurvePoint{V: v, Ratio: f(v), Governs: "side-sheet", Part: "left side wall"})
		}
		return out
	}
	cover := assess.Curve{ID: "cover", Question: "How deep may the cover on the roof be?", Axis: "cover on the roof", Kind: quantity.Length, Now: 0.6,
		Points: rising(0, 2.5, 9, func(v float64) float64 { return 0.3 + 0.55*v }), Answer: assess.CurveAnswer{Value: 1.2727, Governs: "roof-sheet", Part: "roof"}}
	steep := cover
	steep.ID, steep.Points = "steep", rising(0, 2.5, 9, func(v float64) float64 { return 0.8 + 6*v*v })
	steep.Answer.Value = 0.1826
	gaps := cover
	gaps.ID, gaps.Points = "gaps", rising(0, 2.5, 9, func(v float64) float64 { return 0.3 + 0.55*v })
	for _, i := range []int{0, 4, 5} {
		gaps.Points[i].Ratio, gaps.Points[i].Why = nan, "the roof sheet could not be worked out: the thrust of the walls reaches what buckles the sheet"
	}
	far := assess.Curve{ID: "distance", Question: "How near may the heaviest vehicle come to the box?", Axis: "distance from the wall", Kind: quantity.Length, Now: nan,
		Points: rising(0, 8, 17, func(v float64) float64 { return 0.5 + 0.4/(1+v) }), Answer: assess.CurveAnswer{Value: nan, AtLeast: true}}
	none := cover
	none.ID, none.Points, none.Answer = "none", rising(0, 2.5, 9, func(v float64) float64 { return 1.4 + v }), assess.CurveAnswer{Value: nan, None: true, Alone: math.NaN()}
	years := assess.Curve{ID: "years", Question: "How many years until the governing part reaches its limit?", Axis: "years in the ground", Kind: quantity.Years, Now: 25,
		Points: rising(0, 100, 21, func(v float64) float64 { return 0.64 + 0.0045*v }), Answer: assess.CurveAnswer{Value: 80, Governs: "rib", Part: "ribs"}}
	empty := assess.Curve{ID: "vehicle", Question: "How heavy a vehicle may stand beside the box?", Axis: "mass", Kind: quantity.Mass, Now: nan,
		Answer: assess.CurveAnswer{Value: nan, Why: "no vehicle is given: there is nothing whose weight could be varied"}}
	single := cover
	single.ID, single.Points, single.Answer = "single", cover.Points[:1], assess.CurveAnswer{Value: nan, AtLeast: true}
	single.Now = 0
	out := map[string]assess.Curve{}
	for _, c := range []assess.Curve{cover, steep, gaps, far, none, years, empty, single} {
		out[c.ID] = c
	}
	return out
}

func TestCurveTextsApart(t *testing.T) {
	for name, c := range curves() {
		for _, size := range [][2]float64{{85, 55}, {120, 70}, {60, 45}} {
			for _, sys := range []units.System{units.Metric, units.US} {
				s, err := BuildCurve(c, CurveOptions{Width: size[0], Height: size[1], Units: sys})
				if err != nil {
					t.Fatalf("%s: %v", name, err)
				}
				what := fmt.Sprintf("%s %v %v", name, size, sys)
				examine(t, what, s, geom.Rect{Max: geom.Vec{size[0] / 1000, size[1] / 1000}})
				if len(s.Lost) > 0 && size[0] > 60 {
					t.Errorf("%s: no place for %q", what, s.Lost)
				}
				if s.Caption != c.Question {
					t.Errorf("%s: caption %q", what, s.Caption)
				}
				if *lookDir != "" {
					look := Light
					if sys == units.US {
						look = Dark
					}
					img, err := paint(s, look, 6)
					if err != nil {
						t.Fatal(err)
					}
					keep(t, img, fmt.Sprintf("curve-%s-%.0f-%s.png", name, size[0], look))
				}
			}
		}
	}
}

// Points stand where axes and limit say, worked out by hand from the places of
// the ticks.
func TestCurveIsToScale(t *testing.T) {
	c := curves()["cover"]
	for _, sys := range []units.System{units.Metric, units.US} {
		s, err := BuildCurve(c, CurveOptions{Width: 120, Height: 70, Units: sys})
		if err != nil {
			t.Fatal(err)
		}
		unit := map[units.System]float64{units.Metric: 1, units.US: 0.3048}[sys]
		limit := paths(s, "curve:limit")[0].Parts[0][0][1]
		base := paths(s, "curve:axis")[0].Parts[0][0]
		line := paths(s, "curve:line")[0].Parts[0]
		// two ticks of the level axis give its scale
		var at, val []float64
		for _, it := range s.Items {
			if l := it.Label; l != nil && l.Tag == "curve:axis" && l.Anchor == (Anchor{H: 0.5, V: 1}) && l.Height == 2 {
				v := 0.0
				if _, err := fmt.Sscan(l.Text, &v); err != nil {
					t.Fatalf("tick %q: %v", l.Text, err)
				}
				at, val = append(at, l.At[0]), append(val, v)
			}
		}
		if len(at) < 3 {
			t.Fatalf("%v: ticks %v", sys, val)
		}
		n := len(at) - 1
		per := (at[n] - at[0]) / (val[n] - val[0]) / unit // m of paper per m
		for i, p := range c.Points {
			x, y := at[0]+(p.V-val[0]*unit)*per, base[1]+p.Ratio*(limit-base[1])
			if math.Abs(line[i][0]-x) > 1e-9 || math.Abs(line[i][1]-y) > 1e-9 {
				t.Errorf("%v: point %d at %v, want %g, %g", sys, i, line[i], x, y)
			}
		}
	}
}

// What was not computed leaves a gap with its reason; what is above 3 is cut
// off with a sign; answer and value as drawn are written.
func TestCurveSaysWhatItLeavesOut(t *testing.T) {
	build := func(name string) *Scene {
		s, err := BuildCurve(curves()[name], CurveOptions{Width: 120, Height: 70})
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
	s := build("gaps")
	if n := len(paths(s, "curve:line")[0].Parts); n != 2 {
		t.Errorf("line in %d parts, want 2", n)
	}
	if why := strings.Join(texts(s, "curve:why"), " "); !strings.Contains(why, "buckles the sheet") {
		t.Errorf("reason %q", why)
	}
	s = build("steep")
	arrows := 0
	for _, c := range paths(s, "curve:points")[0].Parts {
		if len(c) == 3 {
			arrows++
		}
	}
	over := 0
	for _, p := range curves()["steep"].Points {
		if p.Ratio > 3 {
			over++
		}
	}
	if arrows != over || over == 0 {
		t.Errorf("%d arrows for %d points above 3", arrows, over)
	}
	for name, want := range map[string]string{"cover": "1.27 m", "distance": "all values tried are within limits", "none": "no value tried is within limits", "years": "80.0 years"} {
		if got := texts(build(name), "curve:answer"); len(got) != 1 || got[0] != want {
			t.Errorf("%s: answer %q, want %q", name, got, want)
		}
	}
	if got := texts(build("cover"), "curve:now"); len(got) != 1 || got[0] != "as drawn 0.60 m" {
		t.Errorf("as drawn %q", got)
	}
	if why := strings.Join(texts(build("vehicle"), "curve:why"), " "); !strings.Contains(why, "no vehicle is given") {
		t.Errorf("reason %q", why)
	}
}

func TestCurveRefuses(t *testing.T) {
	c := curves()["cover"]
	for _, o := range []CurveOptions{{}, {Width: 100}, {Width: math.NaN(), Height: 60}, {Width: math.Inf(1), Height: 60}} {
		if s, err := BuildCurve(c, o); err == nil || s != nil {
			t.Errorf("%+v: no error", o)
		}
	}
}

func TestGoldenCurves(t *testing.T) {
	for name, c := range curves() {
		s, err := BuildCurve(c, CurveOptions{Width: 85, Height: 55, Units: units.US})
		if err != nil {
			t.Fatal(err)
		}
		golden(t, "curve-"+name, Dump(s))
	}
}
