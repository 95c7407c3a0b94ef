package scene

import (
	"errors"
	"flag"
	"math"
	"math/rand"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"hillset/engine/assess"
	"hillset/engine/earth"
	"hillset/engine/section"
	"hillset/geom"
	"hillset/ui/units"
)

var update = flag.Bool("update", false, "write the golden files anew")

var allScales = []float64{4, 5, 10, 12.5, 1000.0 / 48, 20, 33, 50, 100}

// examine checks what holds for every scene.
func examine(t *testing.T, what string, s *Scene, window geom.Rect) {
	t.Helper()
	var rooms [][4]geom.Vec
	var words []string
	for i, it := range s.Items {
		if (it.Path == nil) == (it.Label == nil) {
			t.Fatalf("%s: item %d is not exactly one thing", what, i)
		}
		if p := it.Path; p != nil {
			examinePath(t, what, p, s.Bounds)
			continue
		}
		l := it.Label
		k := LabelCorners(l, s.MMPerM)
		for _, c := range k {
			if !geom.FiniteVec(c) || !s.Bounds.Expand(1e-9).Contains(c) || !window.Expand(1e-9).Contains(c) {
				t.Errorf("%s: text %q reaches out of the drawing at %v", what, l.Text, c)
			}
		}
		for j, o := range rooms {
			if touching(k, o) {
				t.Errorf("%s: texts %q and %q overlap", what, l.Text, words[j])
			}
		}
		rooms, words = append(rooms, k), append(words, l.Text)
	}
}

func examinePath(t *testing.T, what string, p *Path, bounds geom.Rect) {
	t.Helper()
	if len(p.Parts) == 0 || p.Fill == "" && p.Stroke == "" || p.Stroke != "" && !(p.Width > 0) {
		t.Errorf("%s: path %s draws nothing", what, p.Tag)
	}
	for _, c := range p.Parts {
		if len(c) < 2 || p.Closed && len(c) < 3 {
			t.Errorf("%s: path %s has a part of %d points", what, p.Tag, len(c))
		}
		for _, v := range c {
			if !geom.FiniteVec(v) || !bounds.Expand(1e-9).Contains(v) {
				t.Fatalf("%s: path %s reaches out of the drawing at %v", what, p.Tag, v)
			}
		}
	}
}

// No two texts overlap and all lie inside, at every scale, in both systems.
func TestNoTextsOverlap(t *testing.T) {
	for name, v := range named() {
		for _, mm := range allScales {
			for _, sys := range []units.System{units.Metric, units.US} {
				s := mustBuild(t, v, Options{MMPerM: mm, Units: sys, Soils: soils})
				examine(t, name, s, Window(v, mm))
			}
		}
	}
}

// The same through windows anywhere on and off the section.
func TestNoTextsOverlapInWindows(t *testing.T) {
	r := rand.New(rand.NewSource(5))
	for name, v := range named() {
		for range 60 {
			mm := 5 + 120*r.Float64()
			c := geom.Vec{v.Ground[0][0] + r.Float64()*26 - 3, 95 + 10*r.Float64()}
			clip := geom.Rect{Min: c, Max: c.Add(geom.Vec{0.2 + 12*r.Float64(), 0.2 + 6*r.Float64()})}
			s := mustBuild(t, v, Options{MMPerM: mm, Clip: clip, Soils: soils})
			examine(t, name, s, clip)
		}
	}
}

// At the ordinary scales of a sheet hardly anything goes without a text.
func TestLittleIsLost(t *testing.T) {
	for name, v := range named() {
		for _, mm := range []float64{20, 1000.0 / 48, 40} {
			s := mustBuild(t, v, Options{MMPerM: mm, Soils: soils})
			n := 0
			for _, it := range s.Items {
				if it.Label != nil {
					n++
				}
			}
			if len(s.Lost) > n/20+1 {
				t.Errorf("%s at %.1f mm/m: no place for %q", name, mm, s.Lost)
			}
		}
	}
}

func TestSameInputSameScene(t *testing.T) {
	for name, v := range named() {
		first := Dump(mustBuild(t, v, Options{Soils: soils}))
		for range 10 {
			if Dump(mustBuild(t, v, Options{Soils: soils})) != first {
				t.Fatalf("%s is drawn differently the second time", name)
			}
		}
	}
}

// A hidden layer leaves no item.
func TestLayersAreHidden(t *testing.T) {
	layers := []Layer{Ground, Fills, BoxLayer, Water, Pressures, Dims, Levels, Slopes, Callouts, Verdicts, Frame}
	for _, hide := range layers {
		show := map[Layer]bool{}
		for _, l := range layers {
			show[l] = l != hide
		}
		seen := map[Layer]int{}
		for _, name := range []string{"service", "cut"} {
			s := mustBuild(t, named()[name], Options{Show: show, Soils: soils})
			examine(t, "without "+string(hide), s, Window(named()[name], 20))
			for _, it := range s.Items {
				if it.Path != nil {
					seen[it.Path.Layer]++
				} else {
					seen[it.Label.Layer]++
				}
			}
		}
		for _, l := range layers {
			if (seen[l] == 0) != (l == hide) {
				t.Errorf("without %s: layer %s has %d items", hide, l, seen[l])
			}
		}
	}
	if s := mustBuild(t, service(), Options{Show: map[Layer]bool{}}); len(s.Items) != 0 {
		t.Errorf("%d items with every layer hidden", len(s.Items))
	}
}

func TestBadInputIsNamed(t *testing.T) {
	nan := math.NaN()
	good := Options{MMPerM: 20}
	for _, c := range []struct {
		name string
		view func() *section.View
		res  func() *assess.Result
		o    Options
		want string
	}{
		{"no view", func() *section.View { return nil }, result, good, "view"},
		{"no scale", service, result, Options{}, "MMPerM"},
		{"scale not a number", service, result, Options{MMPerM: nan}, "MMPerM"},
		{"endless scale", service, result, Options{MMPerM: math.Inf(1)}, "MMPerM"},
		{"pressure scale below 0", service, result, Options{MMPerM: 20, PressureMMPerKPa: -1}, "PressureMMPerKPa"},
		{"window not a number", service, result, Options{MMPerM: 20, Clip: geom.Rect{Min: geom.Vec{nan, 0}, Max: geom.Vec{1, 1}}}, "Clip"},
		{"ground not a number", func() *section.View {
			v := natural()
			v.Ground = geom.Polyline{{0, 0}, {1, nan}}
			return v
		}, result, good, "ground point 1"},
		{"no ground", func() *section.View { v := natural(); v.Ground = nil; return v }, result, good, "ground line"},
		{"box without extent", func() *section.View { v := service(); v.Box = geom.Rect{}; return v }, result, good, "box"},
		{"endless water", func() *section.View { v := service(); v.Water = math.Inf(-1); return v }, result, good, "water"},
		{"load not a number", service, func() *assess.Result {
			r := result()
			r.Loads[0].Diagram = append(earth.Diagram{{Level: 101, Total: nan}}, r.Loads[0].Diagram...)
			return r
		}, good, "row 0"},
		{"roof load not a number", service, func() *assess.Result { r := result(); r.Roofs[1].Total = nan; return r }, good, "roof load"},
	} {
		s, err := Build(c.view(), c.res(), c.o)
		if err == nil || s != nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: error %v, want one that names %q", c.name, err, c.want)
		}
	}
}

func TestWithoutResult(t *testing.T) {
	for name, v := range named() {
		s, err := Build(v, nil, Options{MMPerM: 20})
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if n := len(paths(s, "pressure:left")); n != 0 {
			t.Errorf("%s: %d pressures without a result", name, n)
		}
	}
}

// What the user typed reaches the scene clean.
func TestNamesAreCleaned(t *testing.T) {
	v := natural()
	v.Strata[0].Name = "clay\n∇ with a control \x07 and a goat 🐐"
	got := texts(mustBuild(t, v, Options{}), "name:natural")
	if len(got) != 2 || got[0] != "clay ? with a control  and a goat ?" {
		t.Errorf("names %q", got)
	}
}

func TestGoldenScenes(t *testing.T) {
	for name, v := range named() {
		for suffix, o := range map[string]Options{"": {MMPerM: 20}, "-us": {MMPerM: 1000.0 / 96, Units: units.US}} {
			o.Soils = soils
			got := Dump(mustBuild(t, v, o))
			file := filepath.Join("testdata", name+suffix+".txt")
			if *update {
				if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			if line, a, b := firstDifference(got, string(want)); line > 0 {
				t.Errorf("%s line %d:\n got %s\nwant %s", file, line, a, b)
			}
		}
	}
}

func firstDifference(a, b string) (line int, x, y string) {
	p, q := strings.Split(a, "\n"), strings.Split(b, "\n")
	for i := range max(len(p), len(q)) {
		x, y = "nothing", "nothing"
		if i < len(p) {
			x = p[i]
		}
		if i < len(q) {
			y = q[i]
		}
		if x != y {
			return i + 1, x, y
		}
	}
	return 0, "", ""
}

// counter is a sink that fails at one item.
type counter struct{ paths, labels, failAt int }

var errFull = errors.New("the sheet is full")

func (c *counter) next() error {
	if c.paths+c.labels == c.failAt {
		return errFull
	}
	return nil
}
func (c *counter) Path(*Path) error   { c.paths++; return c.next() }
func (c *counter) Label(*Label) error { c.labels++; return c.next() }

func TestReplay(t *testing.T) {
	s := mustBuild(t, service(), Options{})
	all := &counter{}
	if err := Replay(s, all); err != nil || all.paths+all.labels != len(s.Items) {
		t.Errorf("replayed %d paths and %d labels of %d items, error %v", all.paths, all.labels, len(s.Items), err)
	}
	err := Replay(s, &counter{failAt: 3})
	if !errors.Is(err, errFull) || !strings.Contains(err.Error(), "item 2") {
		t.Errorf("error %v does not name the item", err)
	}
}

func TestTransform(t *testing.T) {
	r := geom.Rect{Min: geom.Vec{2, 97}, Max: geom.Vec{20, 104}}
	tr := Fit(r, 20, geom.Vec{10, 15})
	for _, c := range []struct{ at, want geom.Vec }{
		{geom.Vec{2, 104}, geom.Vec{10, 15}}, {geom.Vec{20, 97}, geom.Vec{370, 155}}, {geom.Vec{7, 100}, geom.Vec{110, 95}},
	} {
		if got := tr.To(c.at); got.Sub(c.want).Len() > 1e-9 {
			t.Errorf("%v goes to %v, want %v", c.at, got, c.want)
		}
		if back := tr.From(tr.To(c.at)); back.Sub(c.at).Len() > 1e-12 {
			t.Errorf("%v comes back as %v", c.at, back)
		}
	}
}

// FuzzBuild draws any ground with any window: never a panic, never a number
// that is not finite.
func FuzzBuild(f *testing.F) {
	f.Add(20.0, 0.0, 0.0, 0.0, 0.0, 99.9, 0.0)
	f.Add(5.0, 3.0, 97.0, 9.0, 4.0, 100.5, 0.4)
	f.Add(300.0, 6.9, 98.9, 0.5, 0.5, math.NaN(), -0.2)
	f.Fuzz(func(t *testing.T, mm, x, z, w, h, water, tilt float64) {
		if !(mm > 0.5 && mm < 2000) || math.Abs(x)+math.Abs(z)+math.Abs(w)+math.Abs(h) > 1e4 || math.Abs(tilt) > 10 {
			return
		}
		v := service()
		v.Water = water
		v.Ground = v.Ground.Translate(geom.Vec{0, tilt})
		clip := geom.Rect{Min: geom.Vec{x, z}, Max: geom.Vec{x + math.Abs(w), z + math.Abs(h)}}
		s, err := Build(v, result(), Options{MMPerM: mm, Clip: clip, Soils: soils})
		if err != nil {
			return
		}
		if clip.Empty() {
			clip = Window(v, mm)
		}
		examine(t, "fuzz", s, clip)
	})
}
