package scene

import (
	"math"
	"strings"
	"testing"

	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/geom"
	"hillset/ui/units"
)

// defended is the demo put right, which has a coating and a membrane on the walls
// and a membrane on the roof.
func defended(t *testing.T, at string, change func(*model.Project)) (*section.View, *Scene) {
	t.Helper()
	d := demos(t)["potato-store-put-right"]
	v := d.views(t)[at]
	o := d.options(20, units.Metric)
	p := d.r.Project.Clone()
	if change != nil {
		change(p)
	}
	o.Project = p
	s, err := Build(v, d.r, o)
	if err != nil {
		t.Fatal(err)
	}
	return v, s
}

// The layers stand outside the walls in the order in which they are put on, down
// the whole wall, as the take-off counts them.
func TestLayersOnTheWalls(t *testing.T) {
	v, s := defended(t, "high-cross", nil)
	box := v.Box
	for _, tag := range []string{"defence:coating", "defence:membrane", "defence:membrane:lap", "defence:turned-down"} {
		ps := paths(s, tag)
		if len(ps) != 2 {
			t.Fatalf("%s is drawn %d times, want on both sides", tag, len(ps))
		}
		for _, p := range ps {
			b := p.Parts[0].Bounds()
			if tag != "defence:turned-down" && b.Max[0] > box.Min[0] && b.Min[0] < box.Max[0] {
				t.Errorf("%s lies in the wall: %v", tag, b)
			}
		}
	}
	right := func(tag string) geom.Rect { return paths(s, tag)[1].Parts[0].Bounds() }
	coat, low, up, roof := right("defence:coating"), right("defence:membrane"), right("defence:membrane:lap"), right("defence:turned-down")
	if !(coat.Max[0] < low.Min[0] && low.Max[0] < up.Max[0] && up.Max[0] <= roof.Max[0]) {
		t.Errorf("from the steel outwards: coating %.3f, lower sheet %.3f, upper sheet %.3f, roof %.3f", coat.Max[0], low.Max[0], up.Max[0], roof.Max[0])
	}
	if coat.H() < box.H()-1e-6 || math.Abs(low.Min[1]-box.Min[1]) > 1e-6 || math.Abs(up.Max[1]-box.Max[1]) > 1e-6 {
		t.Errorf("they do not cover the wall: coating %v, membrane %v and %v", coat, low, up)
	}
	if lap := low.Max[1] - up.Min[1]; lap < 0.149 {
		t.Errorf("the upper sheet laps the lower by %.3f m", lap)
	}
	if got := strings.Join(texts(s, "name:defence"), "; ") + strings.Join(s.Lost, "; "); !strings.Contains(got, "Bitumen coating") || !strings.Contains(got, "Membrane, lapped downhill") {
		t.Errorf("they are neither named nor told to be lost: %q", got)
	}
}

// None stand there while the box is being set, none where none are given, and a
// concrete skin puts them on its outside.
func TestLayersWhereTheyAre(t *testing.T) {
	if _, s := defended(t, "high-cross", func(p *model.Project) { p.Defence.Layers = nil }); len(paths(s, "defence:membrane"))+len(paths(s, "defence:turned-down")) > 0 {
		t.Error("layers are drawn that are not given")
	}
	if _, s := defended(t, "set-long", nil); len(paths(s, "defence:membrane")) > 0 {
		t.Error("a membrane is drawn on the box that hangs from the hook")
	}
	v, s := defended(t, "high-cross", func(p *model.Project) { p.Strengthening.Cavity.Width = 0.2 })
	if x := paths(s, "defence:membrane")[1].Parts[0].Bounds().Min[0]; x < v.Box.Max[0]+0.2 {
		t.Errorf("the membrane lies %.3f m from the steel, inside the skin", x-v.Box.Max[0])
	}
}
