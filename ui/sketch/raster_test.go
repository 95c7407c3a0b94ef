package sketch

import (
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"math"
	"math/rand"
	"testing"

	"golang.org/x/image/vector"

	"hillset/geom"
	"hillset/ui/scene"
)

// testPalette has the colours of the test scenes; only the pressure diagrams
// are half transparent (premultiplied).
var testPalette = scene.Palette{
	scene.Paper:     {R: 250, G: 248, B: 242, A: 255},
	scene.Sand:      {R: 222, G: 200, B: 160, A: 255},
	scene.Clay:      {R: 196, G: 170, B: 130, A: 255},
	scene.FillTint:  {R: 180, G: 190, B: 170, A: 255},
	scene.PressTint: {R: 0, G: 39, B: 69, A: 110},
	scene.Steel:     {R: 200, G: 205, B: 210, A: 255},
	scene.Ink:       {R: 30, G: 30, B: 34, A: 255},
}

// wholeFrame shows metres as pixels, z up from the lower edge.
func wholeFrame(h int, scale float64) Frame {
	return Frame{Scale: scale, Top: float64(h), PxPerMM: 3.78}
}

func onePath(p scene.Path) *scene.Scene { return &scene.Scene{Items: []scene.Item{{Path: &p}}} }

// reference draws rings with the rasterizer of the x/image module over the
// whole image: another method (dense accumulation), from outside.
func reference(w, h int, rings []geom.Polyline, f Frame) *image.Alpha {
	r := vector.NewRasterizer(w, h)
	for _, ring := range rings {
		for i, q := range ring {
			p := f.Pixel(q)
			if i == 0 {
				r.MoveTo(float32(p[0]), float32(p[1]))
			} else {
				r.LineTo(float32(p[0]), float32(p[1]))
			}
		}
		r.ClosePath()
	}
	out := image.NewAlpha(image.Rect(0, 0, w, h))
	r.Draw(out, out.Rect, image.Opaque, image.Point{})
	return out
}

// blackOnWhite makes the coverage readable from the picture.
var blackOnWhite = scene.Palette{scene.Paper: {R: 255, G: 255, B: 255, A: 255}, scene.Ink: {A: 255}}

// compare fails where the coverage of the picture differs from the reference.
// Both sum coverage in float32; 2 of 255 covers the rounding of both.
func compare(t *testing.T, got *image.RGBA, want *image.Alpha) {
	t.Helper()
	const tol = 2
	for y := 0; y < got.Rect.Dy(); y++ {
		for x := 0; x < got.Rect.Dx(); x++ {
			g := 255 - int(got.RGBAAt(x, y).R)
			w := int(want.AlphaAt(x, y).A)
			if g-w > tol || w-g > tol {
				t.Fatalf("pixel %d,%d: coverage %d, want %d", x, y, g, w)
			}
		}
	}
}

func star(cx, cy, r float64, n int, rnd *rand.Rand) geom.Polyline {
	var out geom.Polyline
	for i := 0; i < n; i++ {
		a := 2 * math.Pi * float64(i) / float64(n)
		q := r * (0.4 + 0.6*rnd.Float64())
		out = append(out, geom.Vec{cx + q*math.Cos(a), cy + q*math.Sin(a)})
	}
	return out
}

func TestFillAgainstReference(t *testing.T) {
	rnd := rand.New(rand.NewSource(7))
	// Wider than 512 pixels the reference computes in floating point too.
	const w, h = 520, 83
	for _, c := range []struct {
		name string
		x, y float64
		r    float64
		n    int
	}{
		{"inside", 48, 40, 30, 9}, {"off the left", -5, 40, 30, 11}, {"off the right", 523, 30, 40, 7},
		{"off the top", 50, 90, 25, 8}, {"off the foot", 50, -8, 25, 8}, {"covering all", 50, 40, 900, 16},
		{"thin", 50, 40, 2, 5}, {"corner", 520, 83, 20, 12}, {"outside", 700, 300, 20, 6},
	} {
		for k := 0; k < 20; k++ {
			t.Run(fmt.Sprint(c.name, k), func(t *testing.T) {
				ring := star(c.x, c.y, c.r, c.n, rnd)
				img := image.NewRGBA(image.Rect(0, 0, w, h))
				f := wholeFrame(h, 1)
				var p Painter
				p.Paint(img, onePath(scene.Path{Parts: []geom.Polyline{ring}, Closed: true, Fill: scene.Ink}), f, blackOnWhite)
				compare(t, img, reference(w, h, []geom.Polyline{ring}, f))
			})
		}
	}
}

// A ring inside a ring is a hole whichever way either of them runs.
func TestFillHoles(t *testing.T) {
	outer := geom.Polyline{{5, 5}, {55.5, 5}, {55.5, 45.25}, {5, 45.25}}
	hole := geom.Polyline{{15, 12}, {40.5, 12}, {40.5, 30}, {15, 30}}
	island := geom.Polyline{{20, 16}, {30, 16}, {30, 22}, {20, 22}}
	want := 50.5*40.25 - 25.5*18 + 10*6 // by hand
	for mask := 0; mask < 8; mask++ {
		rings := []geom.Polyline{outer, hole, island}
		for k := range rings {
			if mask>>k&1 == 1 {
				rings[k] = reversed(rings[k])
			}
		}
		img := image.NewRGBA(image.Rect(0, 0, 64, 50))
		var p Painter
		p.Paint(img, onePath(scene.Path{Parts: rings, Closed: true, Fill: scene.Ink}), wholeFrame(50, 1), blackOnWhite)
		if got := inked(img); math.Abs(got-want) > 0.5 {
			t.Errorf("senses %03b: inked area %.2f px, want %.2f", mask, got, want)
		}
	}
}

func reversed(p geom.Polyline) geom.Polyline {
	out := make(geom.Polyline, len(p))
	for i := range p {
		out[len(p)-1-i] = p[i]
	}
	return out
}

// inked sums the coverage of a black on white picture.
func inked(img *image.RGBA) float64 {
	sum := 0.0
	for i := 0; i < len(img.Pix); i += 4 {
		sum += 255 - float64(img.Pix[i])
	}
	return sum / 255
}

// The inked area of a line is its length times its width, less the dashes that
// are left out, plus the outer half of the joins.
func TestStrokeAreas(t *testing.T) {
	const mm = 3.78                                    // pixels per millimetre of wholeFrame
	slant := geom.Polyline{{10.3, 12.1}, {70.3, 57.1}} // 75 px long
	corner := geom.Polyline{{10, 70}, {60, 70}, {60, 20}}
	for _, c := range []struct {
		name   string
		path   scene.Path
		want   float64
		margin float64
	}{
		{"full", scene.Path{Parts: []geom.Polyline{slant}, Width: 3 / mm}, 225, 1},
		{"hairline is one pixel", scene.Path{Parts: []geom.Polyline{slant}, Width: 0.01}, 75, 0.7},
		// 4 px on, 6 px off over 75 px: seven rounds and 4 px of the eighth.
		{"dashed", scene.Path{Parts: []geom.Polyline{slant}, Width: 3 / mm, Dash: []float64{4 / mm, 6 / mm}}, 3 * 32, 1},
		// An odd list of 5 alternates: 5 on, 5 off.
		{"odd dash", scene.Path{Parts: []geom.Polyline{slant}, Width: 3 / mm, Dash: []float64{5 / mm}}, 3 * 40, 1},
		// Two legs of 50 by 4 overlap in the 2 by 2 inner corner; the pointed
		// join adds the 2 by 2 outer one.
		{"pointed corner", scene.Path{Parts: []geom.Polyline{corner}, Width: 4 / mm}, 400 - 4 + 4, 1.5},
		{"closed", scene.Path{Parts: []geom.Polyline{{{10, 10}, {60, 10}, {60, 40}, {10, 40}}}, Closed: true, Width: 2 / mm}, 2 * 160, 1},
		{"several in one go", scene.Path{Parts: []geom.Polyline{slant, {{10, 70}, {40, 70}}}, Width: 2 / mm}, 150 + 60, 1},
		{"crossing lines count once", scene.Path{Parts: []geom.Polyline{{{10, 40}, {60, 40}}, {{30, 20}, {30, 60}}}, Width: 2 / mm}, 100 + 80 - 4, 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			c.path.Stroke = scene.Ink
			img := image.NewRGBA(image.Rect(0, 0, 80, 80))
			var p Painter
			p.Paint(img, onePath(c.path), wholeFrame(80, 1), blackOnWhite)
			if got := inked(img); math.Abs(got-c.want) > c.margin {
				t.Errorf("inked %.2f px, want %.2f", got, c.want)
			}
		})
	}
}

// A level line of odd width fills whole rows.
func TestLevelLinesAreSharp(t *testing.T) {
	img := image.NewRGBA(image.Rect(0, 0, 40, 20))
	var p Painter
	p.Paint(img, onePath(scene.Path{Parts: []geom.Polyline{{{5, 10.37}, {35, 10.37}}}, Stroke: scene.Ink, Width: 0.1}), wholeFrame(20, 1), blackOnWhite)
	grey := 0
	for y := 0; y < 20; y++ {
		if c := img.RGBAAt(20, y).R; c != 0 && c != 255 {
			grey++
		}
	}
	if grey != 0 {
		t.Errorf("%d grey pixels across a level line", grey)
	}
}

// busyScene is about what a section with everything shown holds: full-width
// ground, four zones with hatching, diagrams, dimensions, labels.
func busyScene(hatches, labels int) *scene.Scene {
	s := &scene.Scene{}
	path := func(p scene.Path) { s.Items = append(s.Items, scene.Item{Path: &p}) }
	rnd := rand.New(rand.NewSource(3))
	for k, role := range []scene.Role{scene.Sand, scene.Clay, scene.FillTint} {
		var ring geom.Polyline
		for i := 0; i <= 200; i++ {
			x := float64(i) * 0.12
			ring = append(ring, geom.Vec{x, 3 + 0.35*x + 0.3*math.Sin(x) - 2*float64(k)})
		}
		ring = append(ring, geom.Vec{24, -8}, geom.Vec{0, -8})
		path(scene.Path{Parts: []geom.Polyline{ring}, Closed: true, Fill: role, Stroke: scene.Ink, Width: 0.35})
		var h []geom.Polyline
		for i := 0; i < hatches/3; i++ {
			x, z := rnd.Float64()*24, rnd.Float64()*8-4
			h = append(h, geom.Polyline{{x, z}, {x + 0.3, z + 0.3}})
		}
		path(scene.Path{Parts: h, Stroke: scene.Ink, Width: 0.13})
	}
	path(scene.Path{Parts: []geom.Polyline{{{8, 2}, {14, 2}, {14, 4.6}, {8, 4.6}}}, Closed: true, Fill: scene.Steel, Stroke: scene.Ink, Width: 0.5})
	for i := 0; i < 4; i++ {
		x := 14 + float64(i)*0.1
		path(scene.Path{Parts: []geom.Polyline{{{x, 2}, {x + 2, 2}, {x, 4.6}}}, Closed: true, Fill: scene.PressTint, Stroke: scene.Ink, Width: 0.25})
	}
	for i := 0; i < 60; i++ {
		z := -3 + float64(i)*0.18
		path(scene.Path{Parts: []geom.Polyline{{{1, z}, {6, z}}, {{1, z - 0.1}, {1, z + 0.1}}}, Stroke: scene.Ink, Width: 0.18})
		path(scene.Path{Parts: []geom.Polyline{{{7, z}, {12, z + 1}, {15, z}}}, Stroke: scene.Ink, Width: 0.25, Dash: []float64{3, 1.5}})
	}
	for i := 0; i < labels; i++ {
		s.Items = append(s.Items, scene.Item{Label: &scene.Label{At: geom.Vec{rnd.Float64() * 22, rnd.Float64()*14 - 5}, Text: "2.59 m at 18.4 kPa", Height: 2.5, Role: scene.Ink, Halo: true}})
	}
	return s
}

// The picture does not depend on the windows it is painted in: neither the two
// strips nor a part that is painted anew shows a seam.
func TestPaintWithinIsSeamless(t *testing.T) {
	s := busyScene(300, 20)
	f := Frame{Scale: 25.3, Left: 11, Top: 260, PxPerMM: 3.78}
	whole := image.NewRGBA(image.Rect(0, 0, 500, 450))
	var p Painter
	p.Paint(whole, s, f, testPalette)
	parts := image.NewRGBA(whole.Rect)
	for y := 0; y < 450; y += 90 {
		for x := 0; x < 500; x += 125 {
			p.PaintWithin(parts, image.Rect(x, y, x+125, y+90), s, f, testPalette)
		}
	}
	if d := greatestDifference(whole, parts); d > 2 {
		t.Errorf("painted in parts it differs by %d of 255", d)
	}
}

// Coordinates that are not finite, empty parts and single points draw nothing
// and do not fail; the rest of the scene is drawn.
func TestPaintSurvivesBadCoordinates(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	bad := []geom.Polyline{nil, {}, {{1, 1}}, {{nan, 1}, {2, 2}, {3, 1}}, {{inf, 1}, {2, 2}, {1, 5}}, {{1e300, -1e300}, {2, 2}, {1, 5}}, {{2, 2}, {2, 2}}}
	for i, part := range bad {
		s := onePath(scene.Path{Parts: []geom.Polyline{part}, Closed: true, Fill: scene.Ink, Stroke: scene.Ink, Width: 0.5, Dash: []float64{1, 1}})
		s.Items = append(s.Items, scene.Item{Path: &scene.Path{Parts: []geom.Polyline{{{20, 20}, {30, 20}, {30, 30}, {20, 30}}}, Closed: true, Fill: scene.Ink}})
		s.Items = append(s.Items, scene.Item{Label: &scene.Label{At: geom.Vec{nan, 0}, Text: "x", Height: 2}})
		img := image.NewRGBA(image.Rect(0, 0, 40, 40))
		var p Painter
		p.Paint(img, s, wholeFrame(40, 1), blackOnWhite)
		if img.RGBAAt(25, 15).R != 0 {
			t.Errorf("case %d: the good square is missing", i)
		}
	}
}

func greatestDifference(a, b *image.RGBA) int {
	worst := 0
	for i := range a.Pix {
		d := int(a.Pix[i]) - int(b.Pix[i])
		worst = max(worst, d, -d)
	}
	return worst
}

// Half-transparent ink mixes as image/draw does.
func TestInkAgainstImageDraw(t *testing.T) {
	for _, alpha := range []uint8{0, 1, 60, 128, 254, 255} {
		for _, cov := range []uint8{1, 77, 200, 255} {
			ours, std := image.NewRGBA(image.Rect(0, 0, 3, 1)), image.NewRGBA(image.Rect(0, 0, 3, 1))
			under := color.NRGBA{200, 40, 90, 255}
			draw.Draw(ours, ours.Rect, image.NewUniform(under), image.Point{}, draw.Src)
			draw.Draw(std, std.Rect, image.NewUniform(under), image.Point{}, draw.Src)
			c := color.RGBA{uint8(10 * int(alpha) / 255), uint8(250 * int(alpha) / 255), uint8(30 * int(alpha) / 255), alpha}
			k := ink{img: ours}
			k.set(c)
			k.row(0, 0)
			k.span(0, 3, cov)
			draw.DrawMask(std, std.Rect, image.NewUniform(c), image.Point{}, image.NewUniform(color.Alpha{cov}), image.Point{}, draw.Over)
			if d := greatestDifference(ours, std); d > 2 {
				t.Errorf("alpha %d coverage %d: differs by %d", alpha, cov, d)
			}
		}
	}
}

func BenchmarkPaint1600x1000(b *testing.B) {
	s := busyScene(1500, 120)
	img := image.NewRGBA(image.Rect(0, 0, 1600, 1000))
	f := Frame{Scale: 66, Top: 700, PxPerMM: 3.78}
	var p Painter
	p.Paint(img, s, f, testPalette)
	b.ReportAllocs()
	for b.Loop() {
		p.Paint(img, s, f, testPalette)
	}
}
