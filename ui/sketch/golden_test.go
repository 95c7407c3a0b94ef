package sketch

import (
	"flag"
	"image"
	"image/draw"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"testing"

	"hillset/geom"
	"hillset/ui/scene"
)

var update = flag.Bool("update", false, "write the golden picture anew")

// sampler is a scene with one of everything the painter knows.
func sampler() *scene.Scene {
	s := &scene.Scene{}
	path := func(p scene.Path) { s.Items = append(s.Items, scene.Item{Path: &p}) }
	label := func(l scene.Label) { s.Items = append(s.Items, scene.Item{Label: &l}) }
	ring := func(x, z, w, h float64) geom.Polyline {
		return geom.Polyline{{x, z}, {x + w, z}, {x + w, z + h}, {x, z + h}}
	}
	path(scene.Path{Parts: []geom.Polyline{ring(5, 45, 60, 40), ring(20, 55, 20, 15)}, Closed: true, Fill: scene.Sand, Stroke: scene.Ink, Width: 0.5})
	path(scene.Path{Parts: []geom.Polyline{{{80, 50}, {100, 85}, {120, 50}, {140, 85}}}, Stroke: scene.Ink, Width: 1.2})
	path(scene.Path{Parts: []geom.Polyline{{{80, 45}, {150, 45}, {150, 90}}}, Stroke: scene.Ink, Width: 0.35, Dash: []float64{3, 1, 0.8, 1}})
	path(scene.Path{Parts: []geom.Polyline{{{30, 40}, {75, 95}, {75, 40}}}, Closed: true, Fill: scene.PressTint, Stroke: scene.Ink, Width: 0.18})
	label(scene.Label{At: geom.Vec{8, 20}, Text: "Level 100.10 m", Height: 3, Role: scene.Ink})
	label(scene.Label{At: geom.Vec{88, 32}, Text: "2.59 m ≤ 3", Height: 3, Role: scene.Ink, Bold: true})
	label(scene.Label{At: geom.Vec{42, 62}, Text: "halo", Height: 3, Role: scene.Ink, Halo: true, Anchor: scene.Anchor{H: 0.5, V: 0.5}})
	label(scene.Label{At: geom.Vec{152, 50}, Text: "6.06 m", Height: 2.5, Role: scene.Ink, Angle: math.Pi / 2, Halo: true, Anchor: scene.Anchor{V: 1}})
	label(scene.Label{At: geom.Vec{10, 5}, Text: "on a slope", Height: 2.5, Role: scene.Ink, Angle: 0.12})
	return s
}

func TestGoldenPicture(t *testing.T) {
	const name = "painter.png"
	got := image.NewRGBA(image.Rect(0, 0, 170, 110))
	var p Painter
	p.Paint(got, sampler(), Frame{Scale: 1, Top: 105, PxPerMM: 3.78}, testPalette)
	path := filepath.Join("testdata", name)
	if *update {
		writePNG(t, path, got)
	}
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	img, err := png.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	want := image.NewRGBA(got.Rect)
	draw.Draw(want, want.Rect, img, image.Point{}, draw.Src)
	// Processors that fuse multiplication and addition may round a coverage
	// the other way: 2 of 255.
	if n := differing(got, want, 2); n > 0 || img.Bounds() != got.Rect {
		t.Errorf("%d bytes differ from %s; look at it, then run with -update", n, path)
	}
}
