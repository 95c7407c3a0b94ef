package scene

import (
	"fmt"
	"math"
	"testing"

	"hillset/engine/climate"
	"hillset/geom"
	"hillset/ui/units"
)

func groundTemps() map[string]GroundTemps {
	return map[string]GroundTemps{
		"hill": {Title: "Ground", Ground: climate.Ground{Mean: 8, Swing: 10, Coldest: 25, Diffusivity: 0.06}, Dated: true,
			Marks: []DepthMark{{"roof", 0.3}, {"frost", 0.98}, {"floor", 2.9}}},
		"plain": {Title: "Ground", Ground: climate.Ground{Mean: 12, Swing: 6, Diffusivity: 0.04}},
		"cold":  {Title: "Ground", Ground: climate.Ground{Mean: -2, Swing: 18, Coldest: 360, Diffusivity: 0.09}, Dated: true, Marks: []DepthMark{{"frost", 3}}},
		"even":  {Title: "Ground", Ground: climate.Ground{Mean: 0, Swing: 0, Diffusivity: 0.09}},
	}
}

func TestGroundTempsTextsApart(t *testing.T) {
	for name, g := range groundTemps() {
		for _, size := range [][2]float64{{85, 55}, {120, 70}, {60, 45}, {180, 120}} {
			for _, sys := range []units.System{units.Metric, units.US} {
				s, err := BuildGroundTemps(g, CurveOptions{Width: size[0], Height: size[1], Units: sys})
				if err != nil {
					t.Fatalf("%s: %v", name, err)
				}
				examine(t, fmt.Sprintf("%s %v %v", name, size, sys), s, geom.Rect{Max: geom.Vec{size[0] / 1000, size[1] / 1000}})
				if *lookDir != "" {
					img, err := paint(s, Light, 6)
					if err != nil {
						t.Fatal(err)
					}
					keep(t, img, fmt.Sprintf("groundtemp-%s-%.0f-%s.png", name, size[0], sys))
				}
			}
		}
	}
	for _, size := range [][2]float64{{30, 60}, {60, 30}, {math.NaN(), 60}} {
		if _, err := BuildGroundTemps(groundTemps()["hill"], CurveOptions{Width: size[0], Height: size[1]}); err == nil {
			t.Errorf("%v: drawn", size)
		}
	}
	if _, err := BuildGroundTemps(GroundTemps{Ground: climate.Ground{Mean: math.NaN()}}, CurveOptions{Width: 80, Height: 60}); err == nil {
		t.Error("a ground without a temperature was drawn")
	}
}

// The lines end where the ground says, at both ends of the depth axis.
func TestGroundTempsPlaces(t *testing.T) {
	g := groundTemps()["hill"]
	s, err := BuildGroundTemps(g, CurveOptions{Width: 120, Height: 70})
	if err != nil {
		t.Fatal(err)
	}
	var axis geom.Rect
	var freezing float64
	var lines []geom.Polyline
	for _, it := range s.Items {
		if it.Path == nil {
			continue
		}
		switch it.Path.Tag {
		case "groundtemp:axis":
			if len(it.Path.Parts[0]) == 5 {
				axis = geom.Ring(it.Path.Parts[0]).Bounds()
			}
		case "groundtemp:freezing":
			freezing = it.Path.Parts[0][0][0]
		case "groundtemp:line":
			lines = append(lines, it.Path.Parts[0])
		}
	}
	if len(lines) != 4 {
		t.Fatalf("%d lines", len(lines))
	}
	perK := (lines[2][0][0] - lines[0][0][0]) / 20 // from −2 to 18 °C at the surface
	for k, line := range lines {
		for _, i := range []int{0, len(line) / 2, len(line) - 1} {
			z := (axis.Max[1] - line[i][1]) / axis.H() * leastGround
			want, err := g.Ground.At(z, g.Ground.Coldest+float64(k)*yearDays/4)
			if err != nil {
				t.Fatal(err)
			}
			if got := (line[i][0] - freezing) / perK; math.Abs(got-want) > 1e-6 {
				t.Errorf("line %d at %.2f m: %.3f °C, want %.3f", k, z, got, want)
			}
		}
	}
}
