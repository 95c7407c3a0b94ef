package scene

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"hillset/engine/assess"
	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/tables"
	"hillset/geom"
	"hillset/ui/units"
)

// posed is a view with its portrait.
type posed struct {
	v *section.View
	o Options
	r *assess.Result
}

// poses are long and cross sections of the demos, end-on and broadside, with
// what the steel does in their last stage.
func poses(tb testing.TB) map[string]posed {
	tb.Helper()
	out := map[string]posed{}
	for name, r := range flatCases(tb) {
		d := demo{r.Project, r}
		long := r.Views[len(r.Views)-1]
		cross, err := section.CrossOf(d.p, tables.Default(), long, long.Box.Center()[0])
		if err != nil {
			tb.Fatal(err)
		}
		for kind, v := range map[string]*section.View{"long": long, "cross": cross} {
			p, err := assess.Shape(d.p, tables.Default(), v.Stage.ID, v.Station, v.Long)
			if err != nil {
				tb.Fatalf("%s %s: %v", name, kind, err)
			}
			o := Options{Portrait: p, Project: d.p, Bars: tables.Default().Bar, Soils: func(id string) (model.Soil, bool) { return section.SoilByID(d.p, id) }}
			out[name+" "+kind] = posed{v, o, r}
		}
	}
	return out
}

// only shows the portrait alone on the box.
var only = map[Layer]bool{BoxLayer: true, Ground: true, Fills: true, Frame: true, Deformed: true, MomentLines: true, ThrustLines: true}

func TestPortraitTextsApart(t *testing.T) {
	for name, c := range poses(t) {
		for _, mm := range []float64{10, 30} {
			for _, sys := range []units.System{units.Metric, units.US} {
				for what, show := range map[string]map[Layer]bool{"all": nil, "only": only} {
					o := c.o
					o.MMPerM, o.Units, o.Show = mm, sys, show
					s, err := Build(c.v, c.r, o)
					if err != nil {
						t.Fatalf("%s: %v", name, err)
					}
					examine(t, fmt.Sprintf("%s %g %v %s", name, mm, sys, what), s, Window(c.v, mm))
					if *lookDir != "" && sys == units.Metric {
						look := Light
						if mm == 10 {
							look = Dark
						}
						img, err := paint(s, look, 4)
						if err != nil {
							t.Fatal(err)
						}
						keep(t, img, fmt.Sprintf("portrait-%s-%g-%s.png", name, mm, what))
					}
				}
			}
		}
	}
}

// byHand is a made-up portrait in the cross section across(): a wall that bows
// inward, a strut, a beam that is pulled, one beyond limits.
func byHand(v *section.View) *assess.Portrait {
	x, z, h := v.Box.Min[0], v.Box.Min[1]+0.2, 2.2
	wall := assess.Drawn{Part: "left side wall", Inside: geom.Vec{1, 0}, PerMetre: true}
	const n = 16
	for i := range n + 1 {
		s := float64(i) / n
		wall.Axis = append(wall.Axis, geom.Vec{x, z + h*s})
		wall.Move = append(wall.Move, geom.Vec{0.016 * 4 * s * (1 - s), 0})
		wall.M, wall.N = append(wall.M, 12*4*s*(1-s)), append(wall.N, 0)
	}
	bar := func(part string, z, n float64, beyond bool) assess.Drawn {
		a, e := geom.Vec{x, z}, geom.Vec{v.Box.Max[0], z}
		return assess.Drawn{Part: part, Inside: geom.Vec{0, -1}, Axis: []geom.Vec{a, a.Add(e).Mul(0.5), e}, Move: make([]geom.Vec, 3), M: []float64{0, 4, 0}, N: []float64{n, n, n}, Beyond: beyond}
	}
	return &assess.Portrait{Stage: v.Stage.ID, Station: v.Station, Members: []assess.Drawn{wall,
		bar("ribs, roof beam", v.Box.Max[1]-0.1, 20, false), bar("ribs, floor tie", v.Box.Min[1]+0.25, -8, true)}}
}

// Scales by hand: at 20 mm per m, 16 mm of movement become 8 mm on paper or
// less at 20 times; 12 kNm/m become at most 8 mm at 2 kNm/m per mm; 20 kN become
// 2 mm of width at 10 kN per mm.
func TestPortraitScales(t *testing.T) {
	v := across()
	s := mustBuild(t, v, Options{MMPerM: 20, Portrait: byHand(v)})
	moved := paths(s, "moved:left side wall")[0].Parts[0].Bounds()
	if got := (moved.Max[0] - v.Box.Min[0]) / 0.016; math.Abs(got-20) > 1e-6 {
		t.Errorf("movement drawn %g times, want 20", got)
	}
	bent := paths(s, "moment:left side wall")[0].Parts[0].Bounds()
	if got := (bent.Max[0] - v.Box.Min[0]) * 20; math.Abs(got-6) > 1e-6 {
		t.Errorf("12 kNm/m drawn %g mm, want 6", got)
	}
	for part, want := range map[string]float64{"ribs, roof beam": 2, "ribs, floor tie": 0.8} {
		p := paths(s, "thrust:"+part)[0]
		if math.Abs(p.Width-want) > 1e-9 || (p.Dash != nil) != (part == "ribs, floor tie") {
			t.Errorf("thrust of %s %g mm wide, dash %v", part, p.Width, p.Dash)
		}
	}
	notes := strings.Join(texts(s, "portrait:scale"), "\n")
	for _, want := range []string{"movement drawn 20 times; beyond limits it is larger than drawn", "moment of sheets 1 mm = 2.00 kNm/m", "thrust of bars 1 mm wide = 10.0 kN"} {
		if !strings.Contains(notes, want) {
			t.Errorf("no %q in\n%s", want, notes)
		}
	}
	for tag, want := range map[string]string{"moment:value": "12.00 kNm/m", "moved:value": "16.0 mm"} {
		if got := texts(s, tag); len(got) == 0 || got[0] != want {
			t.Errorf("%s: %q, want %q", tag, got, want)
		}
	}
	if got := strings.Join(texts(s, "thrust:value"), ","); !strings.Contains(got, "push 20.0 kN") || !strings.Contains(got, "pull 8.0 kN") {
		t.Errorf("thrusts %q", got)
	}
}

// A portrait of another stage, station or section draws nothing, nor does a
// hidden layer.
func TestPortraitOfAnotherSection(t *testing.T) {
	v := across()
	count := func(o Options) int {
		o.MMPerM = 20
		n := 0
		for _, it := range mustBuild(t, v, o).Items {
			l := Layer("")
			if it.Path != nil {
				l = it.Path.Layer
			} else {
				l = it.Label.Layer
			}
			if l == Deformed || l == MomentLines || l == ThrustLines {
				n++
			}
		}
		return n
	}
	if count(Options{Portrait: byHand(v)}) == 0 {
		t.Fatal("nothing is drawn")
	}
	for what, change := range map[string]func(*assess.Portrait){
		"stage": func(p *assess.Portrait) { p.Stage = "other" }, "station": func(p *assess.Portrait) { p.Station += 0.5 },
		"section": func(p *assess.Portrait) { p.Station = math.NaN() }, "member": func(p *assess.Portrait) { p.Members = nil },
	} {
		p := byHand(v)
		change(p)
		if n := count(Options{Portrait: p}); n != 0 {
			t.Errorf("another %s: %d items", what, n)
		}
	}
	for _, l := range []Layer{Deformed, MomentLines, ThrustLines} {
		if n := count(Options{Portrait: byHand(v), Show: map[Layer]bool{BoxLayer: true, l: true}}); n == 0 {
			t.Errorf("layer %s alone: nothing", l)
		}
	}
	if n := count(Options{Portrait: byHand(v), Show: map[Layer]bool{BoxLayer: true}}); n != 0 {
		t.Errorf("hidden layers: %d items", n)
	}
}

func TestGoldenPortrait(t *testing.T) {
	v := across()
	show := map[Layer]bool{BoxLayer: true, Frame: true, Deformed: true, MomentLines: true, ThrustLines: true}
	for name, sys := range map[string]units.System{"portrait": units.Metric, "portrait-us": units.US} {
		golden(t, name, Dump(mustBuild(t, v, Options{MMPerM: 20, Units: sys, Show: show, Portrait: byHand(v)})))
	}
}

// The target is that of BenchmarkBuild, 4 ms.
func BenchmarkBuildPortrait(b *testing.B) {
	c := poses(b)["potato-store-put-right cross"]
	c.o.MMPerM = 20
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Build(c.v, c.r, c.o); err != nil {
			b.Fatal(err)
		}
	}
}
