package scene

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"hillset/engine/assess"
	"hillset/engine/model"
	"hillset/engine/tables"
	"hillset/geom"
	"hillset/ui/units"
)

// braced is a project with bars inside the box, a drain and a rock line; the
// shell of the box is the nominal one.
func braced() *model.Project {
	p := &model.Project{}
	p.Box.Orientation = model.EndOn
	p.Strengthening = model.Strengthening{
		Ribs:      model.Ribs{Spacing: 1.2, Post: "post", RoofBeam: "beam", FloorTie: "no such bar", Purlins: 3, Purlin: "purlin"},
		Wales:     []model.Wale{{Height: 0.7, Section: "wale"}, {Height: 1.4, Section: "wale"}},
		BackWales: []model.Wale{{Height: 1.1, Section: "wale"}},
	}
	p.Fill.RockWidth = 0.3
	p.Defence.Drain = model.Drain{Present: true, Diameter: 0.1, Depth: 0.15}
	p.Site.Rock = []model.Vec{{0, 96.2}, {26, 100.8}}
	p.Site.CrossSlope = 0.04
	return p
}

// rows is a bar table of the test.
func rows(id string) (tables.Bar, bool) {
	b, ok := map[string]tables.Bar{"post": {H: 0.12, B: 0.06}, "beam": {H: 0.1, B: 0.05}, "purlin": {H: 0.05, B: 0.04}, "wale": {H: 0.06, B: 0.03}}[id]
	return b, ok
}

func boundsOf(p *Path) []geom.Rect {
	var out []geom.Rect
	for _, c := range p.Parts {
		out = append(out, geom.Ring(c).Bounds())
	}
	return out
}

func allBounds(s *Scene, tag string) []geom.Rect {
	var out []geom.Rect
	for _, p := range paths(s, tag) {
		out = append(out, boundsOf(p)...)
	}
	return out
}

// Bars stand where a tape would find them: the box is 6.058 m long, so a
// spacing of 1.2 m makes 5 bays and 4 ribs between the ends; heights of wales
// count from the top of the bottom rail, the depth of the nominal floor.
func TestStrengthening(t *testing.T) {
	const tol = 1e-9
	o := Options{MMPerM: 20, Project: braced(), Bars: rows}
	in := func(v geom.Rect) geom.Rect {
		sh := NominalShell()
		return span(v.Min[0]+sh.Wall, v.Min[1]+sh.Floor, v.Max[0]-sh.Wall, v.Max[1]-sh.Roof)
	}
	v := service()
	s, err := Build(v, nil, o)
	if err != nil {
		t.Fatal(err)
	}
	for tag, want := range map[string]int{"inside:post": 4, "inside:beam": 4, "inside:tie": 4, "inside:purlin": 1, "inside:wale": 2, "inside:back-wale": 1} {
		if got := len(allBounds(s, tag)); got != want {
			t.Errorf("long section: %d of %s, want %d", got, tag, want)
		}
	}
	room := in(v.Box)
	for i, r := range allBounds(s, "inside:post") {
		x := v.Box.Min[0] + v.Box.W()*float64(i+1)/5
		want := span(x-0.03, room.Min[1]+nominalBar, x+0.03, room.Max[1]-0.1)
		if r.Min.Sub(want.Min).Len() > tol || r.Max.Sub(want.Max).Len() > tol {
			t.Errorf("post %d at %v, want %v", i, r, want)
		}
	}
	for i, r := range allBounds(s, "inside:wale") {
		if z := v.Box.Min[1] + 0.17 + 0.7*float64(i+1); math.Abs(r.Center()[1]-z) > tol || math.Abs(r.H()-0.03) > tol {
			t.Errorf("wale %d from %g to %g, want middle %g", i, r.Min[1], r.Max[1], z)
		}
	}
	c := across()
	if s, err = Build(c, nil, o); err != nil {
		t.Fatal(err)
	}
	for tag, want := range map[string]int{"inside:post": 2, "inside:beam": 1, "inside:tie": 1, "inside:purlin": 3, "inside:wale": 4, "inside:back-wale": 0} {
		if got := len(allBounds(s, tag)); got != want {
			t.Errorf("cross section: %d of %s, want %d", got, tag, want)
		}
	}
	room = in(c.Box)
	for i, r := range allBounds(s, "inside:purlin") {
		if x := room.Min[0] + room.W()*float64(i+1)/4; math.Abs(r.Center()[0]-x) > tol || math.Abs(r.Max[1]-room.Max[1]) > tol {
			t.Errorf("purlin %d at %v, want x = %g", i, r, x)
		}
	}
	for _, r := range allBounds(s, "inside:wale") { // the depth of a wale stands square to the wall
		if math.Abs(r.W()-0.06) > tol || math.Abs(r.H()-0.03) > tol {
			t.Errorf("wale %v, want 0.06 deep and 0.03 high", r)
		}
	}
	for _, r := range append(allBounds(s, "inside:post"), allBounds(s, "inside:wale")...) {
		if !room.Expand(tol).Contains(r.Min) || !room.Expand(tol).Contains(r.Max) {
			t.Errorf("bar %v leaves the room %v", r, room)
		}
	}
}

// Set broadside, the long section cuts across the box.
func TestStrengtheningBroadside(t *testing.T) {
	p := braced()
	p.Box.Orientation = model.Broadside
	s, err := Build(service(), nil, Options{MMPerM: 20, Project: p, Bars: rows})
	if err != nil {
		t.Fatal(err)
	}
	if n := len(allBounds(s, "inside:post")); n != 2 {
		t.Errorf("%d posts of one frame", n)
	}
}

// Odd numbers draw nothing or little, never without end.
func TestStrengtheningOfOddNumbers(t *testing.T) {
	for _, spacing := range []float64{0, -1, 1e-9, 1e9, math.NaN(), math.Inf(1)} {
		p := braced()
		p.Strengthening.Ribs.Spacing = spacing
		for _, v := range named() {
			s, err := Build(v, nil, Options{MMPerM: 20, Project: p})
			if err != nil {
				t.Fatal(err)
			}
			if n := len(allBounds(s, "inside:post")); n > 200 {
				t.Errorf("spacing %g: %d posts", spacing, n)
			}
		}
	}
}

// The drain lies with its invert below the formation, beside the walls, from
// the backfilling on, and says that nothing was computed for it.
func TestDrain(t *testing.T) {
	for name, v := range named() {
		want := map[string]int{"service": 1, "across": 2}[name]
		s, err := Build(v, nil, Options{MMPerM: 20, Project: braced()})
		if err != nil {
			t.Fatal(err)
		}
		pipes := allBounds(s, "drain")
		if len(pipes) != want {
			t.Errorf("%s: %d pipes, want %d", name, len(pipes), want)
		}
		for _, r := range pipes {
			if z := v.Formation - 0.15 + 0.05; math.Abs(r.Center()[1]-z) > 1e-6 {
				t.Errorf("%s: middle of the pipe at %g, want %g", name, r.Center()[1], z)
			}
			if x := math.Abs(r.Center()[0]-v.Box.Center()[0]) - v.Box.W()/2; math.Abs(x-0.15) > 1e-6 {
				t.Errorf("%s: pipe %g m from the wall, want 0.15", name, x)
			}
		}
		if got := texts(s, "name:drain"); want > 0 && (len(got) != 1 || got[0] != "drain, not computed") {
			t.Errorf("%s: the drain is called %q", name, got)
		}
	}
	p := braced()
	p.Defence.Drain.Present = false
	if s, err := Build(service(), nil, Options{MMPerM: 20, Project: p}); err != nil || len(paths(s, "drain")) > 0 {
		t.Errorf("a drain that is not there is drawn; %v", err)
	}
}

// The rock line is drawn where it is not dug away, across the slope with the
// fall of the ground, and named.
func TestRockLine(t *testing.T) {
	for name, v := range named() {
		s, err := Build(v, nil, Options{MMPerM: 20, Project: braced()})
		if err != nil {
			t.Fatal(err)
		}
		if len(paths(s, "rock")) == 0 || len(paths(s, "rock:ticks")) == 0 {
			t.Errorf("%s: no rock", name)
			continue
		}
		if got := texts(s, "name:rock"); len(got) != 1 || got[0] != "rock" {
			t.Errorf("%s: the rock is called %q", name, got)
		}
		for _, p := range paths(s, "rock") {
			for _, q := range p.Parts[0] {
				want := 96.2 + (100.8-96.2)/26*q[0]
				if !v.Long {
					want = 96.2 + (100.8-96.2)/26*v.Station + 0.04*q[0]
				}
				if math.Abs(q[1]-want) > 1e-9 {
					t.Errorf("%s: rock at %v, want level %g", name, q, want)
				}
				if z, ok := v.CutLine.At(q[0]); ok && q[1] > z+sameLevel {
					t.Errorf("%s: rock stands at %v in the cut, whose floor is at %g", name, q, z)
				}
			}
		}
	}
}

// windows are views as the boards of a window of 1280 x 800 show them.
func windows(t *testing.T, each func(name string, s *Scene, clip geom.Rect)) {
	t.Helper()
	for name, v := range named() {
		for _, sys := range []units.System{units.Metric, units.US} {
			for _, size := range []geom.Vec{{152, 145}, {93, 145}, {220, 170}, {63, 50}} {
				for _, mm := range []float64{4, 8.5, 10, 17, 30} {
					c := v.Ground.Bounds().Center()
					if v.HasBox {
						c = v.Box.Center()
					}
					half := size.Mul(0.5 / mm)
					clip := geom.Rect{Min: c.Sub(half), Max: c.Add(half)}
					o := Options{MMPerM: mm, Units: sys, Clip: clip, Soils: soils, Project: braced(), CountLost: true, Avoid: []geom.Vec{c, v.Crest}}
					s, err := Build(v, result(), o)
					if err != nil {
						t.Fatal(err)
					}
					each(fmt.Sprintf("%s %s in %v at %g", name, sys, size, mm), s, clip)
				}
			}
		}
	}
}

// In small windows too no two texts come closer than a millimetre, nothing
// stands in the strip of the level axis, and what found no place is counted.
func TestSmallWindows(t *testing.T) {
	lists := 0
	windows(t, func(name string, s *Scene, clip geom.Rect) {
		examine(t, name, s, clip)
		var rooms []obox
		var words []string
		for _, it := range s.Items {
			l := it.Label
			if l == nil {
				continue
			}
			near := labelBox(l, s.MMPerM, 0.49)
			for j, o := range rooms {
				if near.overlaps(o) && l.Tag != "scalebar" {
					t.Errorf("%s: texts %q and %q are closer than 1 mm", name, l.Text, words[j])
				}
			}
			rooms, words = append(rooms, near), append(words, l.Text)
			if l.Tag != "axis" && !s.Axis.Empty() && labelBox(l, s.MMPerM, 0).overlaps(rectBox(s.Axis)) {
				t.Errorf("%s: %q stands on the level axis", name, l.Text)
			}
			if l.Layer == Verdicts {
				lists++
				if !strings.Contains(l.Text, ": ") || strings.HasPrefix(l.Text, "beyond") {
					t.Errorf("%s: the verdict %q does not name its part", name, l.Text)
				}
			}
		}
		want := fmt.Sprintf("%d texts hidden at this scale: zoom in", len(s.Lost))
		if bar := texts(s, "scalebar"); clip.W()*s.MMPerM > 90 && (len(bar) < 3 || bar[0] != "0") {
			t.Errorf("%s: the scale bar says %q", name, bar)
		}
		if len(s.Lost) == 1 {
			want = "1 text hidden at this scale: zoom in"
		}
		if got := texts(s, "lost"); len(s.Lost) > 0 && (len(got) != 1 || got[0] != want) && clip.W()*s.MMPerM > 90 || len(s.Lost) == 0 && len(got) > 0 {
			t.Errorf("%s: %q, want %q", name, got, want)
		}
	})
	if lists < 100 {
		t.Errorf("only %d verdicts were looked at", lists)
	}
}

// Verdicts are the last to go: on a board of the ordinary size every part that
// has one says so in words, or is counted by a row that does.
func TestVerdictsAreNeverLost(t *testing.T) {
	windows(t, func(name string, s *Scene, clip geom.Rect) {
		if clip.H()*s.MMPerM < 140 {
			return
		}
		marks := map[string]bool{}
		for _, it := range s.Items {
			if p := it.Path; p != nil && p.Layer == Verdicts && strings.HasPrefix(p.Tag, "verdict:") {
				marks[p.Tag] = true
			}
		}
		// Of some parts a small board tells the number.
		silent := 0
		for tag := range marks {
			switch n := len(texts(s, tag)); {
			case n > 1:
				t.Errorf("%s: %s has a mark and %d texts", name, tag, n)
			case n == 0:
				silent++
			}
		}
		for _, tag := range []string{moreWithin, moreOpen} {
			for _, text := range texts(s, "verdict:"+tag) {
				var n int
				if _, err := fmt.Sscanf(text, "%d", &n); err != nil || n < 2 {
					t.Errorf("%s: %q tells no number", name, text)
				}
				silent -= n
			}
		}
		if silent != 0 {
			t.Errorf("%s: %d parts with a mark are neither named nor counted", name, silent)
		}
	})
}

// Names of materials stand outside of the box where there is any place.
func TestNamesStayOutOfTheRoom(t *testing.T) {
	for name, d := range demos(t) {
		for at, v := range d.views(t) {
			if !v.HasBox {
				continue
			}
			s, err := Build(v, d.r, d.options(10, units.Metric))
			if err != nil {
				t.Fatal(err)
			}
			for _, it := range s.Items {
				if l := it.Label; l != nil && l.Layer == Callouts && v.Box.Contains(labelBox(l, s.MMPerM, 0).c) {
					t.Errorf("%s %s: %q stands in the box", name, at, l.Text)
				}
			}
		}
	}
}

// The result's project serves where none is given, and the given one first.
func TestProjectOfTheResult(t *testing.T) {
	r := &assess.Result{Project: braced()}
	s, err := Build(service(), r, Options{MMPerM: 20})
	if err != nil || len(paths(s, "inside:post")) == 0 {
		t.Errorf("no bars from the project of the result; %v", err)
	}
	if s, err = Build(service(), r, Options{MMPerM: 20, Project: &model.Project{}}); err != nil || len(paths(s, "inside:post")) > 0 {
		t.Errorf("bars of the old project; %v", err)
	}
}

// What to do next stands in the middle of the board, above the ground.
func TestAdvice(t *testing.T) {
	v := natural()
	clip := geom.Rect{Min: geom.Vec{-3, 90}, Max: geom.Vec{29, 116}}
	s, err := Build(v, nil, Options{MMPerM: 5, Clip: clip, Advice: []string{"The hill as it was found.", "Next: place the box."}, Soils: soils})
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	for _, it := range s.Items {
		if l := it.Label; l != nil && l.Tag == "advice" {
			n++
			if math.Abs(l.At[0]-clip.Center()[0]) > 1e-9 || l.At[1] < v.Ground.Bounds().Max[1] {
				t.Errorf("%q at %v", l.Text, l.At)
			}
		}
	}
	if n != 2 {
		t.Errorf("%d lines of advice", n)
	}
}
