package scene

import (
	"fmt"
	"math"
	"testing"

	"hillset/engine/drain"
	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/tables"
	"hillset/geom"
	"hillset/ui/units"
)

// gradings are made-up charts: full, without a band, and with nothing known.
func gradings(t *testing.T) map[string]Gradings {
	silt := drain.Grading{{Size: 0.002, Passes: 0.1}, {Size: 0.02, Passes: 0.4}, {Size: 0.075, Passes: 0.7}, {Size: 0.425, Passes: 0.9}, {Size: 4.75, Passes: 1}}
	stone := drain.Grading{{Size: 9.5, Passes: 0.05}, {Size: 19, Passes: 0.6}, {Size: 25, Passes: 0.95}, {Size: 37.5, Passes: 1}}
	b, err := drain.FilterBand(silt, false)
	if err != nil {
		t.Fatal(err)
	}
	return map[string]Gradings{
		"full":  {Title: "Grading", Lines: []Grade{{"ground at the drain: sandy silt", silt, false}, {"drain stone: washed stone", stone, true}}, Band: &b, Cloth: 0.21, Opening: 1.5},
		"plain": {Title: "Grading", Lines: []Grade{{"backfill: clean sand", drain.Grading{{Size: 0.2, Passes: 0.15}, {Size: 0.6, Passes: 0.5}, {Size: 1.5, Passes: 0.85}}, false}}},
		"none":  {Title: "Grading", Notes: []string{"Nothing is known."}},
	}
}

func TestGradingTextsApart(t *testing.T) {
	for name, g := range gradings(t) {
		for _, size := range [][2]float64{{85, 55}, {120, 70}, {60, 45}, {180, 120}} {
			for _, sys := range []units.System{units.Metric, units.US} {
				s, err := BuildGrading(g, CurveOptions{Width: size[0], Height: size[1], Units: sys})
				if err != nil {
					t.Fatalf("%s: %v", name, err)
				}
				what := fmt.Sprintf("%s %v %v", name, size, sys)
				examine(t, what, s, geom.Rect{Max: geom.Vec{size[0] / 1000, size[1] / 1000}})
				if len(s.Lost) > 0 && size[0] > 60 {
					t.Errorf("%s: no place for %q", what, s.Lost)
				}
				if *lookDir != "" && sys == units.Metric {
					img, err := paint(s, Light, 6)
					if err != nil {
						t.Fatal(err)
					}
					keep(t, img, fmt.Sprintf("grading-%s-%.0f.png", name, size[0]))
				}
			}
		}
	}
	for _, size := range [][2]float64{{30, 60}, {60, 30}, {math.NaN(), 60}, {math.Inf(1), 60}} {
		if _, err := BuildGrading(Gradings{}, CurveOptions{Width: size[0], Height: size[1]}); err == nil {
			t.Errorf("%v: drawn", size)
		}
	}
	bad := Gradings{Lines: []Grade{{Name: "one point", Curve: drain.Grading{{Size: 1, Passes: 1}}}}}
	if _, err := BuildGrading(bad, CurveOptions{Width: 80, Height: 60}); err == nil {
		t.Error("a grading of one point was drawn")
	}
}

// A decade is as wide as every other, and the shares are straight: the places
// of the points of a line come back as its sizes and shares.
func TestGradingPlaces(t *testing.T) {
	g := gradings(t)["full"]
	s, err := BuildGrading(g, CurveOptions{Width: 120, Height: 70})
	if err != nil {
		t.Fatal(err)
	}
	var axis geom.Rect
	var lines []geom.Polyline
	for _, it := range s.Items {
		if it.Path == nil {
			continue
		}
		switch it.Path.Tag {
		case "grading:axis":
			if len(it.Path.Parts[0]) == 5 {
				axis = geom.Ring(it.Path.Parts[0]).Bounds()
			}
		case "grading:line":
			lines = append(lines, it.Path.Parts...)
		}
	}
	if len(lines) != len(g.Lines) {
		t.Fatalf("%d lines", len(lines))
	}
	// 0.002 mm to 75 mm: five decades from 0.001 to 100.
	for i, l := range lines {
		for k, p := range l {
			want := g.Lines[i].Curve[k]
			size := math.Pow(10, -3+5*(p[0]-axis.Min[0])/axis.W())
			share := (p[1] - axis.Min[1]) / axis.H()
			if math.Abs(size/want.Size-1) > 1e-6 || math.Abs(share-want.Passes) > 1e-9 {
				t.Errorf("line %d, point %d: %g mm, %g; want %+v", i, k, size, share, want)
			}
		}
	}
}

// The chart of a project tells what it lacks, and takes sieves before the
// three sizes.
func TestGradingsOfProject(t *testing.T) {
	doc, _, err := model.ReadFile("../../testdata/potato-store-put-right.hillset")
	if err != nil {
		t.Fatal(err)
	}
	p := doc.Project
	v, err := section.NewLong(p, tables.Default(), p.Stages[len(p.Stages)-1])
	if err != nil {
		t.Fatal(err)
	}
	p.Defence.Drain.Pipe = "corrugated-100"
	id := groundAtDrain(p, v)
	if id == "" {
		t.Fatal("no ground at the drain")
	}
	for i := range p.Site.Soils {
		s := &p.Site.Soils[i]
		s.D15, s.D50, s.D85 = 1, 2, 3
		if s.ID == id {
			s.Sieves = []model.Sieve{{Size: 0.01, Passes: 0.1}, {Size: 0.075, Passes: 0.6}, {Size: 2, Passes: 0.95}, {Size: 4.75, Passes: 1}}
		}
	}
	g := GradingsOf(p, v, tables.Default())
	if len(g.Lines) < 2 || len(g.Lines[0].Curve) != 4 || !g.Lines[len(g.Lines)-1].Stone || g.Opening != 1.5 {
		t.Errorf("%+v", g)
	}
	if g.Band == nil {
		t.Errorf("no band: %q", g.Notes)
	}
	for i := range p.Site.Soils {
		s := &p.Site.Soils[i]
		s.Sieves, s.D15, s.D50, s.D85 = nil, 0, 0, 0
	}
	p.Defence.Drain.Cloth = model.Cloth{}
	g = GradingsOf(p, v, tables.Default())
	if len(g.Lines) != 0 || g.Band != nil || len(g.Notes) < 3 {
		t.Errorf("%+v", g)
	}
}
